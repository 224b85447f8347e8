package sound

import (
	"bytes"
	"math/rand/v2"
	"strings"
	"testing"
)

// TestKinds reads files that are no WAV and no MP3: each is refused with what it
// is, whatever follows its first bytes.
func TestKinds(t *testing.T) {
	t.Parallel()
	noise := make([]byte, 5000)
	random := rand.New(rand.NewPCG(1, 2))
	for i := range noise {
		noise[i] = byte(random.Uint32())
	}
	binary := func(start string) []byte { return append([]byte(start), noise...) }
	aac := "\xff\xf1\x50\x80\x02\x1f\xfc" + strings.Repeat("\x21", 9)
	tests := []struct {
		file []byte
		why  Refusal
		says string
	}{
		{nil, Empty, "empty"},
		{binary("OggS\x00\x02"), Elsewhere, "Ogg"},
		{binary("fLaC\x00\x00\x00\x22"), Elsewhere, "FLAC"},
		{binary("\x00\x00\x00\x1cftypM4A \x00"), Elsewhere, "M4A"},
		{binary("\x00\x00\x00\x1cftypisom"), Elsewhere, "MP4"},
		{binary("\x00\x00\x00\x1cftyp3gp4"), Elsewhere, "3GP"},
		{binary("\x00\x00\x00\x14ftypqt  "), Elsewhere, "QuickTime"},
		{binary("\x1a\x45\xdf\xa3\x9f"), Elsewhere, "WebM"},
		{binary("FORM\x00\x00\x10\x00AIFFCOMM"), Elsewhere, "AIFF"},
		{binary("caff\x00\x01"), Elsewhere, "Core Audio"},
		{binary("#!AMR\n\x3c"), Elsewhere, "AMR"},
		{binary(strings.Repeat(aac, 5)), Elsewhere, "AAC"},
		{binary("ID3\x04\x00\x00\x00\x00\x00\x05abcde" + strings.Repeat(aac, 5)), Elsewhere, "AAC"},
		{binary("ID3\x04\x00\x00\x00\x00\x00\x05abcdefLaC\x00"), Elsewhere, "FLAC"},
		{binary(".snd\x00\x00\x00\x18"), Elsewhere, "AU"},
		{binary("RIFF\x00\x10\x00\x00AVI LIST"), Elsewhere, "AVI"},
		{binary("riff\x2e\x91\xcf\x11\xa5\xd6"), Unknown, "Wave64"},
		{binary("MThd\x00\x00\x00\x06"), NotASound, "notes"},
		{binary("RIFF\x00\x10\x00\x00WEBPVP8 "), NotASound, "a picture"},
		{binary("\x89PNG\r\n\x1a\n"), NotASound, "a picture"},
		{binary("\xff\xd8\xff\xe0\x00\x10JFIF"), NotASound, "a picture"},
		{binary("GIF89a"), NotASound, "a picture"},
		{binary("%PDF-1.7\n%\xe2\xe3\xcf\xd3\n"), NotASound, "a PDF document"},
		{[]byte("%PDF-1.4\n1 0 obj\n"), NotASound, "a PDF document"},
		{binary("PK\x03\x04\x14\x00"), NotASound, "a ZIP archive"},
		{binary("\x1f\x8b\x08\x00"), NotASound, "gzip"},
		{[]byte("<!DOCTYPE html>\n<html><title>Sign in</title>"), NotASound, "a web page"},
		{[]byte("\ufeff  <html lang=en>"), NotASound, "a web page"},
		{[]byte(`{"error": "not found"}`), NotASound, "JSON"},
		{[]byte("[{\"at\": 1}]"), NotASound, "JSON"},
		{[]byte("<?xml version='1.0'?><a/>"), NotASound, "XML"},
		{[]byte("Oct 3  12.4 kWh\nOct 4  13.1 kWh\n"), NotASound, "a text"},
		{[]byte("caf\xe9 cr\xe8me\r\n"), NotASound, "a text"},
		{[]byte("\xff\xfed\x00a\x00y\x00,\x00k\x00W\x00h\x00"), NotASound, "a text"},
		{bytes.Repeat([]byte("a long text\n"), 10000), NotASound, "a text"},
		{[]byte(" \n\n\t "), NotASound, "blanks"},
		{make([]byte, 5000), NotASound, "no recording"},
		{make([]byte, 3<<20), NotASound, "no recording"},
		{bytes.Repeat([]byte{0xff}, 5000), NotASound, "no recording"},
		{noise, NotASound, "no recording"},
		{[]byte{0xff}, NotASound, "no recording"},
		{[]byte("ID3\x03\x00\x00\x00\x00\x00\x05abcde"), Damaged, "no sound follows"},
		{[]byte("ID3\x03\x00\x00\x00\x00\x00\x05ab"), Damaged, "no sound follows"},
	}
	for _, test := range tests {
		sink, f := read(t, test.file)
		start := test.file[:min(len(test.file), 12)]
		if f.Why != test.why || len(f.Says) != 1 || !strings.Contains(f.Says[0], test.says) {
			t.Errorf("%q: %s, %q, want %s: %s", start, f.Why, f.Says, test.why, test.says)
		}
		if len(sink.parts) > 0 {
			t.Errorf("%q: refused, and yet sound was taken", start)
		}
	}
}

// TestNothingCame tells an empty file from one that the browser could not read.
func TestNothingCame(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		bytes int64
		want  Refusal
		says  string
	}{{0, Empty, "is empty"}, {4096, Unread, "Nothing of the file could be read, though it is not empty (4096 bytes)"}} {
		f := New(&counter{}, Options{Bytes: c.bytes}).Close()
		if f.Why != c.want || len(f.Says) != 1 || !strings.Contains(f.Says[0], c.says) {
			t.Errorf("%d bytes: %+v", c.bytes, f)
		}
	}
}
