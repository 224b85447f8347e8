package pulse

import (
	"math"
	"strconv"
	"strings"

	"splittally/calc/rhythm"
)

// The text of marks:
//
//	pulses 1
//	by sound
//	file meter.mp3
//	format MP3, 44100 Hz, mono
//	read 612.4
//	promised 620
//	timing 0.0004
//	above 24.5
//	breaks 3012345 4500000
//	says It is loud around the pulses.
//	marks 5
//	12040 36012j7 35988i4x 36020 17990j1+
//
// A line without a figure is left out. Times are whole tenths of a millisecond:
// breaks from the beginning, marks each from the one before. Behind a mark
// stand how sure it is, if less than 1, as a letter for the tenths (a is 0, j
// is 9) and a digit for the hundredths; and x if it was struck out, + if it was
// added.
const (
	heading   = "pulses 1"
	ticks     = 10_000 // in a second
	perLine   = 12
	lineBytes = 78
)

// heads are the lines before the marks, in order.
var heads = []struct {
	name string
	text func(*Marks) *string
	real func(*Marks) *float64
}{
	{name: "by", text: func(m *Marks) *string { return &m.By }},
	{name: "file", text: func(m *Marks) *string { return &m.File }},
	{name: "format", text: func(m *Marks) *string { return &m.Format }},
	{name: "read", real: func(m *Marks) *float64 { return &m.Read }},
	{name: "promised", real: func(m *Marks) *float64 { return &m.Promised }},
	{name: "lost", real: func(m *Marks) *float64 { return &m.Lost }},
	{name: "timing", real: func(m *Marks) *float64 { return &m.Timing }},
	{name: "above", real: func(m *Marks) *float64 { return &m.Above }},
}

// Format writes marks as the text that a case keeps; the marks must be in
// order. Times are rounded to a tenth of a millisecond, sureness to a
// hundredth; line ends within texts become blanks. Parse reads it back.
func Format(m Marks) string {
	b := make([]byte, 0, 256+6*len(m.Marks))
	b = append(b, heading...)
	for _, h := range heads {
		if h.text != nil {
			b = appendText(b, h.name, *h.text(&m))
		} else if v := *h.real(&m); v != 0 && !math.IsNaN(v) && !math.IsInf(v, 0) {
			b = append(append(append(b, '\n'), h.name...), ' ')
			b = strconv.AppendFloat(b, v, 'f', -1, 64)
		}
	}
	if len(m.Breaks) > 0 {
		b = append(b, "\nbreaks"...)
		for _, at := range m.Breaks {
			b = strconv.AppendInt(append(b, ' '), ticksOf(at), 10)
		}
	}
	for _, s := range m.Says {
		b = appendText(b, "says", s)
	}
	b = append(b, "\nmarks "...)
	b = strconv.AppendInt(b, int64(len(m.Marks)), 10)
	return string(append(appendMarks(b, m.Marks), '\n'))
}

func appendText(b []byte, name, text string) []byte {
	text = strings.TrimSpace(strings.Map(func(c rune) rune {
		if c < ' ' || c == 0x7f {
			return ' '
		}
		return c
	}, text))
	if text == "" {
		return b
	}
	return append(append(append(append(b, '\n'), name...), ' '), text...)
}

func appendMarks(b []byte, marks []rhythm.Mark) []byte {
	last, line := int64(0), 0
	for i, k := range marks {
		if i%perLine == 0 || len(b)-line > lineBytes {
			b, line = append(b, '\n'), len(b)
		} else {
			b = append(b, ' ')
		}
		at := max(last, ticksOf(k.At))
		b = strconv.AppendInt(b, at-last, 10)
		last = at
		if sure := hundredths(k.Sure); sure < 100 {
			b = append(b, 'a'+byte(sure/10), '0'+byte(sure%10))
		}
		switch k.Told {
		case rhythm.Struck:
			b = append(b, 'x')
		case rhythm.Added:
			b = append(b, '+')
		}
	}
	return b
}

// ticksOf gives seconds in ticks, within what a text may hold.
func ticksOf(seconds float64) int64 {
	if !(seconds > 0) {
		return 0
	}
	return int64(math.Round(min(seconds, MostSeconds) * ticks))
}

func hundredths(sure float64) int {
	if !(sure > 0) {
		return 0
	}
	return int(math.Round(100 * min(sure, 1)))
}
