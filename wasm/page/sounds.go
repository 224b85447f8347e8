//go:build js && wasm

package page

import (
	"runtime/debug"
	"strconv"
	"strings"
	"syscall/js"

	"splittally/calc/onset"
	"splittally/calc/pulse"
	"splittally/calc/rhythm"
	"splittally/calc/sound"
	"splittally/wasm/form"
	"splittally/wasm/view"
)

// ear is the place for a recording of one run, by its hidden field.
type ear struct {
	field js.Value
	job   *listening
	tried *view.SoundTried
	how   string // the way to count before a recording was picked
}

// listening is a recording that is being read.
type listening struct {
	ear    *ear
	file   js.Value
	name   string
	finder *onset.Finder
	reader *sound.Reader
	stream *stream
	total  float64
	moved  float64
	isOff  bool
}

// earOf gives the place of a hidden field.
func (p *page) earOf(field js.Value) *ear {
	for _, e := range p.ears {
		if e.field.Equal(field) {
			return e
		}
	}
	e := &ear{field: field}
	p.ears = append(p.ears, e)
	return e
}

// soundChosen takes a recording that was picked.
func (p *page) soundChosen(input js.Value) {
	if files := input.Get("files"); files.Length() > 0 {
		p.takeSound(files.Index(0), p.earOf(p.marksOf(input)))
	}
	input.Set("value", "") // so that the same file can be picked again
}

// takeSound reads a recording for a run.
func (p *page) takeSound(file js.Value, e *ear) {
	if p.hand != nil && p.hand.item.Equal(runAround(e.field).item) {
		p.letGo()
	}
	how := p.howOf(e)
	if e.job == nil {
		e.how = how.Get("value").String()
	}
	p.stopListening(e)
	l := &listening{ear: e, file: file, name: file.Get("name").String(), finder: onset.New(), total: file.Get("size").Float()}
	e.job, e.tried = l, nil
	unfoldAround(e.field)
	choose(how, "sound")
	p.tuneGarbage()
	p.announce("Reading “" + l.name + "”.")
	l.reader = sound.New(l.finder, sound.Options{Bytes: int64(l.total)})
	l.stream = &stream{
		p: p, portion: l.reader.Portion,
		write: func(chunk []byte) bool { return l.reader.Write(chunk) },
		turn:  func() { p.hear(l, l.stream.read/max(l.total, 1)) },
		end:   func() { p.heardAll(l) },
		fell:  func() { p.fell(l) },
	}
	l.stream.start(file.Call("stream"))
	p.drawFiles()
}

// howOf is the choice of the way to count.
func (p *page) howOf(e *ear) js.Value { return runAround(e.field).find(`[data-field="how"]`) }

// tuneGarbage lets less garbage gather while any recording is read.
func (p *page) tuneGarbage() {
	percent := garbage
	for _, e := range p.ears {
		if e.job != nil {
			percent = garbageOfSound
		}
	}
	debug.SetGCPercent(percent)
}

// hear shows how far the reading is.
func (p *page) hear(l *listening, part float64) {
	at := now()
	if at-l.moved < moveEvery {
		return
	}
	l.moved = at
	bar, far, ok := p.progress(l.card())
	if !ok {
		return
	}
	bar.Set("value", part)
	far.Set("textContent", strconv.Itoa(int(100*min(part, 1)))+" %")
}

// card is the id of the card that it shows in.
func (l *listening) card() string {
	return form.ID(beside(placeOf(l.ear.field, "data-field"), "sound"))
}

// heardAll ends the reading of a file, and goes on to search it.
func (p *page) heardAll(l *listening) {
	found := l.reader.Close()
	if broke := l.stream.broke; broke != "" {
		found.Says = append([]string{"The browser could not read it to its end: " + broke}, found.Says...)
	}
	switch {
	case found.Why == sound.Elsewhere:
		l.finder = onset.New() // some of it may have been heard already
		p.decode(l, found)
	case found.Read == 0:
		p.unheard(l.ear, l.name, strings.Join(found.Says, " "))
	default:
		p.search(l, found)
	}
}

// fell ends a reading that failed by a fault of this program's, which is told elsewhere.
func (p *page) fell(l *listening) {
	if !l.isOff {
		p.stopListening(l.ear)
		p.unheard(l.ear, l.name, "This program failed at it. Nothing of it was taken.")
	}
}

