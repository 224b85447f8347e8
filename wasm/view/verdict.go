package view

import (
	"slices"
	"strconv"
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
func (s *sheet) verdict() piece {
	all := s.judgements()
	if len(all) == 0 {
		return join(s.timedVerdict(), para("start", s.begin()), s.openLine())
	}
	sentences := each(len(all), func(i int) piece {
		j := all[i]
		said := say.Verdict(j.name, j.Comparison)
		if inst := s.f.Instruments[j.instrument]; inst.IsPooled {
			said = say.Pooled(j.name, inst.Pooled)
		}
		return para("says-all", tied(said))
	})
	return join(sentences, s.why(), s.openLine(),
		para("quiet", "± is the "+s.confidence()+" interval, here and below. Errors are in percent of the meter’s kWh."+s.assumed()))
}

func (s *sheet) confidence() string { return percent(markup.Number(100 * s.f.Confidence)) }

// openLine leads to the first open question.
func (s *sheet) openLine() piece {
	n, first := s.unanswered()
	if n == 0 {
		return none
	}
	said, taken, where := "one question is open", "Until you answer, the marked choice is taken. ", "Go to it"
	if n > 1 {
		said, taken, where = strconv.Itoa(n)+" questions are open", "Until you answer, the marked choices are taken. ", "Go to the first"
	}
	if len(s.judgements()) > 0 {
		said = "For now only: " + said
	}
	return el("p", class("for-now"), text(capital(said)+". "+taken), el("button", attr("type", "button"), class("plain"),
		attr("data-do", "go"), attr("data-at", id("question", first, 0)), text(where)))
}

func openQuestions(n int) string { return say.Counted(n, "question open", "questions open") }

// assumed names the accuracies that were assumed because their fields are blank.
func (s *sheet) assumed() string {
	var parts []string
	for _, p := range s.compared() {
		for _, part := range p.Compared.Budget {
			said := uncapital(part.Name) + " ± " + percent(strconv.FormatFloat(part.HalfWidth, 'f', -1, 64))
			if part.Promise && part.Assumed && !slices.Contains(parts, said) {
				parts = append(parts, said)
			}
		}
	}
	if len(parts) == 0 {
		return ""
	}
	return tied(" Assumed, as nothing was typed: " + strings.Join(parts, "; ") + ".")
}

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
	return strings.Join(s.shorts(), " · ")
}

// mostShort bounds the bar, which must leave room for the page.
const mostShort = 3

// shorts gives the parts of the short verdict: one for each instrument, then
// what is open.
func (s *sheet) shorts() []string {
	var out []string
	all := s.judgements()
	for _, j := range all[:min(len(all), mostShort)] {
		out = append(out, shortVerdict(j))
	}
	timed, isTimed := s.f.Timing.Leading()
	switch {
	case len(all) == 0 && isTimed && s.f.Timing.Differ():
		out = append(out, "Timed at the meter: the runs differ")
	case len(all) == 0 && isTimed:
		out = append(out, "Timed at the meter: "+say.Error(timed))
	case len(all) == 0:
		out = append(out, s.shortStart())
	case len(all) > mostShort:
		out = append(out, "and "+say.Counted(len(all)-mostShort, "monitor more", "monitors more"))
	}
	if n, _ := s.unanswered(); n > 0 {
		out = append(out, openQuestions(n))
	}
	if n := s.toMend(); n > 0 {
		out = append(out, say.Counted(n, "entry to mend", "entries to mend"))
	}
	return out
}

// bar draws the short verdict, a line for each instrument.
func (s *sheet) bar() piece {
	shorts := s.shorts()
	lines := max(1, min(len(s.judgements()), mostShort))
	parts := each(len(shorts[:lines]), func(i int) piece {
		said := shorts[:lines][i]
		return el("span", class("line-of-bar"), text(said))
	})
	if rest := strings.Join(shorts[lines:], " · "); rest != "" {
		parts = join(parts, el("span", class("line-of-bar"), text(rest)))
	}
	return parts
}

func shortVerdict(j judged) string {
	switch j.Verdict {
	case compare.Agree:
		return j.name + " agrees: " + say.Error(j.Comparison)
	case compare.CannotTell:
		return j.name + ": can’t tell yet, " + say.Error(j.Comparison)
	}
	return j.name + " " + say.Short(j.Verdict) + ": " + say.Error(j.Comparison)
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
