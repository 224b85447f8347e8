package sound

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// hasher is a sink that keeps what it gets as one number, however it is cut.
type hasher struct {
	sum     uint64
	samples int
	events  string
}

func (h *hasher) Begin(rate, channels int) {
	h.events += fmt.Sprintf("%d: begin %d %d; ", h.samples, rate, channels)
}

func (h *hasher) Take(left, right []float32) {
	for i := range left {
		h.add(left[i])
		if right != nil {
			h.add(right[i])
		}
	}
	h.samples += len(left)
}

func (h *hasher) add(v float32) { h.sum = (h.sum ^ uint64(math.Float32bits(v))) * 1099511628211 }

func (h *hasher) Gap(seconds float64) { h.events += fmt.Sprintf("%d: gap %v; ", h.samples, seconds) }

// outcome is all that can be seen of reading a file in chunks of some lengths.
func outcome(file []byte, next func() int) string {
	sink := &hasher{}
	r := New(sink, Options{Bytes: int64(len(file))})
	for rest := file; len(rest) > 0; {
		n := max(1, min(next(), len(rest)))
		if !r.Write(rest[:n]) {
			break
		}
		rest = rest[n:]
	}
	return fmt.Sprintf("%x %s %+v", sink.sum, sink.events, r.Close())
}

// samplesOfAll are files of all the kinds there are, small ones.
func samplesOfAll(t testing.TB) [][]byte {
	files := [][]byte{
		wav16(taps(8000, 2, 0.4, 1), 8000, 2),
		riff(chunk(le, "fmt ", format(le, 3, 1, 8000, 32)), chunk(le, "LIST", []byte("odd")), chunk(le, "data", make([]byte, 4001))),
		wave("RIFX", be, chunk(be, "fmt ", format(be, 1, 3, 8000, 24)), append([]byte("data\x00\x00\x00\x00"), pcm16(taps(8000, 1, 0.1, 2))...)),
		[]byte("<html>"),
	}
	made := filesOf(t, "testdata", "*.mp3")
	all := []byte("ID3\x03\x00\x00\x00\x00\x10\x00")
	all = append(all, make([]byte, 2048)...)
	for _, name := range sortedNames(made) {
		files = append(files, made[name])
		all = append(all, made[name]...)
		all = append(all, "TAG"...)
		all = append(all, make([]byte, 125)...)
		all = append(all, "LYRICSBEGININD0000200LYRICS200garbage of no sound"...)
	}
	return append(files, all)
}

// TestCut holds that nothing depends on how a file is cut into chunks.
func TestCut(t *testing.T) {
	t.Parallel()
	for i, file := range samplesOfAll(t) {
		want := outcome(file, func() int { return len(file) })
		if got := outcome(file, func() int { return 1 }); got != want {
			t.Errorf("file %d: byte by byte %s, at once %s", i, got, want)
		}
	}
}

// TestCutAnywhere does so for files that are damaged, too.
func TestCutAnywhere(t *testing.T) {
	t.Parallel()
	files := samplesOfAll(t)
	rapid.Check(t, func(t *rapid.T) {
		file := append([]byte(nil), rapid.SampledFrom(files).Draw(t, "file")...)
		for range rapid.IntRange(0, 20).Draw(t, "changes") {
			file[rapid.IntRange(0, len(file)-1).Draw(t, "at")] = rapid.Byte().Draw(t, "to")
		}
		start := rapid.IntRange(0, len(file)/2).Draw(t, "start")
		file = file[start:]
		most := rapid.SampledFrom([]int{1, 7, 100, 1500, 20000}).Draw(t, "most")
		seed := rapid.Uint64().Draw(t, "seed")
		next := func() int {
			seed = seed*6364136223846793005 + 1442695040888963407
			return 1 + int(seed>>33)%most
		}
		want := outcome(file, func() int { return len(file) })
		if got := outcome(file, next); got != want {
			t.Fatalf("cut %s, at once %s", got, want)
		}
	})
}

// TestStopped closes before the end of a file that is in order: nothing is said
// to be missing.
func TestStopped(t *testing.T) {
	t.Parallel()
	for _, file := range [][]byte{ownFile(t, "joint-44k-128"), wav16(taps(8000, 1, 3, 1), 8000, 1)} {
		r := New(&counter{}, Options{Bytes: int64(len(file))})
		r.Write(file[:len(file)/2])
		f := r.Close()
		for _, s := range f.Says {
			if !strings.Contains(s, "less than a second") {
				t.Errorf("stopped half way: %q", s)
			}
		}
		if f.Why != "" || f.Read < f.Promised/3 || f.Read > f.Promised/1.5 {
			t.Errorf("stopped half way: %+v", f)
		}
	}
}
