package sound

import (
	"bytes"
	"io"
	"testing"

	"github.com/hajimehoshi/go-mp3"

	"splittally/calc/sound/mpeg"
)

// BenchmarkDecode reads ten seconds of MP3 of 128 kbit/s in stereo with go-mp3
// alone and with the reader, which should cost no more than a few hundredths.
func BenchmarkDecode(b *testing.B) {
	own := ownFile(b, "joint-44k-128")
	h, _ := mpeg.Parse(own)
	file := bytes.Repeat(own[h.Size():], 19) // without the frame that counts the others
	b.Run("alone", func(b *testing.B) {
		for b.Loop() {
			d, err := mp3.NewDecoder(bytes.NewReader(file))
			if err != nil {
				b.Fatal(err)
			}
			if _, err := io.Copy(io.Discard, d); err != nil {
				b.Fatal(err)
			}
		}
	})
	b.Run("reader", func(b *testing.B) {
		for b.Loop() {
			stream(b, file)
		}
	})
}

// stream reads a file as the page does.
func stream(b *testing.B, file []byte) {
	b.Helper()
	r := New(&counter{}, Options{Bytes: int64(len(file))})
	for rest := file; len(rest) > 0; {
		n := min(r.Portion(), len(rest))
		if !r.Write(rest[:n]) {
			break
		}
		rest = rest[n:]
	}
	if f := r.Close(); f.Why != "" || f.Read == 0 {
		b.Fatalf("%+v", f)
	}
}

// BenchmarkWAV reads a minute of WAV in stereo of each form.
func BenchmarkWAV(b *testing.B) {
	for _, form := range []struct {
		name      string
		tag, bits int
	}{{"16", 1, 16}, {"24", 1, 24}, {"32", 1, 32}, {"float", 3, 32}, {"double", 3, 64}, {"mu-law", 7, 8}} {
		b.Run(form.name, func(b *testing.B) {
			data := make([]byte, 60*44100*2*form.bits/8)
			file := riff(chunk(le, "fmt ", format(le, form.tag, 2, 44100, form.bits)), chunk(le, "data", data))
			b.SetBytes(int64(len(file)))
			for b.Loop() {
				stream(b, file)
			}
		})
	}
}
