package sound

import "testing"

// ITU-T Recommendation G.711 (11/88), table 1a (A-law) and table 2a (μ-law), each
// for positive input: the character signals sent, bit 1 first, and the decoder's
// output values y, uniform numbers of 13 and 14 bits. The values of the segments'
// first and last steps are from memory.
func TestG711(t *testing.T) {
	t.Parallel()
	mu := map[byte]int{
		0x80: 8031, 0x8f: 4191, 0x9f: 2079, 0xaf: 1023, 0xbf: 495, 0xcf: 231, 0xdf: 99, 0xef: 33, 0xf0: 30, 0xfe: 2, 0xff: 0,
	}
	for sent, want := range mu {
		if got := muLaw(sent) * 8192; got != float32(want) {
			t.Errorf("μ-law %#x: %v, want %d", sent, got, want)
		}
		if got := muLaw(sent&0x7f) * 8192; got != float32(-want) {
			t.Errorf("μ-law %#x: %v, want %d", sent&0x7f, got, -want)
		}
	}
	// Even bits are inverted as they are sent (G.711, table 1a, note 2).
	a := map[byte]int{0xff: 4032, 0xf0: 2112, 0xe0: 1056, 0xd0: 528, 0xc0: 264, 0xb0: 132, 0xa0: 66, 0x90: 33, 0x81: 3, 0x80: 1}
	for character, want := range a {
		if got := aLaw(character^0x55) * 4096; got != float32(want) {
			t.Errorf("A-law %#x: %v, want %d", character, got, want)
		}
		if got := aLaw(character^0x55^0x80) * 4096; got != float32(-want) {
			t.Errorf("A-law %#x: %v, want %d", character^0x80, got, -want)
		}
	}
}
