//go:build js && wasm

package page

import (
	"encoding/binary"
	"math"
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
	p.stopListening(e)
	l := &listening{ear: e, file: file, name: file.Get("name").String(), finder: onset.New(), total: file.Get("size").Float()}
	e.job, e.tried = l, nil
	unfoldAround(e.field)
	p.byHow(e.field)
	p.announce("Reading “" + l.name + "”.")
	l.reader = sound.New(l.finder, sound.Options{Bytes: int64(l.total)})
	l.stream = &stream{
		p: p, portion: l.reader.Portion,
		write: func(chunk []byte) bool { return l.reader.Write(chunk) },
		turn:  func() { p.hear(l, l.stream.read/max(l.total, 1)) },
		end:   func() { p.heardAll(l) },
	}
	debug.SetGCPercent(garbageOfSound)
	l.stream.start(file.Call("stream"))
	p.drawFiles()
}

// byHow sets a run to be counted from a recording.
func (p *page) byHow(field js.Value) {
	choose(runAround(field).find(`[data-field="how"]`), "sound")
}

// hear shows how far the reading is.
func (p *page) hear(l *listening, part float64) {
	at := now()
	if at-l.moved < moveEvery {
		return
	}
	l.moved = at
	place := form.ID(soundSlot(l.ear.field))
	bar, far := p.doc.Underlying().Call("getElementById", place+"-bar"), p.doc.Underlying().Call("getElementById", place+"-far")
	if bar.IsNull() || far.IsNull() {
		return
	}
	bar.Set("value", part)
	far.Set("textContent", strconv.Itoa(int(100*min(part, 1)))+" %")
}

// soundSlot is the path of the slot beside a hidden field.
func soundSlot(field js.Value) string {
	path := placeOf(field, "data-field")
	return path[:strings.LastIndexByte(path, '.')+1] + "sound"
}

