package calc

import (
	"fmt"
	"strconv"

	"splittally/calc/compare"
	"splittally/calc/figure"
	"splittally/calc/gain"
	"splittally/calc/remark"
)

// checkLegs finds the gain of each leg and what setting it would do to
// every error of the monitor whose volts they are.
func (w *work) checkLegs() {
	w.f.Checks = gain.Read(w.c.Checks, gain.Options{Path: "checks", Confidence: w.f.Confidence, Shares: w.shares()})
	w.f.Problems = append(w.f.Problems, w.f.Checks.Problems...)
	w.f.Notices = append(w.f.Notices, w.f.Checks.Notices...)
	if !w.f.Checks.Given || len(w.f.Instruments) == 0 {
		return
	}
	w.checked = w.checkedMonitor()
	w.reach()
	for i := range w.f.Instruments {
		if !w.isChecked(i) {
			continue
		}
		for p := range w.f.Instruments[i].Results {
			if r := &w.f.Instruments[i].Results[p]; r.Compares() {
				r.Corrected, r.IsCorrected = w.f.Checks.Effect(r.Compared.Percent.InexactFloat64()), true
			}
		}
	}
}

// shares gives the legs' parts of the energy as the readings of the checked
// monitor show them; as long as nobody said which that is, of the first that does.
func (w *work) shares() []float64 {
	said := w.answers["checks.monitor"]
	for _, inst := range w.f.Instruments {
		if inst.Shares != nil && (said == "" || said == strconv.Itoa(inst.Monitor+1)) {
			return inst.Shares
		}
	}
	return nil
}

// isChecked says that the legs were checked with this instrument.
func (w *work) isChecked(i int) bool {
	return w.f.Checks.Given && w.f.Instruments[i].Monitor == w.checked
}

// checkedMonitor says which monitor's volts were checked; with several it is asked.
func (w *work) checkedMonitor() int {
	q := remark.Question{
		ID: "checks.monitor", Path: "checks", Asks: "Which monitor was checked?",
		Why: "There are several monitors, and a gain belongs to one of them.",
	}
	provisional := ""
	for i, inst := range w.f.Instruments {
		id := strconv.Itoa(inst.Monitor + 1)
		if i > 0 && inst.Monitor == w.f.Instruments[i-1].Monitor {
			continue // a further column of the same text
		}
		if provisional == "" {
			provisional = id
		}
		q.Choices = append(q.Choices, remark.Choice{ID: id, Label: w.instrumentName(inst.Monitor, "", 1), Gives: w.wouldCorrect(inst)})
	}
	taken := q.Settle(w.answers, provisional)
	if len(q.Choices) > 1 {
		w.f.Questions = append(w.f.Questions, q)
	}
	n, _ := strconv.Atoi(taken)
	return n - 1
}

// wouldCorrect says what correcting would do to an instrument's first error.
func (w *work) wouldCorrect(inst Instrument) string {
	for p, r := range inst.Results {
		if r.Compares() {
			e := w.f.Checks.Effect(r.Compared.Percent.InexactFloat64())
			return fmt.Sprintf("bill %d: %s would become %s", p+1, figure.Percent(figure.Fixed(e.Before, 2)), figure.Percent(figure.Fixed(e.After, 2)))
		}
	}
	return "no error to correct yet"
}

// reach says what the volts can explain of each instrument's error.
func (w *work) reach() {
	for i := range w.f.Instruments {
		inst := &w.f.Instruments[i]
		if !w.isChecked(i) || !w.f.Checks.Volts.Given {
			continue
		}
		if c, ok := leading(inst); ok {
			inst.Reach, inst.IsReached = w.f.Checks.Reach(c.Percent.InexactFloat64(), c.Expanded), true
		}
	}
}

// leading is the comparison that stands for an instrument: all periods together
// if there are several, else the one.
func leading(inst *Instrument) (compare.Comparison, bool) {
	if inst.IsPooled {
		return inst.Pooled.Total, true
	}
	for _, r := range inst.Results {
		if r.Compares() {
			return r.Compared, true
		}
	}
	return compare.Comparison{}, false
}
