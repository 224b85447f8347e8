package tariff_test

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"time"

	"splittally/calc/calendar"
	"splittally/calc/tariff"
)

// random makes schedules and usages. The same seed makes the same ones.
type random struct {
	*rand.Rand
	span calendar.Span
	// whole allows years of quarters of an hour, which take long.
	whole bool
}

func seeded(seed uint64, whole bool) *random {
	return &random{Rand: rand.New(rand.NewPCG(seed, 1)), whole: whole}
}

// in says yes so many times of a hundred.
func (r *random) in(hundred int) bool { return r.IntN(100) < hundred }

func (r *random) one(texts ...string) string { return texts[r.IntN(len(texts))] }

// decimal gives a number from 0.01 up to most, with so many decimals that
// its point can't be taken for a mark between thousands.
func (r *random) decimal(most int) string {
	places := []int{2, 2, 4, 5}[r.IntN(4)]
	scale := []int{1, 0, 100, 0, 10000, 100000}[places]
	n := max(r.IntN(most*scale), scale/100)
	return fmt.Sprintf("%d.%0*d", n/scale, places, n%scale)
}

// price gives a price per kWh that nobody would ask about.
func (r *random) price() string { return "0." + r.decimal(1)[2:] }

func (r *random) schedule() tariff.Schedule {
	s := tariff.Schedule{
		Name:     "made up",
		Currency: r.one("USD", "EUR", "JPY", "KWD"),
		Round:    r.one("", "line", "total"),
		Half:     r.one("", "up", "even", "down"),
		Places:   r.one("", "", "", "0", "1", "2", "3", "4"),
	}
	if r.in(15) {
		s.Inclusive = r.one("5", "20", "19 %", "7.7")
	}
	if r.in(60) {
		s.Dates = r.dates()
	}
	kinds := []tariff.Kind{tariff.Energy, tariff.Tiers, tariff.Times}
	s.Rows = append(s.Rows, r.row(s, kinds[r.IntN(3)]))
	some := append(kinds, kinds...)
	some = append(some, tariff.Fixed, tariff.Fixed, tariff.Demand, tariff.Minimum)
	some = append(some, tariff.Discount, tariff.Discount, tariff.Tax, tariff.Tax)
	some = append(some, tariff.Export, tariff.Netting)
	r.Shuffle(len(some), func(i, j int) { some[i], some[j] = some[j], some[i] })
	for _, kind := range some[:r.IntN(7)] {
		s.Rows = append(s.Rows, r.row(s, kind))
	}
	return s
}

func (r *random) row(above tariff.Schedule, kind tariff.Kind) tariff.Row {
	row := tariff.Row{Kind: string(kind), Name: fmt.Sprintf("%s %d", kind, len(above.Rows)+1), Price: r.decimal(20)}
	switch kind {
	case tariff.Energy, tariff.Export:
		row.Price = r.price()
	case tariff.Tiers:
		row.Price, row.Per, row.Steps = "", r.one("period", "day", "month"), r.steps()
		if row.Per == "day" {
			for i := range row.Steps[:len(row.Steps)-1] {
				row.Steps[i].UpTo = fmt.Sprint(3 + 5*i + r.IntN(4))
			}
		}
	case tariff.Times:
		row.Price, row.Bands = "", r.bands()
	case tariff.Fixed:
		row.Per = r.one("period", "day", "month")
	case tariff.Minimum:
		row.Per, row.Price = r.one("period", "day", "month"), r.decimal(60)
	case tariff.Demand:
		row.Per = r.one("15", "30", "60")
	case tariff.Netting:
		row.Price = ""
	case tariff.Discount:
		row.Price = r.one("5 %", "10 %", "2.5 %", "33.3 %", "$3.50", "1.25 USD", "7.5")
	case tariff.Tax:
		row.Price = r.one("5.5 %", "20 %", "1 %", "19", "8.875 %")
	}
	if kind == tariff.Energy || kind == tariff.Tiers || kind == tariff.Times {
		row.Basis = r.one("", "metered", "adjusted")
	}
	if kind == tariff.Discount || kind == tariff.Tax || kind == tariff.Minimum {
		row.On = r.on(above.Rows)
	}
	r.limit(&row)
	return row
}

