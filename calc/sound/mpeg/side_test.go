package mpeg

import (
	"testing"

	"pgregory.net/rapid"
)

// TestSide writes side information and reads it again. The lengths of its parts
// add up to whole bytes, as the standard has them.
func TestSide(t *testing.T) {
	t.Parallel()
	for _, header := range [][4]byte{
		{0xff, 0xfb, 0x90, 0x00}, {0xff, 0xfa, 0x90, 0x00}, {0xff, 0xfb, 0x90, 0xc0}, {0xff, 0xf3, 0x90, 0x00}, {0xff, 0xf3, 0x90, 0xc0},
	} {
		f := append(header[:], make([]byte, 600)...)
		h, _ := Parse(f)
		b := f[h.SideStart():]
		side := ReadSide(h, f)
		if side.Back != 0 || side.Bits != 0 || side.Wrong || side.Count != h.Samples()/576*h.Channels() {
			t.Fatalf("%x: %+v", header, side)
		}
		SetBits(b, 0, h.BackLength(), 201)
		last := side.Units[side.Count-1]
		length := 8*h.SideLength() - last.At
		SetBits(b, last.At, 12, 1234)                         // part2_3_length
		SetBits(b, last.At+FactorsAt, h.FactorsLength(), 9)   // scalefac_compress
		SetBits(b, last.At+FactorsAt+h.FactorsLength(), 3, 6) // window_switching_flag, block_type
		SetBits(b, last.At+length-1, 1, 1)                    // count1table_select, the last bit of all
		side = ReadSide(h, f)
		want := Unit{At: last.At, Bits: 1234, Short: true, Quads: 1, Factors: 9}
		if side.Back != 201 || side.Bits != 1234 || side.Wrong || side.Units[side.Count-1] != want {
			t.Errorf("%x: %+v, want %+v", header, side, want)
		}
		SetBits(b, last.At+FactorsAt+h.FactorsLength(), 3, 4)
		if !ReadSide(h, f).Wrong {
			t.Errorf("%x: a block type of 0 where windows are switched is taken", header)
		}
		SetBits(b, last.At+FactorsAt+h.FactorsLength(), 3, 0)
		SetBits(b, last.At+12, 9, 289)
		if !ReadSide(h, f).Wrong {
			t.Errorf("%x: 289 pairs of values in a unit of 576 are taken", header)
		}
	}
}

// TestCopyBits holds copied bits against bits read and written one by one.
func TestCopyBits(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		from := rapid.SliceOfN(rapid.Byte(), 40, 40).Draw(t, "from")
		to := rapid.SliceOfN(rapid.Byte(), 40, 40).Draw(t, "to")
		start, at := rapid.IntRange(0, 100).Draw(t, "start"), rapid.IntRange(0, 100).Draw(t, "at")
		count := rapid.IntRange(0, 200).Draw(t, "count")
		want := append([]byte(nil), to...)
		for i := range count {
			SetBits(want, at+i, 1, Bits(from, start+i, 1))
		}
		CopyBits(to, at, from, start, count)
		if string(to) != string(want) {
			t.Fatalf("%x, want %x", to, want)
		}
	})
}

// FuzzWalker holds that the pieces of any file follow one another to its end, and
// are the same however it is cut.
func FuzzWalker(f *testing.F) {
	f.Add(join(id3(40, 0), frames(5), apeTag(40), []byte("garbage"), frames(3)), uint16(100))
	f.Add(join([]byte("LYRICSBEGINLYRICS200TAG"), make([]byte, 125), low(), low(), low()), uint16(1))
	f.Fuzz(func(t *testing.T, file []byte, cut uint16) {
		want := walk(t, file, int64(len(file)), len(file)+1)
		if got := walk(t, file, int64(len(file)), int(cut)+1); got != want {
			t.Errorf("cut by %d %s, at once %s", cut+1, got, want)
		}
	})
}
