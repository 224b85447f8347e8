package fill

import (
	"fmt"
	"math"
	"strings"

	"splittally/calc/figure"
	"splittally/calc/ledger"
	"splittally/calc/remark"
)

// Codes of the notices that Fill gives.
const (
	CodeEdge       = "fill-edge-of-data"
	CodeLittle     = "fill-little-measured"
	CodePartial    = "fill-partial-days"
	CodeFewTrials  = "fill-few-trials"
	CodeImpossible = "fill-method-not-possible"
)

// remarks tells what stands out in the filling of this period.
func (res *Result) remarks(r Request, rec *record) []remark.Notice {
	var all []remark.Notice
	say := func(code, text string, facts ...any) {
		all = append(all, remark.Notice{Code: code, Text: fmt.Sprintf(text, facts...)})
	}
	if r.Method != Choose && r.Method != res.Method && len(rec.gap) > 0 {
		say(CodeImpossible, "These data do not allow filling by %s; %s was used instead.", r.Method, res.Method)
	}
	if res.Method != Ratio && rec.atEdge() {
		say(CodeEdge, "Missing days lie at the end of the record, so they could be estimated from one side only.")
	}
	switch got := res.Measured + res.Spread + len(rec.slight); {
	case got == 0:
		say(CodeLittle, "No day of this period was measured; all of its total is an estimate.")
	case 2*got < len(res.Days):
		say(CodeLittle, "Only %s measured of the %d of this period; most of its total is an estimate.", were(got), len(res.Days))
	}
	if res.Partial > 0 {
		say(CodePartial, "%s measured only in part; what was measured is kept and %s estimated.", were(res.Partial), res.missingHours(r.Ledger, rec))
	}
	for _, tr := range res.Trials {
		if tr.Method == res.Method && tr.Tries < fewTrials {
			say(CodeFewTrials, "%s, so what is said of how good the estimate is rests mostly on how much measured days differ from one another.", tried(tr.Tries))
		}
	}
	return all
}

// atEdge says whether a wholly missing day lies before or after all that is known.
func (rec *record) atEdge() bool {
	first, last := -1, -1
	for i, t := range rec.gap {
		if rec.tell(i) == nil {
			if first < 0 {
				first = t
			}
			last = t
		}
	}
	return first >= 0 && (rec.before(first) < 0 || rec.after(last) >= len(rec.kWh))
}

// missingHours tells how much of the partly measured days was not.
func (res *Result) missingHours(l ledger.Ledger, rec *record) string {
	hours := 0.0
	for _, d := range res.Days {
		e := l.At(d.Day)
		if e.State != ledger.Partial {
			continue
		}
		missing := 24 + float64(e.Turn) - e.Hours
		if rec.hours != nil {
			if b := &rec.hours[d.Day-rec.first]; b.has {
				missing = b.missing()
			}
		}
		hours += max(0, missing)
	}
	switch minutes := math.Round(60 * hours); {
	case hours < 0.001:
		return "the missing part is"
	case minutes < 2:
		return fmt.Sprintf("the missing %s are", figure.Counted(int(math.Ceil(3600*hours)), "second", "seconds"))
	case minutes < 120:
		return fmt.Sprintf("the missing %.0f minutes are", minutes)
	}
	return fmt.Sprintf("the missing %s hours are", strings.TrimSuffix(figure.Plain(hours, 1), ".0"))
}

func were(n int) string {
	if n == 1 {
		return "1 day was"
	}
	return fmt.Sprintf("%d days were", n)
}

func tried(places int) string {
	switch places {
	case 0:
		return "The same gap fits nowhere else among the measured days"
	case 1:
		return "The same gap could be tried out at only one other place"
	}
	return fmt.Sprintf("The same gap could be tried out at only %d other places", places)
}
