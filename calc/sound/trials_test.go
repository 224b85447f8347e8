package sound

import (
	"compress/gzip"
	"encoding/json"
	"fmt"
	"io"
	"math"
	"os"
	"path/filepath"
	"testing"

	"splittally/calc/sound/mpeg"
)

// conformance says what each conformance stream comes to, where it is not within
// one step of 16 bits of the reference: nothing else may differ.
var conformance = map[string]struct {
	why  Refusal
	says string // why it cannot be otherwise
}{
	"l1-fl1.bit":                       {Elsewhere, "layer I"},
	"l3-he_free.bit":                   {Elsewhere, "free format"},
	"l3-test46.bit":                    {Elsewhere, "intensity stereo of MPEG-2"},
	"l3-nonstandard-big-iscf.bit":      {Elsewhere, "free format of MPEG-2.5"},
	"l3-nonstandard-sideinfo-size.bit": {NotASound, "no frame follows another"},
	"l3-nonstandard-small.bit":         {NotASound, "five letters"},
	"l3-nonstandard-vbrtag-empty.bit":  {Damaged, "a frame that tells of others, and none"},
	"l3-nonstandard-vbrtag-only.bit":   {Damaged, "a frame that tells of others, and none"},
}

// TestConformance compares the streams of ISO/IEC 11172-4 and 13818-4 with their
// published samples and with another decoder's, frame by frame from the first.
func TestConformance(t *testing.T) {
	t.Parallel()
	folder := filepath.Join(trials(t), "mp3-conformance")
	for name, file := range filesOf(t, folder, "*.bit") {
		t.Run(name, func(t *testing.T) {
			sink, f := read(t, file)
			if expect, refused := conformance[name]; refused {
				if f.Why != expect.why {
					t.Errorf("%s: refused as %q, want %q: %+v", expect.says, f.Why, expect.why, f)
				}
				return
			}
			if f.Why != "" || len(sink.parts) != 1 {
				t.Fatalf("%+v", f)
			}
			if name == "l3-nonstandard-compl-sideinfo-blocktype.bit" {
				// A frame has a block type that the standard forbids: it is silent here.
				if f.Lost == 0 || f.Lost > 0.1 {
					t.Errorf("lost %v s, want a frame or two", f.Lost)
				}
				return
			}
			against(t, sink.parts[0], published(t, folder, name))
			against(t, sink.parts[0], reference(t, file))
		})
	}
}

// against holds samples against others of whole frames.
func against(t *testing.T, p part, want []int16) {
	t.Helper()
	frame := 1152
	if p.rate < 32000 {
		frame = 576
	}
	have, others := len(p.left), len(want)/p.channels
	if others == 0 {
		return // it is refused there
	}
	// Published samples end where the test did.
	if have < others || have > others+2*frame {
		t.Errorf("%d samples, want %d or a frame more", have, others)
	}
	if worst, rms := apart(p, want); worst > 1 {
		t.Errorf("up to %v steps apart, rms %.2f", worst, rms)
	}
}

// published reads the samples that come with a stream.
func published(t *testing.T, folder, name string) []int16 {
	t.Helper()
	file, err := os.Open(filepath.Join(folder, name[:len(name)-len(".bit")]+".pcm.gz"))
	if err != nil {
		return nil
	}
	defer file.Close()
	unpacked, err := gzip.NewReader(file)
	if err != nil {
		t.Fatal(err)
	}
	b, err := io.ReadAll(unpacked)
	if err != nil {
		t.Fatal(err)
	}
	return words(b)
}

// filesOf reads the files of a folder.
func filesOf(t testing.TB, folder, pattern string) map[string][]byte {
	t.Helper()
	names, err := filepath.Glob(filepath.Join(folder, pattern))
	if err != nil || len(names) == 0 {
		t.Fatalf("no %s in %s: %v", pattern, folder, err)
	}
	files := map[string][]byte{}
	for _, name := range names {
		b, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		files[filepath.Base(name)] = b
	}
	return files
}

