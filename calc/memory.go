package calc

import (
	"maps"
	"slices"

	"splittally/calc/fill"
	"splittally/calc/intake"
	"splittally/calc/ledger"
	"splittally/calc/load"
	"splittally/calc/pulse"
	"splittally/calc/rhythm"
)

// Memory works cases that differ little from one to the next, as a person's
// keystrokes make them: it keeps what the last case's texts and gaps came to
// and takes that again where they are the same. Its findings are those of Work.
// The zero value is ready; it serves one caller at a time.
type Memory struct {
	read    kept[reading, intake.Result]
	records kept[string, recorded]
	marks   kept[string, marked]
	filled  kept[fill.Request, filling]
	paired  kept[twoLedgers, pairing]
	loads   kept[shaping, load.Load]
}

// Work takes one case through, as Work does.
func (m *Memory) Work(c Case) Findings {
	f := work{c: c, memory: m}.findings()
	m.turn()
	return f
}

// turn forgets what the last case did not need.
func (m *Memory) turn() {
	m.read.turn()
	m.records.turn()
	m.marks.turn()
	m.filled.turn()
	m.paired.turn()
	m.loads.turn()
}

// Prepare reads the record of a file before the case that holds it is worked
// out, so that neither takes long at once.
func (m *Memory) Prepare(record string) { (&work{memory: m}).openRecord(record) }

// PrepareMarks does the same for the pulses of a recording.
func (m *Memory) PrepareMarks(marks string) { _, _, _ = (&work{memory: m}).readMarks(marks) }

// reading is all that intake.Read is given.
type reading struct {
	text    string
	options intake.Options
}

// filling is all that fill.Fill gives.
type filling struct {
	result fill.Result
	err    error
}

// marked is all that pulse.ReadMarks gives.
type marked struct {
	marks  pulse.Marks
	rhythm rhythm.Result
	err    error
}

func (w *work) readMarks(text string) (pulse.Marks, rhythm.Result, error) {
	m := w.memory.marks.get(text, func(a, b string) bool { return a == b }, func(text string) (m marked) {
		m.marks, m.rhythm, m.err = pulse.ReadMarks(text)
		return m
	})
	return m.marks, m.rhythm, m.err
}

func (w *work) readText(text string, o intake.Options) intake.Result {
	return w.memory.read.get(reading{text, o}, sameReading, func(r reading) intake.Result {
		r.options.Answers = maps.Clone(r.options.Answers) // the key must stay as it is
		return intake.Read(r.text, r.options)
	})
}

func sameReading(a, b reading) bool {
	return a.text == b.text && a.options.Path == b.options.Path && a.options.Near == b.options.Near &&
		a.options.Today == b.options.Today && maps.Equal(a.options.Answers, b.options.Answers)
}

func (w *work) fill(r fill.Request) (fill.Result, error) {
	f := w.memory.filled.get(r, sameRequest, func(r fill.Request) filling {
		result, err := fill.Fill(r)
		return filling{result, err}
	})
	return f.result, f.err
}

func sameRequest(a, b fill.Request) bool {
	return a.Span == b.Span && a.Method == b.Method && sameLedger(a.Ledger, b.Ledger) &&
		slices.EqualFunc(a.Others, b.Others, sameLedger)
}

// sameLedger says whether two ledgers hold the same. A year of hours that was
// kept from the case before need not be looked through: nobody changes a ledger
// once it is made.
func sameLedger(a, b ledger.Ledger) bool {
	return a.Name == b.Name && a.First == b.First && slices.Equal(a.Days, b.Days) && sameSlots(a.Slots, b.Slots)
}

func sameSlots(a, b []ledger.Slot) bool {
	if len(a) == len(b) && len(a) > 0 && &a[0] == &b[0] {
		return true
	}
	return slices.Equal(a, b)
}

// kept holds outcomes by what they came from: those of the case before and
// those of this one.
type kept[K, V any] struct{ before, now []pair[K, V] }

type pair[K, V any] struct {
	from K
	came V
}

// get takes the outcome of an equal input, or makes it.
func (k *kept[K, V]) get(from K, same func(a, b K) bool, work func(K) V) V {
	for _, all := range [2][]pair[K, V]{k.now, k.before} {
		for _, p := range all {
			if same(p.from, from) {
				k.now = append(k.now, p)
				return p.came
			}
		}
	}
	p := pair[K, V]{from, work(from)}
	k.now = append(k.now, p)
	return p.came
}

// turn ends a case: what it did not use is forgotten.
func (k *kept[K, V]) turn() { k.before, k.now = k.now, k.before[:0:0] }
