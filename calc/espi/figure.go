package espi

import (
	"strconv"

	"splittally/calc/calendar"
	"splittally/calc/energy"
	"splittally/calc/record"
)

// micro is the scale of a figure in whole watt-hours: 10⁶ µWh.
const micro = 1_000_000

// scaled reads a figure, times scale. ok is false if it is no number or too
// large; isFiner says that digits were rounded away, half from zero. Figures are
// whole numbers by the standard, but not in every feed.
func scaled(text []byte, scale int64) (n int64, isFiner, ok bool) {
	if n, ok = whole(text); ok {
		most := int64(1<<63-1) / scale
		return n * scale, false, n <= most && n >= -most
	}
	point := 0
	for point < len(text) && text[point] != '.' {
		point++
	}
	if point == len(text) || point == 0 {
		return 0, false, false
	}
	minus := text[0] == '-'
	if n, ok = whole(text[:point]); !ok || n > (1<<62)/scale || n < -(1<<62)/scale {
		return 0, false, false
	}
	n *= scale
	part := int64(0) // of the unit, times scale
	for i, unit := point+1, scale; i < len(text); i++ {
		c := text[i]
		if c < '0' || c > '9' {
			return 0, false, false
		}
		if unit%10 != 0 {
			isFiner = isFiner || c != '0'
			if unit > 0 && c >= '5' {
				part++
			}
			unit = 0
			continue
		}
		unit /= 10
		part += int64(c-'0') * unit
	}
	if minus {
		part = -part
	}
	return n + part, isFiner, true
}

// scale gives the scale of a track, which the first figure settles if the track's
// type is not known: so that neither its sums grow too large, nor digits are lost
// that a power shares out over its hours.
func (t *track) scale(text []byte) int64 {
	if t.factor != 0 {
		return t.factor
	}
	t.factor = micro
	switch {
	case t.typed != nil && t.typed.power <= -6:
		t.factor = 1
	case t.typed != nil && t.typed.power <= 9:
		for p := t.typed.power; p != 0; {
			if p < 0 {
				t.factor /= 10
				p++
			} else {
				t.factor *= 10
				p--
			}
		}
	case len(text) > 12:
		t.factor = 1
	case len(text) > 9:
		t.factor = 1000
	}
	return t.factor
}

// decimals is how many decimals a scale of 1, 10, 100 … is.
func decimals(scale int64) (n int) {
	for ; scale > 1; scale /= 10 {
		n++
	}
	return n
}

// remainder multiplies energies by a power of ten, and hands what a division
// leaves on to the next, so that their sum is exact but for the last part.
type remainder struct {
	power int
	rest  int64
	large bool // one did not fit
}

// of gives one energy, multiplied.
func (m *remainder) of(e energy.Energy) energy.Energy {
	n := int64(e)
	for p := 0; p < m.power; p++ {
		if n > (1<<63-1)/10 || n < -(1<<63-1)/10 {
			m.large = true
			return e
		}
		n *= 10
	}
	if m.power < 0 {
		by := int64(1)
		for p := 0; p > m.power && by < 1e18; p-- {
			by *= 10
		}
		n += m.rest
		m.rest = n % by
		n /= by
	}
	return energy.Energy(n)
}

// days multiplies the hours of days.
func (m *remainder) days(days []record.Day) {
	if m.power == 0 {
		return
	}
	for i := range days {
		for h := range days[i].Hours {
			days[i].Hours[h].Energy = m.of(days[i].Hours[h].Energy)
		}
		days[i].Again.Energy = m.of(days[i].Again.Energy)
	}
}

// fixed writes n hundred-thousandths, or whatever places says, without zeros at
// the end.
func fixed(n int64, places int) string {
	minus := ""
	digits := strconv.FormatInt(n, 10)
	if n < 0 {
		minus, digits = "-", digits[1:]
	}
	if places < 0 {
		if n == 0 {
			return "0"
		}
		for ; places < 0; places++ {
			digits += "0"
		}
	}
	for len(digits) <= places {
		digits = "0" + digits
	}
	whole, part := digits[:len(digits)-places], digits[len(digits)-places:]
	for len(part) > 0 && part[len(part)-1] == '0' {
		part = part[:len(part)-1]
	}
	if part == "" {
		return minus + whole
	}
	return minus + whole + "." + part
}

// dayOf gives the day of a time in seconds.
func dayOf(seconds int64) calendar.Day {
	d, _ := calendar.Floor(seconds, daySeconds)
	return calendar.Day(d)
}

const (
	daySeconds  = 86400
	hourSeconds = 3600
)
