package mpeg

import (
	"bytes"
	"fmt"
	"strings"
	"testing"
)

// frame is a frame of zeros: MPEG-1 layer III, 128 kbit/s, 44.1 kHz, 417 bytes.
func frame() []byte { return append([]byte{0xff, 0xfb, 0x90, 0x00}, make([]byte, 413)...) }

// low is a frame of MPEG-2 layer III, 8 kbit/s, 24 kHz, 24 bytes.
func low() []byte { return append([]byte{0xff, 0xf3, 0x14, 0xc0}, make([]byte, 20)...) }

func frames(n int) []byte { return bytes.Repeat(frame(), n) }

func join(parts ...[]byte) []byte { return bytes.Join(parts, nil) }

// id3 is an ID3v2 tag of a number of bytes after its head.
func id3(size int, flags byte) []byte {
	head := []byte{'I', 'D', '3', 4, 0, flags, byte(size >> 21), byte(size >> 14 & 127), byte(size >> 7 & 127), byte(size & 127)}
	return append(head, bytes.Repeat([]byte{'x'}, size)...)
}

// apeTag is an APEv2 tag with a head and a foot.
func apeTag(size int) []byte {
	edge := func(flag byte) []byte {
		b := []byte("APETAGEX\xd0\x07\x00\x00")
		b = append(b, byte(size+32), byte((size+32)>>8), 0, 0, 1, 0, 0, 0, 0, 0, 0, flag)
		return append(b, make([]byte, 8)...)
	}
	return join(edge(0xa0), bytes.Repeat([]byte{'y'}, size), edge(0x80))
}

// walk writes what a file's pieces are, and holds that they follow one another.
func walk(t testing.TB, file []byte, size int64, chunk int) string {
	t.Helper()
	w := &Walker{Size: size}
	var out []string
	var at int64
	last, count := "", 0
	flush := func() {
		if count > 0 {
			out = append(out, fmt.Sprintf("%d %s", count, last))
		}
		count = 0
	}
	take := func(p Piece) {
		if p.At != at {
			t.Fatalf("a piece at %d, want it at %d: %+v after %v", p.At, at, p, out)
		}
		at += p.Length
		text := [...]string{"", "frames", "free", "cut", "tag", "lost"}[p.Kind]
		if p.Kind != Frame {
			text = fmt.Sprintf("%s of %d", text, p.Length)
		} else if int64(len(p.Bytes)) != p.Length || p.Bytes[0] != 0xff {
			t.Fatalf("a frame of %d bytes, want %d", len(p.Bytes), p.Length)
		}
		if p.Last {
			text += " at the end"
		}
		if text != last {
			flush()
		}
		last = text
		count++
	}
	for rest := file; ; {
		n := w.Add(rest[:min(chunk, len(rest))])
		rest = rest[n:]
		end := len(rest) == 0
		for {
			p := w.Next(end)
			if p.Kind == More {
				break
			}
			take(p)
			if p.Kind == Free {
				flush()
				return strings.Join(out, ", ")
			}
		}
		if end {
			break
		}
	}
	flush()
	if at < int64(len(file)) {
		t.Fatalf("%d bytes of %d are told of: %v", at, len(file), out)
	}
	return strings.Join(out, ", ")
}

func TestWalk(t *testing.T) {
	t.Parallel()
	garbage := bytes.Repeat([]byte{0x13, 0xff, 0x57}, 33)
	old := append([]byte("TAG"), make([]byte, 125)...)
	older := append([]byte("TAG+"), make([]byte, 223)...)
	lyrics := []byte("LYRICSBEGININD0000200 words of a song LYRICSEN, 000042LYRICS200")
	untrue := id3(0, 0)
	untrue[6] = 0x90 // no length at all
	free := append([]byte{0xff, 0xfb, 0x00, 0x00}, make([]byte, 700)...)
	tests := []struct {
		name, want string
		file       []byte
	}{
		{"frames", "5 frames", frames(5)},
		{"one frame", "1 frames", frame()},
		{"one and a tag", "1 frames, 1 tag of 128", join(frame(), old)},
		{"small frames", "40 frames", bytes.Repeat(low(), 40)},
		{"nothing", "", nil},
		{"one byte", "1 lost of 1 at the end", []byte{0xff}},
		{"a header alone", "1 lost of 4 at the end", frame()[:4]},
		{"the start of a frame", "1 lost of 100 at the end", frame()[:100]},
		{"cut", "3 frames, 1 cut of 100", frames(4)[:3*417+100]},
		{"cut in a header", "3 frames, 1 lost of 3 at the end", frames(4)[:3*417+3]},
		{"a tag", "1 tag of 50, 5 frames", join(id3(40, 0), frames(5))},
		{"a tag with a foot", "1 tag of 60, 5 frames", join(id3(40, 0x10), []byte("3DI4567890"), frames(5))},
		{"two tags", "1 tag of 50, 1 tag of 1034, 5 frames", join(id3(40, 0), id3(1024, 0), frames(5))},
		{"a large tag", "1 tag of 300010, 5 frames", join(id3(300000, 0), frames(5))},
		{"a tag without length", "1 tag of 10, 5 frames", join(untrue, frames(5))},
		{"a tag too long", "1 tag of 10, 5 frames", join([]byte("ID3\x04\x00\x00\x7f\x7f\x7f\x7f"), frames(5))},
		{"old tags", "5 frames, 1 tag of 227, 1 tag of 128", join(frames(5), older, old)},
		{"an APE tag", "1 tag of 104, 5 frames, 1 tag of 104", join(apeTag(40), frames(5), apeTag(40))},
		{"an APE foot", "5 frames, 1 tag of 32", join(frames(5), apeTag(40)[72:])},
		{"lyrics", "5 frames, 1 tag of 63, 1 tag of 128", join(frames(5), lyrics, old)},
		{"garbage before", "1 lost of 99, 5 frames", join(garbage, frames(5))},
		{"garbage behind", "5 frames, 1 lost of 99 at the end", join(frames(5), garbage)},
		{"garbage between", "5 frames, 1 lost of 99, 5 frames", join(frames(5), garbage, frames(5))},
		{"a tag between", "5 frames, 1 tag of 50, 5 frames", join(frames(5), id3(40, 0), frames(5))},
		{"two after garbage", "5 frames, 1 lost of 99, 2 frames", join(frames(5), garbage, frames(2))},
		{"another kind", "5 frames, 20 frames", join(frames(5), bytes.Repeat(low(), 20))},
		{"too few of another kind", "5 frames, 1 lost of 147 at the end", join(frames(5), low(), low(), garbage)},
		{"free format", "1 free of 0", bytes.Repeat(free, 12)},
		{"a single free frame", "1 lost of 1704 at the end", join(free, make([]byte, 1000))},
	}
	for _, test := range tests {
		want := strings.Replace(test.want, "5 frames, 20 frames", "25 frames", 1)
		for _, chunk := range []int{1, 5, 500, 1 << 20} {
			got := walk(t, test.file, int64(len(test.file)), chunk)
			if got != want {
				t.Errorf("%s, in chunks of %d: %s, want %s", test.name, chunk, got, want)
			}
		}
	}
}
