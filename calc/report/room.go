package report

// dim is one thing that a paper may tell more or less of.
type dim uint8

// What a paper tells, most of it as a number of things that are told one by
// one; the rest of them is counted.
const (
	mostPictures    dim = iota // rows of pictures
	mostInstruments            // in the tables
	mostExplained              // instruments of which causes and settings are told
	mostBills                  // rows of the table of bills
	mostParts                  // rows of the budget
	mostCauses                 // of an instrument
	mostArgued                 // causes that are told with what speaks for and against
	mostLegs                   // legs, runs of a timing, and formulas of a kind
	mostPoints                 // questions, problems, notices
	mostLines                  // of the bill that is reckoned by hand
	mostLetters                // of one sentence
	mostReasons                // why the verdict is what it is, in the lead
	mostMethods                // how days were filled
	mostAdvice                 // how to go about a setting, how to read what it is worth
	mostOthers                 // causes that are only named
	mostReached                // what the volts explain
	mostMoney                  // rows of the table of money
	mostTariffs                // that are compared
	dims
)

// room is how much a paper tells.
type room [dims]int

// widest is the room of a paper that has little to tell.
var widest = room{
	mostPictures: 2, mostInstruments: 4, mostExplained: 4, mostBills: 26, mostParts: 9, mostCauses: 4, mostArgued: 3, mostLegs: 8, mostPoints: 7, mostLines: 12, mostLetters: 700,
	mostReasons: 1, mostMethods: 1, mostAdvice: 1, mostOthers: 1, mostReached: 1, mostMoney: 12, mostTariffs: 6,
}

// narrower is what is told less of, step by step, until the paper fits: first
// what can best be done without. The bills of a year and a second instrument
// stay longest, since they are what the paper is about.
var narrower = [...]struct {
	dim  dim
	most int
}{
	{mostPictures, 1},
	{mostBills, 13},
	{mostInstruments, 2},
	{mostLines, 5},
	{mostArgued, 2},
	{mostTariffs, 3},
	{mostOthers, 0},
	{mostAdvice, 0},
	{mostParts, 6},
	{mostPoints, 4},
	{mostArgued, 1},
	{mostCauses, 3},
	{mostExplained, 2},
	{mostMethods, 0},
	{mostLines, 2},
	{mostLetters, 480},
	{mostLegs, 4},
	{mostParts, 4},
	{mostMoney, 6},
	{mostCauses, 2},
	{mostPoints, 2},
	{mostReached, 0},
	{mostLines, 0},
	{mostArgued, 0},
	{mostTariffs, 1},
	{mostReasons, 0},
	{mostLegs, 2},
	{mostLetters, 320},
	{mostMoney, 1},
	{mostParts, 3},
	{mostTariffs, 0},
	{mostLegs, 1},
	{mostPoints, 1},
	{mostCauses, 1},
	{mostLetters, 220},
	{mostExplained, 1},
	{mostBills, 8},
	{mostInstruments, 1},
	{mostBills, 4},
	{mostMoney, 0},
	{mostLetters, 160},
}
