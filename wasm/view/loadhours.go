package view

import (
	"math"
	"slices"
	"strconv"

	"splittally/calc/calendar"
	"splittally/calc/chart"
	"splittally/calc/load"
	"splittally/calc/say"
)

// loadHours draws every hour, a year at a time. They are folded away because
// they have the most markup of all pictures.
func (s *sheet) loadHours(l loaded) piece {
	all := bands(l.Span())
	return each(len(all), func(i int) piece {
		span := all[len(all)-1-i] // the latest first
		summary := "Every hour"
		if year, _, _ := span.First.Date(); len(all) > 1 {
			summary += " of " + strconv.Itoa(year)
		}
		at := id(l.at+"-hours", len(all)-1-i)
		return s.folded("more", at, summary, func() piece {
			h := heat(l, span)
			h.ID, h.Edges = at+"-drawn", s.edges(span)
			return join(el("figure", chart.HoursByDay(h), el("figcaption", text(heatKey(l, h)))),
				partsTable(l.Load, span))
		})
	})
}

// heatKey explains the signs that the drawing of the hours has.
func heatKey(l loaded, h chart.Heat) string {
	key := "A column is a day, a row an hour, from midnight on top. The darker, the more: each shade stands for up to twice the power of the one before."
	if slices.ContainsFunc(h.Days, func(d chart.HeatDay) bool { return slices.ContainsFunc(d[:], math.IsNaN) }) {
		key += " Thin line: no figure."
	}
	if l.Below > 0 {
		key += " Strip of half the height: more was sent out than used."
	}
	if len(h.Edges) > 0 {
		key += " Dashed: a billing period begins."
	}
	return key
}

// heat gives the hours of a span for drawing.
func heat(l loaded, span calendar.Span) chart.Heat {
	h := chart.Heat{
		Ink: l.ink, Title: "Power in every hour by " + say.Within(l.name), Words: "Hours of the day by days, " + span.String() + ". " + say.LoadHours(l.Load) + "The table has the means by month.",
		Shades: chart.ShadesDoubled(l.At(0.05)/1000, "kW"), Days: make([]chart.HeatDay, span.Days()), Marks: monthMarks(span),
	}
	for i := range h.Days {
		for hour := range 24 {
			h.Days[i][hour] = chart.Unknown
		}
	}
	for i := range l.Days {
		d := &l.Days[i]
		if !span.Has(d.Day) {
			continue
		}
		to := &h.Days[d.Day-span.First]
		for hour := range 24 {
			switch run := d.Run(hour); {
			case run.Counts():
				to[hour] = run.Watts() / 1000
			case d.IsWhole && run.Covered == 0:
				to[hour] = chart.Never
			}
		}
	}
	return h
}

// partsTable has the mean power of parts of the day, month by month.
func partsTable(l load.Load, span calendar.Span) piece {
	heads := []string{"Month"}
	for from := 0; from < 24; from += load.PartHours {
		heads = append(heads, strconv.Itoa(from)+"–"+strconv.Itoa(from+load.PartHours))
	}
	return table("tight", "Mean power in kW, by month and hours of the day", heads, tbody(each(len(l.Months), func(i int) piece {
		days := l.Months[i].Common(span)
		if days.Days() == 0 {
			return none
		}
		var figures []string
		for _, p := range l.Parts(days) {
			if p.Hours == 0 {
				figures = append(figures, "—")
			} else {
				figures = append(figures, say.Plain(p.Watts/1000, 2))
			}
		}
		return row(heads, text(monthOf(days.First)), figures...)
	})))
}
