package table

import (
	"encoding/binary"
	"math/bits"
)

func load(line *[reach]byte, at int) uint64 {
	return binary.LittleEndian.Uint64(line[at&63 : at&63+8])
}

// plainRows reads rows of a stamp and one figure, one step after another, from
// the time next on, and puts the figures into room: how many bytes they are, and
// how many. It is where the time of large files goes, so it tells each row by a
// few comparisons of eight letters at once.
func (r *Reader) plainRows(b []byte, next int64, offset int, step int64, room []int64) (at, n int) {
	t := &r.stamp
	if t.length > 32 || step%1000 != 0 {
		return 0, 0
	}
	switch r.layout.Stamp.Zone {
	case Instant:
		next -= int64(offset) * 1000
		if r.offsetAt(next) != int64(offset)*1000 {
			return 0, 0
		}
		last := r.until.to - 1
		if step < 0 {
			last = r.until.from
		}
		room = room[:min(int64(len(room)), (last-next)/step+1)]
	case Offset:
		if t.offset != offset {
			return 0, 0
		}
	}
	a, ok := t.aimAt(next)
	if !ok || !a.seconds && step%60_000 != 0 {
		return 0, 0
	}
	step /= 1000
	if step > 0 {
		room = room[:min(int64(len(room)), (3599-a.at)/step+1)]
	} else {
		room = room[:min(int64(len(room)), a.at/-step+1)]
	}
	ch, decimal := &r.chans[0], r.layout.Decimal
	most, begin, second := ch.places, t.length, a.at
	for n < len(room) && at+reach <= len(b) {
		line := (*[reach]byte)(b[at:])
		minute := second * 34953 >> 21 // a sixtieth
		other := (a.text[0] ^ load(line, 0)&a.mask[0]) | (a.text[1] ^ load(line, 8)&a.mask[1]) |
			(a.text[2] ^ load(line, 16)&a.mask[2]) | (a.text[3] ^ load(line, 24)&a.mask[3]) |
			uint64(digits[minute&63]^binary.LittleEndian.Uint16(line[a.minute&63:a.minute&63+2]))
		if a.seconds {
			other |= uint64(digits[(second-minute*60)&63] ^ binary.LittleEndian.Uint16(line[a.second&63:a.second&63+2]))
		}
		if other != 0 {
			break
		}
		// shortFigure, written out: a call would cost a third of the time
		v := load(line, begin)
		x := v ^ zeros
		marks := notDigits(x)
		first := bits.TrailingZeros64(marks) &^ 7
		length, places := first, 0
		if byte(v>>(first&63)) == decimal {
			marks &= marks - 1
			length = bits.TrailingZeros64(marks) &^ 7
			low := uint64(1)<<(first&63) - 1
			x = (x&low | x>>8&^low) << 8
			places = (length-first)>>3 - 1
		}
		number := eightDigits(x << ((64 - length) & 63))
		length >>= 3
		if marks == 0 || length-places == 0 || places > 0 && length == 1 {
			number, places, length = longFigure(v, line[begin&63:], decimal)
		}
		if length == 0 || places >= len(ch.factor) || number > ch.most[places] {
			break
		}
		end := begin + length
		if end >= reach-1 {
			break
		}
		if line[end] != '\n' {
			if line[end] != '\r' || line[end+1] != '\n' {
				break
			}
			end++
		}
		room[n] = int64(number) * ch.factor[places]
		most = max(most, places)
		n++
		at += end + 1
		second += step
	}
	ch.places = most
	return at, n
}
