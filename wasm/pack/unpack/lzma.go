package unpack

// The format is that of the LZMA specification in the LZMA SDK (public domain,
// lzma-specification.txt), whose names stand below. Of its settings only the
// usual ones are known: lc = 3, lp = 0, pb = 2.
const (
	usual = 0x5d
	head  = 18 // the settings, sizes of dictionary (4) and text (8), and 5 bytes of the range coder

	// No packet is longer than this, so that many bytes are enough to go on with.
	enough = 32
)

// The chances (in 2048) that the bits of each kind are 0, one kind after the other.
const (
	isMatch     = 0
	isRep       = 192
	isRepG0     = 204
	isRepG1     = 216
	isRepG2     = 228
	isRep0Long  = 240
	posSlot     = 432
	posDecoders = 688
	align       = 802
	lenCoder    = 818
	repLenCoder = 1332
	literals    = 1846
	kinds       = literals + 0x300<<3
)

var (
	chances [kinds]uint16
	// The range coder: range and code.
	rng, code uint32
	// The last four distances, and what the last packets were.
	rep0, rep1, rep2, rep3, state uint32
)

func begin() {
	size = uint32(Packed[5]) | uint32(Packed[6])<<8 | uint32(Packed[7])<<16 | uint32(Packed[8])<<24
	if have < head || uint32(Packed[0]) != usual || size == 0 || size > large {
		panic("this is not packed")
	}
	Text = make([]byte, size+slack)
	rng = 0xffffffff
	code = uint32(Packed[14])<<24 | uint32(Packed[15])<<16 | uint32(Packed[16])<<8 | uint32(Packed[17])
	at = head
	for i := uint32(0); i < kinds; i++ {
		chances[i] = 1024
	}
}

// tree reads n bits, the highest first, below a 1.
func tree(i, n uint32) uint32 {
	r, c, a, m := rng, code, at, uint32(1)
	for {
		chance := uint32(chances[i+m])
		bound := (r >> 11) * chance
		if c < bound {
			r = bound
			chances[i+m] = uint16(chance + (2048-chance)>>5)
			m <<= 1
		} else {
			r -= bound
			c -= bound
			chances[i+m] = uint16(chance - chance>>5)
			m = m<<1 | 1
		}
		if r>>24 == 0 {
			r <<= 8
			c = c<<8 | uint32(Packed[a])
			a++
		}
		n--
		if n == 0 {
			break
		}
	}
	rng, code, at = r, c, a
	return m
}

func bit(i uint32) uint32 { return tree(i-1, 1) & 1 }

// reverse reads n bits, the lowest first.
func reverse(i, n uint32) uint32 {
	v := uint32(0)
	for m := tree(i, n); m > 1; m >>= 1 {
		v = v<<1 | m&1
	}
	return v
}

// direct reads n bits whose chances are even.
func direct(n uint32) uint32 {
	v := uint32(0)
	for ; n > 0; n-- {
		rng >>= 1
		v <<= 1
		if code >= rng {
			code -= rng
			v |= 1
		}
		if rng>>24 == 0 {
			rng <<= 8
			code = code<<8 | uint32(Packed[at])
			at++
		}
	}
	return v
}

// unlike reads a byte where a match has just ended: its first bits are most
// often those of the byte that would have gone on with the match.
func unlike(i, like uint32) uint32 {
	r, c, a, m := rng, code, at, uint32(1)
	offset := uint32(0x100) // 0 once they differ
	for m < 0x100 {
		like <<= 1
		at := i + offset + like&offset + m
		chance := uint32(chances[at])
		bound := (r >> 11) * chance
		if c < bound {
			r = bound
			chances[at] = uint16(chance + (2048-chance)>>5)
			m <<= 1
			offset &^= like
		} else {
			r -= bound
			c -= bound
			chances[at] = uint16(chance - chance>>5)
			m = m<<1 | 1
			offset &= like
		}
		if r>>24 == 0 {
			r <<= 8
			c = c<<8 | uint32(Packed[a])
			a++
		}
	}
	rng, code, at = r, c, a
	return m
}

func length(i, posState uint32) uint32 {
	if bit(i) == 0 {
		return tree(i+2+posState<<3, 3) - 8 + 2
	}
	if bit(i+1) == 0 {
		return tree(i+130+posState<<3, 3) + 2
	}
	return tree(i+258, 8) - 256 + 16 + 2
}

func distance(length uint32) uint32 {
	slot := tree(posSlot+least(length-2, 3)<<6, 6) - 64
	if slot < 4 {
		return slot
	}
	n := slot>>1 - 1
	from := (2 | slot&1) << n
	if slot < 14 {
		return from + reverse(posDecoders+from-slot, n)
	}
	return from + direct(n-4)<<4 + reverse(align, 4)
}

// recall makes an earlier distance the newest.
func recall() {
	dist := rep1
	if bit(isRepG1+state) == 1 {
		dist = rep2
		if bit(isRepG2+state) == 1 {
			dist = rep3
			rep3 = rep2
		}
		rep2 = rep1
	}
	rep1 = rep0
	rep0 = dist
}

// decode unpacks until limit bytes of the text are there, or stop packed bytes read.
func decode(limit, stop uint32) {
	for done < limit && at <= stop {
		posState := done & 3
		if bit(isMatch+state<<4+posState) == 0 {
			literal()
			continue
		}
		n := uint32(1)
		if bit(isRep+state) == 0 {
			rep3, rep2, rep1 = rep2, rep1, rep0
			n = length(lenCoder, posState)
			rep0 = distance(n)
			state = after(7, 10)
		} else if bit(isRepG0+state) == 1 {
			recall()
			n = length(repLenCoder, posState)
			state = after(8, 11)
		} else if bit(isRep0Long+state<<4+posState) == 1 {
			n = length(repLenCoder, posState)
			state = after(8, 11)
		} else {
			state = after(9, 11)
		}
		match(n)
	}
}

// after is the state after a packet that came after a byte, or after a match.
func after(literal, match uint32) uint32 {
	if state < 7 {
		return literal
	}
	return match
}

func literal() {
	i := uint32(literals)
	if done > 0 {
		i += 0x300 * (uint32(Text[done-1]) >> 5)
	}
	if state < 7 {
		Text[done] = byte(tree(i, 8))
	} else {
		Text[done] = byte(unlike(i, uint32(Text[done-rep0-1])))
	}
	done++
	if state < 4 {
		state = 0
	} else if state < 10 {
		state -= 3
	} else {
		state -= 6
	}
}

func match(n uint32) {
	if rep0 >= done || n > size-done {
		panic("a match of what is not there")
	}
	to := done
	from := to - rep0 - 1
	end := to + n
	for to < end {
		Text[to] = Text[from]
		to++
		from++
	}
	done = to
}
