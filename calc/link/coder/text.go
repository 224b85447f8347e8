package coder

import "unicode/utf8"

// textModel learns letters by the ones before them: three, two, one and none.
type textModel struct {
	chances [4][]Chance // by order, at a hash of the letters before and the bits so far
	length  Size
}

// slots is how many chances there are of each order.
const slots = 1 << 14

// letterCost is what a letter takes from the budget: it is work for many bits.
const letterCost = 4

// Text writes or reads a text. What is no UTF-8 is read as U+FFFD.
func (c *Coder) Text(text string) string {
	n := int(c.Number(&c.text.length, uint64(len(text))) & (1<<32 - 1))
	if !c.Spend(letterCost * n) {
		c.Broken = true
		return ""
	}
	out := make([]byte, 0, n)
	before := uint32(0)
	for i := range n {
		b := byte(0)
		if !c.Reading {
			b = text[i]
		}
		b = c.letter(before, b)
		before = before<<8 | uint32(b)
		if out = append(out, b); c.Reading && c.Past() {
			c.Broken = true
			return ""
		}
	}
	if !utf8.Valid(out) {
		c.Broken = true
	}
	return string(out)
}

// Prime teaches the letters of a text beforehand. Readers and writers are primed
// alike.
func (c *Coder) Prime(text string) {
	before := uint32(0)
	for i := range len(text) {
		node := uint32(1)
		for k := 7; k >= 0; k-- {
			bit := int(text[i] >> k & 1)
			for _, p := range c.letterChances(before, node) {
				p.learn(bit)
			}
			node = 2*node + uint32(bit)
		}
		before = before<<8 | uint32(text[i])
	}
}

func (c *Coder) letter(before uint32, b byte) byte {
	node := uint32(1)
	for k := 7; k >= 0; k-- {
		chances := c.letterChances(before, node)
		// The longer the letters that were seen before, the more their word counts.
		sum, weight := int32(0), int32(1)
		for order, p := range chances {
			w := min(p.seen, 24) * [4]int32{1, 6, 30, 120}[order]
			sum, weight = sum+p.off/64*w, weight+w
		}
		one := 1<<15 + min(max(sum/weight*64, -32_000), 32_000)
		bit := c.code1(uint32(one), int(b>>k&1))
		for _, p := range chances {
			p.learn(bit)
		}
		node = 2*node + uint32(bit)
	}
	return byte(node)
}

func (c *Coder) letterChances(before, node uint32) (chances [4]*Chance) {
	for order := range chances {
		if c.text.chances[order] == nil {
			c.text.chances[order] = make([]Chance, slots)
		}
		seen := before & (1<<(8*order) - 1)
		h := (seen*0x9E3779B1 ^ node*0x85EBCA6B) * 0xC2B2AE35
		chances[order] = &c.text.chances[order][h>>18]
	}
	return chances
}
