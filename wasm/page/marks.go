//go:build js && wasm

package page

import (
	"strconv"
	"syscall/js"

	"splittally/calc/pulse"
	"splittally/calc/rhythm"
)

// beats keeps the pulses of the runs. Like the records of files they stand
// behind hidden fields that hold short keys: an hour of them has 400 kB.
type beats struct {
	byKey map[string]*beat
	last  int
}

// beat is the pulses of one run. It never changes; another takes its place.
type beat struct {
	text  string
	marks pulse.Marks
	heard *heard
}

// heard is what the page knows of a recording besides its pulses. It goes along
// when pulses are struck out or added.
type heard struct {
	envelope []uint8
	step     float64 // seconds of one of its values
	from, to float64 // seconds that the picture shows; to is 0 for all of it
}

func (b *beats) text(field js.Value) string {
	if k := b.at(field); k != nil {
		return k.text
	}
	return ""
}

// at gives what a field has the key of, or nil.
func (b *beats) at(field js.Value) *beat { return b.byKey[field.Get("value").String()] }

// set puts pulses into a field. Those that were there before are known again,
// with the sound that they were found in.
func (b *beats) set(field js.Value, text string) {
	if b.text(field) == text {
		return
	}
	for key, k := range b.byKey {
		if k.text == text {
			field.Set("value", key)
			return
		}
	}
	if text == "" {
		field.Set("value", "")
		return
	}
	marks, _ := pulse.Parse(text) // calc.Work tells what is wrong with it
	b.put(field, &beat{text: text, marks: marks, heard: &heard{}})
}

func (b *beats) put(field js.Value, k *beat) {
	if b.byKey == nil {
		b.byKey = map[string]*beat{}
	}
	b.last++
	key := strconv.Itoa(b.last)
	b.byKey[key] = k
	field.Set("value", key)
	delete(b.byKey, strconv.Itoa(b.last-mostBeats)) // the oldest, which no undo reaches any more
}

// mostBeats bounds what is kept for bringing back: each tap makes one.
const mostBeats = 400

// setMarks gives a run other pulses and works them out.
func (p *page) setMarks(field js.Value, marks pulse.Marks) {
	h := &heard{}
	if k := p.beats.at(field); k != nil {
		h = k.heard
	}
	p.putMarks(field, marks, h)
}

func (p *page) putMarks(field js.Value, marks pulse.Marks, h *heard) {
	p.beats.put(field, &beat{text: pulse.Format(marks), marks: marks, heard: h})
	p.changed()
}

// run is the part of the page that one run of the timing stands in.
type run struct{ item js.Value }

func runAround(el js.Value) run { return run{el.Call("closest", "[data-item]")} }

func (r run) marks() js.Value { return r.find(`[data-holds="marks"]`) }

func (r run) find(selector string) js.Value { return r.item.Call("querySelector", selector) }

// tellMark is the act of the buttons at single pulses.
func (p *page) tellMark(button js.Value) {
	field := p.marksOf(button)
	if k := p.beats.at(field); k != nil {
		p.setMarks(field, k.marks.With(rhythm.Told(attribute(button, "data-told")), number(button, "data-mark")))
	}
}

// insertMark puts a pulse half way between a pulse and the next.
func (p *page) insertMark(button js.Value) {
	field, i := p.marksOf(button), number(button, "data-mark")
	if k := p.beats.at(field); k != nil && i+1 < len(k.marks.Marks) {
		p.setMarks(field, k.marks.Insert((k.marks.Marks[i].At+k.marks.Marks[i+1].At)/2))
	}
}

// marksOf gives the hidden field of the run that an element belongs to, also if
// it stands among the findings.
func (p *page) marksOf(el js.Value) js.Value { return runAround(el).marks() }

// marksAway drops the pulses of a run; they can be brought back.
func (p *page) marksAway(button js.Value) {
	r := runAround(button)
	if p.beats.at(r.marks()) == nil {
		return
	}
	before := p.saved()
	p.letGo()
	r.marks().Set("value", "")
	p.offer("The pulses of this run are gone.", before)
	p.changed()
}

// found gives what was worked out of a run.
func (p *page) found(field js.Value) (pulse.Found, bool) {
	if i := position(runAround(field).item); i < len(p.f.Timing.Runs) {
		return p.f.Timing.Runs[i], true
	}
	return pulse.Found{}, false
}
