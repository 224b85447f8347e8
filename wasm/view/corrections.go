package view

import (
	"slices"
	"strconv"

	"splittally/calc"
	"splittally/calc/cause"
	"splittally/calc/chart/markup"
	"splittally/calc/correct"
	"splittally/calc/fit"
	"splittally/calc/say"
)

// corrections tells what to set each instrument to, and what that would do.
func (s *sheet) corrections() markup.Markup {
	var out []markup.Part
	for i, inst := range s.f.Instruments {
		if len(inst.Corrections) == 0 {
			continue
		}
		out = append(out, el("h4", class(inkText(i)), text(inst.Name)), reserve(inst))
		for k, c := range inst.Corrections {
			out = append(out, s.correction(i, k, c))
		}
	}
	if len(out) == 0 {
		return markup.Markup{}
	}
	return markup.Join(append([]markup.Part{el("h3", text("What to set"))}, out...)...)
}

// reserve warns of setting a gain for what is no matter of gain, or may be none.
func reserve(inst calc.Instrument) markup.Markup {
	w := inst.Causes
	if !w.Done || len(w.Causes) == 0 {
		return markup.Markup{}
	}
	first := w.Causes[0]
	switch {
	case first.ID == cause.Chance:
		return el("p", class("notice"), text("Nothing shows that anything has to be set: sound instruments may differ by as much."))
	case w.Asserted && !first.Sets:
		return el("p", class("notice"), text("The cause found above is “"+first.Name+"”. A changed gain is not the remedy for that; what follows only shows what one would do."))
	}
	for _, c := range w.Causes[:min(max(1, w.Open), len(w.Causes))] {
		if !c.Sets {
			return el("p", class("notice"), text("The cause is not settled yet, so wait with the setting: if it is no matter of gain, a changed gain would only hide it."))
		}
	}
	return markup.Markup{}
}

func (s *sheet) correction(i, k int, c correct.Correction) markup.Markup {
	name := "From the bills"
	if c.Basis == correct.FromChecks {
		name = "From the checks at the legs"
	}
	factor := "Multiply its energy by " + say.Factor(fit.Value{Value: c.Factor, Expanded: c.Expanded}) + "."
	if !c.Significant {
		factor += " The interval holds 1: on this ground nothing needs setting."
	}
	return markup.Join(el("h5", text(name)), p(factor), said(c.Words), s.judgedTable(c),
		settings(c.Settings), said(c.How), s.correctedDays(i, k, c))
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
	heads := []string{"Setting", "Now", "Times", "Set it to", "In steps of"}
	rows := markup.Each(list, func(set correct.Setting) markup.Markup {
		name := set.Name
		if name == "" {
			name = "The overall setting"
		}
		unit := settingUnit(set)
		now := []markup.Part{text(minus(set.Old.String()) + unit)}
		if set.IsAssumed {
			now = append(now, text(" "), el("span", class("mark"), text("assumed")))
		}
		return tr(markup.Join(text(name), el("span", class("gives"), text(set.Words()))),
			cell{heads[1], el("span", now...), "num"}, cell{heads[2], text(gainText(set.Factor)), "num"},
			cell{heads[3], newSetting(set), "num"}, cell{heads[4], text(minus(set.Step.String()) + unit), "num"})
	})
	return table("wide", "The settings", heads, tbody(rows))
}

// newSetting is the figure to set, and the one for a monitor whose figure falls
// when the setting rises.
func newSetting(set correct.Setting) markup.Markup {
	places, unit := set.Places(), settingUnit(set)
	parts := []markup.Part{el("strong", text(minus(set.New.StringFixed(places))+unit))}
	if !set.Inverse.IsZero() && !set.Inverse.Equal(set.New) {
		parts = append(parts, el("span", class("gives"), text("divided: "+minus(set.Inverse.StringFixed(places))+unit)))
	}
	return el("span", parts...)
}

func settingUnit(set correct.Setting) string {
	if set.Unit == "" {
		return ""
	}
	return say.Thin + set.Unit
}

// gainText writes a factor to a hundredth of a percent.
func gainText(factor float64) string { return strconv.FormatFloat(factor, 'f', 4, 64) }

// judgedTable shows how a correction does on each bill, and whether it was found
// on that very bill.
func (s *sheet) judgedTable(c correct.Correction) markup.Markup {
	if len(c.Judged) == 0 {
		return markup.Markup{}
	}
	heads := []string{"Bill", "Error now", "Corrected", "Found on", "Then"}
	rows := markup.Each(c.Judged, func(j correct.Judged) markup.Markup {
		after, on, then := say.Percentage(j.After, j.Expanded), "the other bills", say.Short(j.Verdict)
		switch {
		case c.Basis == correct.FromChecks:
			on = "no bill"
		case !j.HeldOut:
			after, on, then = "—", "—", "no test"
			if slices.Contains(c.Found, j.Period) {
				on = "this very bill"
			}
		}
		return tr(text(capital(say.Bills(append([]int{j.Period}, j.With...)))),
			cell{heads[1], text(percent(say.Fixed(j.Before, 2))), "num"}, cell{heads[2], text(after), "num"},
			cell{heads[3], text(on), "short-word"}, cell{heads[4], text(then), "short-word"})
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
			if d.Filled {
				day = append(day, text(" "), el("span", class("mark guessed"), text("estimated")))
			}
			return tr(markup.Join(day...), cell{heads[1], text(minus(d.Was.Text(2))), "num"},
				cell{heads[2], text(minus(d.Corrected.Text(2)) + say.PlusMinus + dayInterval(d)), "num"})
		})
		return table("narrow", "Daily energy of "+s.f.Instruments[i].Name+", corrected", heads, tbody(rows))
	})
}

func dayInterval(d correct.Day) string {
	if d.IsUnlimited {
		return "unknown"
	}
	return d.Expanded.Text(2)
}
