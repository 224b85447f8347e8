package view

import (
	"strconv"

	"splittally/calc"
	"splittally/calc/cause"
	"splittally/calc/chart"
	"splittally/calc/chart/markup"
	"splittally/calc/say"
)

// mostCauses is how many causes are shown at once; the others are folded.
const mostCauses = 3

// causes tells why each instrument may differ from the meter.
func (s *sheet) causes() piece {
	var out []piece
	for i, inst := range s.f.Instruments {
		if inst.Causes.Done && len(inst.Causes.Causes) > 0 {
			out = append(out, s.causesOf(i, inst))
		}
	}
	if len(out) == 0 {
		return none
	}
	return join(el("h3", text("Why they differ")), join(out...), para("quiet", say.Legal))
}

func (s *sheet) causesOf(i int, inst calc.Instrument) piece {
	w := inst.Causes
	return join(
		el("h4", attr("id", id("causes", i)), class(inkText(i)), attr("tabindex", "-1"), text(inst.Name)),
		para("says-all", tied(w.Words)),
		decide(w.Decide), s.ranked(i, w))
}

// decide is the step that would tell the open causes apart.
func decide(step cause.Step) piece {
	if step.Words == "" {
		return none
	}
	return el("div", class("decide"), labelled("What would decide", step.Words), panelCaution(step))
}

// panelCaution stands wherever a step brings a person near a panel.
func panelCaution(step cause.Step) piece {
	if !step.Panel {
		return none
	}
	return el("p", class("caution"), attr("role", "note"), text(say.Caution))
}

// labelled gives a paragraph with a word in front of it.
func labelled(word, said string) piece {
	if said == "" {
		return none
	}
	return el("p", el("strong", text(word+": ")), text(tied(said)))
}

// ranked lists the causes, the likeliest first: those that can't be told apart
// as one group, then the others, and of the faintest the names alone.
func (s *sheet) ranked(i int, w cause.Weighed) piece {
	n, others := say.Told(w)
	open := w.Open
	if open < 2 {
		open = 0
	}
	if w.Causes[0].ID == cause.Chance { // nothing needs explaining, whatever else could
		return s.folded("more", id("causes-from", i, 0), capital(say.Counted(len(w.Causes), "cause was weighed", "causes were weighed")), func() piece {
			return join(s.causeList(i, 0, n), said(others))
		})
	}
	shown := min(n, mostCauses)
	group := none
	if open > 0 {
		parts := []piece{
			class("undecided"), el("p", el("strong", text("These "+strconv.Itoa(open)+" can’t be told apart"))),
			s.causeList(i, 0, min(open, shown)),
		}
		if open > shown {
			parts = append(parts, s.foldedCauses(i, shown, open, strconv.Itoa(open-shown)+" more that can’t be told apart from them"))
		}
		group = el("div", parts...)
	}
	from := max(open, shown)
	return join(group, s.causeList(i, min(open, shown), shown),
		s.foldedCauses(i, from, n, say.Counted(n-from, "less likely cause", "less likely causes")), said(others))
}

func (s *sheet) foldedCauses(i, from, to int, summary string) piece {
	if from >= to {
		return none
	}
	return s.folded("more", id("causes-from", i, from), capital(summary), func() piece { return s.causeList(i, from, to) })
}

// causeList lists the causes from one rank to before another.
func (s *sheet) causeList(i, from, to int) piece {
	if from >= to {
		return none
	}
	parts := []piece{class("causes"), markup.A("start", strconv.Itoa(from+1)).If(from > 0)}
	for k := from; k < to; k++ {
		parts = append(parts, s.explanation(i, k))
	}
	return el("ol", parts...)
}

// explanation is one cause: what it would have done, its share of the evidence,
// what it would leave, and what to do about it.
func (s *sheet) explanation(i, k int) piece {
	w := s.f.Instruments[i].Causes
	c := w.Causes[k]
	head := []piece{text(c.Name)}
	if k == 0 && w.Asserted {
		head = append(head, mark("mark", "stands alone"))
	}
	return el("li", el("h5", head...), prose(tied(c.How)),
		el("p", class("share-of"), chart.Share(chart.Ink(i), c.Probability), text(say.Share(c.Probability)+" of the evidence")),
		s.remaining(i, k),
		sentences("For", c.For), sentences("Against", c.Against),
		nextCheck(c.Check, w.Decide),
		labelled("If it is this", c.Remedy))
}

// nextCheck is the step that would decide about one cause, unless it is the one
// that stands above them all.
func nextCheck(step, above cause.Step) piece {
	if step.Words == above.Words {
		return none
	}
	return join(labelled("Next check", step.Words), panelCaution(step))
}

func sentences(word string, said []string) piece {
	switch len(said) {
	case 0:
		return none
	case 1:
		return labelled(word, said[0])
	}
	return join(el("p", class("above"), el("strong", text(word+":"))),
		el("ul", each(len(said), func(i int) piece {
			sentence := said[i]
			return el("li", text(tied(sentence)))
		})))
}

// remaining is the table of the errors that a cause would leave. One of many
// bills is folded.
func (s *sheet) remaining(i, k int) piece {
	c := s.f.Instruments[i].Causes.Causes[k]
	switch {
	case len(c.Remaining) == 0:
		return none
	case len(c.Remaining) <= mostCauses:
		return s.remainingTable(i, c)
	}
	return s.folded("more", id("remaining", i, k), "What it would leave of each error", func() piece { return s.remainingTable(i, c) })
}

func (s *sheet) remainingTable(i int, c cause.Explanation) piece {
	heads := []string{"Bill", "Error now", "Would remain"}
	results := s.f.Instruments[i].Results
	rows := each(len(c.Remaining), func(i int) piece {
		r := c.Remaining[i]
		now := "—"
		if r.Period < len(results) && results[r.Period].Compares() {
			now = percent(say.Signed(results[r.Period].Compared.Percent.InexactFloat64(), r.Expanded))
		}
		return row(heads, text(capital(s.bill(r.Period))), now, say.Percentage(r.Percent, r.Expanded))
	})
	table := table("narrow", "What it would leave, ± "+s.confidence(), heads, tbody(rows))
	if c.ID == cause.Other {
		return table
	}
	return join(table, para("quiet", "If it is this, chance leaves as much or more with "+say.Chance(c.Fit)+"."))
}

// why leads from the verdict to the likeliest cause of each instrument, unless
// that is chance.
func (s *sheet) why() piece {
	var out []piece
	for i, inst := range s.f.Instruments {
		w := inst.Causes
		if !w.Done || len(w.Causes) == 0 || w.Causes[0].ID == cause.Chance {
			continue
		}
		said := "Why"
		if len(s.f.Instruments) > 1 {
			said += " " + inst.Name + " differs"
		}
		if !w.Asserted {
			said += ", perhaps"
		}
		said += ": " + w.Causes[0].Name
		if w.Open > 1 {
			said += ", or " + say.Counted(w.Open-1, "other", "others")
		}
		out = append(out, el("button", attr("type", "button"), class("plain"), attr("data-do", "go"), attr("data-at", id("causes", i)), text(said)))
	}
	if len(out) == 0 {
		return none
	}
	return el("p", append([]piece{class("why")}, out...)...)
}
