// Package billing turns what a bill prints into a span of days and a reference
// energy. It stands between the texts a person types and the comparison: the
// span says which days of a monitor to add up, the reference is what they are
// compared with.
//
// Nothing is settled silently. What the bill itself or its neighbours decide is
// said with how it is known; what nothing decides becomes a question with the
// outcome of every answer; what cannot be right becomes a problem at its field,
// and everything else is still read.
package billing

import (
	"github.com/shopspring/decimal"

	"splittally/calc/calendar"
	"splittally/calc/energy"
	"splittally/calc/remark"
)

// Period is one billing period, every field the text as typed. "" means that
// it is not given.
type Period struct {
	From, To string // the two dates of the bill, as from a date field or written out
	Days     string // number of days as the bill prints it
	KWh      string // billed energy; Wh and MWh are understood if written behind

	// Apart is energy of circuits that the monitors don't see; Produced is what
	// solar panels gave, Exported what of it went out through the meter. In kWh.
	Apart, Produced, Exported string

	// What the bill prints in money, for package account: its lines, its total,
	// the kWh of its time-of-use periods, and what is to be found.
	Lines []Line
	Uses  []Line
	Total string
	Solve string

	Previous, Present string // register reads that begin and end the period
	Multiplier        string // meter multiplier, 1 if not given
	Digits            string // digits of the register before its decimal mark

	Estimated    string // "yes" if the present read was estimated
	LossFactor   string // percent such as 3.76, or a factor such as 1.0376
	LossIncluded string // "yes" or "no": whether KWh holds the losses
	ReadHour     string // hour of day of both reads, 0 to 24, also 9:30, noon, midnight (0)
	Convention   string // a Convention if the person has said it, else ""
}

// Line is a line as printed: a name and an amount of money or, of a time-of-use
// period, of energy.
type Line struct{ Name, Amount string }

// Options say where the periods stand in the case, and what was answered.
type Options struct {
	Path    string            // path of the list of periods; "periods" if empty
	Answers map[string]string // question ID to choice ID
}

// Statement is what one Period says, as far as it could be read.
type Statement struct {
	// Given says that both the days and the energy are known. While it is
	// false, Waits says in words what is missing or unreadable; of a bill that
	// is Net it says why there will be no percentage.
	Given bool
	Waits string
	// Zero says that the bill charges 0 kWh, and Net that this is so because
	// credits for generation were taken off, as was answered or as energy that
	// was produced or exported shows. Only then is it Given, with no energy.
	Zero, Net bool

	// Begins is the first date, if HasBegun: if it is sure. A bill that has no
	// last date yet is of a period that runs.
	Begins   calendar.Day
	HasBegun bool

	// Dated says that Span, Convention, Basis and the two read names hold.
	Dated      bool
	Span       calendar.Span // the days that belong; End does not
	Convention Convention
	Basis      Basis
	// Ways holds what each convention would make of the dates. It is empty
	// unless the convention had to be asked.
	Ways []Way

	// Billed is the energy as printed, or the difference of the reads times
	// the multiplier. Reference is the metered energy: Billed without the loss
	// adjustment, if it held one. Adjusted is Reference times LossFactor.
	Billed, Reference, Adjusted energy.Energy
	LossFactor                  decimal.Decimal // 1 if none was given
	LossIncluded                bool            // Billed holds the losses

	// Resolution is one step of the last digit: of the printed energy or, if
	// FromReads, of one register read times the multiplier.
	Resolution energy.Energy
	FromReads  bool

	// StartRead and EndRead name the two reads, such as "read 2023-11-02",
	// after the day at whose start they count. Periods that share a read share
	// its name, and so its uncertainty with the opposite sign.
	StartRead, EndRead           string
	StartEstimated, EndEstimated bool

	// Energies that are typed beside the bill; see Period.
	Apart, Produced, Exported Beside

	Hour      float64 // hour of day of the reads, 0 to 24, if HourKnown
	HourKnown bool
	// ReadOffset is how many hours after the midnight that begins Span.First,
	// and after the one that begins Span.End, the two reads were taken; it is
	// negative if before. See Convention.ReadOffset. 0 unless HourKnown.
	ReadOffset float64
}

// Days counts the days that belong to the period; 0 unless Dated.
func (s Statement) Days() int { return s.Span.Days() }

// Result holds a Statement for every Period, in the order typed, and what is
// to be said about them.
type Result struct {
	Statements []Statement
	Problems   []remark.Problem
	Questions  []remark.Question
	Notices    []remark.Notice
}

// Read reads the periods. They may come in any order.
func Read(periods []Period, o Options) Result {
	if o.Path == "" {
		o.Path = "periods"
	}
	s := &sheet{path: o.Path, answers: o.Answers, bills: make([]bill, len(periods))}
	for i, p := range periods {
		s.bills[i] = bill{typed: p, at: i}
		s.bills[i].says.LossFactor = decimal.NewFromInt(1)
	}
	s.readDates()
	s.readHours()
	s.settleConventions()
	s.readEnergies()
	s.readBeside()
	s.joinNeighbours()
	for i := range s.bills {
		b := &s.bills[i]
		b.says.Given = b.says.Dated && b.metered
		b.says.Waits = b.waits()
		s.out.Statements = append(s.out.Statements, b.says)
	}
	return s.out
}
