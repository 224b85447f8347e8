// Package coder packs whole numbers and texts into few bytes: an arithmetic
// coder of single bits, each with a chance that is learnt from the bits before
// it under the same circumstances.
//
// One description serves both ways. A Coder that writes takes what it is given;
// one that reads takes no notice of that and gives what was written:
//
//	n = c.Number(&ctx.items, n)
//
// All is whole numbers, so that every machine comes to the same bits. What this
// package does to a stream of calls is part of every link that was ever made:
// it is never changed, only added to.
package coder

// Coder writes or reads a stream of bits.
type Coder struct {
	Reading bool
	// Broken says that what was read cannot have been written, or that what is to
	// be written can't be: it is more than Budget allows, or out of range.
	Broken bool
	// Budget is what may still be coded, in items and characters. It keeps a few
	// bytes that were made for it from becoming a large case.
	Budget int

	bytes     []byte
	at        int
	low, high uint32
	code      uint32
	text      textModel
}

// NewWriter gives a Coder that writes what a reader of that budget can read.
func NewWriter(budget int) *Coder { return &Coder{high: ^uint32(0), Budget: budget} }

// NewReader gives a Coder that reads at most budget items and characters.
func NewReader(bytes []byte, budget int) *Coder {
	c := &Coder{Reading: true, bytes: bytes, high: ^uint32(0), Budget: budget}
	for range 4 {
		c.code = c.code<<8 | c.next()
	}
	return c
}

// next gives the next byte; behind the end are zeros, some of which Bytes left out.
func (c *Coder) next() uint32 {
	c.at++
	if c.at > len(c.bytes) {
		return 0
	}
	return uint32(c.bytes[c.at-1])
}

// Past says that more was read than there is: four bytes are read ahead, and
// four zeros at most were left out.
func (c *Coder) Past() bool { return c.at > len(c.bytes)+8 }

// Chance is how likely a bit is 1, as learnt so far. The zero value is even.
type Chance struct {
	off  int32 // from a half, in parts of 1<<16
	seen int32
}

// most is how many bits are remembered: the more, the finer and the slower.
const most = 60

func (p *Chance) learn(bit int) {
	target := int32(1<<15 - 24)
	if bit == 0 {
		target = -target
	}
	p.off += (target - p.off) * 2 / (2*p.seen + 3)
	if p.seen < most {
		p.seen++
	}
}

// Bit writes or reads a bit with its chance.
func (c *Coder) Bit(p *Chance, bit int) int {
	bit = c.code1(uint32(p.off+1<<15), bit)
	p.learn(bit)
	return bit
}

// code1 writes or reads a bit that is 1 with a chance of one in parts of 1<<16.
func (c *Coder) code1(one uint32, bit int) int {
	middle := c.low + uint32(uint64(c.high-c.low)*uint64(one)>>16)
	if c.Reading {
		bit = 0
		if c.code <= middle {
			bit = 1
		}
	}
	if bit == 1 {
		c.high = middle
	} else {
		c.low = middle + 1
	}
	for c.low>>24 == c.high>>24 {
		if c.Reading {
			c.code = c.code<<8 | c.next()
		} else {
			c.bytes = append(c.bytes, byte(c.high>>24))
		}
		c.low, c.high = c.low<<8, c.high<<8|255
	}
	return bit
}

// Bytes ends what is written.
func (c *Coder) Bytes() []byte {
	if c.low > 0 {
		c.bytes = append(c.bytes, byte(c.low>>24)+1)
	}
	n := len(c.bytes)
	for n > max(0, len(c.bytes)-4) && c.bytes[n-1] == 0 { // as many as Past allows for
		n--
	}
	return c.bytes[:n]
}

// Spend takes from the budget; false if that, or what there is to read, is used up.
func (c *Coder) Spend(n int) bool {
	if n < 0 || n > c.Budget || c.Reading && c.Past() {
		c.Broken = true
	}
	if c.Broken {
		return false
	}
	c.Budget -= n
	return true
}
