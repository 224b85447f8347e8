package calc

import (
	"fmt"
	"math"
	"slices"

	"splittally/calc/compare"
	"splittally/calc/correct"
	"splittally/calc/fill"
)

// correct turns the gains of each instrument into settings: those found from
// its bills, by timing the meter, and those measured on its legs.
func (w *work) correct() {
	for i := range w.f.Instruments {
		inst := &w.f.Instruments[i]
		bills := w.bills(i)
		if c, ok := correct.FromPeriods(bills); ok {
			inst.Corrections = append(inst.Corrections, c)
			w.say(c)
		}
		if c, ok := w.leadingTiming(i); ok && !w.f.Timing.Differ() { // else no one factor is right
			if c, ok := correct.FromTiming(correct.Timed{
				Compared: c, Accuracy: bills.Accuracy, Periods: bills.Periods,
				Confidence: bills.Confidence, Setting: bills.Setting, History: bills.History,
			}); ok {
				inst.Corrections = append(inst.Corrections, c)
				w.say(c)
			}
		}
		if w.isChecked(i) {
			if c, ok := correct.FromLegs(w.legs(i, bills)); ok {
				inst.Corrections = append(inst.Corrections, c)
				w.say(c)
			}
		}
	}
}

// say passes on what a correction has to remark, once for several instruments.
func (w *work) say(c correct.Correction) {
	for _, p := range c.Problems {
		if !slices.Contains(w.f.Problems, p) {
			w.f.Problems = append(w.f.Problems, p)
		}
	}
	for _, n := range c.Notices {
		if !slices.Contains(w.f.Notices, n) {
			w.f.Notices = append(w.f.Notices, n)
		}
	}
}

func (w *work) bills(i int) correct.Bills {
	inst := &w.f.Instruments[i]
	out := correct.Bills{
		Confidence: w.f.Confidence, Accuracy: accuracySource(inst.Monitor),
		Setting: correct.Typed{Path: fmt.Sprintf("monitors.%d.setting", inst.Monitor), Text: w.c.Monitors[inst.Monitor].Setting},
	}
	var fills []fill.Result
	for p, r := range inst.Results {
		if len(r.Filled.Days) > 0 {
			fills = append(fills, r.Filled)
		}
		if r.Compares() {
			out.Periods = append(out.Periods, correct.Period{Index: p, Period: compare.Period{Span: w.f.Periods[p].Span, Comparison: r.Compared}})
		}
	}
	out.History = correct.History(inst.Ledger, fills)
	return out
}

func (w *work) legs(i int, bills correct.Bills) correct.Legs {
	found := w.f.Checks
	monitor := w.f.Instruments[i].Monitor
	out := correct.Legs{
		Overall:  correct.Gain{Factor: found.Overall.Factor, Budget: found.Overall.Budget},
		IsWhole:  found.Power.Complete,
		Accuracy: bills.Accuracy, Stated: w.settings.accuracy[monitor].value / 100 / math.Sqrt(3),
		Periods: bills.Periods, Confidence: bills.Confidence, Setting: bills.Setting, History: bills.History,
	}
	for k, l := range found.Legs {
		out.Legs = append(out.Legs, correct.Leg{
			Name: l.Name, Given: l.Given, Share: l.Share, Gain: correct.Gain{Factor: l.Factor, Budget: l.Budget},
			Setting: correct.Typed{Path: fmt.Sprintf("checks.legs.%d.setting", k), Text: w.c.Checks.Legs[k].Setting},
		})
	}
	return out
}