// on names some of the rows above, or all by "".
func (r *random) on(above []tariff.Row) string {
	var names []string
	for _, row := range above {
		if r.in(60) && row.Kind != string(tariff.Netting) {
			names = append(names, row.Name)
		}
	}
	return strings.Join(names, ", ")
}

// limit gives a row a season, a first or a last date.
func (r *random) limit(row *tariff.Row) {
	if r.in(25) {
		row.From, row.To = r.yearday(), r.yearday()
	}
	if r.in(12) {
		row.Since = r.near().String()
	}
	if r.in(12) {
		row.Until = r.near().String()
		if row.Until < row.Since {
			row.Since, row.Until = row.Until, row.Since
		}
	}
}

// near gives a day in the period or a little beside it.
func (r *random) near() calendar.Day {
	return r.span.First - 3 + calendar.Day(r.IntN(r.span.Days()+6))
}

func (r *random) yearday() string {
	d := r.near()
	if r.in(30) {
		d += calendar.Day(r.IntN(366))
	}
	return d.Short()
}

// dates gives holidays, a date a line, some of them of every year.
func (r *random) dates() string {
	var lines []string
	for range 1 + r.IntN(4) {
		day := r.near().String()
		if r.in(40) {
			day = day[len("2024-"):]
		}
		lines = append(lines, day)
	}
	return strings.Join(lines, "\n")
}

func (r *random) steps() []tariff.Step {
	var steps []tariff.Step
	top := 0
	for range 1 + r.IntN(3) {
		top += 20 + 10*r.IntN(30)
		steps = append(steps, tariff.Step{UpTo: fmt.Sprint(top), Price: r.price()})
	}
	if r.in(30) {
		steps[len(steps)-1].UpTo += ".5"
	}
	return append(steps, tariff.Step{Price: r.price()})
}

// bands gives time-of-use periods of different prices; the last takes what
// the others leave.
func (r *random) bands() []tariff.Band {
	var bands []tariff.Band
	taken := map[string]bool{}
	for i := range 2 + r.IntN(4) {
		b := tariff.Band{Name: string(rune('A' + i)), Price: r.price()}
		for taken[strings.TrimRight(b.Price, "0")] {
			b.Price = r.price()
		}
		taken[strings.TrimRight(b.Price, "0")] = true
		b.Days = r.one("", "all", "workdays", "workdays", "rest", "holidays", r.weekdays())
		b.Hours = r.hours()
		bands = append(bands, b)
	}
	last := &bands[len(bands)-1]
	last.Days, last.Hours = "", ""
	return bands
}

func (r *random) weekdays() string {
	var names []string
	for d := time.Sunday; d <= time.Saturday; d++ {
		if r.in(35) {
			names = append(names, d.String())
		}
	}
	if r.in(40) || len(names) == 0 {
		names = append(names, "holidays")
	}
	return strings.Join(names, ", ")
}

// hours gives one or two spans that don't meet, the last perhaps over midnight.
func (r *random) hours() string {
	if r.in(15) {
		return ""
	}
	step := []int{60, 60, 30, 15, 10, 1}[r.IntN(6)]
	at := func(low, high int) int { return (low + r.IntN(high-low)) / step * step }
	first, second := at(60, 500), at(620, 900)
	spans := []string{clockText(at(0, first)) + "-" + clockText(first), clockText(at(560, 620)) + "-" + clockText(second+60)}
	if late := at(1020, 1380); r.in(60) {
		spans[0] = clockText(at(0, 120)) + "-" + clockText(at(180, 500))
		spans = append(spans, clockText(late)+"-"+r.one("24", clockText(late+60)))
		if r.in(60) {
			spans = []string{clockText(at(600, 660)) + "-" + clockText(at(720, 960)), clockText(late) + "-" + clockText(at(60, 540))}
		}
	}
	from := r.IntN(len(spans))
	return strings.Join(spans[from:], ", ")
}

func clockText(m int) string {
	if m%60 == 0 {
		return fmt.Sprint(m / 60)
	}
	return fmt.Sprintf("%d:%02d", m/60, m%60)
}
