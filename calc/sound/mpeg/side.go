package mpeg

// Side is what of the side information of a frame of layer III says where its
// sound lies (ISO/IEC 11172-3, 2.4.1.7 and 2.4.2.7; 13818-3, 2.4.1.7).
type Side struct {
	Back  int // main_data_begin: bytes of earlier frames that it begins with
	Bits  int // all part2_3_length: bits of the main data that it needs
	Units [4]Unit
	Count int  // of units
	Wrong bool // there is what the standard forbids: it is damaged
}

// Unit is one granule of one channel; the channels of a granule follow one
// another.
type Unit struct {
	At      int  // where its side information begins, in bits from the start of all
	Bits    int  // part2_3_length
	Short   bool // of short blocks
	Quads   int  // count1table_select: which of two tables the small values have
	Factors int  // scalefac_compress
}

// ReadSide reads the side information of a whole frame of layer III.
func ReadSide(h Header, frame []byte) Side {
	b := frame[h.SideStart():]
	channels := h.Channels()
	if h.Version == Version1 {
		side := Side{Back: Bits(b, 0, h.BackLength()), Count: 2 * channels}
		at := 18 // main_data_begin 9, private_bits 5, scfsi 4
		if channels == 2 {
			at = 20 // 9, 3, 8
		}
		side.units(b, at, h.FactorsLength())
		return side
	}
	side := Side{Back: Bits(b, 0, h.BackLength()), Count: channels}
	side.units(b, 8+channels, h.FactorsLength()) // private_bits: 1 or 2
	return side
}

// units reads the units; factors is how many bits scalefac_compress has.
func (s *Side) units(b []byte, at, factors int) {
	length := 55 + factors
	if factors == 9 {
		length-- // there is no preflag
	}
	for i := range s.Count {
		u := Unit{At: at, Bits: Bits(b, at, 12), Factors: Bits(b, at+FactorsAt, factors), Quads: Bits(b, at+length-1, 1)}
		// window_switching_flag and block_type, which then is not 0
		switch Bits(b, at+FactorsAt+factors, 3) {
		case 4:
			s.Wrong = true
		case 6:
			u.Short = true
		}
		s.Wrong = s.Wrong || Bits(b, at+12, 9) > 288 // big_values: pairs, of 576
		s.Units[i] = u
		s.Bits += u.Bits
		at += length
	}
}

// FactorsAt is where in a unit's side information scalefac_compress stands,
// after part2_3_length, big_values and global_gain.
const FactorsAt = 12 + 9 + 8

// MainStart is where the main data of a frame of layer III begins.
func (h Header) MainStart() int { return h.SideStart() + h.SideLength() }

// BackLength is how many bits main_data_begin has.
func (h Header) BackLength() int {
	if h.Version == Version1 {
		return 9
	}
	return 8
}

// FactorsLength is how many bits scalefac_compress has.
func (h Header) FactorsLength() int {
	if h.Version == Version1 {
		return 4
	}
	return 9
}

// Bits reads up to 16 bits, the highest first.
func Bits(b []byte, at, count int) int {
	value := 0
	for i := at; i < at+count; i++ {
		value = value<<1 | int(b[i>>3]>>(7-i&7)&1)
	}
	return value
}

// SetBits writes up to 16 bits, the highest first.
func SetBits(b []byte, at, count, value int) {
	for i := at; i < at+count; i++ {
		bit := byte(value >> (at + count - 1 - i) & 1)
		b[i>>3] = b[i>>3]&^(1<<(7-i&7)) | bit<<(7-i&7)
	}
}

// CopyBits copies bits, the highest of each byte first. There must be a byte
// more in from than the bits need.
func CopyBits(to []byte, at int, from []byte, start, count int) {
	for count > 0 {
		n := min(8-at&7, count) // up to the end of a byte of to
		two := uint(from[start>>3])<<8 | uint(from[start>>3+1])
		bits := two >> (16 - start&7 - n) & (1<<n - 1)
		shift := 8 - at&7 - n
		mask := byte(1<<n-1) << shift
		to[at>>3] = to[at>>3]&^mask | byte(bits<<shift)
		at, start, count = at+n, start+n, count-n
	}
}
