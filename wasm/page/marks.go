//go:build js && wasm

package page

import (
	"slices"
	"strconv"
	"strings"
	"syscall/js"

	"splittally/calc"
	"splittally/calc/pulse"
	"splittally/calc/rhythm"
)

// beats keeps the pulses of the runs. Like the records of files they stand
// behind hidden fields that hold short keys: an hour of them has 400 kB.
type beats struct {
	byKey map[string]*beat
	last  int
	parse func(text string) pulse.Marks // nil as long as nobody can
}

// wake reads what was put there while nobody could.
func (b *beats) wake(parse func(text string) pulse.Marks) {
	b.parse = parse
	for _, k := range b.byKey {
		k.marks = parse(k.text)
	}
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
	k := &beat{text: text, heard: &heard{}}
	if b.parse != nil {
		k.marks = b.parse(text)
	}
	b.put(field, k)
}

func (b *beats) put(field js.Value, k *beat) {
	if b.byKey == nil {
		b.byKey = map[string]*beat{}
	}
	b.last++
	key := strconv.Itoa(b.last)
	b.byKey[key] = k
	field.Set("value", key)
}

// mostBeats and mostMarks bound what is kept for bringing back: each tap makes
// one more.
const (
	mostBeats = 64
	mostMarks = 200_000
)

// forget drops what no field holds, the oldest first.
func (b *beats) forget(fields []field) {
	held, marks := map[string]bool{}, 0
	for _, f := range fields {
		if f.kind == beaten {
			held[f.el.Get("value").String()] = true
		}
	}
	for _, k := range b.byKey {
		marks += len(k.marks.Marks)
	}
	for n := 1; n <= b.last && (len(b.byKey) > mostBeats || marks > mostMarks); n++ {
		key := strconv.Itoa(n)
		if k := b.byKey[key]; k != nil && !held[key] {
			marks -= len(k.marks.Marks)
			delete(b.byKey, key)
		}
	}
}

// setMarks gives a run other pulses and works them out.
func (p *page) setMarks(field js.Value, marks pulse.Marks) {
	h := &heard{}
	if k := p.beats.at(field); k != nil {
		h = k.heard
	}
	p.putMarks(field, marks, h)
}

func (p *page) putMarks(field js.Value, marks pulse.Marks, h *heard) {
	if len(marks.Marks) >= manyMarks {
		p.putMany(field, marks, h)
		return
	}
	p.keepMarks(field, marks, h)
	p.changed()
}

// putMany gives a run pulses that take a while, in tasks of their own.
func (p *page) putMany(field js.Value, marks pulse.Marks, h *heard) {
	k := p.keepMarks(field, marks, h)
	p.soon(func() {
		p.memory.PrepareMarks(k.text)
		p.touched()
	})
}

func (p *page) keepMarks(field js.Value, marks pulse.Marks, h *heard) *beat {
	k := &beat{text: pulse.Format(marks), marks: marks, heard: h}
	p.beats.put(field, k)
	p.beats.forget(p.fields)
	return k
}

// manyMarks take longer to judge than a key may.
const manyMarks = 4000

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

// insertMark puts a pulse where one is missing.
func (p *page) insertMark(button js.Value) {
	field := p.marksOf(button)
	at, err := strconv.ParseFloat(attribute(button, "data-place"), 64)
	if k := p.beats.at(field); k != nil && err == nil {
		p.setMarks(field, k.marks.Insert(at))
	}
}

// marksOf gives the hidden field of the run that an element belongs to.
func (p *page) marksOf(el js.Value) js.Value { return runAround(el).marks() }

// marksAway drops the pulses of a run; they can be brought back.
func (p *page) marksAway(button js.Value) {
	r := runAround(button)
	if p.beats.at(r.marks()) == nil {
		return
	}
	before := p.saved()
	p.letGo()
	p.forgetAnswers(r)
	r.marks().Set("value", "")
	r.find(`[data-field="watts"]`).Set("value", "") // of those minutes
	p.offer("The pulses of this run are gone, and the watts of its minutes.", before)
	p.changed()
}

// found gives what was worked out of a run.
func (p *page) found(field js.Value) (pulse.Found, bool) {
	if i := position(runAround(field).item); i < len(p.f.Timing.Runs) {
		return p.f.Timing.Runs[i], true
	}
	return pulse.Found{}, false
}

// forgetAnswers takes back what was answered about a run's pulses: others come.
func (p *page) forgetAnswers(r run) {
	about := "timing.runs." + strconv.Itoa(position(r.item)) + "."
	p.answers = slices.DeleteFunc(slices.Clone(p.answers), func(a calc.Answer) bool { return strings.HasPrefix(a.Question, about) })
}
