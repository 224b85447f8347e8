package interval_test

import (
	"fmt"
	"strconv"
	"strings"
	"time"
)

// formsForm is how a file is written.
type formsForm struct {
	stamped string // start, end or both
	neutral bool   // no heading tells which
	zone    string // local, offset, Z, seconds, millis or serial
	layout  string // of the date, as package time has it
	seconds bool
	twelve  bool
	t       bool // T between date and time
	apart   bool // date and time in two columns
	late    bool // 24:00
	numbers bool // hours 1 to 24, or 0 to 23, in place of a time
	instant bool // the end of the last hour before a change by the new clock

	delimiter, decimal, group string
	heads                     bool
	quotes                    string // none, all or text
	eol, encoding             string
	trim, bare                bool // no trailing zeros; no zero before the mark
	plus, unitInCell          bool
	blank                     string
	order                     string // oldest, newest or blocks
}

var formsLayouts = []string{
	"2006-01-02", "2006-01-02", "2006-01-02", "2006/01/02", "20060102", "02/01/2006", "02/01/2006", "2/1/2006", "02.01.2006", "2.1.2006", "02-01-2006",
	"02/01/06", "02.01.06", "01/02/2006", "01/02/2006", "1/2/2006", "1/2/06", "01-02-2006", "2 Jan 2006", "02-Jan-2006", "02-Jan-06", "Jan 2 2006", "Jan 2, 2006", "2 January 2006",
}

// drawForm draws how the file is written.
func (f *formsFile) drawForm() {
	r, m := f.r, &f.form
	m.stamped = pickOne(r, []string{"start", "start", "start", "end", "end", "both"})
	m.neutral = f.chance(3)
	if f.kind == "register" || f.uneven {
		m.stamped, m.neutral = "start", true
	}
	m.neutral = m.neutral && m.stamped != "both"
	m.zone = pickOne(r, strings.Fields("local local local local local local local local local offset offset Z Z seconds millis serial"))
	m.layout = pickOne(r, formsLayouts)
	m.seconds = f.chance(3) || f.uneven || f.has("jitter")
	plain := m.zone == "local"
	if m.zone == "offset" || m.zone == "Z" {
		m.layout, m.t = "2006-01-02", !f.chance(3)
	} else {
		m.t = plain && strings.HasPrefix(m.layout, "2006-") && f.chance(3)
	}
	m.twelve = plain && !m.t && f.chance(6)
	m.apart = plain && !m.t && f.chance(6)
	m.late = plain && m.stamped != "start" && !m.twelve && f.chance(3)
	m.instant = f.h.turns && m.stamped == "end" && plain && f.chance(6)
	if m.apart && f.h.step == 3600 && !m.seconds && m.stamped != "both" && f.kind == "energy" && f.chance(2) && f.h.from%3600 == 0 {
		m.numbers, m.twelve, m.late, m.neutral, m.instant = true, false, false, true, false
	}
	m.delimiter = pickOne(r, []string{",", ",", ",", ",", ";", ";", "\t", "|"})
	if m.apart && !m.twelve && !strings.ContainsAny(m.layout, " ") && f.chance(6) {
		m.delimiter = " "
	}
	m.decimal = "."
	if m.delimiter != "," && m.delimiter != " " && f.chance(2) || m.delimiter != " " && f.chance(20) {
		m.decimal = ","
	}
	m.quotes = pickOne(r, strings.Fields("none none none all text"))
	if m.decimal == "," && m.delimiter == "," || strings.Contains(m.layout, ",") {
		m.quotes = "all"
	}
	if f.chance(10) && m.delimiter != " " {
		m.group = pickOne(r, []string{" ", "'", "\u00a0", map[string]string{".": ",", ",": "."}[m.decimal]})
		if m.group == "," && m.delimiter == "," {
			m.quotes = "all"
		}
	}
	if m.delimiter == " " {
		m.quotes = "none"
	}
	m.heads = !f.chance(8) || m.numbers
	m.eol = pickOne(r, []string{"\n", "\n", "\n", "\r\n", "\r\n", "\r"})
	m.encoding = pickOne(r, strings.Fields("utf8 utf8 utf8 utf8 bom latin utf16le utf16be"))
	m.trim, m.bare = f.chance(5), f.chance(30)
	m.plus, m.unitInCell = f.chance(40), f.chance(40) && m.delimiter != " "
	m.blank = pickOne(r, strings.Fields("_ NaN null -- - N/A nan NULL"))
	if m.blank == "_" && m.delimiter != " " {
		m.blank = ""
	} else if m.blank == "_" {
		m.blank = "NaN"
	}
	m.order = "oldest"
	if f.chance(8) && !f.has("jitter") {
		m.order = pickOne(r, strings.Fields("newest newest blocks"))
	}
	f.formTags()
}

