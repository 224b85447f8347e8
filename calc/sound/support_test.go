package sound

import (
	"bytes"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"testing"
)

// part is what came between two calls of Begin.
type part struct {
	rate, channels int
	left, right    []float32
}

// gap is a call of Gap.
type gap struct {
	at      int // samples of its part that came before
	part    int
	seconds float64
}

// recorder is a sink that keeps all.
type recorder struct {
	t     testing.TB
	parts []part
	gaps  []gap
}

func (r *recorder) Begin(rate, channels int) {
	if rate <= 0 || channels < 1 || channels > 2 {
		r.t.Errorf("Begin(%d, %d)", rate, channels)
	}
	r.parts = append(r.parts, part{rate: rate, channels: channels})
}

func (r *recorder) Take(left, right []float32) {
	if len(r.parts) == 0 {
		r.t.Fatal("Take before Begin")
	}
	p := &r.parts[len(r.parts)-1]
	if (p.channels == 2) != (right != nil) || right != nil && len(right) != len(left) || len(left) == 0 {
		r.t.Fatalf("Take of %d and %d samples, nil %v, of %d channels", len(left), len(right), right == nil, p.channels)
	}
	for _, channel := range [][]float32{left, right} {
		for _, v := range channel {
			if !(v >= -1 && v <= 1) {
				r.t.Fatalf("a sample of %v", v)
			}
		}
	}
	p.left = append(p.left, left...)
	p.right = append(p.right, right...)
}

func (r *recorder) Gap(seconds float64) {
	if !(seconds >= 0) || math.IsInf(seconds, 0) {
		r.t.Errorf("Gap(%v)", seconds)
	}
	at := 0
	if len(r.parts) > 0 {
		at = len(r.parts[len(r.parts)-1].left)
	}
	r.gaps = append(r.gaps, gap{at, len(r.parts), seconds})
}

// seconds is what came in all.
func (r *recorder) seconds() float64 {
	total := 0.0
	for _, p := range r.parts {
		total += float64(len(p.left)) / float64(p.rate)
	}
	return total
}

// read reads a file in chunks as Portion wants them.
func read(t testing.TB, file []byte) (*recorder, Found) {
	t.Helper()
	sink := &recorder{t: t}
	r := New(sink, Options{Bytes: int64(len(file))})
	for rest := file; len(rest) > 0; {
		n := r.Portion()
		if n <= 0 || n > 1<<20 {
			t.Fatalf("Portion() = %d", n)
		}
		n = min(n, len(rest))
		if !r.Write(rest[:n]) {
			break
		}
		rest = rest[n:]
	}
	f := r.Close()
	consistent(t, sink, f)
	return sink, f
}

// consistent holds what is true of every file.
func consistent(t testing.TB, sink *recorder, f Found) {
	t.Helper()
	if got := sink.seconds(); math.Abs(got-f.Read) > 1e-6 {
		t.Errorf("Read is %v s, the sink got %v", f.Read, got)
	}
	gaps := 0.0
	for _, g := range sink.gaps {
		gaps += g.seconds
	}
	if math.Abs(gaps-f.Gaps) > 1e-6 {
		t.Errorf("Gaps is %v s, the sink got %v", f.Gaps, gaps)
	}
	switch {
	case f.Lost > f.Read+1e-6 || f.Lost < 0 || f.Promised < 0 || f.Read > Longest+1e-6:
		t.Errorf("lost %v of %v s, promised %v", f.Lost, f.Read, f.Promised)
	case f.Why == "" && (f.Read == 0 || f.Rate == 0 || f.Channels == 0 || f.Format == ""):
		t.Errorf("no refusal, and yet %+v", f)
	case f.Why != "" && len(f.Says) == 0:
		t.Errorf("refused as %s without a word", f.Why)
	}
	for _, s := range f.Says {
		if len(s) < 20 || s[len(s)-1] != '.' {
			t.Errorf("%q is no sentence", s)
		}
	}
}

// trials gives the folder of trial recordings, or skips.
func trials(t testing.TB) string {
	t.Helper()
	folder := os.Getenv("SPLITTALLY_TRIALS")
	if folder == "" {
		t.Skip("SPLITTALLY_TRIALS names no folder of trial recordings")
	}
	return filepath.Join(folder, "audio")
}

// tool finds a program that make test installs.
func tool(t testing.TB, name string) string {
	t.Helper()
	if runtime.GOOS == "js" {
		t.Skip("no program can be run under Node; the native tests compare with other decoders")
	}
	path, err := exec.LookPath(name)
	if err != nil {
		t.Fatalf("%s is missing: run make test, which installs it", name)
	}
	return path
}

// command runs a program with input and gives what it prints.
func command(t testing.TB, input []byte, name string, arguments ...string) []byte {
	t.Helper()
	c := exec.Command(tool(t, name), arguments...)
	c.Stdin = bytes.NewReader(input)
	var failed bytes.Buffer
	c.Stderr = &failed
	out, err := c.Output()
	if err != nil {
		t.Fatalf("%s %v: %v: %s", name, arguments, err, failed.Bytes())
	}
	return out
}

// reference decodes MP3 with mpg123, as 16-bit samples of all channels in turn.
func reference(t testing.TB, file []byte) []int16 {
	t.Helper()
	return words(command(t, file, "mpg123", "-q", "--no-gapless", "-s", "-"))
}

func words(b []byte) []int16 {
	out := make([]int16, len(b)/2)
	for i := range out {
		out[i] = int16(uint16(b[2*i]) | uint16(b[2*i+1])<<8)
	}
	return out
}

// apart compares a part with 16-bit samples of all its channels in turn, over
// what both have: the largest difference in steps of 16 bits, and the root of
// their mean square.
func apart(p part, want []int16) (worst, rms float64) {
	n := min(len(p.left), len(want)/p.channels)
	sum := 0.0
	for i := range n {
		for c, channel := range [][]float32{p.left, p.right}[:p.channels] {
			d := math.Abs(math.Round(float64(channel[i])*32768) - float64(want[p.channels*i+c]))
			worst = max(worst, d)
			sum += d * d
		}
	}
	return worst, math.Sqrt(sum / float64(max(n*p.channels, 1)))
}
