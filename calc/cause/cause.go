// Package cause weighs why two instruments differ.
//
// The step before is the comparison of each billing period, with its budget;
// the step after shows the causes, the likeliest first, and what would decide
// between those that the data cannot tell apart.
//
// # The criterion
//
// Every cause says in one or more forms what it would have done to the figures:
// known changes that can be undone, such as a bill one day longer, and changes
// of unknown size, each with how large it may well be, told beforehand. What
// then remains between the instruments must be explained by what is not known
// about the comparison, the very budget of the verdict. The density with which
// a form foretells the differences seen is its evidence (the marginal likelihood
// of Bayesian statistics, Kass and Raftery, J. Am. Stat. Assoc. 90 (1995) 773,
// from memory); that of a cause is the mean over its forms. A cause that could
// have done anything foretells nothing well, so no penalty for freedom is
// needed. No cause is taken as likelier than another beforehand.
//
// Causes whose evidence is within a factor Apart of the best are not told
// apart. Only a cause that stands alone is asserted, and never Other, which
// says that none of the causes known here explains what was seen.
package cause

import (
	"splittally/calc/calendar"
	"splittally/calc/compare"
	"splittally/calc/energy"
)

// ID names a cause. Its text is stable.
type ID string

// The causes.
const (
	Chance    ID = "chance"    // nothing is wrong: what the instruments promise and what is not known
	Hour      ID = "hour"      // the meter was read at another hour
	Fill      ID = "fill"      // the missing days were unlike the measured ones
	Dates     ID = "dates"     // the bill runs a day longer or shorter
	Estimated ID = "estimated" // a read was a guess, caught up with later
	Losses    ID = "losses"    // the bill is in loss-adjusted kWh
	Gain      ID = "gain"      // one gain, common to all periods
	Legs      ID = "legs"      // the gains as measured on the legs
	Offset    ID = "offset"    // a constant power seen by one alone
	Circuits  ID = "circuits"  // circuits that the monitor does not see, as entered
	Clamp     ID = "clamp"     // a clamp is missing, turned round, or on the wrong conductor
	Unit      ID = "unit"      // kW for kWh, Wh for kWh, a factor of ten
	PartDays  ID = "part-days" // days that were lost in part, read as whole
	Doubled   ID = "doubled"   // days counted twice
	Solar     ID = "solar"     // solar production with the wrong sign, or netted by one alone
	Split     ID = "split"     // one reading period, billed in parts by days
	Net       ID = "net"       // the bill is net of credits for generation
	Other     ID = "other"     // none of these
)

// Apart is the ratio of evidence from which one cause is told from another. A
// ratio above 20 is called strong by Kass and Raftery (1995), from memory.
const Apart = 20

// Weighed is the causes of what one instrument shows, the likeliest first.
type Weighed struct {
	Done   bool // false if no period could be compared, or one has a doubt without limit
	Causes []Explanation
	// Open is how many of the first can't be told apart. 1 says that the first
	// is asserted, unless it is Other.
	Open     int
	Asserted bool
	Words    string // one or two sentences that sum it up
	// Decide is the cheapest step that would separate the open causes; its
	// Words are empty if there is nothing to separate.
	Decide Step
	Fit    float64 // chance of remainders as large as the first cause leaves, 0 to 1
}

// Step is a thing to do that tells causes apart.
type Step struct {
	Words     string // an instruction, one or two sentences
	Separates []ID   // the causes among the open ones that it tells from the first
	Panel     bool   // it brings a person near a panel or live parts: show the cautions
}

// Explanation is one cause weighed.
type Explanation struct {
	ID   ID
	Name string // such as "One gain, the same in every bill"
	// How is what the cause would have done here, in its best form and with its
	// most likely size, such as "The monitor reads 3.2 % ± 0.6 % high."
	How string
	// Probability is the cause's part of the evidence of all causes weighed.
	Probability float64
	LogEvidence float64 // natural logarithm, against Chance
	Remaining   []Remaining
	Fit         float64 // chance of remainders at least as large, if this is the cause
	// Evidence in sentences, each with its numbers.
	For, Against []string
	Check        Step   // the next step that would decide for or against it
	Remedy       string // what to do if it is the cause
	// Sets says that a changed gain is the remedy.
	Sets bool
}

