package view

import (
	"fmt"
	"slices"
	"strconv"

	"splittally/calc/calendar"
	"splittally/calc/chart"
	"splittally/calc/chart/markup"
	"splittally/calc/energy"
	"splittally/calc/fill"
	"splittally/calc/ledger"
	"splittally/calc/say"
)

// inkText is the class for text in the ink of an instrument.
func inkText(instrument int) markup.Name { return "ink-text " + chart.Ink(instrument).Class() }

// sticks draws the split stick of every instrument that can be compared.
func (s *sheet) sticks() piece {
	all := s.judgements()
	figures := each(len(all), func(i int) piece { return s.stick(all[i], "") })
	if isEmpty(figures) {
		return figures
	}
	return el("div", class("sticks"), figures)
}

// stick draws one, with ids that begin in a way of their own.
func (s *sheet) stick(j judged, begins string) piece {
	reference, indicated := j.Reference.Energy.KilowattHours(), j.Indicated.Energy.KilowattHours()
	if indicated <= 0 {
		return none
	}
	stick := chart.Stick{
		ID: begins + id("stick", j.instrument), Ink: chart.Ink(j.instrument), Name: j.name,
		Title:     j.name + " beside the utility’s meter",
		Words:     fmt.Sprintf("A stick split in two halves. The meter’s half is %s long, that of %s %s: an error of %s.", kWh(amount(j.Reference.Energy)), j.name, kWh(amount(j.Indicated.Energy)), say.Error(j.Comparison)),
		Reference: reference, ReferenceText: kWh(amount(j.Reference.Energy)),
		Indicated: indicated, IndicatedText: kWh(amount(j.Indicated.Energy)),
		Percent: j.Percent.InexactFloat64(), PercentText: say.Error(j.Comparison), Expanded: j.Expanded,
		Days: notches(s.comparedDays(j.instrument)),
	}
	return el("figure", chart.Split(stick), el("figcaption", text("A notch for each of "+say.Counted(len(stick.Days), "day", "days")+" of "+say.Counted(j.periods, "bill", "bills")+"; hatched: filled. The frayed end holds the "+s.confidence()+" interval.")))
}

// comparedDays gives the days of all compared bills of an instrument, by time.
func (s *sheet) comparedDays(instrument int) []fill.Day {
	var out []fill.Day
	for period, r := range s.f.Instruments[instrument].Results {
		if !r.Compares() {
			continue
		}
		at := len(out)
		for at > 0 && out[at-1].Day > s.f.Periods[period].Span.First {
			at--
		}
		out = append(out[:at:at], append(append([]fill.Day{}, r.Filled.Days...), out[at:]...)...)
	}
	return out
}

func notches(days []fill.Day) []chart.Notch {
	total := 0.0
	for _, d := range days {
		total += d.Energy.KilowattHours()
	}
	out := make([]chart.Notch, len(days))
	sum := 0.0
	for i, d := range days {
		sum += d.Energy.KilowattHours()
		out[i] = chart.Notch{Share: float64(i+1) / float64(len(days)), Filled: d.Filled}
		if total > 0 {
			out[i].Share = min(1, max(0, sum/total))
		}
	}
	return out
}

// days draws the daily energy of a bill, with a table for who wants figures.
func (s *sheet) days(p pair) piece {
	odd := s.standsOut(p.instrument)
	return join(s.daysFigure(p, odd, ""),
		s.folded("more", id("table", p.period, p.instrument), "These days as figures", func() piece { return s.dayTable(p, odd) }))
}

func (s *sheet) standsOut(instrument int) map[calendar.Day]bool {
	odd := map[calendar.Day]bool{}
	for _, o := range s.f.Instruments[instrument].Odd {
		for k := range max(1, o.Days) {
			odd[o.Day+calendar.Day(k)] = true
		}
	}
	return odd
}

