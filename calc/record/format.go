package record

import (
	"strconv"
	"strings"

	"splittally/calc/calendar"
	"splittally/calc/energy"
)

// The form of a record as text, version 1. Each line begins with a word:
//
//	hours 1
//	file north-shed.csv
//	bytes 12555648
//	rows 523152
//	step 60
//	zone the wall clock, as written
//	said Stamps are the starts of their minutes.
//	gap 2024-03-05T13:22:10 2024-03-05T13:40:55 1125 0.41
//	gaps-more 3
//	odd duplicate 2 1034,1082 03:00 on 12 Mar 2023
//	channel import
//	name House (kW)
//	unit kW, mean power
//	rounding 0.00005
//	2024-03-01 0.412 0.398@3540 . 0.4~ …
//
// A day has 24 figures in kWh, one for each hour by the clock: a dot for an hour
// without readings, @ with the seconds covered for one that is covered in part,
// then ~ for Spread, ^ for
// Begins and e for Estimated. A single dot stands for a whole day. On
// the day on which hour 1 comes twice “twice:1” stands before 25 figures, where
// hour 2 never was “never:2” before 23. A register has “register” instead of
// “rounding”, with the rounding of one read. The figures of gap are its start and
// end by the clock, its true length in seconds and the energy, if known.
const version = "1"

// Format writes a record as text.
func Format(r Record) string {
	w := writer{b: make([]byte, 0, 1024+64*1024*len(r.Channels))}
	w.line("hours", version)
	w.source(r.Source)
	for _, g := range r.Gaps {
		w.gap(g)
	}
	if r.MoreGaps > 0 {
		w.line("gaps-more", strconv.Itoa(r.MoreGaps))
	}
	for _, o := range r.Oddities {
		w.oddity(o)
	}
	for i := range r.Channels {
		w.channel(&r.Channels[i])
	}
	return string(w.b)
}

type writer struct{ b []byte }

// line writes a word and what follows it, on one line.
func (w *writer) line(word, rest string) {
	w.b = append(w.b, word...)
	w.b = append(w.b, ' ')
	w.b = append(w.b, plain(rest)...)
	w.b = append(w.b, '\n')
}

// plain keeps a text on its line.
func plain(text string) string {
	return strings.TrimSpace(strings.Map(func(r rune) rune {
		if r < ' ' {
			return ' '
		}
		return r
	}, text))
}

func (w *writer) source(s Source) {
	w.line("file", s.File)
	w.line("bytes", strconv.FormatInt(s.Bytes, 10))
	w.line("rows", strconv.Itoa(s.Rows))
	w.line("step", strconv.Itoa(s.Step))
	w.line("zone", s.Zone)
	for _, said := range s.Said {
		w.line("said", said)
	}
}

func (w *writer) gap(g Gap) {
	w.b = append(w.b, "gap "...)
	w.b = append(appendWall(w.b, g.From), ' ')
	w.b = append(appendWall(w.b, g.To), ' ')
	w.b = appendSeconds(w.b, g.Length)
	if g.Known {
		w.b = appendKWh(append(w.b, ' '), g.Energy)
	}
	w.b = append(w.b, '\n')
}

func (w *writer) oddity(o Oddity) {
	w.b = append(w.b, "odd "...)
	w.b = append(append(w.b, o.Kind...), ' ')
	w.b = append(strconv.AppendInt(w.b, int64(o.Count), 10), ' ')
	for i, line := range o.Lines {
		if i > 0 {
			w.b = append(w.b, ',')
		}
		w.b = strconv.AppendInt(w.b, int64(line), 10)
	}
	if len(o.Lines) == 0 {
		w.b = append(w.b, '.')
	}
	w.line("", o.Told)
}

func (w *writer) channel(c *Channel) {
	w.line("channel", string(c.Role))
	w.line("name", c.Name)
	w.line("unit", c.Unit)
	word := "register"
	if c.Sums {
		word = "rounding"
	}
	w.line(word, string(appendKWh(nil, c.Rounding)))
	for i := range c.Days {
		w.b = append(w.b, (c.First + calendar.Day(i)).String()...)
		w.day(&c.Days[i])
		w.b = append(w.b, '\n')
	}
}

func (w *writer) day(d *Day) {
	if d.Covered() == 0 {
		w.b = append(w.b, " ."...)
		return
	}
	switch d.Turn {
	case 1:
		w.b = append(w.b, " twice:"...)
		w.b = strconv.AppendInt(w.b, int64(d.TurnAt), 10)
	case -1:
		w.b = append(w.b, " never:"...)
		w.b = strconv.AppendInt(w.b, int64(d.TurnAt), 10)
	}
	for h := range d.Hours {
		if d.Turn < 0 && h == int(d.TurnAt) {
			continue
		}
		w.hour(d.Hours[h])
		if d.Turn > 0 && h == int(d.TurnAt) {
			w.hour(d.Again)
		}
	}
}

func (w *writer) hour(h Hour) {
	if h.Covered == 0 {
		w.b = append(w.b, " ."...)
		return
	}
	w.b = appendKWh(append(w.b, ' '), h.Energy)
	if h.Covered != Whole {
		w.b = appendSeconds(append(w.b, '@'), int64(h.Covered))
	}
	if h.Marks&Spread != 0 {
		w.b = append(w.b, '~')
	}
	if h.Marks&Begins != 0 {
		w.b = append(w.b, '^')
	}
	if h.Marks&Estimated != 0 {
		w.b = append(w.b, 'e')
	}
}

// appendKWh writes an energy exactly, without trailing zeros.
func appendKWh(b []byte, e energy.Energy) []byte { return appendFixed(b, int64(e), 9) }

// appendSeconds writes milliseconds as seconds.
func appendSeconds(b []byte, ms int64) []byte { return appendFixed(b, ms, 3) }

// appendFixed writes v·10^−places without trailing zeros.
func appendFixed(b []byte, v int64, places int) []byte {
	u := uint64(v)
	if v < 0 {
		b, u = append(b, '-'), -u
	}
	scale := uint64(1)
	for range places {
		scale *= 10
	}
	b = strconv.AppendUint(b, u/scale, 10)
	u %= scale
	if u == 0 {
		return b
	}
	b = append(b, '.')
	for u > 0 {
		scale /= 10
		b = append(b, byte('0'+u/scale))
		u %= scale
	}
	return b
}

// appendWall writes a time of the wall clock, such as 2024-03-05T13:22:10.
func appendWall(b []byte, ms int64) []byte {
	day, rest := calendar.At(ms)
	b = append(b, day.String()...)
	two := func(sep byte, v int64) { b = append(b, sep, byte('0'+v/10), byte('0'+v%10)) }
	two('T', rest/Whole)
	two(':', rest/60_000%60)
	two(':', rest/1000%60)
	if ms := rest % 1000; ms > 0 {
		b = append(b, '.', byte('0'+ms/100), byte('0'+ms/10%10), byte('0'+ms%10))
	}
	return b
}

// DayLength is a day of 24 hours in milliseconds.
const DayLength = 24 * Whole
