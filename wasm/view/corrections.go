package view

import (
	"splittally/calc/chart/markup"
	"splittally/calc/correct"
	"splittally/calc/fit"
	"splittally/calc/ledger"
	"splittally/calc/say"
)

// corrections tells what to set each instrument to, and what that would do.
func (s *sheet) corrections() piece {
	var out []piece
	for i, inst := range s.f.Instruments {
		if len(inst.Corrections) == 0 {
			continue
		}
		out = append(out, el("h4", class(inkText(i)), text(inst.Name)), notice(say.Reserve(inst.Causes, inst.Corrections)))
		for k, c := range inst.Corrections {
			out = append(out, s.correction(i, k, c))
		}
	}
	return headed("What to set", out)
}

// notice gives a paragraph that stands out, or nothing.
func notice(words string) piece {
	if words == "" {
		return none
	}
	return para("notice", words)
}

func (s *sheet) correction(i, k int, c correct.Correction) piece {
	name := map[correct.Basis]string{
		correct.FromBills: "From the bills", correct.FromChecks: "From the checks at the legs", correct.FromPulses: "From timing the meter",
	}[c.Basis]
	set := func() piece { return join(settings(c.Settings), said(c.How)) }
	var how piece
	if why := say.NoRemedy(s.f.Instruments[i].Causes, c); why != "" {
		how = s.folded("more", id("settings", i, k), why, set)
	} else {
		how = set()
	}
	return join(el("h5", text(name)), prose(say.Multiply(c)), said(c.Words), s.judgedTable(c), how, s.correctedDays(i, k, c))
}

// said gives a paragraph, or nothing.
func said(words string) piece {
	if words == "" {
		return none
	}
	return prose(tied(words))
}

func settings(list []correct.Setting) piece {
	if len(list) == 0 {
		return none
	}
	heads := []string{"Setting", "Now", "Times", "Set it to", "If it works the other way round"}
	rows := each(len(list), func(i int) piece {
		set := list[i]
		name := set.Name
		if name == "" {
			name = "The overall setting"
		}
		now := []piece{text(say.Old(set))}
		if set.IsAssumed {
			now = append(now, mark("mark", "assumed"))
		}
		inverse := say.Inverse(set)
		if inverse == "" {
			inverse = "—"
		}
		return tr(join(text(name), gives(set.Words())),
			cell{heads[1], el("span", now...), "num"}, num(heads[2], say.Factor(fit.Value{Value: set.Factor, Expanded: set.Expanded})),
			cell{heads[3], el("strong", text(say.Set(set, set.New))), "num"}, num(heads[4], inverse))
	})
	return table("wide", "The settings", heads, tbody(rows))
}

// judgedTable shows what a correction does to each bill, and which bills judge
// it: on one that it was found on nothing is tested.
func (s *sheet) judgedTable(c correct.Correction) piece {
	if len(c.Judged) == 0 {
		return none
	}
	heads := []string{"Bill", "Error now", "As set, no test", "By a factor of other bills", "Then"}
	switch c.Basis {
	case correct.FromChecks:
		heads[2], heads[3] = "As set", "By the checks"
	case correct.FromPulses:
		heads[2], heads[3] = "As set", "By the timing"
	}
	rows := each(len(c.Judged), func(i int) piece {
		j := c.Judged[i]
		after, then := "—", say.NoTest(c, j)
		if then == "" {
			after, then = say.Percentage(j.After, j.Expanded), say.Short(j.Verdict)
		}
		return tr(text(capital(say.Judged(j))),
			num(heads[1], percent(say.Fixed(j.Before, 2))), num(heads[2], percent(say.Fixed(j.Predicted, 2))),
			num(heads[3], after), cell{heads[4], text(then), "short-word"})
	})
	return table("wide", "What it does to each error, ± "+s.confidence(), heads, tbody(rows))
}

// correctedDays is the corrected history, with what is estimated marked so.
func (s *sheet) correctedDays(i, k int, c correct.Correction) piece {
	if len(c.Days) == 0 {
		return none
	}
	summary := "The corrected history: " + say.Counted(len(c.Days), "day", "days")
	return s.folded("more", id("table-corrected", i, k), summary, func() piece {
		heads := []string{"Day", "kWh as it was", "kWh corrected, ± " + s.confidence()}
		rows := each(len(c.Days), func(i int) piece {
			d := c.Days[i]
			day := []piece{text(d.Day.Long())}
			if known := dayState(d.Filled, d.State); d.Filled || d.State != ledger.Measured {
				day = append(day, text(" "), el("span", class(dayMark(d)), text(known)))
			}
			return row(heads, join(day...), minus(d.Was.Text(2)), minus(d.Corrected.Text(2))+say.PlusMinus+dayInterval(d))
		})
		return table("narrow", "Daily energy of "+s.f.Instruments[i].Name+", corrected. Hatched: estimated", heads, tbody(rows))
	})
}

// dayMark hatches the mark of a day that was estimated.
func dayMark(d correct.Day) markup.Name {
	if d.Filled {
		return "mark guessed"
	}
	return "mark"
}

func dayInterval(d correct.Day) string {
	if d.IsUnlimited {
		return "unknown"
	}
	return d.Expanded.Text(2)
}
