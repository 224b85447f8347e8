package fill

import (
	"fmt"

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
func (res *Result) remarks(wanted Method, rec *record) []remark.Notice {
	var all []remark.Notice
	say := func(code, text string, facts ...any) {
		all = append(all, remark.Notice{Code: code, Text: fmt.Sprintf(text, facts...)})
	}
	if wanted != Choose && wanted != res.Method {
		say(CodeImpossible, "These data do not allow filling by %s; %s was used instead.", wanted, res.Method)
	}
	first, last := rec.gap[0], rec.gap[len(rec.gap)-1]
	if res.Method != Ratio && (rec.before(first) < 0 || rec.after(last) >= len(rec.kWh)) {
		say(CodeEdge, "Missing days lie at the end of the record, so they could be estimated from one side only.")
	}
	switch got := res.Measured + res.Spread; {
	case got == 0:
		say(CodeLittle, "No day of this period was measured; all of its total is an estimate.")
	case 2*got < len(res.Days):
		say(CodeLittle, "Only %s measured of the %d of this period; most of its total is an estimate.", were(got), len(res.Days))
	}
	if res.Partial > 0 {
		say(CodePartial, "%s measured only in part; what was measured is kept and the missing hours are estimated.", were(res.Partial))
	}
	for _, tr := range res.Trials {
		if tr.Method == res.Method && tr.Tries < fewTrials {
			say(CodeFewTrials, "%s, so what is said of how good the estimate is rests mostly on how much measured days differ from one another.", tried(tr.Tries))
		}
	}
	return all
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
