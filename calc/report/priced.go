package report

import (
	"strconv"

	"splittally/calc/account"
	"splittally/calc/say"
)

// priced sets the printed bills beside the computed ones, and says what the
// disagreement costs.
func (w *composer) priced() {
	t := &Table{Head: []string{"Bill", "Printed", "Computed", "Apart", "Lines that differ"}, Numbers: []bool{true, true, true, true, false}}
	var computed []string
	isPrinted := false
	for _, a := range w.f.Accounts {
		if a.Period >= len(w.f.Periods) || len(a.Pairs) == 0 {
			continue
		}
		t.Rows = append(t.Rows, accountRow(a))
		computed = append(computed, "bill "+strconv.Itoa(a.Period+1)+": "+a.Currency.Text(a.Priced.Total))
		isPrinted = isPrinted || t.Rows[len(t.Rows)-1][1] != "—" || t.Rows[len(t.Rows)-1][4] != ""
	}
	said := w.worths()
	switch n := len(t.Rows) - max(2, w.room[mostMoney]); {
	case len(t.Rows) == 0:
	case !isPrinted:
		said = append([]string{"By the tariff: " + w.inline(computed, max(1, w.room[mostMoney]), "; ", "bill") + "."}, said...)
		t.Rows = nil
	case w.room[mostMoney] < 2:
		last := t.Rows[len(t.Rows)-1]
		said = append([]string{"Bill " + last[0] + ": printed " + last[1] + ", computed " + last[2] + ", apart " + last[3] + "."}, said...)
		t.Rows = nil
	case n > 0:
		t.Rows = t.Rows[n:]
		t.Caption = "The last " + strconv.Itoa(len(t.Rows)) + " bills; " + strconv.Itoa(n) + " before them are in the table for a spreadsheet."
	}
	w.section("Money", Block{Table: t}, w.points(said))
}

// accountRow sets one printed bill beside the computed one.
func accountRow(a account.Account) []string {
	row := []string{strconv.Itoa(a.Period + 1), "—", a.Currency.Text(a.Priced.Total), "—", ""}
	if a.HasTotal {
		row[1], row[3] = a.Currency.Text(a.Total), say.Apart(a.Off, a.Currency)
	}
	for _, p := range a.Pairs {
		if !p.HasPrinted || p.IsEqual {
			continue
		}
		if row[4] != "" {
			row[4] = "several"
			break
		}
		row[4] = short(p.Name, longName)
	}
	return row
}

// worths says what each disagreement is worth, and what the period that runs
// and other tariffs come to.
func (w *composer) worths() (out []string) {
	for n, i := range w.told() {
		if !i.IsWorth {
			continue
		}
		c := i.Worth.Indicated.Currency
		said := w.of(&i) + "By its figures the bills would differ by " + say.Worth(i.Worth.Value, i.Worth.Expanded, c) +
			" in all; a year comes to " + say.Worth(i.Worth.PerYear, i.Worth.YearDoubt, c) + "."
		if n == 0 && w.room[mostAdvice] > 0 {
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
	var all []string
	for _, ch := range w.f.Choices {
		all = append(all, short(ch.Name, longName)+": "+(&writer{c: w.c, f: *w.f}).currencyOf(ch.Plan).Text(ch.PerYear)+" a year.")
	}
	return append(out, w.first(all, w.room[mostTariffs], "tariff")...)
}
