// Package fill gives the total of one billing period of an instrument whose
// ledger has gaps, and says how well that total is known.
//
// It comes after ledger and before rolling up and comparing. A measured day
// passes untouched; a missing day is estimated by one of a few methods that an
// owner can follow, chosen by trying them all on days that were measured.
package fill

import (
	"errors"
	"math"
	"slices"

	"splittally/calc/calendar"
	"splittally/calc/energy"
	"splittally/calc/ledger"
	"splittally/calc/remark"
)

// ErrNothingMeasured says that no total can be given, because the ledger holds
// no measured day at all, in the period or outside it.
var ErrNothingMeasured = errors.New("nothing measured")

// ErrNoPeriod says that the span holds no day.
var ErrNoPeriod = errors.New("period without a day")

// Request asks for the total of one period.
type Request struct {
	Ledger ledger.Ledger // the whole record, days outside the span included
	Span   calendar.Span // the days of the billing period
	// Others are further instruments that may have measured the missing days.
	Others []ledger.Ledger
	Method Method // the zero value chooses by trial
}

// Day is one day of the period.
type Day struct {
	Day    calendar.Day
	Energy energy.Energy // measured or filled
	State  ledger.State  // as the ledger has it
	Filled bool          // true if Energy is an estimate, wholly or in part
	Method Method        // the method that filled it; empty for a day that was not
	// Slots are the hours of a filled day, where the ledger tells hours: what
	// was measured of each and what is estimated, together. They add up to
	// Energy. Of a day that was measured, or not told by the hour, there are none.
	Slots []ledger.Slot
}

// Result is the total of the period and how it came about.
type Result struct {
	Days  []Day         // every day of the span, in order
	Total energy.Energy // the exact sum of Days
	// Measured, Spread and Partial count days by their State. Filled counts
	// days whose Energy is an estimate: missing and partly measured ones.
	Measured, Spread, Filled, Partial int
	Longest                           int    // length in days of the longest run of filled days
	Method                            Method // the method used; empty if nothing was filled
	Chosen                            bool   // true if the program chose the method
	Other                             int    // for Ratio: the place in Request.Others that it leans on; otherwise -1
	// Standard is the standard uncertainty of Total that comes from filling,
	// in kWh, and DoF its degrees of freedom. Both are 0 if nothing was filled.
	Standard float64
	DoF      float64
	// Trials holds every method that the data allowed, in the order of
	// Methods; none if all filled days are mostly covered. Ratio was tried on those days of the gap that the other
	// instrument measured; if Ratio is the method used, so were all others.
	Trials  []Trial
	Notices []remark.Notice
}

// Fill gives the total of r.Span.
//
// A day that is Measured or Spread passes untouched. Every other day is
// estimated. A Partial day whose hours the ledger tells is filled by Hours: what
// is missing follows from what was covered, by the shape of days near in time,
// weighed against the days around. Where nine tenths of it were covered, it
// serves as a known day for all others. Of a Partial day whose hours are not
// known the share of its missing hours is estimated, as if use were even
// through the day. By Ratio a Partial day is estimated as a whole, unless it is
// mostly covered. It never comes below what was measured, unless hours may be
// below zero.
//
// Total ± t·Standard, with t of Student's distribution for DoF, is meant to
// hold the truth as often as t says; coverage_test.go and hours_coverage_test.go
// measure how often it does. Standard² is the variance that the likeness of
// measured days gives for the missing ones, corrected by how far trials strayed
// from it, plus, unless the method is Near, the square of what the method departs
// from Near; plus, for partly covered days, the variance of what their hours
// leave open and of the usual hours, which err alike on all days.
//
// The errors are ErrNoPeriod, ErrNothingMeasured and energy.ErrRange.
func Fill(r Request) (Result, error) {
	if r.Span.Days() == 0 {
		return Result{}, ErrNoPeriod
	}
	res := Result{Days: make([]Day, r.Span.Days()), Other: -1}
	for i := range res.Days {
		d := r.Span.First + calendar.Day(i)
		e := r.Ledger.At(d)
		res.Days[i] = Day{Day: d, Energy: e.Energy, State: e.State, Filled: !known(e.State)}
	}
	res.count()
	if res.Filled > 0 {
		rec := newRecord(r.Ledger, r.Span)
		if !slices.Contains(rec.known, true) && !slices.Contains(rec.told, true) {
			return Result{}, ErrNothingMeasured
		}
		if err := res.estimate(r, rec); err != nil {
			return Result{}, err
		}
	}
	for _, d := range res.Days {
		var err error
		if res.Total, err = res.Total.Add(d.Energy); err != nil {
			return Result{}, err
		}
	}
	return res, nil
}

// count sets the counts and Longest from Days.
func (res *Result) count() {
	run := 0
	for _, d := range res.Days {
		switch d.State {
		case ledger.Measured:
			res.Measured++
		case ledger.Spread:
			res.Spread++
		case ledger.Partial:
			res.Partial++
		}
		if !d.Filled {
			run = 0
			continue
		}
		res.Filled++
		run++
		res.Longest = max(res.Longest, run)
	}
}

// estimate fills the days that are not known and sets everything that goes
// with it. rec holds at least one day that tells something.
func (res *Result) estimate(r Request, rec *record) error {
	s := solution{plan: plan{freedom: rec.freedom()}, other: -1}
	res.Method = Hours
	if len(rec.gap) > 0 {
		s = rec.solve(r.Method, r.Others)
		res.Method, res.Chosen = s.method, s.method != r.Method
	}
	res.Other, res.Trials = s.other, s.trials
	res.Standard, res.DoF = join(s.plan, rec.ofHours(s))
	if err := res.write(r.Ledger, rec, s); err != nil {
		return err
	}
	res.Notices = res.remarks(r, rec)
	return nil
}

// write sets the energy of the filled days.
func (res *Result) write(l ledger.Ledger, rec *record, s solution) error {
	for i, t := range rec.gap {
		day := &res.Days[t-rec.start]
		got := l.At(day.Day)
		kWh := s.kWh[i]
		day.Method = s.used[i]
		switch {
		case s.used[i] == Ratio:
		case rec.tell(i) != nil:
			day.Method = Hours
		case got.State == ledger.Partial && rec.share[i] < 1:
			kWh = got.Energy.KilowattHours() + rec.share[i]*kWh
		}
		if err := day.set(kWh, got, rec.below); err != nil {
			return err
		}
	}
	for _, t := range rec.slight {
		day := &res.Days[t-rec.start]
		day.Method = Hours
		if err := day.set(rec.kWh[t], l.At(day.Day), rec.below); err != nil {
			return err
		}
	}
	for i := range res.Days {
		if d := &res.Days[i]; d.Filled {
			d.Slots = rec.byClock(l, d)
		}
	}
	return nil
}

// set sets the day's energy, rounded to a milliwatt-hour: finer digits of an
// estimate say nothing, and processors that add and multiply in one step would
// give others. It is not below what was
// measured, unless hours may be below zero.
func (d *Day) set(kWh float64, got ledger.Entry, below bool) error {
	est, err := energy.FromKilowattHours(math.Round(kWh*1e6) / 1e6)
	if err != nil {
		return err
	}
	if got.State == ledger.Partial && !below {
		est = max(est, got.Energy)
	}
	d.Energy = est
	return nil
}
