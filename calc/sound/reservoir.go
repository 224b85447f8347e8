package sound

import "splittally/calc/sound/mpeg"

// reservoir keeps the main data of earlier frames that later ones may begin
// with, and writes frames anew where the decoder would go wrong:
//
//   - after it began anew it has no main data of earlier frames;
//   - padded frames of MPEG-2 it takes for a byte shorter at some bit rates;
//   - MPEG-2.5 it refuses, though at 11.025 and 12 kHz nothing but the header
//     tells it from MPEG-2 at 16 kHz: the bands are the same;
//   - of short blocks it leaves the last bands as middle and side, as it looks
//     only at as many values as were written, before they are put in order.
//     What is written is therefore lengthened by zeros up to the end.
type reservoir struct {
	tail  [mostBack]byte // the last bytes of main data, the newest at the end
	known int            // how many of them are known
	held  int            // how many the decoder has itself, behind its last frame
	fresh [2048]byte     // a frame written anew
	whole [mostBack + 2048]byte
}

const (
	mostBack    = 511 // bytes that main_data_begin can reach back
	topKbit     = 14  // index of the highest bit rate
	headerBytes = mpeg.HeaderLength
)

// forget is for where bytes of the recording are missing.
func (r *reservoir) forget() { r.known, r.held = 0, 0 }

// restart is for where the decoder begins anew.
func (r *reservoir) restart() { r.held = 0 }

// prepare gives what to feed the decoder for a frame, which it may change. mute
// is true if its main data is not all there, or it is damaged: then it decodes
// to silence, and the data is kept for the frames that follow. The bytes are the
// caller's until the next call.
func (r *reservoir) prepare(h mpeg.Header, frame []byte) (fed []byte, mute bool) {
	if h.Version == mpeg.Version25 {
		h.Version, h.Rate = mpeg.Version2, 16000
		frame[1], frame[2] = frame[1]|0x10, frame[2]&^0x0c|0x08
	}
	side := mpeg.ReadSide(h, frame)
	tidy(h, frame, &side)
	main := frame[h.MainStart():]
	all, used := side.Back+len(main), (side.Bits+7)/8
	if side.Wrong || side.Back > r.known || side.Bits > 8*all {
		return r.anew(h, frame, plan{how: silent}, nil), true
	}
	p := plan{all: all, used: used, more: wanted(h, &side)}
	p.choose(topSize(h)-headerBytes-h.SideLength(), side.Back, side.Back <= r.held)
	switch {
	case p.how == silent:
		return r.anew(h, frame, p, nil), true
	case p.more == 0 && side.Back <= r.held && decoderSize(h, h.Kbit, h.Padded) == len(frame):
		r.push(main)
		r.held = min(all, mostBack)
		return frame, false
	}
	return r.anew(h, frame, p, &side), false
}

// tidy takes out of a frame what the decoder misreads: an emphasis that the
// standard keeps free, intensity stereo, whose directions it takes from the wrong
// channel, and sizes of scale factors where there are none.
func tidy(h mpeg.Header, frame []byte, side *mpeg.Side) {
	frame[3] &^= 0x03
	if h.Intensity() {
		frame[3] &^= 0x10
	}
	for _, u := range side.Units[:side.Count] {
		if u.Bits == 0 && u.Factors != 0 {
			mpeg.SetBits(frame[h.SideStart():], u.At+mpeg.FactorsAt, h.FactorsLength(), 0)
		}
	}
}

// anew writes a frame of the highest bit rate: what it needs of the main data
// comes first, and the end of all main data last, for the frames that follow.
func (r *reservoir) anew(h mpeg.Header, frame []byte, p plan, side *mpeg.Side) []byte {
	out := r.fresh[:topSize(h)]
	clear(out)
	copy(out, frame[:headerBytes])
	out[1] |= 1 // no checksum
	out[2] = out[2]&0x0d | topKbit<<4
	main, info, room := frame[h.MainStart():], out[headerBytes:], out[headerBytes+h.SideLength():]
	used := 0
	if p.how != silent {
		copy(info, frame[h.SideStart():h.MainStart()])
		whole := r.whole[:side.Back+len(main)+1]
		copy(whole, r.tail[mostBack-side.Back:])
		copy(whole[side.Back:], main)
		start := 8 * side.Back
		if p.how == inside {
			mpeg.SetBits(info, 0, h.BackLength(), 0) // main_data_begin
			start = 0
		}
		used = fill(room, info, whole, side, start, p.more)
	}
	r.push(main)
	r.held = min(r.known, len(room)-used)
	copy(room[len(room)-r.held:], r.tail[mostBack-r.held:])
	return out
}

// fill writes the main data of a frame from bit start on, with up to free bits
// more, and its lengths into the side information. It gives the bytes used.
func fill(room, info, whole []byte, side *mpeg.Side, start, free int) int {
	if free == 0 {
		return copy(room, whole[start/8:max(start/8, min(len(whole)-1, (side.Bits+7)/8))])
	}
	to, from := -start, 0
	for i, u := range side.Units[:side.Count] {
		from += u.Bits
		n := min(u.Bits, from-start) // what is not held by the decoder
		if n > 0 {
			mpeg.CopyBits(room, to+u.Bits-n, whole, from-n, n)
		}
		to += u.Bits
		if to < 0 || !lengthens(side, i, start) {
			continue
		}
		more := min(zeros(u), free)
		for k := range more {
			mpeg.SetBits(room, to+k, 1, 1)
		}
		mpeg.SetBits(info, u.At, 12, u.Bits+more)
		to, free = to+more, free-more
	}
	return max(to+7, 0) / 8
}

// push keeps the end of a frame's main data.
func (r *reservoir) push(main []byte) {
	if len(main) >= mostBack {
		copy(r.tail[:], main[len(main)-mostBack:])
	} else {
		copy(r.tail[:], r.tail[len(main):])
		copy(r.tail[mostBack-len(main):], main)
	}
	r.known = min(r.known+len(main), mostBack)
}

// topSize is the length of a frame of the highest bit rate.
func topSize(h mpeg.Header) int {
	if h.Version == mpeg.Version1 {
		return decoderSize(h, 320, false)
	}
	return decoderSize(h, 160, false)
}

// decoderSize is what the decoder takes for a frame's length: in MPEG-2 it adds
// the padding before it halves.
func decoderSize(h mpeg.Header, kbit int, padded bool) int {
	size := 144000 * kbit / h.Rate
	if padded {
		size++
	}
	if h.Version != mpeg.Version1 {
		size /= 2
	}
	return size
}