// heardAll ends the reading of a file, and goes on to search it.
func (p *page) heardAll(l *listening) {
	found := l.reader.Close()
	if l.stream.broke != "" {
		found.Says = append(found.Says, "The browser could read it no further: "+l.stream.broke)
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

// search finds the pulses of what was read.
func (p *page) search(l *listening, read sound.Found) {
	l.finder.End()
	p.inTurns(func() bool { return l.isOff || l.finder.Step() }, func() {
		if !l.isOff {
			p.searched(l, read)
		}
	})
}

// searched takes what was found, in tasks of its own.
func (p *page) searched(l *listening, read sound.Found) {
	found := l.finder.Found()
	l.finder, l.reader, l.ear.job = nil, nil, nil
	debug.SetGCPercent(garbage)
	m := pulse.Marks{
		By: "sound", File: l.name, Format: read.Format, Read: read.Read, Promised: read.Promised, Lost: read.Lost,
		Timing: found.Timing, Above: found.Above, Breaks: found.Breaks, Says: append(read.Says, found.Says...),
	}
	for _, pulse := range found.Pulses {
		m.Marks = append(m.Marks, rhythm.Mark{At: pulse.At, Sure: pulse.Sure})
	}
	m = m.Sift()
	if before := p.saved(); p.beats.at(l.ear.field) != nil {
		p.offer("“"+l.name+"” took the place of the pulses that were there.", before)
		runAround(l.ear.field).find(`[data-field="begins"]`).Set("value", "") // that was theirs
	}
	k := &beat{text: pulse.Format(m), marks: m, heard: &heard{envelope: found.Envelope, step: found.EnvelopeStep}}
	p.beats.put(l.ear.field, k)
	p.announce("“" + l.name + "” was read.")
	p.soon(func() { p.memory.PrepareMarks(k.text) })
	p.touched()
}

// unheard tells that a file gave nothing. What was there before still is.
func (p *page) unheard(e *ear, name, says string) {
	debug.SetGCPercent(garbage)
	e.job, e.tried = nil, &view.SoundTried{Name: name, Says: says}
	p.drawFiles()
	p.announce(says)
}

// stopListening ends the reading of a recording.
func (p *page) stopListening(e *ear) {
	if e.job != nil {
		debug.SetGCPercent(garbage)
		e.job.isOff = true
		e.job.stream.stop()
		e.job = nil
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
	p.unheard(e, name, "“"+name+"” was not read to its end. Nothing of it was taken.")
}

// Bounds of what the browser decodes, which it does all at once: the bytes of a
// file, those above which it decodes coarsely, and both its rates.
const (
	mostDecoded, coarseFrom   = 64_000_000, 4_000_000
	fineDecoded, coarseDecode = 24_000, 8_000
	takenAtOnce               = 1 << 13 // samples
)

// decode lets the browser decode what the engine does not, and never plays it.
func (p *page) decode(l *listening, read sound.Found) {
	context := js.Global().Get("OfflineAudioContext")
	if context.IsUndefined() {
		p.unheard(l.ear, l.name, strings.Join(append(read.Says, "This browser has no decoder for it. Save it as WAV or MP3 and pick it again."), " "))
		return
	}
	if l.total > mostDecoded {
		p.unheard(l.ear, l.name, "“"+l.name+"” is too large for the browser to decode at once. Save it as WAV or MP3 and pick it again.")
		return
	}
	rate := fineDecoded
	if l.total > coarseFrom {
		rate = coarseDecode
	}
	var loaded, decoded, failed js.Func
	answer := func(f func(js.Value)) js.Func {
		return js.FuncOf(func(_ js.Value, args []js.Value) any {
			if !l.isOff {
				p.guard("decoding a recording", func() { f(args[0]) })
			}
			return nil
		})
	}
	release := func() { loaded.Release(); decoded.Release(); failed.Release() }
	decoded = answer(func(buffer js.Value) { release(); p.takeDecoded(l, read, buffer) })
	failed = answer(func(js.Value) {
		release()
		p.unheard(l.ear, l.name, strings.Join(append(read.Says, "The browser can’t decode it either. Save it as WAV or MP3 and pick it again."), " "))
	})
	loaded = answer(func(bytes js.Value) {
		context.New(1, 1, rate).Call("decodeAudioData", bytes).Call("then", decoded, failed)
	})
	l.file.Call("arrayBuffer").Call("then", loaded, failed)
}

// takeDecoded hands the samples of the browser's decoder to the finder.
func (p *page) takeDecoded(l *listening, read sound.Found, buffer js.Value) {
	rate, length := buffer.Get("sampleRate").Int(), buffer.Get("length").Int()
	channels := min(2, buffer.Get("numberOfChannels").Int())
	read.Read, read.Why, read.Says = float64(length)/float64(rate), "", nil
	if l.finder.Begin(rate, channels); read.Format == "" {
		read.Format = "a form that the browser decodes"
	}
	var sides [2]js.Value
	for c := range channels {
		samples := buffer.Call("getChannelData", c)
		sides[c] = js.Global().Get("Uint8Array").New(samples.Get("buffer"), samples.Get("byteOffset"), samples.Get("byteLength"))
	}
	raw := make([]byte, 4*takenAtOnce)
	var left, right [takenAtOnce]float32
	at, end := 0, min(length, sound.Longest*rate)
	p.inTurns(func() bool {
		if l.isOff || at >= end {
			return true
		}
		n := min(takenAtOnce, end-at)
		floats(left[:n], raw, sides[0], at)
		if channels == 2 {
			floats(right[:n], raw, sides[1], at)
			l.finder.Take(left[:n], right[:n])
		} else {
			l.finder.Take(left[:n], nil)
		}
		at += n
		return false
	}, func() {
		if !l.isOff {
			p.search(l, read)
		}
	})
}

// floats copies samples out of the browser.
func floats(into []float32, raw []byte, from js.Value, at int) {
	js.CopyBytesToGo(raw[:4*len(into)], from.Call("subarray", 4*at, 4*(at+len(into))))
	for i := range into {
		into[i] = math.Float32frombits(binary.LittleEndian.Uint32(raw[4*i:]))
	}
}

// sounds draws the cards of recordings, by slot.
func (p *page) sounds(cards map[string]string) {
	for _, f := range p.fields {
		if f.kind != beaten {
			continue
		}
		place, e := soundSlot(f.el), p.earOf(f.el)
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
