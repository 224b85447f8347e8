package view

import (
	"strconv"
	"strings"

	"splittally/calc"
	"splittally/calc/calendar"
	"splittally/calc/compare"
	"splittally/calc/fill"
	"splittally/calc/ledger"
	"splittally/calc/say"
)

// results holds the workings of every pair of an instrument and a bill.
func (s *sheet) results() piece {
	var out []piece
	for _, p := range s.pairs() {
		if len(p.Filled.Days) > 0 {
			out = append(out, s.result(p))
		}
	}
	return headed("How each figure came about", out)
}

func (s *sheet) result(p pair) piece {
	summary := s.name(p) + ", " + s.bill(p.period)
	if !p.Compares() {
		return s.folded("result", id("result", p.period, p.instrument), summary, func() piece {
			return join(s.days(p), s.filling(p))
		})
	}
	return s.folded("result", id("result", p.period, p.instrument), summary+": "+say.Error(p.Compared), func() piece {
		return join(prose(tied(say.Verdict(s.name(p), p.Compared))),
			s.days(p), s.filling(p), s.figures(p), s.budget(p), s.shifts(p), s.ways(p))
	})
}

// figures lists what the comparison comes to, with the base of each percentage.
func (s *sheet) figures(p pair) piece {
	c := p.Compared
	list := []fact{
		{"Monitor", kWh(amount(c.Indicated.Energy))},
		{"Meter", kWh(amount(c.Reference.Energy))},
		{"Error, 100 × (monitor − meter) ÷ meter", percent(sign(c.Percent.StringFixed(2)))},
		{"Registration, 100 × monitor ÷ meter", percent(c.Registration.StringFixed(2))},
	}
	if c.Indicated.Energy != p.Filled.Total {
		list = append(list[:1:1], append([]fact{{"Monitor, from midnight to midnight", kWh(amount(p.Filled.Total))}}, list[1:]...)...)
	}
	base := none
	if c.WrongBase.Valid {
		base = s.folded("more", id("base", p.period, p.instrument), "Divided by the monitor’s figure instead", func() piece {
			return prose("100 × (monitor − meter) ÷ monitor is " + percent(sign(c.WrongBase.Decimal.StringFixed(2))) +
				". Many people divide so. It is not the percentage error: the meter is what the monitor is held against, so the meter is the base.")
		})
	}
	return join(facts(list...), base)
}

// filling tells which days were filled and how the way was chosen.
func (s *sheet) filling(p pair) piece {
	f := p.Filled
	if f.Filled == 0 {
		return prose("Every day of the bill was measured; nothing was filled.")
	}
	said := capital(say.Counted(f.Filled, "day", "days")) + " of " + strconv.Itoa(len(f.Days)) + " filled: " + strings.Join(filledRuns(f.Days), ", ") + ". "
	if f.Partial > 0 {
		said += capital(say.Counted(f.Partial, "of them was", "of them were")) + " measured for some hours, and only the rest was estimated. "
	}
	ways := f.Ways()
	for _, w := range ways {
		if len(ways) == 1 {
			said += "Way: " + w.Method.Words() + "."
			break
		}
		said += "Way for " + say.Counted(w.Days, "day", "days") + ": " + w.Method.Words() + ". "
	}
	if f.Chosen {
		said += " The way was chosen by trial: it did best when the same gap was cut out of measured days."
	}
	said += " What filling leaves unsure: " + kWh(say.Interval(f.Standard)) + " (standard uncertainty)."
	return join(prose(said), s.trials(p))
}

// filledRuns names the filled days, runs of them as one.
func filledRuns(days []fill.Day) []string {
	var out []string
	for i := 0; i < len(days); i++ {
		if !days[i].Filled {
			continue
		}
		from := i
		for i+1 < len(days) && days[i+1].Filled {
			i++
		}
		run := days[from].Day.Short()
		if i > from {
			run += " to " + days[i].Day.Short()
		}
		out = append(out, run)
	}
	return out
}

// trials is the table of ways to fill and how each did.
func (s *sheet) trials(p pair) piece {
	if len(p.Filled.Trials) == 0 {
		return none
	}
	// A trial of the ratio is over those days alone that it can fill.
	return s.folded("more", id("trials", p.period, p.instrument), "How the ways to fill did", func() piece { return trialTable(p.Filled) })
}

