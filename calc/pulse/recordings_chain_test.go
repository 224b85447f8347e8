//go:build !js

package pulse_test

import (
	"testing"

	"splittally/calc/onset"
	"splittally/calc/pulse"
	"splittally/calc/rhythm"
	"splittally/calc/sound"
)

// heard is what the whole road makes of a file.
type heard struct {
	sound sound.Found
	onset onset.Found
	text  string // as a case keeps it
	run   pulse.Found
	steps int
}

// listen takes a file the road that the page takes: bytes, samples, pulses, the
// text of a case, watts. A pulse is 1 Wh. portion says how many bytes to hand over
// next; nil does what the reader asks for.
func listen(t testing.TB, file []byte, portion func(asked int) int) heard {
	t.Helper()
	finder := onset.New()
	reader := sound.New(finder, sound.Options{Bytes: int64(len(file))})
	for rest := file; len(rest) > 0; {
		n := reader.Portion()
		if portion != nil {
			n = portion(n)
		}
		n = min(max(n, 1), len(rest))
		if !reader.Write(rest[:n]) {
			break
		}
		rest = rest[n:]
	}
	h := heard{sound: reader.Close()}
	finder.End()
	for h.steps = 1; !finder.Step(); h.steps++ {
		if h.steps > 1_000_000 {
			t.Fatal("the search does not end")
		}
	}
	h.onset = finder.Found()
	h.text = pulse.Format(marksOf(h.sound, h.onset))
	if _, err := pulse.Parse(h.text); err != nil {
		t.Errorf("Parse(Format(…)) = %v, want the marks back, of\n%s", err, h.text)
	}
	h.run = readMarks(t, h.text)
	return h
}

// marksOf is what a case keeps of a recording.
func marksOf(s sound.Found, o onset.Found) pulse.Marks {
	m := pulse.Marks{
		By: "sound", Format: s.Format, Read: s.Read, Promised: s.Promised, Lost: s.Lost,
		Timing: o.Timing, Above: o.Above, Breaks: o.Breaks, Says: append(s.Says, o.Says...),
	}
	for _, p := range o.Pulses {
		m.Marks = append(m.Marks, rhythm.Mark{At: p.At, Sure: p.Sure})
	}
	return m
}

// readMarks works out a run of marks at 1 Wh a pulse, without the monitor.
func readMarks(t testing.TB, text string) pulse.Found {
	t.Helper()
	result := pulse.Read(pulse.Timing{
		Shows: "lamp", Constant: "1", Per: "wh",
		Runs: []pulse.Run{{How: "sound", Marks: text}},
	}, pulse.Options{Path: "timing", Confidence: 0.95})
	if len(result.Runs) != 1 {
		t.Fatalf("Read gives %d runs, want 1", len(result.Runs))
	}
	return result.Runs[0]
}

// number says whether the person is shown watts.
func (h heard) number() bool {
	return h.run.Waits == "" && h.run.Rhythm.Why == "" && h.run.Watts.Value > 0
}

// counted are the times of the marks that count.
func (h heard) counted() []float64 {
	var at []float64
	for i, use := range h.run.Rhythm.Uses {
		if use == rhythm.Counted && i < len(h.run.Marks.Marks) {
			at = append(at, h.run.Marks.Marks[i].At)
		}
	}
	return at
}
