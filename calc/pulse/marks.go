package pulse

import (
	"math"
	"slices"

	"splittally/calc/rhythm"
)

// Limits of what a text of marks may hold, which keep a damaged one from taking
// time or memory without bound.
const (
	MostMarks   = 200_000
	MostSeconds = 24 * 3600
)

// ReadMarks reads the text of a run's marks and says which of them count.
func ReadMarks(text string) (Marks, rhythm.Result, error) {
	m, err := Parse(text)
	if err != nil {
		return m, rhythm.Result{}, err
	}
	return m, m.Judge(), nil
}

// Judge says which of the marks count.
func (m Marks) Judge() rhythm.Result {
	return rhythm.Judge(m.Marks, rhythm.Options{Breaks: m.Breaks, Timing: m.Timing})
}

// The four ways to change marks leave m as it is and give a copy.

// Tap adds a tap at the end. One that is not later than the last is passed over.
func (m Marks) Tap(at float64) Marks {
	if n := len(m.Marks); math.IsNaN(at) || n >= MostMarks || n > 0 && at <= m.Marks[n-1].At {
		return m
	}
	if m.By == "" {
		m.By = "taps"
	}
	m.Marks = append(slices.Clip(m.Marks), rhythm.Mark{At: at, Sure: 1})
	return m
}

// Undo takes the last mark away.
func (m Marks) Undo() Marks {
	m.Marks = m.Marks[:max(0, len(m.Marks)-1):max(0, len(m.Marks)-1)]
	return m
}

// Insert adds a mark by hand, in its place by time.
func (m Marks) Insert(at float64) Marks {
	if math.IsNaN(at) || at < 0 || len(m.Marks) >= MostMarks {
		return m
	}
	i, _ := slices.BinarySearchFunc(m.Marks, at, func(k rhythm.Mark, at float64) int {
		if k.At <= at {
			return -1
		}
		return 1
	})
	m.Marks = slices.Insert(slices.Clip(m.Marks), i, rhythm.Mark{At: at, Told: rhythm.Added})
	return m
}

// With notes what the person says of mark i; rhythm.Nothing takes it back. A
// mark that there is not changes nothing.
func (m Marks) With(told rhythm.Told, i int) Marks {
	if i < 0 || i >= len(m.Marks) {
		return m
	}
	m.Marks = slices.Clone(m.Marks)
	m.Marks[i].Told = told
	return m
}
