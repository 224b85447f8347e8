package main

import (
	"slices"
	"strconv"
)

// A row is one reading: the minute, counted from the begin of the year, its
// energy in tenths of a watt-hour, and what the register showed when it began.
type row struct {
	minute           int
	energy, register int64
}

// A form is how a file writes the year.
type form struct {
	head     string
	row      func(b []byte, r row) []byte
	register bool // figures are of a register
}

// forms are the ways to write the year of minutes, by name.
var forms = map[string]form{
	"common": {head: "time,kWh\n", row: func(b []byte, r row) []byte {
		b = append(clock(isoDay(b, r, '-', ' '), r.minute), ',')
		return append(decimal(b, r.energy, 4, '.'), '\n')
	}},
	"offset": {head: "time,kWh\n", row: func(b []byte, r row) []byte {
		b = append(clock(isoDay(b, r, '-', 'T'), r.minute), ":00-05:00,"...)
		return append(decimal(b, r.energy, 4, '.'), '\n')
	}},
	"ampm": {head: "time,kWh\n", row: func(b []byte, r row) []byte {
		y, m, d := civil(r.minute)
		b = append(strconv.AppendInt(b, int64(m), 10), '/')
		b = append(strconv.AppendInt(b, int64(d), 10), '/')
		b = append(strconv.AppendInt(b, int64(y), 10), ' ')
		hour := r.minute / 60 % 24
		b = append(strconv.AppendInt(b, int64((hour+11)%12+1), 10), ':')
		b = append(two(b, r.minute%60), ' ', "AP"[hour/12], 'M', ',')
		return append(decimal(b, r.energy, 4, '.'), '\n')
	}},
	"dayfirst": {head: "Zeit;kWh\n", row: func(b []byte, r row) []byte {
		y, m, d := civil(r.minute)
		b = append(two(append(two(b, d), '.'), m), '.')
		b = append(strconv.AppendInt(b, int64(y), 10), ' ')
		b = append(clock(b, r.minute), ';')
		return append(decimal(b, r.energy, 4, ','), '\n')
	}},
	"kW": {head: "time,kW\n", row: func(b []byte, r row) []byte {
		b = append(clock(isoDay(b, r, '-', ' '), r.minute), ',')
		return append(decimal(b, r.energy*6, 3, '.'), '\n')
	}},
	"register": {head: "time,register kWh\n", register: true, row: func(b []byte, r row) []byte {
		b = append(clock(isoDay(b, r, '-', ' '), r.minute), ',')
		return append(decimal(b, r.register, 4, '.'), '\n')
	}},
	"epoch": {head: "time,kWh\n", row: func(b []byte, r row) []byte {
		b = append(strconv.AppendInt(b, begin+int64(r.minute)*60, 10), ',')
		return append(decimal(b, r.energy, 4, '.'), '\n')
	}},
}

// tenth is a tenth of a watt-hour in µWh.
const tenth = 100_000

// minutes writes the year in a form, up to limit bytes if that is not 0.
func minutes(w *counted, f form, limit int64) Truth {
	w.write([]byte(f.head))
	var t Truth
	h := newHome()
	lost := gaps()
	b := make([]byte, 0, 64)
	register := int64(123_456_789)
	energy, last := int64(0), -1
	for m := range days * perDay {
		energy = h.next(m*60, 60)
		r := row{m, energy, register}
		register += energy
		if len(lost) > 0 && m == lost[0][1] {
			lost = lost[1:]
		}
		if len(lost) > 0 && m >= lost[0][0] {
			continue
		}
		if b = f.row(b[:0], r); limit > 0 && w.n+int64(len(b)) > limit {
			break
		}
		w.write(b)
		t.reading(f, r, last)
		last = m
	}
	return t
}

// reading counts a row that was written, after the minute of the last one. A
// register gives the energy since the row before, which belongs to the minutes
// from that one on; the row itself tells nothing of what comes after it.
func (t *Truth) reading(f form, r row, last int) {
	at := func(minute int) int64 { return begin + int64(minute)*60 }
	if !f.register {
		t.add(at(r.minute), r.energy*tenth)
		if last >= 0 && r.minute != last+1 {
			t.Gaps = append(t.Gaps, [2]int64{at(last + 1), at(r.minute)})
		}
		return
	}
	t.Rows++
	if last < 0 {
		t.register = r.register
		return
	}
	t.give(at(last), (r.register-t.register)*tenth)
	t.register = r.register
	if r.minute != last+1 {
		t.Gaps = append(t.Gaps, [2]int64{at(last), at(r.minute)})
	}
}

// seconds writes the year as mean power in kW, second by second, up to limit
// bytes if that is not 0. Powers are whole milliwatt-hours a second.
func seconds(w *counted, limit int64) Truth {
	w.write([]byte("time,kW\n"))
	var t Truth
	h := newHome()
	lost := gaps()
	b := make([]byte, 0, 64)
	for m := range days * perDay {
		if len(lost) > 0 && m == lost[0][1] {
			lost = lost[1:]
		}
		gone := len(lost) > 0 && m >= lost[0][0]
		if gone && m == lost[0][0] {
			t.Gaps = append(t.Gaps, [2]int64{begin + int64(m)*60, begin + int64(lost[0][1])*60})
		}
		stamp := append(clock(isoDay(nil, row{minute: m}, '-', ' '), m), ':')
		for s := range 60 {
			load := h.next(m*60+s, 1) * 5 / 3 // mWh a second, each 3.6 W
			if gone {
				continue
			}
			b = append(two(append(b[:0], stamp...), s), ',')
			b = append(decimal(b, load*36, 4, '.'), '\n')
			if limit > 0 && w.n+int64(len(b)) > limit {
				return t.cut(begin + int64(m)*60 + int64(s))
			}
			w.write(b)
			t.add(begin+int64(m)*60+int64(s), load*1000)
		}
	}
	return t
}

// cut takes away a gap that ends at or after the end of the file.
func (t Truth) cut(end int64) Truth {
	t.Gaps = slices.DeleteFunc(t.Gaps, func(g [2]int64) bool { return g[1] >= end })
	return t
}

func isoDay(b []byte, r row, part, after byte) []byte {
	y, m, d := civil(r.minute)
	b = append(strconv.AppendInt(b, int64(y), 10), part)
	return append(two(append(two(b, m), part), d), after)
}

func clock(b []byte, minute int) []byte {
	return two(append(two(b, minute/60%24), ':'), minute%60)
}

func two(b []byte, n int) []byte { return append(b, byte('0'+n/10), byte('0'+n%10)) }

// decimal writes n with its last places after a point.
func decimal(b []byte, n int64, places int, point byte) []byte {
	unit := int64(1)
	for range places {
		unit *= 10
	}
	b = append(strconv.AppendInt(b, n/unit, 10), point)
	for unit /= 10; unit > 0; unit /= 10 {
		b = append(b, byte('0'+n/unit%10))
	}
	return b
}

// civil is the date of a minute of the year.
func civil(minute int) (year, month, day int) {
	year, month, day = 2024, 3, 1+minute/perDay
	for {
		length := [...]int{31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31}[month-1]
		if day <= length {
			return year, month, day
		}
		day -= length
		if month++; month > 12 {
			year, month = year+1, 1
		}
	}
}
