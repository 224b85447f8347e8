package interval_test

// spans gives what the readings of a column cover.
func (f *formsFile) spans(c *formsColumn) (spans []formsSpan) {
	var kept []int
	for i := range f.at {
		if !f.lost[i] && !c.absent[i] {
			kept = append(kept, i)
		}
	}
	step := f.h.step
	for n, i := range kept {
		s := formsSpan{from: f.at[i], to: f.at[i] + step, num: c.figures[i] * c.scale}
		before, after := s.from-step, s.to
		if n > 0 {
			before = f.at[kept[n-1]]
		}
		if n+1 < len(kept) {
			after = f.at[kept[n+1]]
		}
		switch {
		case f.kind == "energy":
			s.from, s.to = f.nominal[i], f.nominal[i]+step
			s.num *= 3600
		case f.kind == "register":
			if n+1 == len(kept) {
				return spans
			}
			rise := c.figures[kept[n+1]] - c.figures[i]
			if rise < 0 && f.modulus > 0 {
				rise += f.modulus
			}
			s.to, s.num, s.loose = after, rise*c.scale*3600, kept[n+1] == f.anew
		default:
			ends := f.form.stamped == "end"
			if step == 0 {
				s.loose = n+1 == len(kept) || n == 0
				s.to = after
			} else if !ends && after-s.from < step*7/4 {
				s.to = after
			}
			if ends {
				s.to = f.at[i] + step // its stamp
				s.from = s.to - step
				if step == 0 || before+step > s.to-step*7/4 {
					s.from = before + step
				}
			}
			s.num *= s.to - s.from
		}
		if s.to > s.from {
			spans = append(spans, s)
		}
	}
	return spans
}

// sum adds the truth up.
func (f *formsFile) sum() {
	var all [][]formsSpan
	for _, c := range f.columns {
		s := f.spans(c)
		f.truth = append(f.truth, f.h.hours(s))
		all = append(all, s)
	}
	f.gaps = formsGaps(all)
}
