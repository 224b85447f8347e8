package view

import (
	"splittally/calc/chart/markup"
	"splittally/calc/correct"
	"splittally/calc/fit"
	"splittally/calc/ledger"
	"splittally/calc/say"
)

// corrections tells what to set each instrument to, and what that would do.
func (s *sheet) corrections() markup.Markup {
	var out []markup.Part
	for i, inst := range s.f.Instruments {
		if len(inst.Corrections) == 0 {
			continue
		}
		out = append(out, el("h4", class(inkText(i)), text(inst.Name)), notice(say.Reserve(inst.Causes, inst.Corrections)))
		for k, c := range inst.Corrections {
			out = append(out, s.correction(i, k, c))
		}
	}
	if len(out) == 0 {
		return markup.Markup{}
	}
	return markup.Join(append([]markup.Part{el("h3", text("What to set"))}, out...)...)
}

// notice gives a paragraph that stands out, or nothing.
func notice(words string) markup.Markup {
	if words == "" {
		return markup.Markup{}
	}
	return el("p", class("notice"), text(words))
}

func (s *sheet) correction(i, k int, c correct.Correction) markup.Markup {
	name := "From the bills"
	if c.Basis == correct.FromChecks {
		name = "From the checks at the legs"
	}
	set := func() markup.Markup { return markup.Join(settings(c.Settings), said(c.How)) }
	how := markup.Markup{}
	if why := say.NoRemedy(s.f.Instruments[i].Causes, c); why != "" {
		how = s.folded("more", id("settings", i, k), why, set)
	} else {
		how = set()
	}
	return markup.Join(el("h5", text(name)), p(say.Multiply(c)), said(c.Words), s.judgedTable(c), how, s.correctedDays(i, k, c))
}

// said gives a paragraph, or nothing.
func said(words string) markup.Markup {
	if words == "" {
		return markup.Markup{}
	}
	return p(tied(words))
}

func settings(list []correct.Setting) markup.Markup {
	if len(list) == 0 {
		return markup.Markup{}
	}
	heads := []string{"Setting", "Now", "Times", "Set it to", "If it works the other way round"}
	rows := markup.Each(list, func(set correct.Setting) markup.Markup {
		name := set.Name
		if name == "" {
			name = "The overall setting"
		}
		now := []markup.Part{text(say.Old(set))}
		if set.IsAssumed {
			now = append(now, text(" "), el("span", class("mark"), text("assumed")))
		}
		inverse := say.Inverse(set)
		if inverse == "" {
			inverse = "—"
		}
		return tr(markup.Join(text(name), el("span", class("gives"), text(set.Words()))),
			cell{heads[1], el("span", now...), "num"}, cell{heads[2], text(say.Factor(fit.Value{Value: set.Factor, Expanded: set.Expanded})), "num"},
			cell{heads[3], el("strong", text(say.Set(set, set.New))), "num"}, cell{heads[4], text(inverse), "num"})
	})
	return table("wide", "The settings", heads, tbody(rows))
}

// judgedTable shows what a correction does to each bill, and which bills judge
// it: on one that it was found on nothing is tested.
func (s *sheet) judgedTable(c correct.Correction) markup.Markup {
	if len(c.Judged) == 0 {
		return markup.Markup{}
	}
	heads := []string{"Bill", "Error now", "As set, no test", "By a factor of other bills", "Then"}
	if c.Basis == correct.FromChecks {
		heads[2], heads[3] = "As set", "By the checks"
	}
	rows := markup.Each(c.Judged, func(j correct.Judged) markup.Markup {
		after, then := "—", say.NoTest(c, j)
		if then == "" {
			after, then = say.Percentage(j.After, j.Expanded), say.Short(j.Verdict)
		}
		return tr(text(capital(say.Judged(j))),
			cell{heads[1], text(percent(say.Fixed(j.Before, 2))), "num"}, cell{heads[2], text(percent(say.Fixed(j.Predicted, 2))), "num"},
			cell{heads[3], text(after), "num"}, cell{heads[4], text(then), "short-word"})
	})
	return table("wide", "What it does to each error, ± "+s.confidence(), heads, tbody(rows))
}

// correctedDays is the corrected history, with what is estimated marked so.
func (s *sheet) correctedDays(i, k int, c correct.Correction) markup.Markup {
	if len(c.Days) == 0 {
		return markup.Markup{}
	}
	summary := "The corrected history: " + say.Counted(len(c.Days), "day", "days")
	return s.folded("more", id("table-corrected", i, k), summary, func() markup.Markup {
		heads := []string{"Day", "kWh as it was", "kWh corrected, ± " + s.confidence()}
		rows := markup.Each(c.Days, func(d correct.Day) markup.Markup {
			day := []markup.Part{text(d.Day.Long())}
			if known := dayState(d.Filled, d.State); d.Filled || d.State != ledger.Measured {
				day = append(day, text(" "), el("span", class(dayMark(d)), text(known)))
			}
			return tr(markup.Join(day...), cell{heads[1], text(minus(d.Was.Text(2))), "num"},
				cell{heads[2], text(minus(d.Corrected.Text(2)) + say.PlusMinus + dayInterval(d)), "num"})
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
