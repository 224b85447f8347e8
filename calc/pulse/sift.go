package pulse

import (
	"math"

	"splittally/calc/rhythm"
)

// faint is the chance below which a sound is not worth keeping.
const faint = 0.1

// together is how near, in seconds, two times are one and the same sound.
const together = 0.02

// As gives m with what a person had said of the same recording before: marks
// that were struck out, and those that were set.
func (m Marks) As(before Marks) Marks {
	for _, k := range before.Marks {
		if k.Told == rhythm.Nothing {
			continue
		}
		near := -1
		for i := range m.Marks {
			if off := math.Abs(m.Marks[i].At - k.At); off <= together && (near < 0 || off < math.Abs(m.Marks[near].At-k.At)) {
				near = i
			}
		}
		switch {
		case near >= 0:
			m = m.With(k.Told, near)
		case k.Told == rhythm.Added:
			m = m.Insert(k.At)
		}
	}
	return m
}

// Sift judges what a recording came to and drops the sounds that are no pulses,
// neither by themselves nor by when they come. What is left counts alike; it is
// what a person can look through, and what a case keeps.
func (m Marks) Sift() Marks {
	r := m.Judge()
	var kept []rhythm.Mark
	for i, k := range m.Marks {
		if r.Uses[i] != rhythm.Doubted || r.Chances[i] >= faint {
			kept = append(kept, k)
		}
	}
	m.Marks = kept
	return m
}
