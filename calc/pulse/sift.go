package pulse

import "splittally/calc/rhythm"

// faint is the chance below which a sound is not worth keeping.
const faint = 0.02

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