// edge is what is known of a file of odd tags, or damaged.
type edge struct {
	Rates  map[string]int `json:"rates"`
	Mpg123 struct {
		Rate   int `json:"rate"`
		Frames int `json:"frames"` // samples
	} `json:"mpg123_no_gapless"`
}

// TestEdges holds the lengths of files of odd tags against another decoder's.
func TestEdges(t *testing.T) {
	t.Parallel()
	folder := filepath.Join(trials(t), "mp3-edge")
	var truth map[string]edge
	b, err := os.ReadFile(filepath.Join(folder, "truth.json"))
	if err == nil {
		err = json.Unmarshal(b, &truth)
	}
	if err != nil {
		t.Fatal(err)
	}
	for name, file := range filesOf(t, folder, "*.mp3") {
		t.Run(name, func(t *testing.T) { edgeLength(t, name, file, truth[name]) })
	}
}

func edgeLength(t *testing.T, name string, file []byte, truth edge) {
	_, f := read(t, file)
	t.Logf("%s: %q, %s, read %.3f s of %.3f, lost %.3f, %q", name, f.Why, f.Format, f.Read, f.Promised, f.Lost, f.Says)
	switch {
	case name == "tag_garbage.mp3":
		// The other decoder takes the garbage for MPEG-2.5; there are 18 frames of
		// MPEG-1 at 64 kbit/s, the first of which tells of the others.
		if frames := f.Read * 44100 / 1152; math.Abs(frames-17) > 2 {
			t.Errorf("%v frames, want 17", frames)
		}
	case truth.Mpg123.Frames == 0:
		if f.Why == "" && f.Read > 0.06 {
			t.Errorf("read %v s of what the other decoder refuses", f.Read)
		}
	case f.Why != "":
		t.Errorf("refused: %+v", f)
	default:
		want := float64(truth.Mpg123.Frames) / float64(truth.Mpg123.Rate)
		if frames := math.Abs(f.Read-want) * float64(f.Rate) / 1152; frames > 2 || f.Rate != truth.Mpg123.Rate {
			t.Errorf("%v s at %d Hz, want %v at %d", f.Read, f.Rate, want, truth.Mpg123.Rate)
		}
	}
}

// TestRecordings compares recordings with knocks in them, of many forms, with
// another decoder's samples; WAV with what its header says.
func TestRecordings(t *testing.T) {
	t.Parallel()
	for _, folder := range []string{"synthetic", "real"} {
		for name, file := range filesOf(t, filepath.Join(trials(t), folder), "*.[mw][pa][3v]") {
			if name >= "3" || *every { // what comes before are more of the same, and longer
				t.Run(name, func(t *testing.T) { recording(t, name, file) })
			}
		}
	}
}

func recording(t *testing.T, name string, file []byte) {
	sink, f := read(t, file)
	refusals := map[string]Refusal{
		"40_empty.mp3": Empty, "40_text_named.mp3": NotASound,
		"30_fmt_8000Hz_mono_8k.mp3": Elsewhere, "30_fmt_8000Hz_mono_16k.mp3": Elsewhere,
	}
	if f.Why != refusals[name] {
		t.Errorf("%+v, want the refusal %q", f, refusals[name])
	}
	if f.Why != "" {
		return
	}
	if h, _ := mpeg.Parse(file); h.Layer == 3 {
		want := reference(t, file)
		if name == "40_two_mp3_joined_different_rates.mp3" {
			joined(t, sink, f)
			want = want[:len(sink.parts[0].left)]
		}
		against(t, sink.parts[0], want)
	}
	if len(sink.parts) == 1 && (f.Lost > 0 || len(sink.gaps) > 0 || math.Abs(f.Promised-f.Read) > 0.06) {
		t.Errorf("%+v", f)
	}
}

// joined is for a file of two recordings: 9 s each, of different rates.
func joined(t *testing.T, sink *recorder, f Found) {
	t.Helper()
	got := fmt.Sprint(len(sink.parts), sink.parts[0].rate, sink.parts[1].rate, len(sink.gaps))
	if got != "2 22050 44100 1" || math.Abs(f.Read-f.Promised) > 0.06 || math.Abs(f.Read-18.1) > 0.1 {
		t.Errorf("%s: %+v", got, f)
	}
}