// busy says what goes on where no part of it can be told.
func (p *page) busy(l *listening, words string) {
	if bar, far, ok := p.progress(l.card()); ok {
		bar.Call("removeAttribute", "value")
		far.Set("textContent", words)
	}
}

// search finds the pulses of what was read.
func (p *page) search(l *listening, read sound.Found) {
	p.busy(l, "looking for pulses")
	l.finder.End()
	p.inTurns(func() bool { return l.isOff || l.finder.Step() }, func() {
		if !l.isOff {
			p.searched(l, read)
		}
	}, func() { p.fell(l) })
}

// searched takes what was found, in tasks of its own.
func (p *page) searched(l *listening, read sound.Found) {
	found := l.finder.Found()
	l.finder, l.reader = nil, nil
	m := pulse.Marks{
		By: "sound", File: l.name, Format: read.Format, Read: read.Read, Promised: read.Promised, Lost: read.Lost,
		Timing: found.Timing, Above: found.Above, Breaks: found.Breaks, Says: append(read.Says, found.Says...),
	}
	for _, pulse := range found.Pulses {
		m.Marks = append(m.Marks, rhythm.Mark{At: pulse.At, Sure: pulse.Sure})
	}
	p.soon(func() {
		m = m.Sift()
		p.soon(func() {
			if !l.isOff { // it may have been stopped meanwhile
				p.takeHeard(l, m, &heard{envelope: found.Envelope, step: found.EnvelopeStep})
			}
		})
	})
}

// takeHeard gives a run the pulses of its recording.
func (p *page) takeHeard(l *listening, m pulse.Marks, h *heard) {
	e, r := l.ear, runAround(l.ear.field)
	was := p.beats.at(e.field)
	switch {
	case was != nil && m.Judge().Why != "":
		p.unheard(e, l.name, "No pulses that keep a pace were found in it. "+strings.Join(m.Says, " "))
		return
	case was != nil && was.marks.File == m.File && was.marks.Read == m.Read: // the same once more, to see its sound
		m = m.As(was.marks)
	case was != nil:
		p.offer("“"+l.name+"” took the place of the pulses that were there, and of the watts beside them.", p.saved())
		for _, name := range []string{"begins", "watts"} {
			r.find(`[data-field="`+name+`"]`).Set("value", "")
		}
		p.forgetAnswers(r)
	}
	e.job = nil
	p.tuneGarbage()
	p.putMany(e.field, m, h)
	p.announce("“" + l.name + "” was read.")
}

// unheard tells that a file gave nothing. What was there before still is.
func (p *page) unheard(e *ear, name, says string) {
	e.job, e.tried = nil, &view.SoundTried{Name: name, Says: says}
	p.tuneGarbage()
	choose(p.howOf(e), e.how)
	p.announce(says)
	p.changed()
	p.drawFiles()
}

// stopListening ends the reading of a recording.
func (p *page) stopListening(e *ear) {
	if e.job != nil {
		e.job.isOff = true
		e.job.stream.stop()
		e.job = nil
		p.tuneGarbage()
	}
}

// stopSound is the act of the button beside the bar.
func (p *page) stopSound(button js.Value) {
	e := p.earOf(p.marksOf(button))
	if e.job == nil {
		return
	}
	name := e.job.name
	p.stopListening(e)
	p.unheard(e, name, "It was not read to its end. Nothing of it was taken.")
}

// sounds draws the cards of recordings, by slot.
func (p *page) sounds(cards map[string]string) {
	for _, f := range p.fields {
		if f.kind != beaten {
			continue
		}
		place, e := beside(f.path, "sound"), p.earOf(f.el)
		card := view.Sound{ID: form.ID(place), Open: p.unfolded, Tried: e.tried}
		if e.job != nil {
			card.Going = &view.SoundGoing{Name: e.job.name}
		}
		if k := p.beats.at(f.el); k != nil && k.marks.By == "sound" {
			card.Has, card.Marks = true, k.marks
			card.Envelope, card.Step = k.heard.envelope, k.heard.step
			card.From, card.To = k.heard.window(k.marks)
			if found, ok := p.found(f.el); ok {
				card.Rhythm = found.Rhythm
			}
		}
		cards[place] = card.Markup()
	}
}
