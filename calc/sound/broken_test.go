package sound

import (
	"bytes"
	"math"
	"strings"
	"testing"

	"splittally/calc/sound/mpeg"
)

// unread is a frame whose side information is in order but for its regions, which
// lie beyond all bands: the decoder refuses it.
func unread() []byte {
	frame := append([]byte{0xff, 0xf3, 0x40, 0xc0}, make([]byte, 100)...)
	side := frame[4:]
	mpeg.SetBits(side, 9, 12, 200)  // part2_3_length
	mpeg.SetBits(side, 21, 9, 100)  // big_values
	mpeg.SetBits(side, 47, 15, 0)   // table_select
	mpeg.SetBits(side, 63, 7, 0x7f) // region0_count and region1_count
	return frame
}

// TestOutOfOrder reads frames that the decoder refuses: they are silence of their
// length, until there are too many of them.
func TestOutOfOrder(t *testing.T) {
	t.Parallel()
	good := ownFile(t, "mono-22k-32")[104:]
	whole, _ := read(t, good)
	few := append(bytes.Repeat(unread(), 10), good...)
	sink, f := read(t, append(append([]byte(nil), good...), few...))
	n, between := len(whole.parts[0].left), 10*576
	if got := len(sink.parts[0].left); f.Why != "" || got != 2*n+between || f.Lost < 0.26 {
		t.Fatalf("%d samples, want %d: %+v", got, 2*n+between, f)
	}
	hush := sink.parts[0].left[n+576 : n+between]
	for _, v := range hush {
		if v != 0 {
			t.Fatalf("a sample of %v where nothing could be decoded", v)
		}
	}
	if step := math.Abs(float64(sink.parts[0].left[n] - sink.parts[0].left[n-1])); step > 0.05 {
		t.Errorf("silence begins with a step of %v", step)
	}
	if _, f = read(t, bytes.Repeat(unread(), 20)); f.Why != Damaged {
		t.Errorf("nothing but such frames: %+v", f)
	}
	sink, f = read(t, append(append([]byte(nil), good...), bytes.Repeat(unread(), 2000)...))
	if got := len(sink.parts[0].left); f.Why != OutOfOrder || got != n+mostBroken*576 {
		t.Errorf("%d samples, want %d: %+v", got, n+mostBroken*576, f)
	}
}

// TestIntensity marks frames as intensity stereo, of which the decoder takes the
// directions from the wrong channel: MPEG-1 is read without them, MPEG-2 left to
// the browser, as there the scale factors are misread too.
func TestIntensity(t *testing.T) {
	t.Parallel()
	for name, why := range map[string]Refusal{"joint-44k-128": "", "stereo-24k-vbr": Elsewhere} {
		file := append([]byte(nil), ownFile(t, name)...)
		whole, _ := read(t, file)
		w := mpeg.Walker{}
		for rest := file; len(rest) > 0; {
			rest = rest[w.Add(rest):]
			for p := w.Next(len(rest) == 0); p.Kind != mpeg.More; p = w.Next(len(rest) == 0) {
				if p.Kind == mpeg.Frame {
					file[p.At+3] = file[p.At+3]&0x0f | 0x50
				}
			}
		}
		sink, f := read(t, file)
		if f.Why != why || !strings.Contains(strings.Join(f.Says, " "), "intensity stereo") {
			t.Errorf("%s: %+v", name, f)
		}
		if why == "" && len(sink.parts[0].left) != len(whole.parts[0].left) {
			t.Errorf("%s: %d samples, want %d", name, len(sink.parts[0].left), len(whole.parts[0].left))
		}
	}
}
