package table

// aim is what the lines of some time begin with: all of it but two pairs of
// digits that change from row to row, the minutes and seconds of an hour, or the
// last four digits of Unix seconds.
type aim struct {
	text, mask    [4]uint64
	length        int   // in bytes, with the delimiter behind the stamp
	first, second int   // where the pairs stand; the same if there is only one
	at            int64 // the number that they are, in seconds
	base          int64 // how many of the second pair make one of the first: 60 or 100
	by            int64 // what at is multiplied with to be divided by it: see divided
	both          int64 // all ones if there are two pairs, and else zero
}

// divided is by how many bits an aim's product is shifted to be divided: 34953
// makes it a sixtieth of numbers below 3,600, 20972 a hundredth of those below
// 10,000.
const divided = 21

// aimFor makes the aim for rows from a time by the clock on, and says for how
// many of them it is good: 0 if there is none.
func (r *Reader) aimFor(next int64, offset int, step int64, most int) (a aim, n int) {
	t := &r.stamp
	if step%1000 != 0 {
		return a, 0
	}
	switch r.layout.Stamp.Zone {
	case Instant:
		next -= int64(offset) * 1000
		if r.offsetAt(next) != int64(offset)*1000 {
			return a, 0
		}
		last := r.until.to - 1
		if step < 0 {
			last = r.until.from
		}
		most = int(min(int64(most), (last-next)/step+1))
	case Offset:
		if t.offset != offset {
			return a, 0
		}
	}
	step /= 1000
	ok := false
	end := int64(3600)
	if r.unix {
		a, ok = r.unixAim(next)
		end = 10_000
	} else {
		a, ok = t.aimAt(next, step)
	}
	switch {
	case !ok:
		return a, 0
	case step > 0:
		return a, min(most, int((end-1-a.at)/step)+1)
	}
	return a, min(most, int(a.at/-step)+1)
}

// aimAt makes the aim for a time that is a full second; false if the template
// has another day, or hour if it has no digits for it.
func (t *template) aimAt(at, step int64) (a aim, ok bool) {
	since := at - t.base
	hour := since / hourLength
	if t.length == 0 || t.length > 32 || since < 0 || hour > 23 || hour > 0 && t.hour < 0 || since%1000 != 0 {
		return a, false
	}
	a = aim{
		text: [4]uint64(t.text[:4]), mask: [4]uint64(t.mask[:4]), length: t.length,
		first: t.minute, second: t.second, at: since % hourLength / 1000, base: 60, by: 34953, both: -1,
	}
	if t.second < 0 {
		a.second, a.both = t.minute, 0
		if a.at%60 != 0 || step%60 != 0 {
			return a, false
		}
	}
	if t.hour >= 0 {
		a.put(t.hour, '0'+byte(hour/10))
		a.put(t.hour+1, '0'+byte(hour%10))
	}
	return a, true
}

// put makes a letter a part of what lines begin with.
func (a *aim) put(at int, c byte) {
	word, shift := at>>3&3, at&7*8
	a.text[word] |= uint64(c) << shift
	a.mask[word] |= 0xFF << shift
}

// unixAim makes the aim for a Unix time in milliseconds.
func (r *Reader) unixAim(ms int64) (a aim, ok bool) {
	seconds := ms / 1000
	if seconds < 1e9 || seconds >= 1e10 {
		return a, false
	}
	a = aim{first: 6, second: 8, at: seconds % 10_000, base: 100, by: 20972, both: -1}
	high := seconds / 10_000
	for i := 5; i >= 0; i-- {
		a.put(i, '0'+byte(high%10))
		high /= 10
	}
	a.length = 10
	switch rest := ms % 1000; {
	case r.layout.Stamp.Form == Millis:
		a.put(10, '0'+byte(rest/100))
		a.put(11, '0'+byte(rest/10%10))
		a.put(12, '0'+byte(rest%10))
		a.length = 13
	case rest != 0:
		return a, false
	}
	a.put(a.length, r.layout.Delimiter)
	a.length++
	return a, true
}

// digits are the numbers below 100 as two digits, the tens in the low byte.
var digits = func() (d [128]uint16) {
	for i := range d {
		d[i] = uint16('0'+i/10) | uint16('0'+i%10)<<8
	}
	return d
}()