// Remaining is the error that a cause would leave in one period.
type Remaining struct {
	Period   int     // index in the case
	Percent  float64 // of the meter's energy
	Expanded float64 // at the confidence of the case
}

// Seen is what is known of one instrument, for Weigh.
type Seen struct {
	Confidence float64
	Periods    []Period
	// Accuracy is the source of the monitor's stated accuracy in the budgets.
	Accuracy string
	// Verdict is that of all periods together.
	Verdict compare.Verdict
	// Checks are the gains measured on the legs, if they are this instrument's.
	Checks Checks
	// Daily is what the days show that the meter gave too, and Class the source
	// of the meter's class in the budgets.
	Daily Daily
	Class string
	// Timed is what timing the meter shows of the instrument.
	Timed Timed
	// NetBills is how many bills charge 0 kWh, net of credits.
	NetBills int
	// Legs is how many legs or phases the home has, 1 to 3; 0 if nobody said.
	Legs int
	// Others are further instruments over the same periods. What the bill did
	// shows in them too; what this monitor did does not.
	Others []Instrument
}

// Instrument is another instrument beside the one that is weighed.
type Instrument struct {
	Periods []Beside
}

// Beside is what another instrument shows of a period.
type Beside struct {
	Period   int // index in Seen.Periods
	Compared compare.Comparison
}

// Daily is what an instrument shows day by day beside the meter's own figures,
// which no bill, date or fill has a part in. In percent of the meter's figure,
// without its class: by how much it reads high on the whole, and by how much on
// each further kWh, each with its standard uncertainty. The two are independent,
// as are the mean and the slope of a line.
type Daily struct {
	Given                bool
	High, Standard       float64
	Slope, SlopeStandard float64
	MeanDay              float64 // the meter's, in kWh
}

// Timed is what an instrument's watts show beside the meter's own pulses, which
// no bill, date, fill or total has a part in: by how much it reads high, in
// percent of the meter's figure, without what the two promise, and at what load.
type Timed struct {
	Given                 bool
	High, Standard, Watts float64
}

// Checks are gains measured on the legs, as factors to multiply the monitor's
// figures with, each with its relative standard uncertainty as a fraction.
type Checks struct {
	Volts, Power Factor
}

// Factor is a measured gain.
type Factor struct {
	Given           bool
	Value, Standard float64
	Differ          float64 // by how much the gains of the legs differ
}

// Period is one period that has a percentage error.
type Period struct {
	Index    int // in the case
	Span     calendar.Span
	Compared compare.Comparison
	Days     []Day // those of the span, in order
	Before   Day   // the day before the span
	After    Day   // the day after it
	// StartRead and EndRead name the reads at its ends.
	StartRead, EndRead           string
	StartEstimated, EndEstimated bool
	HourKnown                    bool
	// Midnights says that the meter's own days show the bill to hold what was used
	// from midnight to midnight, whatever the hours of its reads.
	Midnights    bool
	ReadOffset   float64 // hours from the midnights at its ends to the reads, as taken
	LossFactor   float64 // as typed, 1 if none was
	FromReads    bool    // the reference is the difference of two register reads
	LossIncluded bool    // the bill held the losses; they are taken off
	// Legs are the kWh of each leg, by its own column, on the days on which all
	// were measured, LegDays; nil if the readings are of the home as a whole.
	Legs                      []float64
	LegDays                   int
	Apart, Produced, Exported Amount
}

// Amount is an energy typed beside a bill.
type Amount struct {
	Given  bool
	Energy energy.Energy
}

// Day is one day of the instrument.
type Day struct {
	Energy   energy.Energy
	Measured bool // the instrument gave the day's total
	Known    bool // measured, or the even share of a longer total
	// Gone is the energy before each full hour of the day, in kWh, from 0 to 24
	// o'clock, where the instrument has hours: of the days at a period's ends.
	Gone []float64
}
