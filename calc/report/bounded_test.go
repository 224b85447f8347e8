package report

import (
	"fmt"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"splittally/calc"
	"splittally/calc/billing"
	"splittally/calc/calendar"
	"splittally/calc/example"
	"splittally/calc/tariff"
)

// large is a case of many bills, columns, tariff rows, printed lines, legs,
// runs and long names.
type large struct{ bills, columns, rows, printed, legs, runs, name int }

func (l large) make(t rapid.TB) calc.Case {
	c := opened(t, "the example", example.Text)
	long := func(what string) string { return strings.Repeat(what+" ", 1+l.name/len(what)) }
	c.Title, c.Note = long("A home"), long("A note.")
	c.Periods, c.Monitors = nil, nil
	day, _ := calendar.Date(2020, 1, 3)
	first := day
	for m := range l.bills {
		p := billing.Period{From: day.Long(), Days: fmt.Sprint(29 + m%3), KWh: fmt.Sprint(580 + m%40)}
		day += calendar.Day(29 + m%3)
		p.To = day.Long()
		for k := range l.printed {
			p.Lines = append(p.Lines, billing.Line{Name: long("Line") + fmt.Sprint(k), Amount: fmt.Sprint(20 + k)})
		}
		p.Total = "123.45"
		c.Periods = append(c.Periods, p)
	}
	var text strings.Builder
	for k := range l.columns {
		text.WriteString("\t" + long("Panel") + fmt.Sprint(k) + " kWh")
	}
	for d := first; d < day; d++ {
		text.WriteString("\n" + d.String())
		for k := range l.columns {
			if (int(d)+k)%19 == 0 {
				text.WriteString("\tno data")
				continue
			}
			fmt.Fprintf(&text, "\t%.2f", 15+float64(int(d)*7%11)+0.1*float64(k))
		}
	}
	c.Monitors = []calc.Monitor{{Name: long("Monitor"), Readings: "date" + text.String() + "\n"}}
	c.Price = tariff.Flat{}
	s := tariff.Schedule{Name: long("Tariff"), Currency: "EUR"}
	for k := range l.rows {
		s.Rows = append(s.Rows, tariff.Row{Kind: "energy", Name: long("Row") + fmt.Sprint(k), Price: "0.0312"})
	}
	c.Plans = []tariff.Schedule{s, s, s, s}
	for k := range l.legs {
		leg := c.Checks.Legs[k%2]
		leg.Name = long("Leg") + fmt.Sprint(k)
		c.Checks.Legs = append(c.Checks.Legs, leg)
	}
	for k := range l.runs {
		c.Timing.Runs = append(c.Timing.Runs, c.Timing.Runs[k%2])
	}
	return c
}

// However much a case holds, its paper fits two sheets, and says that it leaves
// something out.
func TestPaperIsBounded(t *testing.T) {
	for _, l := range []large{
		{bills: 12, columns: 2, rows: 14, printed: 8, legs: 3, runs: 8, name: 20},
		{bills: 60, columns: 2, rows: 40, printed: 30, legs: 10, runs: 30, name: 300},
		{bills: 12, columns: 9, rows: 14, printed: 8, legs: 3, runs: 8, name: 60},
		{bills: 3, columns: 3, rows: 2, name: 3000},
	} {
		c := l.make(t)
		p := Compose(c, calc.Work(c), about)
		if tall := p.points(); tall > sheets {
			t.Errorf("%+v: %.0f points, more than %.0f\n%s", l, tall, sheets, p.Plain())
		}
		if got := p.Plain(); !strings.Contains(strings.Join(strings.Fields(got), " "), elsewhere) {
			t.Errorf("%+v: nothing says that something was left out:\n%s", l, got)
		}
	}
}

// A year of bills of two instruments stands whole in its table.
func TestYearOfBillsIsWhole(t *testing.T) {
	c := large{bills: 12, columns: 2, rows: 4, printed: 4, name: 20}.make(t)
	got := Compose(c, calc.Work(c), about).Markdown()
	for n := 1; n <= 12; n++ {
		if !strings.Contains(got, fmt.Sprintf("\n| %d | ", n)) {
			t.Errorf("bill %d is not in the table:\n%s", n, got)
		}
	}
}

func TestAnyPaperIsBounded(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := func(label string, most int) int { return rapid.IntRange(0, most).Draw(t, label) }
		l := large{bills: n("bills", 7), columns: 1 + n("columns", 1), rows: n("rows", 20), printed: n("printed", 12), legs: n("legs", 4), runs: n("runs", 6), name: n("name", 400)}
		c := l.make(t)
		if tall := Compose(c, calc.Work(c), about).points(); tall > sheets {
			t.Fatalf("%+v: %.0f points, more than %.0f", l, tall, sheets)
		}
	})
}
