package view

import (
	"cmp"
	"strconv"

	"splittally/calc/chart"
	"splittally/calc/chart/markup"
	"splittally/calc/pulse"
	"splittally/calc/rhythm"
	"splittally/calc/say"
	"splittally/calc/sorted"
)

// Sound is what the page knows of a recording at one run.
type Sound struct {
	ID       string // begins the ids of what is drawn, such as "timing-runs-0-sound"
	Going    *SoundGoing
	Tried    *SoundTried
	Has      bool // Marks are there
	Marks    pulse.Marks
	Rhythm   rhythm.Result
	Envelope []uint8 // loudness, 255 the loudest; nil once the page was left
	Step     float64 // seconds of each
	From, To float64 // seconds that the picture shows
	Open     map[string]bool
}

// SoundGoing is a recording that is being read. Its markup stays the same while
// it is, so that what shows how far it is can be moved without drawing anew.
type SoundGoing struct{ Name string }

// SoundTried is a recording that gave no pulses. What was there before still is.
type SoundTried struct {
	Name string
	Says string // in a sentence
}

// Markup draws it all. It is empty if there is nothing.
func (c Sound) Markup() string {
	var inside piece
	switch {
	case c.Going != nil:
		inside = join(c.tried(), c.going())
	case c.Has:
		inside = join(c.tried(), c.card())
	default:
		inside = c.tried()
	}
	if isEmpty(inside) {
		return ""
	}
	return el("div", class("file"), attr("id", c.ID), inside).(markup.Markup).String()
}

// going shows a recording that is being read, with a way to stop it.
func (c Sound) going() piece {
	name := c.ID + "-going"
	return el("div", class("going"), el("p", attr("id", name), text("Listening through “"+c.Going.Name+"”")),
		el("progress", attr("id", c.ID+"-bar"), attr("max", "1"), attr("aria-labelledby", name)),
		el("span", attr("id", c.ID+"-far"), text(" ")),
		el("button", attr("type", "button"), attr("id", c.ID+"-stop"), attr("data-do", "stop-sound"), text("Stop")))
}

// tried tells why the last recording gave nothing.
func (c Sound) tried() piece {
	if c.Tried == nil {
		return none
	}
	says := c.Tried.Says
	if c.Has {
		says += " What was there before still is."
	}
	return el("div", class("trouble"), el("p", el("strong", text("“"+c.Tried.Name+"”: ")), text(says)))
}

// card tells what was found, with the picture of it.
func (c Sound) card() piece {
	b := gather(c.Marks.Marks, c.Rhythm)
	name := c.Marks.File
	if name == "" {
		name = "A recording"
	}
	format := c.Marks.Format
	if format != "" {
		format = ", " + format
	}
	return join(el("p", el("strong", text(name)), text(format)),
		c.facts(b), bullets(c.Marks.Says), c.picture(b),
		el("button", attr("type", "button"), class("plain"), attr("id", c.ID+"-away"), attr("data-do", "marks-away"), text("Take the recording’s pulses away")))
}

func (c Sound) facts(b beats) piece {
	list := []fact{{"Read", soundRead(c.Marks)}}
	if c.Marks.Lost > 0 {
		list = append(list, fact{"Damaged, silent here", say.Watch(c.Marks.Lost, 1)})
	}
	list = append(list, fact{"Sounds like a pulse", say.Counted(len(c.Marks.Marks), "time", "times")})
	if c.Marks.Above > 0 {
		list = append(list, fact{"Above the noise", say.Plain(c.Marks.Above, 0) + say.Thin + "dB"})
	}
	return join(facts(list...), prose(b.told()))
}

// soundRead says how much of a recording was read.
func soundRead(m pulse.Marks) string {
	read := say.Watch(m.Read, 0)
	if m.Promised > 0 {
		read += " of the " + say.Watch(m.Promised, 0) + " promised"
	}
	return read
}

// long is how long the whole picture is.
func (c Sound) long() float64 {
	long := max(c.Marks.Read, c.To)
	if n := len(c.Marks.Marks); n > 0 {
		long = max(long, c.Marks.Marks[n-1].At)
	}
	return long
}

