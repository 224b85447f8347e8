package interval_test

import (
	"fmt"

	"splittally/calc/record"
)

// compareGaps holds the gaps against those that were made.
func (f *formsFile) compareGaps(r record.Record) []string {
	var want [][2]int64
	if f.kind == "register" {
		want = f.lostReads()
	} else {
		want = f.gaps
	}
	if f.uneven || len(want) == 0 && len(r.Gaps) == 0 {
		return nil
	}
	if len(r.Gaps) != len(want) {
		return []string{fmt.Sprintf("gaps: number (%+d)", len(r.Gaps)-len(want))}
	}
	for i, g := range r.Gaps {
		if f.slack() > 0 {
			continue
		}
		if g.From != f.h.at(want[i][0])*1000 || g.To != f.h.at(want[i][1])*1000 || g.Length != (want[i][1]-want[i][0])*1000 {
			return []string{"gaps: times"}
		}
	}
	return nil
}

// lostReads gives the stretches that no register was read in, of more than one
// and a half steps.
func (f *formsFile) lostReads() (gaps [][2]int64) {
	last := -1
	for i := range f.at {
		read := false
		for _, c := range f.columns {
			read = read || !f.lost[i] && !c.absent[i]
		}
		if !read {
			continue
		}
		if last >= 0 && i-last > 1 {
			gaps = append(gaps, [2]int64{f.at[last], f.at[i]})
		}
		last = i
	}
	return gaps
}

// compareOdd holds the counted oddities against those that were made.
func (f *formsFile) compareOdd(r record.Record) (wrong []string) {
	few := func(kind record.Kind, least, most int) {
		if n := told(&r, kind); n < least || n > most {
			word := "too few"
			if n > most {
				word = "too many"
			}
			wrong = append(wrong, fmt.Sprintf("count: %s %s", word, kind))
		}
	}
	n := len(f.columns)
	few(record.NoFigure, f.odd[record.NoFigure], f.odd[record.NoFigure])
	few(record.Duplicate, f.odd[record.Duplicate], f.odd[record.Duplicate]*n+f.odd[record.Conflict]*(n-1))
	few(record.Conflict, f.odd[record.Conflict], f.odd[record.Conflict])
	few(record.Unreadable, f.junk[0], f.junk[1])
	few(record.Overlap, 0, 0)
	few(record.BelowZero, 0, 0)
	few(record.Finer, 0, 0)
	switch f.form.order {
	case "blocks":
		few(record.Disorder, 0, 1<<30)
	default:
		few(record.Disorder, 0, f.odd[record.Duplicate]*n)
	}
	reset, roll := 0, 0
	if f.anew >= 0 {
		reset = 1
	}
	if f.modulus > 0 {
		roll = 1
	}
	few(record.Reset, reset, reset*n)
	few(record.RollOver, 0, roll)
	back, on := 0, 0
	if f.h.turns {
		back, on = 1, 1
	}
	few(record.ClockBack, 0, back)
	few(record.ClockOn, 0, on)
	return wrong
}
