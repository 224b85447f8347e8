package coder

import "math/bits"

// Size learns how large numbers of a kind are: how many bits they have, and the
// first of those. The zero value is ready.
type Size struct {
	length [64]Chance
	first  [64][4]Chance
}

// Number writes or reads a number from 0 on.
func (c *Coder) Number(s *Size, v uint64) uint64 {
	n := c.tree(s.length[:], bits.Len64(v)) // a number of 64 bits has no room in it
	if n < 2 {
		return uint64(n)
	}
	node, out := 1, uint64(1)
	for i := n - 2; i >= 0; i-- {
		bit := int(v >> i & 1)
		if n-2-i < 2 {
			bit = c.Bit(&s.first[n][node], bit)
			node = 2*node + bit
		} else {
			bit = c.code1(1<<15, bit)
		}
		out = out<<1 | uint64(bit)
	}
	return out
}

// tree writes or reads a number from 0 to 63, bit by bit.
func (c *Coder) tree(chances []Chance, v int) int {
	node := 1
	for i := 5; i >= 0; i-- {
		node = 2*node + c.Bit(&chances[node], v>>i&1)
	}
	return node - 64
}

// Signed learns numbers below zero too.
type Signed struct {
	size  Size
	minus Chance
}

// Signed writes or reads a number of at most 62 bits and a sign.
func (c *Coder) Signed(s *Signed, v int64) int64 {
	minus, size := 0, v
	if v < 0 {
		minus, size = 1, -v
	}
	size = int64(c.Number(&s.size, uint64(size)))
	if size != 0 && c.Bit(&s.minus, minus) == 1 {
		return -size
	}
	return size
}
