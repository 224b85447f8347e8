package compare

import "splittally/calc/calendar"

// measured gives the periods as measured ones: neighbours that share an
// estimated read become one, from real read to real read, since what the
// estimate took from one it gave to the other. A period that still ends in an
// estimate is left out, as its error measures the guess.
func measured(periods []*Period) ([]*Period, error) {
	var out []*Period
	for _, p := range periods {
		if n := len(out); n > 0 && shareGuess(out[n-1], p) {
			joined, err := join(out[n-1], p)
			if err != nil {
				return nil, err
			}
			out[n-1] = joined
			continue
		}
		out = append(out, p)
	}
	kept := out[:0:0]
	for _, p := range out {
		if len(p.Reference.EstimatedReads) == 0 {
			kept = append(kept, p)
		}
	}
	return kept, nil
}

func shareGuess(a, b *Period) bool {
	for _, x := range a.Reference.EstimatedReads {
		for _, y := range b.Reference.EstimatedReads {
			if x == y {
				return true
			}
		}
	}
	return false
}

func join(a, b *Period) (*Period, error) {
	w, r, err := sums([]*Period{a, b})
	if err != nil {
		return nil, err
	}
	return &Period{calendar.Span{First: a.Span.First, End: b.Span.End}, Judge(w, r, a.Confidence)}, nil
}
