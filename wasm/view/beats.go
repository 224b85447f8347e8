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
	gaps        []gap          // where pulses lack, in the order of rhythm.Result
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
	out := beats{beats: make([]chart.Placed, 0, len(marks)+len(r.Missing))}
	lacking := map[int]int{} // by the mark before
	for k, m := range r.Missing {
		lacking[m.After] = k
	}
	out.gaps = make([]gap, len(r.Missing))
	stretch, before, number := 0, -1, 0
	for i, m := range marks {
		beat := beatOf(m, r, i)
		out.beats = append(out.beats, chart.Placed{At: m.At, Beat: beat})
		if !counts(beat) {
			continue
		}
		if before < 0 {
			out.first = m.At
		}
		out.last = m.At
		for stretch < len(r.Stretches) && i > r.Stretches[stretch].Last {
			stretch++
		}
		if before >= 0 && (stretch >= len(r.Stretches) || r.Stretches[stretch].First != i) {
			number = out.interval(marks, before, i, number, lacking, r.Missing)
		}
		before = i
	}
	for i := range out.holds {
		out.holds[i].From, out.holds[i].To = out.holds[i].From-out.first, out.holds[i].To-out.first
	}
	for i := range out.beats {
		out.beats[i].At -= out.first
	}
	if len(r.Missing) > 0 {
		sorted.Stable(out.beats, func(a, b chart.Placed) int { return cmp.Compare(a.At, b.At) })
	}
	return out
}

// interval takes that between two marks that count, with what lacks in it. It
// gives the number of the second.
func (b *beats) interval(marks []rhythm.Mark, before, i, number int, lacking map[int]int, missing []rhythm.Missing) int {
	from, to, n := marks[before].At, marks[i].At, 0
	if k, ok := lacking[before]; ok && missing[k].Count > 0 {
		n = missing[k].Count
		b.gaps[k] = gap{Missing: missing[k], zero: number + 1}
		for j := range n {
			at := from + (to-from)*float64(j+1)/float64(n+1)
			b.gaps[k].at = append(b.gaps[k].at, at)
			b.beats = append(b.beats, chart.Placed{At: at, Beat: chart.Lacks})
		}
	}
	b.holds = append(b.holds, chart.Hold{From: from, To: to, Value: (to - from) / float64(n+1), Lacks: n > 0})
	return number + n + 1
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
