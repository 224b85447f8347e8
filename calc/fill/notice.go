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

// fewTrials is how many copies of the pattern make a trial worth the name.
const fewTrials = 5

// impossible says that another method than the wanted one was used.
func impossible(wanted, used Method) remark.Notice {
	return remark.Notice{Code: CodeImpossible, Text: fmt.Sprintf("The data do not allow filling by %s; instead it is %s.", wanted, used)}
}

// remarks tells what stands out in the filling of this period.
func (res *Result) remarks(r Request, rec *record) []remark.Notice {
	var all []remark.Notice
	say := func(code, text string, facts ...any) {
		all = append(all, remark.Notice{Code: code, Text: fmt.Sprintf(text, facts...)})
	}
	first, last := rec.gap[0], rec.gap[len(rec.gap)-1]
	if rec.before(first) < rec.lo || rec.after(last) >= rec.hi {
		say(CodeEdge, "The missing days lie at the edge of the record, so they could be estimated from one side only.")
	}
	if got := res.Measured + res.Spread; 2*got < len(res.Days) {
		say(CodeLittle, "Only %d of %d days of this period were measured; most of its total is an estimate.", got, len(res.Days))
	}
	if res.Partial > 0 {
		say(CodePartial, "%d days were measured in part; what they measured is kept and only their missing hours are estimated.", res.Partial)
	}
	for _, tr := range res.Trials {
		if tr.Method == res.Method && tr.Tries < fewTrials {
			say(CodeFewTrials, "The gap could be tried out at %d other places only, so its uncertainty rests mostly on how much single days differ.", tr.Tries)
		}
	}
	return all
}
