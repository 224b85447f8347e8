package view

import (
	"slices"
	"strconv"

	"splittally/calc"
	"splittally/calc/calendar"
	"splittally/calc/chart"
	"splittally/calc/metered"
	"splittally/calc/paired"
	"splittally/calc/say"
)

// mostOdd is how many days that disagree are listed at once.
const mostOdd = 6

// paired lays each instrument beside the meter's own days.
func (s *sheet) paired() piece {
	var out []piece
	for i, inst := range s.f.Instruments {
		if inst.IsPaired {
			out = append(out, s.pairedOf(i, inst))
		}
	}
	return headed("Day by day beside the meter", out)
}

func (s *sheet) pairedOf(i int, inst calc.Instrument) piece {
	told := say.Paired(inst.Name, inst.Paired)
	said := "One mark for each day. Dashed: where both count alike."
	if len(inst.Paired.Days) <= chart.Crowded {
		said += " Solid: what is usual of this monitor."
	}
	if len(inst.Paired.Odd) > 0 {
		said += " ▲: a day that disagrees; one beyond the scale stands at its edge."
	}
	return join(
		el("h4", class(inkText(i)), text(inst.Name)),
		el("figure", chart.Apart(s.differences(i, inst)), el("figcaption", text(said))),
		each(len(told), func(k int) piece { return prose(tied(told[k])) }),
		s.oddDays(i, inst.Paired),
		s.folded("more", id("paired-days", i), "All days as figures", func() piece { return s.pairedTable(inst) }))
}

func (s *sheet) differences(i int, inst calc.Instrument) chart.Differences {
	days := inst.Paired.Days
	first, last := days[0].Day, days[len(days)-1].Day
	c := chart.Differences{
		ID: id("apart", i), Ink: chart.Ink(i), Title: inst.Name + " less the meter, day by day",
		Words: capital(say.Counted(len(days), "day", "days")) + " from " + first.Long() + " to " + last.Long() + ", " +
			say.Counted(len(inst.Paired.Odd), "of them disagrees", "of them disagree") + ". The table below has the figures.",
		Long: float64(last-first) + 1, Labels: dayLabels(first, last),
	}
	for _, d := range days {
		meter := d.Meter.KilowattHours() // an error of nothing is no number, which is not drawn
		c.Days = append(c.Days, chart.Difference{
			At: float64(d.Day - first), Off: 100 * (d.Monitor.KilowattHours()/meter - 1), Usual: 100 * (d.Expected/meter - 1), Odd: d.Disagrees,
		})
	}
	return c
}

// dayLabels names days: each week's of two months, else first days of months.
func dayLabels(first, last calendar.Day) (out []chart.Label) {
	const weeks, most = 62, 6
	if last-first < weeks {
		for d := first; d <= last; d += max(7, (last-first)/most) {
			out = append(out, chart.Label{At: float64(d - first), Text: d.Short()})
		}
		return out
	}
	months := int(last-first)/30/most + 1
	n := 0
	for d := first; d <= last; d++ {
		if _, _, day := d.Date(); day != 1 {
			continue
		}
		if n%months == 0 {
			out = append(out, chart.Label{At: float64(d - first), Text: d.Long()[len("1 "):]})
		}
		n++
	}
	return out
}

// oddDays lists the days that disagree; those beyond the first are folded.
func (s *sheet) oddDays(i int, p paired.Result) piece {
	if len(p.Odd) == 0 {
		return none
	}
	few := p.Odd[:min(mostOdd, len(p.Odd))]
	rest := none
	if n := len(p.Odd) - len(few); n > 0 {
		rest = s.folded("more", id("odd-days", i), strconv.Itoa(n)+" more days that disagree", func() piece { return oddTable("", p.Odd[len(few):]) })
	}
	return join(oddTable("Days that disagree", few), rest)
}

func oddTable(caption string, odd []paired.Odd) piece {
	heads := []string{"Day", "Monitor, kWh", "Meter, kWh", "Usual", "It looks like"}
	if caption == "" {
		caption = "Further days that disagree"
	}
	rows := each(len(odd), func(k int) piece {
		o := odd[k]
		return tr(text(o.Day.Day.Long()), num(heads[1], minus(o.Monitor.Text(2))), num(heads[2], minus(o.Meter.Text(2))),
			num(heads[3], say.Plain(o.Expected, 2)+say.PlusMinus+say.Interval(o.Limit)), word(heads[4], say.OddDay(o)))
	})
	return table("wide", caption, heads, tbody(rows))
}

func (s *sheet) pairedTable(inst calc.Instrument) piece {
	heads := []string{"Day", "Monitor, kWh", "Meter, kWh", "Apart, kWh"}
	days := inst.Paired.Days
	rows := each(len(days), func(k int) piece {
		d := days[k]
		name := text(d.Day.Long())
		if d.Disagrees {
			name = join(name, mark("mark", "disagrees"))
		}
		return row(heads, name, minus(d.Monitor.Text(2)), minus(d.Meter.Text(2)), sign((d.Monitor - d.Meter).Text(2)))
	})
	return table("wide", inst.Name+" and the meter, day by day", heads, tbody(rows))
}

// metered holds the meter's own days against its bills.
func (s *sheet) metered() piece {
	m := s.f.Metered
	if !s.f.IsMetered {
		return none
	}
	parts := []piece{para("says-all", tied(m.Words))}
	for _, f := range m.Found {
		parts = append(parts, prose(tied(f.Words)))
	}
	const several = 6
	if len(m.Bills) <= several {
		parts = append(parts, s.meteredTable())
	} else {
		parts = append(parts, s.folded("more", "metered-bills", "All bills as figures", s.meteredTable))
	}
	return headed("The meter’s own days beside its bills", parts)
}

func (s *sheet) meteredTable() piece {
	bills := s.f.Metered.Bills
	heads := []string{"Bill", "Billed, kWh", "Meter’s own days, kWh", "Apart", "It is"}
	rows := each(len(bills), func(k int) piece {
		b := bills[k]
		counted, apart := minus(b.Metered.Text(2)), sign(b.Differs.Text(2))
		if b.Missing > 0 {
			counted, apart = "—", "—"
		}
		return tr(text(capital(s.bill(b.Index))), num(heads[1], minus(b.Billed.Decimal().String())), num(heads[2], counted), num(heads[3], apart),
			word(heads[4], say.MeteredBill(b)))
	})
	out := table("wide", "Bills beside the meter’s own days", heads, tbody(rows))
	if slices.ContainsFunc(bills, func(b metered.Judged) bool { return b.Missing > 0 }) {
		out = join(out, para("quiet", "Bills whose days the record does not have in full are not judged."))
	}
	return out
}
