package table

import "splittally/calc/sorted"

// blockApart is how far from the row before, either way, a row must lie to begin a
// block of its own. A clock that is set back makes an hour come twice.
const blockApart = 2 * hourLength

// inTime gives each row its place in the order of time. The newest row may come
// first, and rows may stand in blocks that are out of order; within a block they
// stay as they are.
func (f *finder) inTime() []int {
	n := len(f.rows)
	line := func(k int) int { // the row that is k-th as time runs
		if f.newest {
			return n - 1 - k
		}
		return k
	}
	blocks := [][2]int{{0, n}}
	for k := 1; k < n; k++ {
		if step := f.rows[line(k)].at - f.rows[line(k-1)].at; step < -blockApart || step > blockApart {
			blocks[len(blocks)-1][1] = k
			blocks = append(blocks, [2]int{k, n})
		}
	}
	sorted.Stable(blocks, func(a, b [2]int) int {
		return int(max(-1, min(1, f.rows[line(a[0])].at-f.rows[line(b[0])].at)))
	})
	places, at := make([]int, n), 0
	for _, b := range blocks {
		for k := b[0]; k < b[1]; k++ {
			places[line(k)] = at
			at++
		}
	}
	return places
}
