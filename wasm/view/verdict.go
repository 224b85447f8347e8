package view

import (
	"strings"

	"splittally/calc/calendar"
	"splittally/calc/chart/markup"
	"splittally/calc/compare"
	"splittally/calc/ledger"
	"splittally/calc/say"
)

// judged is the judgement of one instrument: over all periods if they were
// pooled, else over the one that there is.
type judged struct {
	instrument int
	name       string
	periods    int
	compare.Comparison
}

func (s *sheet) judgements() []judged {
	var out []judged
	for i, inst := range s.f.Instruments {
		if inst.IsPooled {
			out = append(out, judged{i, inst.Name, inst.Pooled.Periods, inst.Pooled.Total})
			continue
		}
		for _, r := range inst.Results {
			if r.Compares() {
				out = append(out, judged{i, inst.Name, 1, r.Compared})
			}
		}
	}
	return out
}

// verdict says how every instrument stands and what is open.
func (s *sheet) verdict() markup.Markup {
	all := s.judgements()
	if len(all) == 0 {
		return markup.Join(el("p", class("start"), text(s.begin())), s.openLine())
	}
	sentences := markup.Each(all, func(j judged) markup.Markup {
		said := say.Verdict(j.name, j.Comparison)
		if inst := s.f.Instruments[j.instrument]; inst.IsPooled {
			said = say.Pooled(j.name, inst.Pooled)
		}
		return el("p", class("says-all"), text(said))
	})
	return markup.Join(sentences,
		el("p", class("quiet"), text("± is the "+s.confidence()+" interval. Errors are in percent of the meter’s kWh.")),
		s.openLine())
}

func (s *sheet) confidence() string { return percent(markup.Number(100 * s.f.Confidence)) }

// openLine leads to the first open question.
func (s *sheet) openLine() markup.Markup {
	n, first := s.unanswered()
	if n == 0 {
		return markup.Markup{}
	}
	return el("p", el("button", markup.A("type", "button"), class("plain"), markup.A("data-do", "go"), markup.A("data-at", id("question", first, 0)),
		text(capital(openQuestions(n))+": go to the first")))
}

func openQuestions(n int) string { return say.Counted(n, "question open", "questions open") }

// begin tells what is still missing before there is anything to compare.
func (s *sheet) begin() string {
	readings, bills := s.readingsSaid(), s.billsSaid()
	switch {
	case readings == "" && bills == "":
		return "Paste the daily totals and type a bill: what they come to appears here as you type."
	case bills == "":
		return readings + " Now type the dates of a bill and its kWh."
	case readings == "":
		return bills + " Now paste the daily totals of your monitor."
	}
	return strings.TrimSpace(readings + " " + bills + " " + s.waits())
}

// readingsSaid tells how much the instruments measured.
func (s *sheet) readingsSaid() string {
	var out []string
	for _, inst := range s.f.Instruments {
		span := inst.Ledger.Span()
		n := 0
		for d := span.First; d < span.End; d++ {
			if inst.Ledger.At(d).State != ledger.Missing {
				n++
			}
		}
		if n > 0 {
			out = append(out, inst.Name+" has "+say.Counted(n, "day", "days")+" from "+span.First.Long()+" to "+span.Last().Long()+".")
		}
	}
	return strings.Join(out, " ")
}

// billsSaid tells what the bills hold so far.
func (s *sheet) billsSaid() string {
	var out []string
	for i, b := range s.f.Periods {
		if b.Dated {
			out = append(out, capital(s.bill(i))+" covers "+say.Counted(b.Days(), "day", "days")+", "+spanWords(b.Span)+".")
		}
	}
	return strings.Join(out, " ")
}

// waits tells why bills and readings that are there can't be compared.
func (s *sheet) waits() string {
	var out []string
	said := map[string]bool{}
	for _, p := range s.pairs() {
		bill := s.f.Periods[p.period]
		if !bill.Dated || p.Waits == "" {
			continue
		}
		if line := capital(s.bill(p.period)) + ": " + p.Waits + "."; !said[line] {
			said[line] = true
			out = append(out, line)
		}
	}
	return strings.Join(out, " ")
}

func spanWords(span calendar.Span) string { return span.First.Long() + " to " + span.Last().Long() }

// short is the verdict in a line, for the bar that is always in reach.
func (s *sheet) short() string {
	var out []string
	for _, j := range s.judgements() {
		out = append(out, j.name+" "+shortVerdict(j.Comparison))
	}
	if len(out) == 0 {
		out = append(out, s.shortStart())
	}
	if n, _ := s.unanswered(); n > 0 {
		out = append(out, openQuestions(n))
	}
	if n := s.toMend(); n > 0 {
		out = append(out, say.Counted(n, "entry to mend", "entries to mend"))
	}
	return strings.Join(out, " · ")
}

func shortVerdict(c compare.Comparison) string {
	switch c.Verdict {
	case compare.Agree:
		return "agrees: " + say.Error(c)
	case compare.CannotTell:
		return "can’t tell yet: " + say.Error(c)
	}
	return say.Short(c.Verdict) + ": " + say.Error(c)
}

func (s *sheet) shortStart() string {
	switch readings, bills := s.readingsSaid(), s.billsSaid(); {
	case readings == "" && bills == "":
		return "Nothing to compare yet"
	case bills == "":
		return "Readings are in: now a bill"
	case readings == "":
		return "A bill is in: now the daily totals"
	}
	return "Not enough to compare yet"
}
