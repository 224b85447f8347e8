package chart

import (
	"math"
	"strconv"

	"splittally/calc/chart/markup"
)

// Wave is a stretch of a recording with the pulses found in it.
type Wave struct {
	ID       string
	Title    string
	Words    string
	Envelope []uint8 // loudness, 255 the loudest; none if only the pulses are known
	Step     float64 // seconds of each
	From, To float64 // seconds that are drawn
	Long     float64 // seconds of the whole
	Beats    []Placed
	Breaks   []float64 // seconds at which something is lost
	// Touches are the same pulses where they are few enough to be acted on.
	Touches []Touch
	Sets    bool // an empty place can be pressed, to set a pulse there
}

// Touch is a pulse, or the place of one, that can be pressed. Do, Mark and Told
// are its data-do, data-mark and data-told; Place, its data-place, are the seconds
// at which a pulse is to be set.
type Touch struct {
	At             float64
	ID, Label      string
	Do, Mark, Told string
	Place          string
}

const (
	waveTall  = 156.0
	waveBeats = 16.0 // where the shapes stand
	waveTop   = 32.0
	waveBase  = waveTall - 34
	wherePlot = waveTall - 8
)

// Loudness draws the stretch over the whole width, so that a place along it is a
// time: the page can tell which one was pressed. Its outer element has data-wave
// with the two ends in seconds.
func Loudness(w Wave) markup.Markup {
	x := func(at float64) float64 { return clamp((at-w.From)/(w.To-w.From)*Width, -10, Width+10) }
	within := make([]Placed, 0, len(w.Beats))
	for _, b := range w.Beats {
		if b.At >= w.From && b.At <= w.To {
			within = append(within, b)
		}
	}
	role := "img"
	if len(w.Touches) > 0 {
		role = "group"
	}
	return markup.El("svg", markup.A("viewBox", "0 0 "+markup.Number(Width)+" "+markup.Number(waveTall)),
		markup.A("role", role), markup.A("aria-labelledby", w.ID+"-title "+w.ID+"-words"),
		class("wave"), markup.A("data-wave", ""), markup.Is("data-sets").If(w.Sets), markup.A("data-from", exact(w.From)), markup.A("data-to", exact(w.To)),
		markup.El("title", markup.ID(w.ID+"-title"), markup.Text(w.Title)),
		markup.El("desc", markup.ID(w.ID+"-words"), markup.Text(w.Words)),
		path("sound", w.outline()), w.threads(within, x),
		seconds(w.From, w.To, waveBase, 0, Width, x), w.where(),
		strewn(within, waveBeats, Width/(w.To-w.From), x), w.touches(x))
}

func exact(v float64) string { return strconv.FormatFloat(v, 'f', 6, 64) }

// mostColumns is how many steps the loudness has across the drawing.
const mostColumns = 720

// outline is the loudest of each column, as an area.
func (w Wave) outline() string {
	if len(w.Envelope) == 0 || !(w.Step > 0) || !(w.To > w.From) {
		return ""
	}
	n := int(math.Min(mostColumns, math.Max(1, math.Ceil((w.To-w.From)/w.Step))))
	wide := (w.To - w.From) / float64(n) // seconds of a column
	d := append(make([]byte, 0, 12*n), to("M", 0, waveBase)...)
	for i := range n {
		first := int(math.Floor((w.From + wide*float64(i)) / w.Step))
		end := max(first+1, int(math.Ceil((w.From+wide*float64(i+1))/w.Step)))
		loud := uint8(0)
		for k := max(0, first); k < min(end, len(w.Envelope)); k++ {
			loud = max(loud, w.Envelope[k])
		}
		d = markup.AppendNumber(append(d, 'V'), waveBase-float64(loud)/255*(waveBase-waveTop))
		d = markup.AppendNumber(append(d, 'H'), Width*float64(i+1)/float64(n))
	}
	return string(append(markup.AppendNumber(append(d, 'V'), waveBase), 'Z'))
}

// threads join the shapes of few pulses to their places in the sound, and mark
// where something is lost.
func (w Wave) threads(within []Placed, x func(float64) float64) markup.Markup {
	counted, others, lost := "", "", ""
	if len(within) <= CrowdOfBeats {
		for _, b := range within {
			thread := to("M", x(b.At), waveBeats+6) + to("V", waveBase)
			if b.Beat == Counts || b.Beat == Set {
				counted += thread
			} else {
				others += thread
			}
		}
	}
	for _, at := range w.Breaks {
		if at >= w.From && at <= w.To {
			lost += to("M", x(at), 0) + to("V", waveBase)
		}
	}
	var out []markup.Part
	for _, p := range []struct {
		around, inside markup.Name
		d              string
	}{{Meter.Class(), "whisker pale", counted}, {Meter.Class(), "guess", others}, {"ink-wrong", "line dash", lost}} {
		if p.d != "" {
			out = append(out, group(p.around, path(p.inside, p.d)))
		}
	}
	return markup.Join(out...)
}

// where shows which part of the whole is drawn.
func (w Wave) where() markup.Markup {
	if !(w.Long > 0) || w.To-w.From >= 0.999*w.Long {
		return markup.Markup{}
	}
	left, right := clamp(w.From/w.Long, 0, 1)*Width, clamp(w.To/w.Long, 0, 1)*Width
	return markup.Join(rect("band", 0, wherePlot, Width, 5), group("ink-3", rect("solid", math.Min(left, Width-2), wherePlot, math.Max(2, right-left), 5)))
}

// touches are areas to press, each as wide as its neighbours leave room.
func (w Wave) touches(x func(float64) float64) markup.Markup {
	const reach = 22.0
	var out []markup.Part
	for i, t := range w.Touches {
		at := x(t.At)
		left, right := at-reach, at+reach
		if i > 0 {
			left = math.Max(left, (x(w.Touches[i-1].At)+at)/2)
		}
		if i+1 < len(w.Touches) {
			right = math.Min(right, (x(w.Touches[i+1].At)+at)/2)
		}
		out = append(out, markup.El("g", class("touch"), markup.ID(t.ID), markup.A("role", "button"), markup.A("tabindex", "0"),
			markup.A("aria-label", t.Label), markup.A("data-do", t.Do), markup.A("data-mark", t.Mark), markup.A("data-told", t.Told), markup.A("data-place", t.Place),
			rect("hit", left, 0, right-left, waveBase)))
	}
	return markup.Join(out...)
}