func trialTable(f fill.Result) piece {
	heads := []string{"Way to fill", "Tries", "Typical miss, kWh", "Mean miss, kWh"}
	rows := each(len(f.Trials), func(i int) piece {
		t := f.Trials[i]
		name := methodName(t.Method)
		if t.Method == f.Method {
			name += " (taken)"
		}
		return row(heads, text(name), strconv.Itoa(t.Tries), say.Interval(t.RMS), say.Signed(t.Mean, t.RMS))
	})
	return table("narrow", "The same gap, cut out of measured days", heads, tbody(rows))
}

func methodName(m fill.Method) string {
	switch m {
	case fill.Line:
		return "straight line"
	case fill.LikeDays:
		return "like weekdays"
	case fill.Mean:
		return "mean of the period"
	case fill.Near:
		return "days around"
	case fill.Ratio:
		return "other monitor"
	case fill.Hours:
		return "its own hours"
	}
	return string(m)
}

// shifts tells what a bill read a day off would change.
func (s *sheet) shifts(p pair) piece {
	if len(p.Shifts) == 0 {
		return none
	}
	return s.folded("more", id("shifts", p.period, p.instrument), "If the bill’s dates were a day off", func() piece { return shiftTable(p.Result) })
}

func shiftTable(r calc.Result) piece {
	heads := []string{"If the bill …", "Error"}
	var rows []piece
	for i, shift := range r.Shifts {
		said := shiftWords(shift)
		if i == r.Best {
			said += " (would mend it best)"
		}
		rows = append(rows, row(heads, text(said), percent(sign(shift.Percent.StringFixed(2)))))
	}
	return join(table("narrow", "What one day changes", heads, tbody(rows...)),
		para("quiet", "A day is about a thirtieth of a month, so many errors of a few percent look like a day. It is a hint, not a proof."))
}

func shiftWords(shift compare.Shift) string {
	day := func(n int) string {
		if n < 0 {
			return "a day earlier"
		}
		return "a day later"
	}
	switch {
	case shift.Start == shift.End:
		return "began and ended " + day(shift.Start)
	case shift.Start != 0:
		return "began " + day(shift.Start)
	}
	return "ended " + day(shift.End)
}

// ways gives the error under each reading of the bill's dates.
func (s *sheet) ways(p pair) piece {
	if len(p.Ways) == 0 {
		return none
	}
	return s.folded("more", id("ways", p.period, p.instrument), "Ways to read the bill’s dates", func() piece { return wayTable(p.Ways) })
}

func wayTable(ways []calc.WayResult) piece {
	heads := []string{"Which dates belong", "kWh", "Error"}
	var rows []piece
	for _, w := range ways {
		off := "—"
		if w.Known {
			off = percent(sign(w.Percent.StringFixed(2)))
		}
		rows = append(rows, row(heads, text(w.Way.Convention.Words()+": "+spanWords(w.Way.Span)), amount(w.Total), off))
	}
	return table("narrow", "The same bill, read differently", heads, tbody(rows...))
}

// sign gives a number in text a plus or a true minus.
func sign(number string) string {
	bare := strings.TrimPrefix(number, "-")
	switch {
	case strings.Trim(bare, "0.") == "":
		return bare
	case bare != number:
		return say.Minus + bare
	}
	return "+" + number
}

// dayState says in a word how the energy of a day is known.
func dayState(filled bool, state ledger.State) string {
	switch {
	case filled && state == ledger.Partial:
		return "measured in part, rest filled"
	case filled:
		return "filled"
	case state == ledger.Spread:
		return "share of a longer total"
	case state == ledger.Partial:
		return "measured in part"
	case state == ledger.Missing:
		return "missing"
	}
	return "measured"
}

// around is how many days before and after a bill are drawn with it.
const around = 3

// drawnDays gives the days of a bill and some around it.
func (s *sheet) drawnDays(p pair) calendar.Span {
	span := s.f.Periods[p.period].Span
	return calendar.Span{First: span.First - around, End: span.End + around}
}
