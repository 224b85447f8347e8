package record

import (
	"strconv"
	"strings"

	"splittally/calc/calendar"
	"splittally/calc/energy"
)

// parseHour reads the figure of an hour.
func parseHour(token string, h *Hour) bool {
	if token == "." {
		return true
	}
	h.Covered = Whole
	for {
		switch token[len(token)-1] {
		case '~':
			h.Marks |= Spread
		case '^':
			h.Marks |= Begins
		case 'e':
			h.Marks |= Estimated
		default:
			kWh, seconds, part := strings.Cut(token, "@")
			v, ok := parseFixed(kWh, 9)
			h.Energy = energy.Energy(v)
			if part && ok {
				v, ok = parseFixed(seconds, 3)
				ok = ok && v > 0 && v <= Whole
				h.Covered = int32(v)
			}
			return ok
		}
		if token = token[:len(token)-1]; token == "" {
			return false
		}
	}
}

// parseFixed reads a plain decimal number as a whole number of 10^−places. ok is
// false if it is none, is finer than that, or does not fit.
func parseFixed(text string, places int) (v int64, ok bool) {
	minus := strings.HasPrefix(text, "-")
	if minus {
		text = text[1:]
	}
	const most = 1<<63 - 1
	digits, after := 0, -1
	for i := 0; i < len(text); i++ {
		c := text[i]
		switch {
		case c == '.' && after < 0:
			after = 0
			continue
		case c < '0' || c > '9' || after >= places:
			return 0, false
		}
		if v > (most-int64(c-'0'))/10 {
			return 0, false
		}
		v = v*10 + int64(c-'0')
		digits++
		if after >= 0 {
			after++
		}
	}
	for after = max(after, 0); after < places; after++ {
		if v > most/10 {
			return 0, false
		}
		v *= 10
	}
	if minus {
		v = -v
	}
	return v, digits > 0
}

// parseWall reads a time as appendWall writes it.
func parseWall(text string) (ms int64, ok bool) {
	date, clock, _ := strings.Cut(text, "T")
	d, ok := calendar.ParseISO(date)
	if !ok || len(clock) < 8 || clock[2] != ':' || clock[5] != ':' {
		return 0, false
	}
	h, err1 := strconv.ParseUint(clock[:2], 10, 8)
	m, err2 := strconv.ParseUint(clock[3:5], 10, 8)
	s, ok := parseFixed(clock[6:], 3)
	if err1 != nil || err2 != nil || !ok || h > 24 || m > 59 || s < 0 || s >= 60_000 {
		return 0, false
	}
	return int64(d)*DayLength + int64(h)*Whole + int64(m)*60_000 + s, true
}
