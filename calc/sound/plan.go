package sound

import "splittally/calc/sound/mpeg"

// plan is how a frame is written anew. Its main data begins in earlier frames;
// either all of it is put into the frame itself, or what the decoder holds is
// left there. There is little room, and what follows the data may be the next
// frame's: it must find room too.
type plan struct {
	how  how
	all  int // bytes of main data that there are for this frame and the next
	used int // of them by this
	more int // bits of zeros to write behind units
}

type how uint8

const (
	silent how = iota // without sound
	inside            // all in the frame itself
	split             // the rest of it, behind what the decoder holds
)

// slack is how many bytes at the end may be missing, of the highest tones.
const slack = 2

// choose decides for room bytes in a frame, of which back belong to earlier
// ones; held says that the decoder has those.
func (p *plan) choose(room, back int, held bool) {
	spare := room - p.used - min(p.all-p.used, mostBack) // if all is in the frame
	other := room - (p.all - back)                       // if not
	switch {
	case spare >= 0 && (8*spare >= p.more || !held || spare >= other):
		p.how, p.more = inside, min(p.more, 8*spare)
	case held:
		p.how, p.more = split, max(min(p.more, 8*other), 0)
	case p.used <= room+slack:
		p.how, p.more = inside, 0
	}
}

const (
	mostBits = 1<<12 - 1 // of a unit
	allQuads = 144       // groups of four values in a unit
)

// wanted is how many bits of zeros a frame should have more.
func wanted(h mpeg.Header, side *mpeg.Side) int {
	if !h.Middle() {
		return 0
	}
	bits := 0
	for i, u := range side.Units[:side.Count] {
		if lengthens(side, i, 0) {
			bits += zeros(u)
		}
	}
	return bits
}

// zeros is how many bits write zeros up to a unit's end: four zeros are a single
// 1 in the one table of small values, and four in the other.
func zeros(u mpeg.Unit) int { return min(allQuads*(1+3*u.Quads), mostBits-u.Bits) }

// lengthens says whether zeros are written after a unit: after one of the two
// channels of a granule of short blocks, the one that has something and takes
// fewer bits; the second, if the first ends before bit start.
func lengthens(side *mpeg.Side, i, start int) bool {
	first, second := &side.Units[i&^1], &side.Units[i|1]
	if !first.Short && !second.Short {
		return false
	}
	end := first.Bits
	for _, u := range side.Units[:i&^1] {
		end += u.Bits
	}
	better := 0
	if first.Bits == 0 || second.Bits > 0 && (second.Quads < first.Quads || end < start) {
		better = 1
	}
	return side.Units[i].Bits > 0 && i&1 == better
}
