//go:build !js

package pulse_test

import (
	"fmt"
	"math"
	"sort"
)

// score is how one recording, or all of a kind, came out.
type score struct {
	recordings int
	refused    int // no number was given
	sounds     int // pulses that are heard, in recordings with a number
	found      int // of them, counted within 25 ms or a quarter of an interval
	false      int // counted, but none of them
	timed      int // found in recordings without a hand
	squares    float64
	powers     int       // recordings with a number
	covered    int       // of them, the true power is in the stated interval
	worst      float64   // the largest error of a power, as a part of it
	wide       []float64 // half the stated intervals, as parts of the power
	tells      []string  // what went wrong, for a person
}

// nearest is how far apart a counted mark and a sound may be, in seconds.
const nearest = 0.025

// judge sets what was heard against the truth.
func judge(rec recording, h heard) score {
	s := score{recordings: 1}
	if !h.number() {
		s.refused = 1
		s.tells = append(s.tells, fmt.Sprintf("no number (%q, %q, %d marks)",
			h.run.Waits, h.run.Rhythm.Why, len(h.onset.Pulses)))
		return s
	}
	marks := h.counted()
	shift := shiftOf(rec, marks, h)
	pairs := match(rec.beats, marks, shift)
	for _, b := range rec.beats {
		if b.heard {
			s.sounds++
		}
	}
	s.found = len(pairs)
	s.false = len(marks) - len(pairs)
	if missed := s.sounds - s.found; missed+s.false > 0 {
		s.tells = append(s.tells, fmt.Sprintf("%d missed, %d false", missed, s.false))
	}
	if !rec.scene.hand {
		s.time(rec.beats, marks, pairs)
	}
	s.power(rec, h, pairs)
	return s
}

// pair is a beat and the mark that found it.
type pair struct{ beat, mark int }

// match gives every heard beat the nearest mark that is near enough, each mark once.
func match(beats []beat, marks []float64, shift float64) []pair {
	var pairs []pair
	var near []pair
	for i, b := range beats {
		if !b.heard {
			continue
		}
		limit := min(nearest, 0.25*gapOf(beats, i))
		from := sort.SearchFloat64s(marks, b.sound+shift-limit)
		for k := from; k < len(marks) && marks[k] <= b.sound+shift+limit; k++ {
			near = append(near, pair{i, k})
		}
	}
	off := func(p pair) float64 { return math.Abs(marks[p.mark] - shift - beats[p.beat].sound) }
	sort.SliceStable(near, func(i, k int) bool { return off(near[i]) < off(near[k]) })
	beatTaken, markTaken := map[int]bool{}, map[int]bool{}
	for _, p := range near {
		if !beatTaken[p.beat] && !markTaken[p.mark] {
			beatTaken[p.beat], markTaken[p.mark] = true, true
			pairs = append(pairs, p)
		}
	}
	sort.Slice(pairs, func(i, k int) bool { return pairs[i].beat < pairs[k].beat })
	return pairs
}

// gapOf is the shorter of the times between a beat's sound and its neighbours'.
func gapOf(beats []beat, i int) float64 {
	gap := math.Inf(1)
	if i > 0 {
		gap = beats[i].sound - beats[i-1].sound
	}
	if i+1 < len(beats) {
		gap = min(gap, beats[i+1].sound-beats[i].sound)
	}
	return gap
}

// shiftOf finds by how much all marks are late. A finder may put a pulse at its
// peak rather than its beginning, and an MP3 comes with some delay: 576 samples
// of the encoder, 529 of the decoder, and a frame if the first is decoded too.
// Only shifts near those are tried, for at 20 pulses a second one pulse too few
// would look like a shift.
func shiftOf(rec recording, marks []float64, h heard) float64 {
	delays := []float64{0}
	if rate := float64(h.sound.Rate); rec.form != "wav" && rate > 0 {
		frame := 1152.0
		if rate < 32000 {
			frame = 576
		}
		delays = []float64{0, 576 / rate, 1105 / rate, (1105 + frame) / rate}
	}
	best, most := 0.0, -1.0
	for _, delay := range delays {
		for fine := -0.02; fine <= 0.0301; fine += 0.0025 {
			shift := delay + fine
			pairs := match(rec.beats, marks, shift)
			spread := 0.0
			for _, p := range pairs {
				spread += math.Abs(marks[p.mark] - shift - rec.beats[p.beat].sound)
			}
			if good := float64(len(pairs)) - spread/nearest/2; good > most {
				best, most = shift, good
			}
		}
	}
	return best + median(offs(rec.beats, marks, match(rec.beats, marks, best), best))
}

// offs are how late each found beat was put, beyond a shift.
func offs(beats []beat, marks []float64, pairs []pair, shift float64) []float64 {
	late := make([]float64, len(pairs))
	for i, p := range pairs {
		late[i] = marks[p.mark] - shift - beats[p.beat].sound
	}
	return late
}

func median(x []float64) float64 {
	if len(x) == 0 {
		return 0
	}
	sorted := append([]float64{}, x...)
	sort.Float64s(sorted)
	return (sorted[(len(sorted)-1)/2] + sorted[len(sorted)/2]) / 2
}

// time adds up how far the found beats' times are off, less their median.
func (s *score) time(beats []beat, marks []float64, pairs []pair) {
	late := offs(beats, marks, pairs, 0)
	middle := median(late)
	own := 0.0
	for _, v := range late {
		own += (v - middle) * (v - middle)
	}
	s.timed += len(late)
	s.squares += own
	if off := math.Sqrt(own / float64(max(1, len(late)))); off > 0.002 {
		s.tells = append(s.tells, fmt.Sprintf("times off by %.1f ms rms", 1000*off))
	}
}

// power sets the watts against the true mean power between the first and the
// last true pulse that was found.
func (s *score) power(rec recording, h heard, pairs []pair) {
	s.powers = 1
	watts := h.run.Watts
	if len(pairs) < 2 {
		s.tells = append(s.tells, fmt.Sprintf("%.5g W out of nothing", watts.Value))
		s.worst = math.Inf(1)
		return
	}
	first, last := pairs[0].beat, pairs[len(pairs)-1].beat
	truth := 3600 * float64(last-first) / (rec.beats[last].pulse - rec.beats[first].pulse)
	off := watts.Value - truth
	s.wide = append(s.wide, watts.Expanded/truth)
	s.worst = math.Abs(off / truth)
	if math.Abs(off) <= watts.Expanded {
		s.covered = 1
	} else {
		s.tells = append(s.tells, fmt.Sprintf("%.6g ± %.2g W, true %.6g (%+.2f %%), n %d of %d, may be %d to %d",
			watts.Value, watts.Expanded, truth, 100*off/truth, h.run.Rhythm.Intervals, last-first,
			h.run.Rhythm.Least, h.run.Rhythm.Most))
	}
}

// add takes another recording's score in.
func (s *score) add(o score) {
	s.recordings += o.recordings
	s.refused += o.refused
	s.sounds += o.sounds
	s.found += o.found
	s.false += o.false
	s.timed += o.timed
	s.squares += o.squares
	s.powers += o.powers
	s.covered += o.covered
	s.worst = max(s.worst, o.worst)
	s.wide = append(s.wide, o.wide...)
}

func (s score) foundShare() float64 { return share(s.found, s.sounds) }
func (s score) falseShare() float64 { return share(s.false, s.sounds) }
func (s score) coverage() float64   { return share(s.covered, s.powers) }
func (s score) rms() float64        { return math.Sqrt(s.squares / float64(max(1, s.timed))) }

func share(part, of int) float64 { return float64(part) / float64(max(1, of)) }