// daysFigure draws the days, with ids that begin in a way of their own.
func (s *sheet) daysFigure(p pair, odd map[calendar.Day]bool, begins string) piece {
	inst, bill := s.f.Instruments[p.instrument], s.f.Periods[p.period]
	c := chart.Days{
		ID: begins + id("days", p.period, p.instrument), Ink: chart.Ink(p.instrument),
		Title: "Daily energy of " + inst.Name + ", " + s.bill(p.period),
		Words: fmt.Sprintf("%d bars for %s, %d of them filled. The table below has the figures.", len(p.Filled.Days), spanWords(bill.Span), p.Filled.Filled),
	}
	if bill.Given && bill.Days() > 0 {
		c.Mean = bill.Reference.KilowattHours() / float64(bill.Days())
	}
	for d, span := s.drawnDays(p).First, s.drawnDays(p); d < span.End; d++ {
		day, _, _ := s.day(p, d)
		day.Odd = odd[d]
		c.Days = append(c.Days, day)
	}
	return el("figure", chart.Daily(c), dayKey(p, c.Days))
}

// day gives a day around a bill for drawing, its exact energy, and how that is known.
func (s *sheet) day(p pair, d calendar.Day) (chart.Day, energy.Energy, string) {
	bill, entry := s.f.Periods[p.period], s.f.Instruments[p.instrument].Ledger.At(d)
	day := chart.Day{Label: d.Short(), Outside: !bill.Span.Has(d), Known: entry.State != ledger.Missing}
	amount, filled := entry.Energy, false
	if day.Known {
		day.Sure = entry.Energy.KilowattHours()
	}
	if !day.Outside {
		in := p.Filled.Days[d-bill.Span.First]
		amount, filled, day.Known = in.Energy, in.Filled, true
	}
	day.Energy = amount.KilowattHours()
	return day, amount, dayState(filled, entry.State)
}

func (s *sheet) dayTable(p pair, odd map[calendar.Day]bool) piece {
	var rows []piece
	for _, in := range p.Filled.Days {
		_, amount, state := s.day(p, in.Day)
		rows = append(rows, dayRow(in.Day, minus(amount.Text(2)), state, odd[in.Day]))
	}
	return table("narrow", "Daily energy of "+s.name(p), []string{"Day", "kWh", "How it is known"}, tbody(rows...))
}

func dayRow(d calendar.Day, energy, state string, odd bool) piece {
	if odd {
		state += ", stands out"
	}
	return tr(text(d.Long()), num("kWh", energy), word("Known", state))
}

// dayKey explains the signs that the drawing of those days has.
func dayKey(p pair, days []chart.Day) piece {
	said := "Solid: measured."
	if p.Filled.Filled > 0 {
		said += " Hatched, dashed outline: filled."
	}
	said += " Pale: days outside the bill."
	if slices.ContainsFunc(days, func(d chart.Day) bool { return !d.Known }) {
		said += " ×: nothing measured."
	}
	if slices.ContainsFunc(days, func(d chart.Day) bool { return d.Odd }) {
		said += " ▼: stands out from the other days."
	}
	return el("figcaption", text(said))
}

// intervals sets all errors side by side, if there is more than one.
func (s *sheet) intervals() piece {
	compared := s.compared()
	if len(compared) < 2 {
		return none
	}
	c := chart.Errors{ID: "errors", Title: "Errors side by side", Promise: compared[0].Compared.Promise}
	add := func(instrument int, label string, percent, expanded float64, text string, pooled bool) {
		c.Rows = append(c.Rows, chart.Row{Label: label, Ink: chart.Ink(instrument), Percent: percent, Expanded: expanded, Text: text, Pooled: pooled})
		c.Words += label + ": " + text + ". "
	}
	for i, inst := range s.f.Instruments {
		for _, p := range compared {
			if p.instrument == i {
				add(i, inst.Name+", "+s.bill(p.period), p.Compared.Percent.InexactFloat64(), p.Compared.Expanded, say.Error(p.Compared), false)
			}
		}
		if inst.IsPooled {
			total := inst.Pooled.Total
			add(i, inst.Name+", "+strconv.Itoa(inst.Pooled.Periods)+" bills", total.Percent.InexactFloat64(), total.Expanded, say.Error(total), true)
		}
	}
	caption := "Whiskers: " + s.confidence() + " interval. Line at 0: the meter."
	if c.Promise > 0 {
		caption += " Grey band: what the two instruments of the first row promise, ± " + percent(say.Interval(c.Promise)) + "."
	}
	return join(el("h3", text("Errors side by side")), el("figure", chart.Intervals(c), el("figcaption", text(caption))))
}
