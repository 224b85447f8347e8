//go:build js && wasm

package page

import (
	"strconv"
	"syscall/js"

	"splittally/calc/pulse"
	"splittally/calc/rhythm"
)

// narrowest is the least that the picture of a recording shows, in seconds.
const narrowest = 0.1

// window gives the seconds that the picture shows.
func (h *heard) window(m pulse.Marks) (from, to float64) {
	if h.to > h.from {
		return h.from, h.to
	}
	return 0, whole(m)
}

// whole is how long a recording is.
func whole(m pulse.Marks) float64 {
	long := max(m.Read, narrowest)
	if n := len(m.Marks); n > 0 {
		long = max(long, m.Marks[n-1].At)
	}
	return long
}

// wave is the act of the buttons that move the picture.
func (p *page) wave(button js.Value) {
	field := p.marksOf(button)
	k := p.beats.at(field)
	if k == nil {
		return
	}
	from, to := k.heard.window(k.marks)
	wide := to - from
	switch attribute(button, "data-move") {
	case "in":
		from, to = from+wide/3, to-wide/3
	case "out":
		from, to = from-wide, to+wide
	case "left":
		from, to = from-0.8*wide, to-0.8*wide
	case "right":
		from, to = from+0.8*wide, to+0.8*wide
	case "all":
		from, to = 0, whole(k.marks)
	case "doubt":
		if found, ok := p.found(field); ok && len(found.Rhythm.Uses) == len(k.marks.Marks) {
			from, to = nextDoubt(k.marks.Marks, found.Rhythm, from, to)
		}
	case "set":
		p.setMarks(field, k.marks.Insert(k.heard.loudest((from+to)/2, wide/100)))
		return
	}
	k.heard.show(k.marks, from, to)
	p.drawFiles()
}

// show sets the window, within the recording.
func (h *heard) show(m pulse.Marks, from, to float64) {
	end := whole(m)
	wide := min(max(to-from, narrowest), end)
	from = min(max(0, (from+to-wide)/2), end-wide)
	h.from, h.to = from, from+wide
}

// doubts is how many intervals are shown around a doubtful place.
const doubts = 6

// nextDoubt gives a window about the next place that a person should look at:
// after the middle of the window, or else the first.
func nextDoubt(marks []rhythm.Mark, r rhythm.Result, from, to float64) (float64, float64) {
	var places []float64
	for i, use := range r.Uses {
		if use == rhythm.Extra || use == rhythm.Doubted && r.Chances[i] >= 0.1 || use == rhythm.Counted && marks[i].Told == rhythm.Nothing && r.Chances[i] < 0.9 {
			places = append(places, marks[i].At)
		}
	}
	for _, m := range r.Missing {
		places = append(places, marks[m.After].At)
	}
	if len(places) == 0 {
		return from, to
	}
	next, first, middle := -1.0, places[0], (from+to)/2
	for _, at := range places {
		first = min(first, at)
		if at > middle+narrowest/10 && (next < 0 || at < next) {
			next = at
		}
	}
	if next < 0 {
		next = first
	}
	half := (to - from) / 2
	if r.Intervals > 0 {
		half = doubts / 2 * r.Seconds / float64(r.Intervals)
	}
	return next - half, next + half
}

// touchWave adds a pulse where an empty place of the picture is clicked: at the
// loudest moment nearby.
func (p *page) touchWave(picture, event js.Value) {
	field := p.marksOf(picture)
	k := p.beats.at(field)
	if k == nil {
		return
	}
	if !picture.Call("hasAttribute", "data-sets").Bool() {
		p.announce("Come closer first.")
		return
	}
	box := picture.Call("getBoundingClientRect")
	part := (event.Get("clientX").Float() - box.Get("left").Float()) / max(1, box.Get("width").Float())
	from, err1 := strconv.ParseFloat(attribute(picture, "data-from"), 64)
	to, err2 := strconv.ParseFloat(attribute(picture, "data-to"), 64)
	if err1 != nil || err2 != nil || part < 0 || part > 1 {
		return
	}
	p.setMarks(field, k.marks.Insert(k.heard.loudest(from+part*(to-from), (to-from)/100)))
}

// loudest gives the loudest moment within some seconds of another.
func (h *heard) loudest(at, within float64) float64 {
	best, loud := at, uint8(0)
	for i := max(0, int((at-within)/h.step)); h.step > 0 && i < len(h.envelope) && float64(i)*h.step <= at+within; i++ {
		if h.envelope[i] > loud {
			best, loud = float64(i)*h.step, h.envelope[i]
		}
	}
	return best
}
