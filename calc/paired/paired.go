// Package paired lays an instrument beside the meter's own figures day by day,
// and hour by hour where both have hours.
//
// The step before gives two ledgers, the step after tells the findings. Only days
// that both measured whole count. Sums are exact; statistics begin with the
// differences.
//
// # The usual error and its scatter
//
// What the instrument W would show of the meter's day R is a line through the
// days that a few wild ones do not move:
//
//	W − R = a + b·R + c·t
//
// fitted by Tukey's biweight (Beaton and Tukey, Technometrics 16 (1974) 147, from
// memory), from the median ratio on; a only with 10 days or more, c with 30. Days
// lie about it in proportion to Rᵖ, p being 0, ½ or 1, whichever makes the
// distances likeliest, were they of a Laplace distribution.
//
// # How well means are known
//
// Errors of following days are alike, so their number says too much. Standard
// uncertainties come from B low-frequency cosine sums of the days, with Student's
// t of B degrees of freedom, B = 0.4·T^⅔ of T days (equal-weighted cosine test,
// Lazarus, Lewis, Stock and Watson, J. Bus. Econ. Stat. 36 (2018) 541, from
// memory). A missing day counts as one that says nothing.
//
// # Days that disagree
//
// A day disagrees if it is farther from the line than both roundings and k times
// the scatter. k is such that among all days together a false alarm comes once in
// 20 times, for days scattered by Student's t of 5 degrees of freedom, whose tails
// are long.
package paired

import (
	"splittally/calc/calendar"
	"splittally/calc/energy"
	"splittally/calc/ledger"
)

// FalseAlarm is the chance that any day of a sound pair is said to disagree.
const FalseAlarm = 0.05

// Fewest is how many days must be in both.
const Fewest = 3

// Result is what the paired days show. Errors are (W − R), of the instrument
// less the meter: above zero it reads high.
type Result struct {
	Days           []Day         // by time
	Monitor, Meter energy.Energy // sums over them; exact
	// Percent is the usual error of the instrument in percent of the meter's
	// energy, and PerDay the same in kWh a day: of the days that do not disagree.
	Percent, PerDay Estimate
	// Scatter is how far a day usually lies from the line, as a standard deviation
	// in kWh of a middling day, and Rounding what of that the last digits explain.
	Scatter, Rounding float64
	// Drift is the change of the error in percentage points in 30 days.
	Drift Estimate
	// Odd are the days that disagree, by time.
	Odd      []Odd
	Weekdays Weekdays
	// Cut is how far the days of the two are cut apart, where hours don't tell.
	Cut Cut
	Lag Lag
}

// Estimate is a number from data with its uncertainties. Known is false if there
// are too few days.
type Estimate struct {
	Known                          bool
	Value, Standard, Expanded, DoF float64
	P                              float64 // chance of a value as far from zero by chance alone
}

// Shows says that the interval does not hold zero.
func (e Estimate) Shows() bool { return e.Known && (e.Value > e.Expanded || e.Value < -e.Expanded) }

// Day is a day that both measured.
type Day struct {
	Day            calendar.Day
	Monitor, Meter energy.Energy
	Expected       float64 // what the instrument usually shows of such a day, kWh
	Limit          float64 // how far from that it may lie, kWh
	Disagrees      bool
}

// Off is how far a day lies from what is usual, in kWh.
func (d Day) Off() float64 { return d.Monitor.KilowattHours() - d.Expected }

// Weekdays is how the error goes with the day of the week.
type Weekdays struct {
	Known bool
	Weeks int        // whole weeks that it rests on
	Off   [7]float64 // kWh from what is usual, from Sunday on
	P     float64    // chance of differences as large by chance alone
	Shows bool
}

// Cut says that the instrument's days begin at another time than the meter's: if
// above zero later, so that Value of a day's energy is of the meter's next day; 1
// is a whole day.
type Cut struct {
	Known bool
	Estimate
	// Scatter is that of the days with the cut allowed for, as a part of what it
	// is without.
	Scatter float64
}

// Options are what else is to be known.
type Options struct {
	Confidence float64 // of the intervals, such as 0.95
}

// Compare lays an instrument beside the meter. done is false if fewer than
// Fewest days are in both.
func Compare(monitor, meter ledger.Ledger, o Options) (r Result, done bool) {
	s := newSheet(monitor, meter, o)
	if len(s.rows) < Fewest {
		return Result{}, false
	}
	s.lay()
	s.mark()
	r = Result{
		Days: s.days(), Monitor: s.sums[0], Meter: s.sums[1],
		Percent: s.percent(), Drift: s.drift(), Weekdays: s.weekdays(), Cut: s.cut, Lag: s.lag(),
	}
	r.PerDay = s.perDay(r.Percent)
	r.Scatter, r.Rounding = s.scatter*s.spread(s.middling()), s.rounding()
	r.Odd = s.odd(r.Days)
	return r, true
}
