package view

import (
	"cmp"
	"strconv"

	"splittally/calc/chart"
	"splittally/calc/rhythm"
	"splittally/calc/say"
	"splittally/calc/sorted"
)

// beats are the pulses of a run as drawings and lists want them.
type beats struct {
	beats       []chart.Placed // by time, seconds from the first that counts
	holds       []chart.Hold   // seconds of each interval, from the first that counts
	gaps        []gap          // where pulses lack, by time
	first, last float64        // seconds of the first and last that count
}

// gap is where pulses lack.
type gap struct {
	rhythm.Missing
	at   []float64 // seconds of the marks at which they would be
	zero int       // the number of the first of them; that which began the run is 0
}

// beatOf says what became of a mark. Before anything was judged it counts.
func beatOf(m rhythm.Mark, r rhythm.Result, i int) chart.Beat {
	use := rhythm.Counted
	if i < len(r.Uses) {
		use = r.Uses[i]
	}
	switch {
	case m.Told == rhythm.Struck || use == rhythm.Out:
		return chart.Struck
	case use == rhythm.Extra:
		return chart.Between
	case use == rhythm.Doubted:
		return chart.Unsure
	case m.Told == rhythm.Added:
		return chart.Set
	}
	return chart.Counts
}

func counts(b chart.Beat) bool { return b == chart.Counts || b == chart.Set }

// gather sorts the marks of a run by what became of them.
func gather(marks []rhythm.Mark, r rhythm.Result) beats {
	out := beats{beats: make([]chart.Placed, 0, len(marks)+len(r.Missing)), holds: make([]chart.Hold, 0, len(marks))}
	for i, m := range marks {
		if counts(beatOf(m, r, i)) {
			out.first = m.At
			break
		}
	}
	stretch, before, number := 0, -1, 0
	missing := r.Missing
	for i, m := range marks {
		beat := beatOf(m, r, i)
		out.beats = append(out.beats, chart.Placed{At: m.At - out.first, Beat: beat})
		if !counts(beat) {
			continue
		}
		out.last = m.At
		for stretch < len(r.Stretches) && i > r.Stretches[stretch].Last {
			stretch++
		}
		if before >= 0 && (stretch >= len(r.Stretches) || r.Stretches[stretch].First != i) {
			for len(missing) > 0 && missing[0].After < before {
				missing = missing[1:]
			}
			var lacks rhythm.Missing
			if len(missing) > 0 && missing[0].After == before {
				lacks = missing[0]
			}
			out.interval(marks[before].At, m.At, lacks, number+1)
			number += 1 + max(0, lacks.Count)
		}
		before = i
	}
	if len(r.Missing) > 0 {
		sorted.Stable(out.beats, func(a, b chart.Placed) int { return cmp.Compare(a.At, b.At) })
	}
	return out
}

// interval takes that between two marks that count, with what lacks in it; the
// pulse after the first has the number.
func (b *beats) interval(from, to float64, lacks rhythm.Missing, number int) {
	n := max(0, lacks.Count)
	b.holds = append(b.holds, chart.Hold{From: from - b.first, To: to - b.first, Value: (to - from) / float64(n+1), Lacks: n > 0})
	if n == 0 {
		return
	}
	g := gap{Missing: lacks, zero: number}
	for j := range n {
		at := from + (to-from)*float64(j+1)/float64(n+1)
		g.at = append(g.at, at)
		b.beats = append(b.beats, chart.Placed{At: at - b.first, Beat: chart.Lacks})
	}
	b.gaps = append(b.gaps, g)
}

// count gives how many there are of each kind.
func (b beats) count() (n [6]int) {
	for _, p := range b.beats {
		n[p.Beat]++
	}
	return n
}

// told counts them in words.
func (b beats) told() string {
	n := b.count()
	said := "Pulses: " + strconv.Itoa(n[chart.Counts]+n[chart.Set]) + " counted"
	for beat := chart.Lacks; beat <= chart.Struck; beat++ {
		if n[beat] > 0 {
			said += ", " + strconv.Itoa(n[beat]) + " " + beatWords[beat]
		}
	}
	return said + "."
}

// beatWords say what became of pulses; beatSigns is how they look.
var (
	beatWords = [...]string{"counted", "set by hand", "missing but counted", "between two that count", "too unsure", "struck out"}
	beatSigns = [...]string{"●", "▲", "○", "✕", "◇", "⊘"}
)

// beatKey explains the shapes that there are.
func beatKey(all []chart.Placed) string {
	n := beats{beats: all}.count()
	key := "The pulses:"
	for beat, many := range n {
		switch {
		case many == 0:
		case chart.Beat(beat) == chart.Counts && len(all) > chart.CrowdOfBeats:
			key += " | " + beatWords[beat] + ","
		default:
			key += " " + beatSigns[beat] + say.Thin + beatWords[beat] + ","
		}
	}
	return key[:len(key)-1] + "."
}
