package calc

import (
	"cmp"
	"fmt"

	"github.com/shopspring/decimal"

	"splittally/calc/account"
	"splittally/calc/sorted"
	"splittally/calc/tariff"
)

// price rebuilds the bills by the household's tariff, and says what each
// disagreement is worth, and what other tariffs would cost.
func (w *work) price() {
	w.readPlans()
	if !w.tariff.Given {
		return
	}
	w.readUses()
	w.rebuild()
	w.value()
	w.choose()
	w.run()
}

// rebuild sets every printed bill beside the one that the tariff gives, in the
// order of time, since netting carries from one to the next.
func (w *work) rebuild() {
	w.f.Accounts = make([]account.Account, len(w.f.Periods))
	carried := decimal.Zero
	w.used = make([]tariff.Usage, len(w.f.Periods))
	for _, p := range w.byTime() {
		bill, typed := w.f.Periods[p], w.c.Periods[p]
		usage := w.metered(p)
		usage.Carried = carried
		w.used[p] = usage
		b := account.Bill{
			Path: fmt.Sprintf("periods.%d", p), Usage: usage, Printed: typed.Lines, Total: typed.Total, Solve: typed.Solve,
			Estimated: bill.StartEstimated || bill.EndEstimated,
		}
		b.Schedule, b.Options = w.schedule()
		a := account.Rebuild(w.tariff, b)
		a.Period, carried = p, a.Carry
		w.f.Accounts[p] = a
		w.f.Problems = append(w.f.Problems, a.Problems...)
		w.f.Questions = append(w.f.Questions, a.Questions...)
	}
}

// byTime lists the bills that are given, the earliest first.
func (w *work) byTime() []int {
	var out []int
	for p, bill := range w.f.Periods {
		if bill.Given {
			out = append(out, p)
		}
	}
	sorted.Stable(out, func(a, b int) int { return cmp.Compare(w.f.Periods[a].Span.First, w.f.Periods[b].Span.First) })
	return out
}

// schedule is what the household's tariff was built from.
func (w *work) schedule() (tariff.Schedule, tariff.Options) {
	if w.isSimple {
		return w.f.Plan.Schedule()
	}
	return w.c.Plans[0], tariff.Options{Path: "plans.0", Answers: w.answers}
}

// value says what each instrument's disagreement costs, bill by bill and in all.
func (w *work) value() {
	meters := make([]account.Metered, len(w.f.Periods))
	for _, p := range w.byTime() {
		meters[p] = account.Meter(w.tariff, w.used[p])
	}
	for i := range w.f.Instruments {
		inst := &w.f.Instruments[i]
		var all []account.PeriodWorth
		for p := range inst.Results {
			r := &inst.Results[p]
			if r.IsPriced = r.Compares(); !r.IsPriced {
				continue
			}
			indicated := w.indicated(i, p)
			indicated.Carried = w.used[p].Carried
			r.Worth = account.ValueOf(w.tariff, meters[p], indicated, r.Compared)
			all = append(all, account.PeriodWorth{Span: w.f.Periods[p].Span, Worth: r.Worth, Compared: r.Compared})
		}
		if len(all) > 0 {
			inst.Worth, inst.IsWorth = account.Pooled(all), true
		}
	}
}

// choose prices the bills by each tariff of the case.
func (w *work) choose() {
	if len(w.f.Plans) < 2 {
		return
	}
	var plans []tariff.Tariff
	for _, built := range w.f.Plans {
		plans = append(plans, built.Tariff)
	}
	var usages []tariff.Usage
	for _, p := range w.byTime() {
		// Hours that were read are known to every tariff, the kWh that the bill
		// prints only to one with the same times of use.
		u := w.usageOf(p, w.shape(p), w.f.Periods[p].Reference)
		if len(u.Import) <= u.Span.Days() {
			u = w.used[p]
		}
		u.Carried = decimal.Zero // each tariff carries on by itself
		usages = append(usages, u)
	}
	if choices := account.Choose(plans, usages); len(choices) > 1 { // one alone is no choice
		w.f.Choices = choices
	}
}