// picture draws the stretch that is looked at, with buttons that move it.
func (c Sound) picture(b beats) piece {
	if !(c.To > c.From) {
		return none
	}
	from := 0
	for i := range b.beats {
		b.beats[i].At += b.first
		if b.beats[i].At < c.From {
			from = i + 1
		}
	}
	till := from
	for till < len(b.beats) && b.beats[till].At <= c.To {
		till++
	}
	within := beats{beats: b.beats[from:till]}
	span := say.Watch(c.From, 1) + " to " + say.Watch(c.To, 1)
	w := chart.Wave{
		ID: c.ID + "-wave", Title: "The recording from " + span, Words: within.told(),
		Envelope: c.Envelope, Step: c.Step, From: c.From, To: c.To, Long: c.long(), Beats: within.beats, Breaks: c.Marks.Breaks,
	}
	hint := "Come closer to strike pulses out or to set them."
	if len(within.beats) <= mostTouches {
		w.Touches, w.Sets = c.touches(b), true
		hint = "Press a pulse to strike it out or to count it; press an empty place to set one there."
	}
	if len(c.Envelope) == 0 {
		hint += " The sound itself is not kept: pick the file again to see it."
	}
	return join(el("figure", chart.Loudness(w), el("figcaption", text(beatKey(within.beats)+" "+hint))), c.moves(b, w.Sets))
}

// mostTouches is how many pulses can be pressed at once: more would be too
// narrow for a finger. Closer in they can.
const mostTouches = 12

// touches are what can be pressed, by time.
func (c Sound) touches(b beats) []chart.Touch {
	var out []chart.Touch
	gaps := b.gaps
	for i, m := range c.Marks.Marks {
		if m.At >= c.From && m.At <= c.To {
			out = append(out, c.touch(i, m, beatOf(m, c.Rhythm, i)))
		}
		if len(gaps) == 0 || gaps[0].After != i {
			continue
		}
		g := gaps[0]
		gaps = gaps[1:]
		for k, at := range g.at {
			if at >= c.From && at <= c.To {
				out = append(out, chart.Touch{
					At: at, Place: strconv.FormatFloat(at, 'f', 4, 64), ID: c.ID + "-gap-" + strconv.Itoa(i) + "-" + strconv.Itoa(k), Do: "insert-mark", Mark: strconv.Itoa(i),
					Label: "A pulse that is missing at " + say.Watch(at, 3) + ", counted; set it by hand",
				})
			}
		}
	}
	sorted.Stable(out, func(a, b chart.Touch) int { return cmp.Compare(a.At, b.At) })
	return out
}

// touch is one mark, with what pressing it does.
func (c Sound) touch(i int, m rhythm.Mark, beat chart.Beat) chart.Touch {
	is, then, told := "counted", "strike it out", rhythm.Struck
	switch {
	case beat == chart.Struck && m.Told == rhythm.Struck:
		is, then, told = beatWords[beat], "leave it as it was found", rhythm.Nothing
	case !counts(beat):
		is, then, told = beatWords[beat]+", not counted", "count it", rhythm.Added
	}
	return chart.Touch{
		At: m.At, ID: c.ID + "-mark-" + strconv.Itoa(i), Do: "mark", Mark: strconv.Itoa(i), Told: string(told),
		Label: "Pulse at " + say.Watch(m.At, 3) + ", " + is + "; " + then,
	}
}

// moves are the buttons that move the picture.
func (c Sound) moves(b beats, sets bool) piece {
	move := func(name, label string) piece {
		return el("button", attr("type", "button"), attr("id", c.ID+"-"+name), attr("data-do", "wave"), attr("data-move", name), text(label))
	}
	doubt := none
	if n := b.count(); n[chart.Lacks]+n[chart.Between]+n[chart.Unsure] > 0 {
		doubt = move("doubt", "Next doubt")
	}
	return el("div", class("acts moves"), move("in", "Closer"), move("out", "Wider"), move("all", "All of it"), move("left", "Earlier"), move("right", "Later"), doubt)
}
