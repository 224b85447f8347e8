package sound

import (
	"flag"
	"math"
	"os"
	"path/filepath"
	"sort"
	"strings"
	"testing"
)

var again = flag.Bool("encode", false, "encode the recordings of testdata anew, with lame")

// own are the small recordings of testdata: taps encoded in the forms that
// matter, so that something is decoded where there is no encoder.
var own = []struct {
	name           string
	rate, channels int
	seconds        float64
	options        string
	why            Refusal
}{
	{"mono-22k-32", 22050, 1, 1, "-b 32 -m m", ""},
	{"joint-44k-128", 44100, 2, 0.5, "-b 128 -m f -p", ""},
	{"stereo-24k-vbr", 24000, 2, 0.7, "-V 5 -m s", ""},
	{"mono-48k-96", 48000, 1, 0.5, "-b 96 -m m -t", ""},
	{"mpeg25", 11025, 1, 0.5, "-b 16 -m m", ""},
	{"mono-8k-8", 8000, 1, 0.7, "-b 8 -m m", Elsewhere},
}

func sortedNames(files map[string][]byte) []string {
	var names []string
	for name := range files {
		names = append(names, name)
	}
	sort.Strings(names)
	return names
}

// TestOwn decodes them and holds them against the taps that they were made of:
// the encoder and the decoder together are 1105 samples late (LAME's technical
// FAQ: 576 of the encoder, 529 of any decoder).
func TestOwn(t *testing.T) {
	if *again {
		encodeOwn(t)
	}
	for _, o := range own {
		file, err := os.ReadFile(filepath.Join("testdata", o.name+".mp3"))
		if err != nil {
			t.Fatal(err)
		}
		sink, f := read(t, file)
		if f.Why != o.why {
			t.Errorf("%s: %+v", o.name, f)
		}
		if f.Why != "" {
			continue
		}
		source := taps(o.rate, o.channels, o.seconds, 1)
		p := sink.parts[0]
		for c, channel := range [][]float32{p.left, p.right}[:o.channels] {
			if like := alike(channel, source, o.channels, c, 1105); like < 0.9 {
				t.Errorf("%s: channel %d is alike to %.3f, want 0.9", o.name, c, like)
			}
		}
		if f.Rate != o.rate || f.Channels != o.channels || f.Lost > 0 || math.Abs(f.Read-o.seconds) > 0.2 {
			t.Errorf("%s: %+v", o.name, f)
		}
	}
}

// alike is the correlation of decoded samples with their source, some samples
// later.
func alike(decoded []float32, source []float64, channels, channel, late int) float64 {
	var xy, xx, yy float64
	for i := 0; i*channels < len(source) && i+late < len(decoded); i++ {
		x, y := source[i*channels+channel], float64(decoded[i+late])
		xy, xx, yy = xy+x*y, xx+x*x, yy+y*y
	}
	return xy / math.Sqrt(xx*yy)
}

func encodeOwn(t *testing.T) {
	t.Helper()
	for _, o := range own {
		file := encode(t, wav16(taps(o.rate, o.channels, o.seconds, 1), o.rate, o.channels), strings.Fields(o.options)...)
		if err := os.WriteFile(filepath.Join("testdata", o.name+".mp3"), file, 0o644); err != nil {
			t.Fatal(err)
		}
	}
}
