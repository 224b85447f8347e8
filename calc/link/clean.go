package link

import (
	"strconv"
	"strings"

	"splittally/calc"
	"splittally/calc/billing"
	"splittally/calc/calendar"
	"splittally/calc/document"
	"splittally/calc/sorted"
)

// Clean gives a case as it comes back from a link: with readings day by day in
// place of pasted texts, and without what a link leaves out.
func Clean(c calc.Case, o Options) calc.Case {
	root := document.Write(c.Fields)
	k := &cleaner{names: o.Names, neutral: map[string]string{}}
	k.begin(&root)
	k.node(&root, "", "")
	var out calc.Case
	_ = document.Read(root, out.Fields) // what was just written can be read
	settings := reading(c)
	needed := map[string]string{}
	take := func(path, pasted, record string, toReadings, toRecord *string) {
		settings.Path = path
		text, also := readings(pasted, settings, o)
		for id, choice := range also {
			needed[id] = choice
		}
		*toReadings, *toRecord = text, hours(record, o)
	}
	for i := range c.Monitors {
		m, to := &c.Monitors[i], &out.Monitors[i]
		take("monitors."+strconv.Itoa(i), m.Readings, m.Record, &to.Readings, &to.Record)
	}
	take("meter", c.Meter.Readings, c.Meter.Record, &out.Meter.Readings, &out.Meter.Record)
	out.Answers = keptAnswers(out.Answers, needed)
	return out
}

// billed gives the days from the first to the last that any bill covers, by
// which readings without a year find theirs.
func billed(periods []billing.Period, answers map[string]string) (all calendar.Span) {
	bills := billing.Read(periods, billing.Options{Path: "periods", Answers: answers}).Statements
	for i := range bills {
		switch p := &bills[i]; {
		case !p.Dated:
		case all.Days() == 0:
			all = p.Span
		default:
			all = calendar.Span{First: min(all.First, p.Span.First), End: max(all.End, p.Span.End)}
		}
	}
	return all
}

// keptAnswers leaves out the answers about texts that a link has not, but for
// those that its own ones need.
func keptAnswers(given []calc.Answer, needed map[string]string) (kept []calc.Answer) {
	for _, a := range given {
		choice, isNeeded := needed[a.Question]
		isPasted := strings.HasPrefix(a.Question, "meter.") || strings.HasPrefix(a.Question, "monitors.")
		if isNeeded {
			a.Choice = choice
			delete(needed, a.Question)
		} else if isPasted && !strings.HasSuffix(a.Question, ".columns") {
			continue
		}
		kept = append(kept, a)
	}
	first := len(kept)
	for id, choice := range needed {
		kept = append(kept, calc.Answer{Question: id, Choice: choice})
	}
	sorted.Stable(kept[first:], func(a, b calc.Answer) int { return strings.Compare(a.Question, b.Question) })
	return kept
}