func (f *formsFile) has(tag string) bool {
	for _, t := range f.tags {
		if t == tag {
			return true
		}
	}
	return false
}

func (f *formsFile) formTags() {
	m := &f.form
	f.tag("%s-stamped", m.stamped)
	f.tag("zone-%s", m.zone)
	f.tag("quotes-%s", m.quotes)
	f.tag("%s", m.order)
	f.tag("%s", m.encoding)
	f.tag("delimiter%q", m.delimiter)
	f.tag("decimal%q", m.decimal)
	f.tag("blank%q", m.blank)
	f.tag("eol%q", m.eol)
	if m.zone == "local" {
		f.tag("layout %s", m.layout)
	}
	if m.group != "" {
		f.tag("group%q", m.group)
	}
	for name, on := range map[string]bool{
		"neutral": m.neutral, "T": m.t, "AM/PM": m.twelve, "apart": m.apart, "24:00": m.late, "hour-numbers": m.numbers,
		"end-by-instant": m.instant, "no-heads": !m.heads, "trim": m.trim, "bare": m.bare, "plus": m.plus, "unit-in-cell": m.unitInCell, "sec": m.seconds,
	} {
		if on {
			f.tag("%s", name)
		}
	}
}

// stamp writes a time: one cell, or two if the date stands apart. of is a point
// of time whose clock it is told by.
func (f *formsFile) stamp(unix, of int64, end bool) []string {
	m := &f.form
	offset := f.h.at(of) - of
	wall := time.Unix(unix+offset, 0).UTC()
	switch m.zone {
	case "seconds":
		return []string{strconv.FormatInt(unix, 10)}
	case "millis":
		return []string{strconv.FormatInt(unix*1000, 10)}
	case "serial":
		s := strconv.FormatFloat(float64(unix+offset)/86_400+25_569, 'f', 10, 64)
		return []string{strings.Replace(s, ".", m.decimal, 1)}
	}
	date := wall
	clock := "15:04"
	if m.seconds {
		clock = "15:04:05"
	}
	if m.twelve {
		clock = strings.Replace(clock, "15", "3", 1) + " PM"
	}
	time := wall.Format(clock)
	if end && m.late && wall.Hour() == 0 && wall.Minute() == 0 && wall.Second() == 0 {
		date, time = wall.AddDate(0, 0, -1), strings.Replace(time, "00", "24", 1)
	}
	if m.numbers {
		time = strconv.Itoa(wall.Hour())
		if end {
			date = wall.Add(-1)
			time = strconv.Itoa(date.Hour() + 1)
		}
	}
	switch {
	case m.zone == "Z":
		return []string{f.joinStamp(timeUTC(unix).Format("2006-01-02"), timeUTC(unix).Format(clock)) + "Z"}
	case m.zone == "offset":
		sign := "+"
		if offset < 0 {
			sign, offset = "-", -offset
		}
		form := "%s%02d:%02d"
		if f.tags[0] == "power" {
			form = "%s%02d%02d"
		}
		return []string{f.joinStamp(date.Format(m.layout), time) + fmt.Sprintf(form, sign, offset/3600, offset/60%60)}
	case m.apart:
		return []string{date.Format(m.layout), time}
	}
	return []string{f.joinStamp(date.Format(m.layout), time)}
}

func timeUTC(unix int64) time.Time { return time.Unix(unix, 0).UTC() }

func (f *formsFile) joinStamp(date, time string) string {
	if f.form.t {
		return date + "T" + time
	}
	return date + " " + time
}

// stamps writes the times of reading i: its start, its end, or both.
func (f *formsFile) stamps(i int) (cells []string) {
	m, from := &f.form, f.at[i]
	to := from + f.h.step
	if m.stamped != "end" {
		cells = f.stamp(from, from, false)
	}
	if m.stamped != "start" {
		of := to - 1 // by the clock that the interval had
		if m.instant || m.zone == "offset" {
			of = to
		}
		cells = append(cells, f.stamp(to, of, true)...)
	}
	return cells
}

// figure writes a figure of so many decimals.
func (f *formsFile) figure(n int64, places int) string {
	m := &f.form
	digits := fmt.Sprintf("%0*d", places+1, n)
	whole, part := digits[:len(digits)-places], digits[len(digits)-places:]
	if m.trim {
		part = strings.TrimRight(part, "0")
	}
	for i := len(whole) - 3; i > 0 && m.group != ""; i -= 3 {
		whole = whole[:i] + m.group + whole[i:]
	}
	if m.bare && whole == "0" && part != "" {
		whole = ""
	}
	if part != "" {
		whole += m.decimal + part
	}
	if m.plus {
		whole = "+" + whole
	}
	return whole
}
