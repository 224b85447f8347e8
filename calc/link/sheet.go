package link

import (
	"strconv"
	"strings"

	"splittally/calc/calendar"
	"splittally/calc/energy"
)

// sheet is readings as a link holds them: one row for each day, or for each
// stretch of several days or of a part of one, and a column for each instrument.
type sheet struct {
	timed bool // rows have times of the day
	mega  bool // figures are in MWh, as some are given in whole tens of kWh
	names []string
	rows  []row
}

// row is one stretch of time, in minutes of the local clock since day 0.
type row struct {
	at, length int
	cells      []cell
}

// cell is a figure as it is written, so that its rounding stays known.
type cell struct {
	known bool
	numeral
}

const dayLength = 24 * 60

// A sheet as text: what intake reads without a question, and people too.
//
//	Day	Leg A kWh	Leg B kWh
//	2026-10-03	12.40	7.31
//	2026-10-04 to 2026-10-06	31.8
//
// and with times of the day
//
//	Time	kWh
//	2026-10-03 00:00-01:00	0.412
func (s *sheet) String() string {
	var b strings.Builder
	b.WriteString("Day")
	if s.timed {
		b.Reset()
		b.WriteString("Time")
	}
	for _, name := range s.names {
		b.WriteString("\t" + strings.TrimSpace(name+" "+s.unit()))
	}
	for _, r := range s.rows {
		b.WriteString("\n" + s.when(r))
		for _, c := range r.cells {
			b.WriteByte('\t')
			if c.known {
				b.WriteString(c.String())
			}
		}
	}
	return b.String()
}

func (s *sheet) unit() string {
	if s.mega {
		return "MWh"
	}
	return "kWh"
}

// when writes the days or times of a row.
func (s *sheet) when(r row) string {
	first := calendar.Day(r.at / dayLength)
	switch {
	case s.timed:
		from := r.at % dayLength
		return first.String() + " " + clock(from) + "-" + clock(from+r.length)
	case r.length > dayLength:
		return first.String() + " to " + (first + calendar.Day(r.length/dayLength-1)).String()
	}
	return first.String()
}

func clock(minute int) string {
	two := func(n int) string { return string([]byte{byte('0' + n/10%10), byte('0' + n%10)}) }
	return two(minute/60) + ":" + two(minute%60)
}

// parseSheet reads a sheet from its text; ok is false if another hand wrote it.
func parseSheet(text string) (s *sheet, ok bool) {
	head, rest, _ := strings.Cut(text, "\n")
	names := strings.Split(head, "\t")
	s = &sheet{timed: names[0] == "Time"}
	if len(names) < 2 || len(names) > mostColumns+1 {
		return nil, false
	}
	s.mega = strings.HasSuffix(head, "MWh")
	for _, name := range names[1:] {
		s.names = append(s.names, strings.TrimSpace(strings.TrimSuffix(name, s.unit())))
	}
	for rest != "" {
		var line string
		line, rest, _ = strings.Cut(rest, "\n")
		cells := strings.Split(line, "\t")
		r, ok := s.parseWhen(cells[0])
		if !ok || len(cells) != len(names) {
			return nil, false
		}
		for _, text := range cells[1:] {
			n, ok := numeralOf(text)
			if !ok && text != "" || n.energy(s.mega) == tooMuch {
				return nil, false
			}
			r.cells = append(r.cells, cell{text != "", n})
		}
		s.rows = append(s.rows, r)
	}
	return s, len(s.rows) > 0 && s.String() == text
}

func (s *sheet) parseWhen(text string) (r row, ok bool) {
	date, rest, _ := strings.Cut(text, " ")
	first, ok := calendar.ParseISO(date)
	if !ok || first < firstDay || first > lastDay || len(text) > 24 {
		return r, false
	}
	r = row{at: int(first) * dayLength, length: dayLength}
	switch {
	case s.timed:
		from, to, _ := strings.Cut(rest, "-")
		r.at += minuteOf(from)
		r.length = minuteOf(to) - minuteOf(from)
	case rest != "":
		last, _ := calendar.ParseISO(strings.TrimPrefix(rest, "to "))
		r.length = int(last-first+1) * dayLength
	}
	return r, r.length > 0 && r.length < 40_000*dayLength
}

// minuteOf reads 07:30 as minutes of the day.
func minuteOf(text string) int {
	hours, minutes, _ := strings.Cut(text, ":")
	h, _ := strconv.ParseUint(hours, 10, 5)
	m, _ := strconv.ParseUint(minutes, 10, 6)
	return int(60*h + m)
}

// tooMuch stands for an energy that is out of range.
const tooMuch energy.Energy = -1 << 63

// energy gives what a figure is.
func (n numeral) energy(mega bool) energy.Energy {
	places := max(0, n.places)
	if mega {
		places -= 3
	}
	v := n.digits
	if places > 9 || v > 1e15 {
		return tooMuch
	}
	for ; places < 9; places++ {
		if v > 1e16 {
			return tooMuch
		}
		v *= 10
	}
	if n.minus {
		return energy.Energy(-v)
	}
	return energy.Energy(v)
}

// Limits of a sheet.
const (
	mostColumns = 24
	mostRows    = 150_000
)
