package table

import (
	"math"
	"strconv"

	"splittally/calc/calendar"
	numbersFor "splittally/calc/figure"
	"splittally/calc/intake/words"
	"splittally/calc/series"
	"splittally/calc/zone"
)

// Preview shows the first n readings of a head as a layout has them: the
// interval in words, for each column that is read the figure as energy and as
// power, and the line as it is written, so that a person sees whether it is
// right. The rows have a cell for each of the heads. rules are needed if the
// layout's Zone is Instant; without them such times are shown in UTC.
func Preview(head []byte, l Layout, rules *zone.Rules, n int) (heads []string, rows [][]string) {
	p := previewer{layout: l, rules: rules, sheet: sheet{head: head[:min(len(head), HeadLength)]}}
	p.lines, p.numbers = cutLines(p.head, true)
	p.cut(l.Delimiter, len(p.lines))
	heads = append(heads, "Interval")
	for c := range l.Columns {
		if col := &l.Columns[c]; col.Used {
			name := col.Name
			if name == "" {
				name = "Column " + strconv.Itoa(c+1)
			}
			heads = append(heads, short(name))
		}
	}
	heads = append(heads, "As written")
	for line := range p.lines {
		if len(rows) == n {
			break
		}
		if p.numbers[line] < l.Skip {
			continue
		}
		if at, ok := p.wall(line); ok {
			rows = append(rows, p.row(line, at))
		}
	}
	return heads, rows
}

type previewer struct {
	sheet
	layout Layout
	rules  *zone.Rules
}

// wall gives the time of a row by the clock, in milliseconds.
func (p *previewer) wall(line int) (int64, bool) {
	st := &p.layout.Stamp
	b := p.bytes(line, st.Date)
	switch st.Form {
	case Seconds, Millis:
		at, _, ok := readUnix(b)
		return p.local(at), ok
	case Serial:
		at, _, ok := serialOf(b)
		return p.local(at), ok
	}
	s, ok := readStamp(b)
	if !ok || s.shape == clockOnly {
		return 0, false
	}
	if st.Time >= 0 {
		b := p.bytes(line, st.Time)
		t, ok := readStamp(b)
		switch {
		case st.Hours && digitsAt(b) == len(b) && len(b) > 0 && len(b) < 3:
			t = stamp{clock: int64(number(b)) * hourLength}
		case !ok || t.shape != clockOnly:
			return 0, false
		}
		s.clock, s.zoned, s.offset = t.clock, t.zoned, t.offset
	}
	day, ok := s.day(st.Form)
	at := int64(day)*dayLength + max(s.clock, 0)
	if st.Zone == Instant {
		at = p.local(at - int64(s.offset)*1000)
	}
	return at, ok
}

// local turns a point of time into that of the clock.
func (p *previewer) local(unix int64) int64 {
	if p.layout.Stamp.Zone != Instant || p.rules == nil {
		return unix
	}
	seconds, _ := calendar.Floor(unix, 1000)
	offset, _, _ := p.rules.At(seconds)
	return unix + int64(offset)*1000
}

// row puts a reading into words.
func (p *previewer) row(line int, at int64) []string {
	from, to := at, at+p.layout.Step
	if p.layout.Ends {
		from, to = at-p.layout.Step, at
	}
	if p.registers() {
		from, to = at, at
	}
	cells := []string{inWords(from, to)}
	for c := range p.layout.Columns {
		if col := &p.layout.Columns[c]; col.Used {
			cells = append(cells, p.figure(line, c, col))
		}
	}
	return append(cells, short(p.text(line)))
}

// registers says whether all columns that are read are registers.
func (p *previewer) registers() bool {
	for c := range p.layout.Columns {
		if col := &p.layout.Columns[c]; col.Used && col.Quantity != series.Register {
			return false
		}
	}
	return true
}

// inWords puts a stretch of wall time, in milliseconds, into words: “1 Mar 2024
// 00:00–00:01”. A time alone has from and to the same.
func inWords(from, to int64) string {
	precise := from%minuteLength != 0 || to%minuteLength != 0
	day := dayOf(from)
	text := day.Long() + " " + clock(from-int64(day)*dayLength, precise)
	if to <= from {
		return text
	}
	end := dayOf(to)
	switch to - int64(day)*dayLength {
	case dayLength:
		return text + "–" + clock(dayLength, precise)
	default:
		if end != day {
			return text + "–" + end.Long() + " " + clock(to-int64(end)*dayLength, precise)
		}
	}
	return text + "–" + clock(to-int64(day)*dayLength, precise)
}

// clock writes a time of day.
func clock(ms int64, precise bool) string {
	text := two(ms/hourLength) + ":" + two(ms/minuteLength%60)
	if precise {
		text += ":" + two(ms/1000%60)
	}
	return text
}

func two(n int64) string {
	if n < 10 {
		return "0" + strconv.FormatInt(n, 10)
	}
	return strconv.FormatInt(n, 10)
}

// figure puts the figure of a column into words.
func (p *previewer) figure(line, c int, col *Column) string {
	b := p.bytes(line, c)
	fig, ok := readFigure(b)
	if !ok {
		return "no figure"
	}
	v, places, ok := fig.value(b, p.layout.Decimal)
	if !ok {
		return "no figure"
	}
	unit := words.UnitOf(words.Fold(col.Unit))
	if fig.unit.IsEnergy() == unit.IsEnergy() && usable(fig.unit) {
		unit = fig.unit
	}
	v *= float64(col.Sign)
	fed := ""
	if col.Apart && v < 0 {
		v, fed = -v, " fed into the grid"
	}
	text := numbersFor.Plain(v, min(places, 9)) + " " + unit.Name()
	hours := float64(p.layout.Step) / hourLength
	switch {
	case col.Quantity == series.Register:
		return text + " on the register"
	case hours == 0:
	case col.Quantity == series.Power:
		text += " (" + brief(v*hours) + " " + twin(unit).Name() + ")"
	default:
		text += " (" + brief(v/hours) + " " + twin(unit).Name() + ")"
	}
	return text + fed
}

// brief writes a number with three digits that count.
func brief(v float64) string {
	places := 0
	for a := math.Abs(v); a < 100 && a > 0 && places < 9; a *= 10 {
		places++
	}
	return numbersFor.Plain(v, places)
}
