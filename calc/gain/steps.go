package gain

import (
	"math"
	"strconv"
)

// weakStep is the load in watts below which a step is pointed out: what the
// rest of the home does meanwhile is no longer small beside it.
const weakStep = 300

// stepSamples turns steps into samples: the load against the monitor's rise.
//
// Where a number could be two, "1,850", the two of a step are taken alike, both
// with the mark as decimal or both with it as thousands, whichever brings the
// rise nearer to the load.
func (s *sheet) stepSamples(path string, typed [][]string, rows []row) (samples []sample) {
	var loads, watts []quantity
	var rises [][2]quantity
	var kept []row
	for _, r := range rows {
		load := r.ways[2][0]
		before, after, ok := riseNearest(r, load.value)
		if !ok {
			s.problem(path+"."+strconv.Itoa(r.at)+".after", typed[r.at][1], "more watts than before the load was switched on, which were "+typed[r.at][0])
			continue
		}
		kept = append(kept, r)
		loads = append(loads, load)
		watts = append(watts, before, after)
		rises = append(rises, [2]quantity{before, after})
	}
	for i, r := range kept {
		before, after := rises[i][0], rises[i][1]
		samples = append(samples, sample{
			at: r.at, reference: loads[i].value, monitor: after.value - before.value,
			referenceCount: countOf(loads[i], loads), monitorCount: max(countOf(before, watts), countOf(after, watts)),
		})
	}
	return samples
}

// riseNearest picks the way to read before and after; ok is false if the watts
// do not rise in any.
func riseNearest(r row, load float64) (before, after quantity, ok bool) {
	nearest := math.Inf(1)
	first := func(f []quantity) quantity { return f[0] }
	last := func(f []quantity) quantity { return f[len(f)-1] }
	for _, pick := range []func([]quantity) quantity{first, last} {
		b, a := pick(r.ways[0]), pick(r.ways[1])
		if rise := a.value - b.value; rise > 0 {
			if off := math.Abs(math.Log(load / rise)); off < nearest {
				before, after, nearest, ok = b, a, off, true
			}
		}
	}
	return before, after, ok
}

// remarkSteps points out steps of small loads.
func (s *sheet) remarkSteps(i int) {
	for _, p := range s.samples[i][steps] {
		if p.reference < weakStep {
			s.notice(s.field(i, "steps")+"."+strconv.Itoa(p.at), "small-step", s.out.Legs[i].Name+": step "+strconv.Itoa(p.at+1)+
				" is a load of less than 300 W. The rest of the home easily changes by a tenth of that between two looks; a kettle or a heater shows more.")
		}
	}
}
