package table

import (
	"strconv"
	"strings"
)

// time reads a clock time: 0:15, 00:15:30.5, 12.15, 12:15 AM, 0015.
func (r *stampReader) time() bool {
	hour, digits := r.number(6)
	minute, second, fraction := 0, 0, int64(0)
	mark := r.peek()
	switch {
	case digits == 4 || digits == 6: // 0015, 001530, behind a date alone
		if r.shape == clockOnly {
			return false
		}
		if digits == 6 {
			hour, second = hour/100, hour%100
		}
		hour, minute = hour/100, hour%100
	case digits == 0 || digits > 2:
		return false
	case mark == '-' && r.shape == clockOnly: // 00-01
		r.at++
		next, _ := r.number(2)
		r.ranged = true
		return next == hour+1 && r.set(hour, 0, 0, 0)
	case mark == ':' || mark == 'h' || mark == '.' && r.shape != clockOnly:
		var ok bool
		if minute, second, fraction, ok = r.minutes(mark); !ok {
			return false
		}
	case !r.halfFollows(): // 5 PM
		return false
	}
	half, pm := r.halfDay()
	if half {
		if hour < 1 || hour > 12 {
			return false
		}
		hour %= 12
		if pm {
			hour += 12
		}
		r.half = true
	}
	return r.set(hour, minute, second, fraction)
}

// minutes reads what stands behind an hour and its mark.
func (r *stampReader) minutes(mark byte) (minute, second int, fraction int64, ok bool) {
	r.at++
	minute, digits := r.number(3)
	if digits != 2 {
		return 0, 0, 0, false
	}
	if c := r.peek(); c != ':' && (c != '.' || mark != '.') {
		return minute, 0, 0, true
	}
	r.at++
	if second, digits = r.number(3); digits != 2 {
		return 0, 0, 0, digits == 0
	}
	if c := r.peek(); c == '.' || c == ',' {
		r.at++
		n, digits := r.number(9)
		fraction = int64(n)
		for ; digits > 3; digits-- {
			fraction /= 10
		}
		for ; digits < 3; digits++ {
			fraction *= 10
		}
	}
	return minute, second, fraction, true
}

// halfFollows says whether AM or PM comes next.
func (r *stampReader) halfFollows() bool {
	at := r.at
	half, _ := r.halfDay()
	r.at = at
	return half
}

// halfDay reads AM or PM, a.m. or p.m.
func (r *stampReader) halfDay() (is, pm bool) {
	at := r.at
	r.skip(" \u00a0\u202f")
	c := r.peek() | 0x20
	if c != 'a' && c != 'p' {
		r.at = at
		return false, false
	}
	r.at++
	r.skip(". ")
	if r.peek()|0x20 != 'm' {
		r.at = at
		return false, false
	}
	r.at++
	r.skip(".")
	return true, c == 'p'
}

// zone reads an offset: Z, UTC, GMT, +01:00, -0600, +02.
func (r *stampReader) zone() {
	at := r.at
	r.skip(" ")
	sign := 1
	switch c := r.peek(); {
	case c >= 'A' && c <= 'Z' || c == 'z':
		if !r.zoneName() {
			r.at = at
		}
		return
	case c == '-':
		sign = -1
	case c == '+':
	default:
		r.at = at
		return
	}
	r.at++
	hours, digits := r.number(4)
	minutes := 0
	switch digits {
	case 4:
		hours, minutes = hours/100, hours%100
	case 2, 1:
		if r.peek() == ':' {
			r.at++
			minutes, digits = r.number(2)
		}
	default:
		r.at = at
		return
	}
	if hours > 14 || minutes > 59 || digits == 0 {
		r.at = at
		return
	}
	r.zoned, r.offset = true, sign*(hours*3600+minutes*60)
}

// zoneNames are short names of zones with their offsets in quarters of an hour.
// Where a name has several meanings any will do: the clock shown is taken as
// written, and the offset only tells the two runs of a repeated hour apart.
// Common practice, no source.
const zoneNames = " z 0 utc 0 gmt 0 wet 0 bst 4 west 4 cet 4 cest 8 mez 4 mesz 8 eet 8 eest 12 est -20 edt -16 cst -24 cdt -20 mst -28 mdt -24 " +
	"pst -32 pdt -28 akst -36 akdt -32 hst -40 ast -16 adt -12 nst -14 ndt -10 aest 40 aedt 44 acst 38 acdt 42 awst 32 nzst 48 nzdt 52 sast 8 jst 36 "

// zoneName reads the short name of a zone.
func (r *stampReader) zoneName() bool {
	word := r.word()
	at := strings.Index(zoneNames, " "+word+" ")
	if at < 0 || word == "" || word[0] < 'a' {
		return false
	}
	rest := zoneNames[at+len(word)+2:]
	quarters, err := strconv.Atoi(rest[:strings.IndexByte(rest, ' ')])
	r.zoned, r.offset = err == nil, quarters*900
	return r.zoned
}

// readUnix reads seconds or milliseconds since 1970, of the years from 1995 to
// 2100, and gives milliseconds.
func readUnix(b []byte) (ms int64, millis, ok bool) {
	n, digits, at := int64(0), 0, 0
	for at < len(b) && b[at] >= '0' && b[at] <= '9' && digits < 14 {
		n = n*10 + int64(b[at]-'0')
		at++
		digits++
	}
	fraction, places := int64(0), 0
	if at < len(b) && b[at] == '.' {
		for at++; at < len(b) && b[at] >= '0' && b[at] <= '9'; at++ {
			if places < 3 {
				fraction = fraction*10 + int64(b[at]-'0')
				places++
			}
		}
		for ; places < 3; places++ {
			fraction *= 10
		}
	}
	if at < len(b) || digits < 9 {
		return 0, false, false
	}
	const first, last = 788_918_400, 4_102_444_800
	switch {
	case n >= first && n < last:
		return n*1000 + fraction, false, true
	case n >= first*1000 && n < last*1000:
		return n, true, true
	}
	return 0, false, false
}

// serialOf reads a serial with either decimal mark.
func serialOf(b []byte) (ms int64, places int, ok bool) {
	if ms, places, ok = readSerial(b, '.'); !ok {
		ms, places, ok = readSerial(b, ',')
	}
	return ms, places, ok
}

// readSerial reads the days that spreadsheets count since 1899-12-30, of the
// years from 1995 to 2100, to the nearest second, and gives milliseconds since
// 1970. Only a number with at least two decimals has a clock; any other is a
// whole day.
func readSerial(b []byte, decimal byte) (ms int64, places int, ok bool) {
	n, at := int64(0), 0
	for at < len(b) && at < 5 && b[at] >= '0' && b[at] <= '9' {
		n = n*10 + int64(b[at]-'0')
		at++
	}
	if at < 5 || n < 34_700 || n >= 73_051 {
		return 0, 0, false
	}
	fraction, size := int64(0), int64(1)
	if at < len(b) && b[at] == decimal {
		for at++; at < len(b) && b[at] >= '0' && b[at] <= '9'; at++ {
			if places < 10 {
				fraction, size = fraction*10+int64(b[at]-'0'), size*10
			}
			places++
		}
	}
	if at < len(b) {
		return 0, 0, false
	}
	const epoch = 25_569 // 1970-01-01 as a serial
	seconds := (fraction*86_400 + size/2) / size
	return ((n-epoch)*86_400 + seconds) * 1000, places, true
}
