package series

import (
	"math/bits"

	"splittally/calc/record"
)

// plain says whether the rows of a run are as they should be for one track.
func (s *Series) plain(track, n int) bool {
	t, width := &s.tracks[track], len(s.tracks)
	run := s.run[track : (n-1)*width+track+1]
	most := min(int64(maxRate)/record.Whole*min(s.step, record.Whole), 1<<62/int64(n))
	ones := uint64(1)<<(bits.Len64(uint64(most))-1) - 1 // no figure may have another bit
	if t.quantity == Register {
		return s.plainRegister(t, run, ones)
	}
	return allBits(run, width) <= ones
}

// allBits gives the bits that any of some figures has, every width-th of run. It
// takes four at a time, as addUp does, since it is the branches that cost.
func allBits(run []int64, width int) (all uint64) {
	if width == 1 {
		for len(run) >= 4 {
			all |= uint64(run[0] | run[1] | run[2] | run[3])
			run = run[4:]
		}
	}
	for k := 0; k < len(run); k += width {
		all |= uint64(run[k])
	}
	return all
}

// addUp gives the sum of every width-th figure of run.
func addUp(run []int64, width int) (sum int64) {
	if width == 1 {
		for len(run) >= 4 {
			sum += run[0] + run[1] + run[2] + run[3]
			run = run[4:]
		}
	}
	for k := 0; k < len(run); k += width {
		sum += run[k]
	}
	return sum
}

// plainRegister is plain for a register.
func (s *Series) plainRegister(t *track, run []int64, ones uint64) bool {
	before, largest, all, dir := t.figure, int64(0), uint64(0), s.dir
	for k := 0; k < len(run); k += len(s.tracks) {
		d := dir * (run[k] - before)
		all |= uint64(d)
		largest = max(largest, d)
		before = run[k]
	}
	if all > ones || min(before, run[0]) < 0 || max(before, run[0]) > 1<<62 {
		return false
	}
	t.fastest(largest, s.step)
	return true
}

// dayPrints notes m readings of a run, from the one numbered k on, which are of
// one day and come by apart.
func (s *Series) dayPrints(d *day, cells, k, m int, rest, by int64) {
	width := len(s.tracks)
	cell := s.cell()
	if width == 1 && by == cell {
		add32(d.prints[rest/cell:], s.run[k:k+m])
		return
	}
	at := int(rest / cell)
	left := rest % cell
	for range m {
		for i := range width {
			d.prints[i*cells+at] += fingerprint(s.run[k*width+i])
		}
		k++
		for left += by; left >= cell; left -= cell {
			at++
		}
		for ; left < 0; left += cell {
			at--
		}
	}
}

// add32 adds the low halves of figures, four at a time.
func add32(to []uint32, run []int64) {
	to = to[:len(run)]
	for len(run) >= 4 && len(to) >= 4 {
		to[0] += uint32(run[0])
		to[1] += uint32(run[1])
		to[2] += uint32(run[2])
		to[3] += uint32(run[3])
		to, run = to[4:], run[4:]
	}
	for i, f := range run {
		to[i] += uint32(f)
	}
}
