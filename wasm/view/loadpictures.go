package view

import (
	"slices"
	"strconv"
	"strings"

	"splittally/calc/calendar"
	"splittally/calc/chart"
	"splittally/calc/ledger"
	"splittally/calc/load"
	"splittally/calc/say"
)

// monthOf names the month of a day: "Mar 2024".
func monthOf(d calendar.Day) string {
	_, month, _ := strings.Cut(d.Long(), " ")
	return month
}

// bands cuts a span into years, if it does not fit into the columns of one.
func bands(span calendar.Span) (out []calendar.Span) {
	if weekday(span.First)+span.Days() <= 53*7 {
		return []calendar.Span{span}
	}
	for first := span.First; first < span.End; {
		year, _, _ := first.Date()
		end := span.End
		if next, ok := calendar.Date(year+1, 1, 1); ok {
			end = min(end, next)
		}
		out = append(out, calendar.Span{First: first, End: end})
		first = end
	}
	return out
}

// halves cuts a span that is drawn alone into two, so that its cells are larger,
// if it has more weeks than half a year; the second begins on a Monday.
func halves(span calendar.Span) []calendar.Span {
	columns := (weekday(span.First) + span.Days() + 6) / 7
	if columns <= 27 {
		return []calendar.Span{span}
	}
	middle := span.First - calendar.Day(weekday(span.First)) + calendar.Day((columns+1)/2*7)
	return []calendar.Span{{First: span.First, End: middle}, {First: middle, End: span.End}}
}

// weekday counts from Monday, which is 0.
func weekday(d calendar.Day) int { return (int(d.Weekday()) + 6) % 7 }

// monthMarks names the months that begin within a span, January with its year,
// and that in which it begins if there is room before the next.
func monthMarks(span calendar.Span) (out []chart.Mark) {
	for d := span.First; d < span.End; d++ {
		_, month, day := d.Date()
		if day != 1 && (d > span.First || day > 8) {
			continue
		}
		name, _, _ := strings.Cut(monthOf(d), " ")
		if month == 1 && d > span.First {
			name = monthOf(d)
		}
		out = append(out, chart.Mark{Day: int(d - span.First), Text: name})
	}
	return out
}

// edges gives the days of a span with which billing periods begin, and those
// after the last ones.
func (s *sheet) edges(span calendar.Span) (out []int) {
	for _, p := range s.f.Periods {
		if !p.Dated {
			continue
		}
		for _, d := range [2]calendar.Day{p.Span.First, p.Span.End} {
			if at := int(d - span.First); d >= span.First && d <= span.End && !slices.Contains(out, at) {
				out = append(out, at)
			}
		}
	}
	return out
}

// cells gives each day of the ledger, with what a bill's gaps were filled with.
func (s *sheet) cells(l loaded) (cells []chart.Cell, part int) {
	cells = make([]chart.Cell, len(l.ledger.Days))
	for i, e := range l.ledger.Days {
		cells[i] = chart.Cell{Energy: e.Energy.KilowattHours(), Known: e.State != ledger.Missing, IsPart: e.State != ledger.Missing && !load.IsWhole(e)}
	}
	for _, r := range l.results {
		for _, d := range r.Filled.Days {
			if !d.Filled || !l.ledger.Span().Has(d.Day) || load.IsWhole(l.ledger.At(d.Day)) {
				continue
			}
			cells[d.Day-l.ledger.First] = chart.Cell{Energy: d.Energy.KilowattHours(), Known: true, IsPart: true}
		}
	}
	for _, c := range cells {
		if c.IsPart {
			part++
		}
	}
	return cells, part
}

// years is how many years of days are drawn at once; those before are folded.
const years = 4

// loadCalendar draws the days of a ledger by weeks.
func (s *sheet) loadCalendar(l loaded) piece {
	cells, part := s.cells(l)
	all := bands(l.ledger.Span())
	if len(all) == 1 {
		all = halves(all[0])
	}
	recent := all[max(0, len(all)-years):]
	parts := []piece{
		s.weeks(l, cells, part, recent, l.at+"-days"),
		s.folded("more", l.at+"-days-table", "These days as figures", func() piece { return s.loadDayTable(l, cells) }),
	}
	if earlier := all[:len(all)-len(recent)]; len(earlier) > 0 {
		at := l.at + "-days-earlier"
		parts = append(parts, s.folded("more", at, "The days of earlier years", func() piece { return s.weeks(l, cells, part, earlier, at+"-drawn") }))
	}
	return join(parts...)
}

