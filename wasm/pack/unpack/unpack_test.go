package unpack

import (
	"bytes"
	"fmt"
	"strings"
	"testing"

	"github.com/kjk/lzma"
	"pgregory.net/rapid"
)

// unpacked starts anew and gives what packed holds, or what was wrong. Bytes come
// in pieces of that length.
func unpacked(packed []byte, piece int) (module []byte, err error) {
	Packed, places = [len(Packed)]byte{}, [len(places)]uint16{}
	Text, Module = nil, nil
	for _, v := range []*uint32{&have, &at, &size, &done, &rep0, &rep1, &rep2, &rep3, &state, &Size, &isPlain, &from, &to, &stop, &funcs, &placed, &written} {
		*v = 0
	}
	defer func() {
		if found := recover(); found != nil {
			module, err = nil, fmt.Errorf("%v", found)
		}
	}()
	for len(packed) > 0 {
		n := copy(Packed[Room():], packed[:min(piece, len(packed))])
		packed = packed[n:]
		for more := uint32(n); Unpack(more, 0) == 1; more = 0 {
		}
	}
	for Unpack(0, 1) == 1 {
	}
	Check()
	return bytes.Clone(Module[:Size]), nil
}

func packed(t testing.TB, text []byte) []byte {
	t.Helper()
	var b bytes.Buffer
	w := lzma.NewWriterSizeLevel(&b, int64(len(text)), lzma.BestCompression)
	if _, err := w.Write(text); err != nil {
		t.Fatal(err)
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// What another program packs as .lzma comes out as it was, in pieces of any length.
func TestUnpacksAnyText(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		word := rapid.SliceOfN(rapid.Byte(), 1, 40)
		words := rapid.SliceOfN(word, 1, 20).Draw(t, "words")
		var text []byte
		for _, i := range rapid.SliceOfN(rapid.IntRange(0, len(words)-1), 1, 2000).Draw(t, "order") {
			text = append(text, words[i]...)
		}
		var b bytes.Buffer
		w := lzma.NewWriterSizeLevel(&b, int64(len(text)), lzma.BestSpeed)
		w.Write(text)
		w.Close()
		piece := rapid.IntRange(1, 1<<17).Draw(t, "piece")
		got, err := unpacked(b.Bytes(), piece)
		if err != nil || !bytes.Equal(got, text) {
			t.Fatalf("%d bytes came back as %d: %v", len(text), len(got), err)
		}
	})
}

// What is not a whole text, packed in the usual way, is refused.
func TestRefusesOtherForms(t *testing.T) {
	good := packed(t, []byte("kWh, day by day; kWh, night by night"))
	with := func(at int, b byte) []byte {
		other := bytes.Clone(good)
		other[at] = b
		return other
	}
	for name, bad := range map[string][]byte{
		"nothing":         nil,
		"only a head":     good[:13],
		"other settings":  with(0, 0x5e),
		"size unknown":    append(append(bytes.Clone(good[:5]), bytes.Repeat([]byte{0xff}, 8)...), good[13:]...),
		"no size":         with(5, 0),
		"a byte too long": with(5, good[5]+1),
		"a byte too few":  with(5, good[5]-1),
		"cut":             good[:len(good)-1],
		"more behind it":  append(bytes.Clone(good), 0),
		"much more":       append(bytes.Clone(good), make([]byte, 200_000)...),
		"a page":          []byte(strings.Repeat("<html>", 20)),
	} {
		for _, piece := range []int{1, 1 << 16} {
			if got, err := unpacked(bad, piece); err == nil {
				t.Errorf("%s: unpacks to %q", name, got)
			}
		}
	}
}

// Whatever comes, it ends, and what it says does not hang on the pieces it came in.
func FuzzUnpack(f *testing.F) {
	f.Add(packed(f, []byte("the meter and the monitor, the meter and the monitor")))
	f.Add(packed(f, []byte("alik\x20\x00\x00\x00\x0a\x16\x01\x00\x20\x00\x0b")))
	f.Fuzz(func(t *testing.T, data []byte) {
		if len(data) > 8 && data[8] > 0 || len(data) > 7 && data[7] > 16 {
			t.Skip("a large text takes time and shows no more")
		}
		one, err := unpacked(data, 7)
		two, other := unpacked(data, 1<<16)
		if !bytes.Equal(one, two) || (err == nil) != (other == nil) {
			t.Errorf("in pieces %d bytes and %v, at once %d and %v", len(one), err, len(two), other)
		}
	})
}
