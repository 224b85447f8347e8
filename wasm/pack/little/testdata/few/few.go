// Package few has a little of everything that package little compiles.
package few

const (
	first = 0x80000000
	small = 1 << 10
)

// What the module exports, too.
var (
	Bytes  [256]byte
	Halves [64]uint16
	Words  [8]uint32
	Slice  []byte
	Other  []byte
	Count  uint32
)

// Numbers does sums of all kinds.
func Numbers(a, b uint32) uint32 {
	s := a + b*3 - a/(b|1) + a%(b|7)
	s ^= a << (b & 31)
	s |= a >> (b & 15) & 0xff
	s &^= b & 0x10
	s -= uint32(int32(a) >> (b & 31))
	s += (first + small) % 1000
	return s
}

// Order tells how two numbers compare: all six ways, a bit each.
func Order(a, b uint32) uint32 {
	v := uint32(0)
	if a == b {
		v |= 1
	}
	if a != b {
		v |= 2
	}
	if a < b {
		v |= 4
	}
	if a > b {
		v |= 8
	}
	if a <= b {
		v |= 16
	}
	if a >= b {
		v |= 32
	}
	return v
}

// Steps counts with loops that are left, and gone on with.
func Steps(a, b uint32) uint32 {
	n := uint32(0)
	for i := uint32(0); i < a&63; i++ {
		if i == b&31 {
			break
		} else if i&1 == 1 {
			n += 3
		} else {
			n++
		}
	}
	for n > 0 {
		n--
		if n&3 == 2 {
			continue
		}
		for {
			if n&1 == 0 {
				break
			}
			return n + b
		}
	}
	return n
}

func seen(v uint32) uint32 {
	Count++
	return v
}

// Short works out no more of a condition than Go does.
func Short(a, b uint32) uint32 {
	Count = 0
	if (seen(a&1) == 1 && seen(a&2) == 2) || seen(b&1) == 1 {
		Count += 100
	}
	seen(a)
	return Count
}

// Arrays keeps numbers, cut to what they have room for.
func Arrays(a, b uint32) uint32 {
	for i := uint32(0); i < 8; i++ {
		Bytes[i+a&31] = byte(a >> i)
		Halves[i+b&31] = uint16(a * b >> i)
		Words[i] = a ^ b<<i
	}
	x, y := uint32(Bytes[3+a&31]), uint32(Halves[2+b&31])
	x, y = y, x
	return x<<16 + y ^ Words[a&7]
}

// Slices takes memory, more each time, and copies in it, one part over another.
func Slices(a, b uint32) uint32 {
	n := a&0xffff + 70_000
	Slice = make([]byte, n)
	Other = make([]byte, 16)
	for i := uint32(0); i < 16; i++ {
		Slice[n-16+i] = byte(b + i*a)
	}
	copy(Slice[n-20:n-10], Slice[n-16:])
	copy(Other[2:10], Slice[n-20:])
	return uint32(Other[2]) + uint32(Other[9])<<8 + uint32(Slice[n-11])<<16 + uint32(Other[0])<<24
}

// Odd panics unless a is.
func Odd(a, b uint32) uint32 {
	if a&1 == 0 {
		panic("even")
	}
	return a + b
}