func (s *sheet) weeks(l loaded, cells []chart.Cell, part int, spans []calendar.Span, id string) piece {
	c := chart.Calendar{ID: id, Ink: l.ink, Title: "Energy of each day by " + say.Within(l.name), Words: say.LoadDays(l.Load, l.ledger, part), Shades: dayShades(cells)}
	for _, span := range spans {
		year, _, _ := span.First.Date()
		from := span.First - l.ledger.First
		c.Bands = append(c.Bands, chart.Weeks{
			Label: strconv.Itoa(year), First: weekday(span.First), Days: cells[from : int(from)+span.Days()],
			Marks: monthMarks(span), Edges: s.edges(span),
		})
	}
	key := "A column is a week, Monday on top. The darker and larger, the more: the scale is in kWh a day."
	if part > 0 {
		key += " Outlined, with a stroke or a hatch: measured in part, or filled."
	}
	if slices.ContainsFunc(cells, func(c chart.Cell) bool { return !c.Known }) {
		key += " Empty frame: no figure."
	}
	if len(s.edges(l.ledger.Span())) > 0 {
		key += " Line: a billing period begins."
	}
	return el("figure", chart.DaysByWeek(c), el("figcaption", text(key)))
}

// dayShades puts the shades where most days are.
func dayShades(cells []chart.Cell) chart.Shades {
	kWh := make([]float64, 0, len(cells))
	for _, c := range cells {
		if c.Known && !c.IsPart {
			kWh = append(kWh, c.Energy)
		}
	}
	if len(kWh) == 0 {
		kWh = append(kWh, 0, 1)
	}
	slices.Sort(kWh)
	return chart.ShadesEven(load.Quantile(kWh, 0.02), load.Quantile(kWh, 0.98), "kWh")
}

// loadDayTable has a row for each day.
func (s *sheet) loadDayTable(l loaded, cells []chart.Cell) piece {
	return table("narrow", "Daily energy by "+say.Within(l.name), []string{"Day", "kWh", "How it is known"}, tbody(each(len(cells), func(i int) piece {
		e, c := l.ledger.Days[i], cells[i]
		filled := c.IsPart && c.Energy != e.Energy.KilowattHours()
		kWh := "—"
		if c.Known {
			kWh = say.Plain(c.Energy, 2)
		}
		return dayRow(l.ledger.First+calendar.Day(i), kWh, dayState(filled, e.State), false)
	})))
}

// loadDay draws an average day.
func (s *sheet) loadDay(l loaded) piece {
	u := chart.Usual{ID: l.at + "-day", Ink: l.ink, Title: "An average day by " + say.Within(l.name), Words: say.LoadHours(l.Load)}
	for h := range 24 {
		u.Weekdays[h], u.Weekends[h] = spread(l.Typical[load.Weekdays].Hours[h]), spread(l.Typical[load.Weekends].Hours[h])
	}
	return join(
		el("figure", chart.AverageDay(u), el("figcaption", text("Half of the "+say.Counted(l.Typical[load.Weekdays].Days, "weekday", "weekdays")+" lie in the filled band, half of the "+say.Counted(l.Typical[load.Weekends].Days, "day", "days")+" of weekends in the dotted one; the lines are the medians, hour by hour."))),
		s.folded("more", l.at+"-day-table", "This day as figures", func() piece { return averageTable(l.Load) }))
}

func spread(b load.Band) chart.Spread {
	return chart.Spread{Low: b.Low / 1000, Median: b.Median / 1000, High: b.High / 1000, Known: b.Count > 0}
}

func averageTable(l load.Load) piece {
	heads := []string{"Hour from", "Weekdays, W", "Weekends, W"}
	return table("narrow", "Median power by hour, and below it between what half of the days lie", heads, tbody(each(24, func(h int) piece {
		var cells []cell
		for kind := range l.Typical {
			figure := text("—")
			if b := l.Typical[kind].Hours[h]; b.Count > 0 {
				figure = el("span", text(say.Plain(b.Median, 0)), gives(say.Plain(b.Low, 0)+" to "+say.Plain(b.High, 0)))
			}
			cells = append(cells, cell{heads[kind+1], figure, "num"})
		}
		return tr(text(say.Clock(h)), cells...)
	})))
}

// loadDuration draws for how long power was how high.
func (s *sheet) loadDuration(l loaded) piece {
	return s.folded("more", l.at+"-duration", "For how long power was how high", func() piece {
		c := chart.Duration{
			ID: l.at + "-duration-drawn", Ink: l.ink, Title: "Load duration curve by " + say.Within(l.name), Words: say.LoadDuration(l.Load),
			Above: func(share float64) float64 { return l.At(share) / 1000 }, Base: l.Base.Watts / 1000, HasBase: l.Base.IsKnown,
		}
		heads := []string{"Share of the time", "Power above, kW"}
		shares := []float64{0, 0.001, 0.01, 0.05, 0.1, 0.25, 0.5, 0.75, 0.9, 0.95, 0.99, 1}
		return join(el("figure", chart.Durations(c), el("figcaption", text("Along: the share of the measured hours. Up: the power that was exceeded for so long. "+say.LoadDuration(l.Load)))),
			table("narrow", "Load duration", heads, tbody(each(len(shares), func(i int) piece {
				return row(heads, text(percent(say.Plain(100*shares[i], 1))), say.Plain(c.Above(shares[i]), 3))
			}))))
	})
}
