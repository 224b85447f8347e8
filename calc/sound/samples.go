package sound

import (
	"math"

	"splittally/calc/figure"
)

// run is how many samples of a channel are handed on at once.
const run = 2048

// samples turns bytes of a layout into samples.
type samples struct {
	layout
	table       *[256]float32 // of samples of one byte
	part        [mostChannels * 8]byte
	got         int // bytes of part: the start of a block that was cut
	left, right [run]float32
	turned      []byte // samples with the lowest byte first, if they come otherwise
	bad         int    // samples that are no numbers
	over        int    // beyond full scale
}

func (s *samples) init(l layout) {
	s.layout = l
	switch l.coding {
	case uint8s:
		s.table = tableOf(func(b byte) float32 { return (float32(b) - 128) / 128 })
	case muLaws:
		s.table = tableOf(muLaw)
	case aLaws:
		s.table = tableOf(aLaw)
	}
	if l.big && l.width > 1 {
		s.turned = make([]byte, run*l.block)
	}
}

func tableOf(f func(byte) float32) *[256]float32 {
	var table [256]float32
	for i := range table {
		table[i] = f(byte(i))
	}
	return &table
}

// write takes bytes of sound, cut anywhere.
func (s *samples) write(out *output, b []byte) {
	if s.got > 0 {
		n := copy(s.part[s.got:s.block], b)
		s.got += n
		b = b[n:]
		if s.got < s.block {
			return
		}
		s.got = 0
		s.blocks(out, s.part[:s.block], 1)
	}
	for len(b) >= s.block && !out.full {
		n := min(len(b)/s.block, run)
		s.blocks(out, b, n)
		b = b[n*s.block:]
	}
	if !out.full {
		s.got = copy(s.part[:], b)
	}
}

// blocks takes n whole blocks.
func (s *samples) blocks(out *output, b []byte, n int) {
	b = b[:n*s.block]
	if s.turned != nil {
		b = s.turn(b)
	}
	s.read(s.left[:n], b)
	if s.channels == 1 {
		out.take(s.left[:n], nil)
		return
	}
	s.read(s.right[:n], b[s.width:])
	out.take(s.left[:n], s.right[:n])
}

// turn turns the bytes of each sample round.
func (s *samples) turn(b []byte) []byte {
	to := s.turned[:len(b)]
	for i := 0; i < len(b); i += s.width {
		for k := range s.width {
			to[i+k] = b[i+s.width-1-k]
		}
	}
	return to
}

// read reads one channel, whose first sample b begins with.
func (s *samples) read(to []float32, b []byte) {
	switch s.coding {
	case uint8s, muLaws, aLaws:
		for i := range to {
			to[i] = s.table[b[i*s.block]]
		}
	case int16s:
		read16(to, b, s.block)
	case int24s:
		for i := range to {
			p := b[i*s.block : i*s.block+3 : i*s.block+3]
			to[i] = float32(int32(uint32(p[0])<<8|uint32(p[1])<<16|uint32(p[2])<<24)) * (1.0 / (1 << 31))
		}
	case int32s:
		for i := range to {
			to[i] = float32(int32(word(b[i*s.block:]))) * (1.0 / (1 << 31))
		}
	case float32s:
		for i := range to {
			to[i] = s.checked(math.Float32frombits(word(b[i*s.block:])))
		}
	case float64s:
		for i := range to {
			p := b[i*s.block:]
			to[i] = s.checked(float32(math.Float64frombits(uint64(word(p)) | uint64(word(p[4:]))<<32)))
		}
	}
}

// read16 reads the form that nearly all recorders write.
func read16(to []float32, b []byte, block int) {
	for i := range to {
		p := b[i*block : i*block+2 : i*block+2]
		to[i] = float32(int16(uint16(p[0])|uint16(p[1])<<8)) * (1.0 / (1 << 15))
	}
}

func word(b []byte) uint32 {
	return uint32(b[0]) | uint32(b[1])<<8 | uint32(b[2])<<16 | uint32(b[3])<<24
}

// checked makes sure that a sample is a number from −1 to 1.
func (s *samples) checked(value float32) float32 {
	if value >= -1 && value <= 1 {
		return value
	}
	switch {
	case value > math.MaxFloat32 || value < -math.MaxFloat32 || value != value:
		s.bad++
		return 0
	case value > 1:
		s.over++
		return 1
	}
	s.over++
	return -1
}

func (s *samples) tell(f *Found) {
	if s.bad > 0 {
		f.say(figure.Counted(s.bad, "sample is no number", "samples are no numbers") + ": silence stands in the place.")
	}
	if s.over > 0 {
		f.say(figure.Counted(s.over, "sample is", "samples are") + " louder than full scale, and cut to it.")
	}
}

// muLaw decodes a sample by the μ-law of ITU-T G.711, table 2, so that
// full scale is 1: the largest value is 8031 of 8192.
func muLaw(b byte) float32 {
	b = ^b
	value := (int(b&15)<<1+33)<<(b>>4&7) - 33
	if b&0x80 != 0 {
		value = -value
	}
	return float32(value) / 8192
}

// aLaw decodes a sample by the A-law of ITU-T G.711, table 1: the largest value
// is 4032 of 4096.
func aLaw(b byte) float32 {
	b ^= 0x55
	segment := b >> 4 & 7
	value := int(b&15)<<1 + 1
	if segment > 0 {
		value = (value + 32) << (segment - 1)
	}
	if b&0x80 == 0 {
		value = -value
	}
	return float32(value) / 4096
}
