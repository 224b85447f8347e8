package report

import (
	"strconv"

	"splittally/calc/say"
)

// priced sets the printed bills beside the computed ones, and says what the
// disagreement costs.
func (w *composer) priced() {
	t := &Table{Head: []string{"Bill", "Printed", "Computed", "Apart", "Lines that differ"}, Numbers: []bool{true, true, true, true, false}}
	for _, a := range w.f.Accounts {
		if a.Period >= len(w.f.Periods) || len(a.Pairs) == 0 {
			continue
		}
		row := []string{strconv.Itoa(a.Period + 1), "—", a.Currency.Text(a.Priced.Total), "—", ""}
		if a.HasTotal {
			row[1], row[3] = a.Currency.Text(a.Total), say.Apart(a.Off, a.Currency)
		}
		for _, p := range a.Pairs {
			if p.HasPrinted && !p.IsEqual {
				if row[4] != "" {
					row[4] = "several"
					break
				}
				row[4] = cut(clean(p.Name), longName)
			}
		}
		t.Rows = append(t.Rows, row)
	}
	if n := len(t.Rows) - w.room.bills/2; n > 0 && len(t.Rows) > 2 {
		n = min(n, len(t.Rows)-2)
		t.Rows, w.left = t.Rows[n:], true
		t.Caption = "The last " + strconv.Itoa(len(t.Rows)) + " bills; " + strconv.Itoa(n) + " before them are in the table for a spreadsheet."
	}
	w.section("Money", Block{Table: t}, w.points(w.worths()))
}

// worths says what each disagreement is worth, and what the period that runs
// and other tariffs come to.
func (w *composer) worths() (out []string) {
	for n, i := range w.told() {
		if !i.IsWorth {
			continue
		}
		c := i.Worth.Indicated.Currency
		said := i.Name + " by its figures: the bills would differ by " + say.Worth(i.Worth.Value, i.Worth.Expanded, c) +
			" in all; a year comes to " + say.Worth(i.Worth.PerYear, i.Worth.YearDoubt, c) + "."
		if n == 0 {
			said += " " + say.WorthMeans
		}
		out = append(out, said)
	}
	if run := w.f.Running; w.f.IsRunning {
		c := run.ToDate.Currency
		said := "The running bill, read through " + run.Through.Long() + ": " + run.EnergySoFar.StringFixed(1) + " kWh, " + c.Text(run.ToDate.Total) + " so far"
		if len(run.Projected.Lines) > 0 {
			said += "; at the end between " + c.Text(run.Low) + " and " + c.Text(run.High)
		}
		out = append(out, said+".")
	}
	var tariffs []string
	for _, ch := range w.f.Choices {
		tariffs = append(tariffs, cut(clean(ch.Name), longName)+": "+(&writer{c: w.c, f: *w.f}).currencyOf(ch.Plan).Text(ch.PerYear)+" a year.")
	}
	return append(out, w.first(tariffs, w.room.points, "tariff")...)
}
