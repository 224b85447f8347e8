package sound

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"splittally/calc/sound/mpeg"
)

var every = flag.Bool("every", false, "try every form of MP3 that the encoder makes, not a choice of them")

// encode makes MP3 with lame, which writes how long it is only to a file.
func encode(t testing.TB, wav []byte, options ...string) []byte {
	t.Helper()
	name := filepath.Join(t.TempDir(), "encoded.mp3")
	command(t, wav, "lame", append(append([]string{"-S"}, options...), "-", name)...)
	file, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	return file
}

// ways are options of the encoder for which a rate and mode are no matter.
var ways = []string{
	"-b 32", "-b 56", "-b 64", "-b 128", "-b 160", "-V 2", "-V 5", "-V 9", "--abr 80",
	"-b 96 -p", "-b 80 --nores", "-b 64 --strictly-enforce-ISO", "-b 112 -t", "-b 320", "-B 128 -V 0 -p", "-b 48 --allshort",
}

// TestEncoded holds what the encoder makes against another decoder: no sample may
// be more than one step of 16 bits away.
func TestEncoded(t *testing.T) {
	t.Parallel()
	tool(t, "mpg123")
	n := 0
	for _, rate := range []int{11025, 12000, 16000, 22050, 24000, 32000, 44100, 48000} {
		for _, mode := range []string{"m", "s", "j", "f"} {
			channels := 2
			if mode == "m" {
				channels = 1
			}
			wav := wav16(taps(rate, channels, 1.5, 1), rate, channels)
			for _, way := range ways {
				if n++; !*every && n%7 != 0 {
					continue
				}
				if rate < 32000 {
					way = strings.Replace(way, "320", "160", 1)
				}
				name := fmt.Sprintf("%d %s %s", rate, mode, way)
				options := append(strings.Fields(way), "-m", mode, "--resample", fmt.Sprint(rate))
				t.Run(name, func(t *testing.T) { agree(t, wav, options, mode == "f") })
			}
		}
	}
}

// agree compares a file with another decoder's samples. Frames that are forced to
// be written as middle and side, of short blocks, and that fill all the bytes a
// frame can have, leave no room to help the decoder (see reservoir): the highest
// tones of a knock are then the middle's on the left and the side's on the right.
func agree(t *testing.T, wav []byte, options []string, forced bool) {
	t.Helper()
	file := encode(t, wav, options...)
	sink, f := read(t, file)
	if h, _ := mpeg.Parse(file); f.Why == Elsewhere && h.Rate == 22050 && h.Kbit == 160 && h.Channels() == 2 {
		return // more bytes than the decoder takes in
	}
	want := reference(t, file)
	if len(sink.parts) != 1 || f.Why != "" || f.Lost > 0 || len(sink.gaps) > 0 {
		t.Fatalf("%+v", f)
	}
	p := sink.parts[0]
	if len(p.left)*p.channels != len(want) {
		t.Errorf("%d samples, want %d", len(p.left)*p.channels, len(want))
	}
	if f.Promised == 0 || f.Promised-f.Read > 0.06 || f.Read-f.Promised > 0.06 {
		t.Errorf("promised %v s, read %v", f.Promised, f.Read)
	}
	if worst, rms := apart(p, want); worst > 1 && (!forced || rms > 64 || full(file) == 0) {
		t.Errorf("up to %v steps apart, rms %.2f: %s", worst, rms, f.Format)
	}
}

// full counts frames in which there is little room left for more.
func full(file []byte) int {
	n := 0
	for at := 0; at+mpeg.HeaderLength < len(file); {
		h, ok := mpeg.Parse(file[at:])
		if !ok {
			break
		}
		if at += h.Size(); h.Kbit >= 144 && (h.Version == mpeg.Version2 || h.Kbit >= 256) {
			n++
		}
	}
	return n
}
