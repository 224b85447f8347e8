package sound

import (
	"bytes"
	"math/rand/v2"
	"runtime"
	"strings"
	"testing"
)

// TestKnownBreaks reads what is known to break the decoder, or to make it ask for
// memory without bound.
func TestKnownBreaks(t *testing.T) {
	t.Parallel()
	frame := append([]byte{0xff, 0xf3, 0x90, 0x40}, bytes.Repeat([]byte{0xa5}, 413)...)
	_, f := read(t, frame)
	if f.Why != NotASound && f.Why != Damaged || len(f.Says) == 0 {
		t.Errorf("a frame of noise: %+v", f)
	}
	// Many of them, so that they follow one another.
	_, f = read(t, bytes.Repeat(frame[:261], 300))
	if f.Why != Damaged {
		t.Errorf("frames of noise: %+v", f)
	}
	tag := append([]byte("ID3\x03\x00\x00\x7f\x7f\x7f\x7f"), ownFile(t, "mono-22k-32")...)
	_, f = read(t, tag)
	if f.Why != "" || f.Lost > 0 {
		t.Errorf("a tag that claims 256 MB before a recording: %+v", f)
	}
	for _, size := range []int64{0, 10} {
		r := New(&counter{}, Options{Bytes: size})
		r.Write(tag[:10])
		if f := r.Close(); f.Why != Damaged {
			t.Errorf("a tag that claims 256 MB and nothing else, of a file of %d bytes: %+v", size, f)
		}
	}
}

// TestMemory holds that neither a long file nor a tag that claims to be long
// takes more memory. It runs alone, as all memory is counted.
func TestMemory(t *testing.T) {
	if got := memory(func() {
		r := New(&counter{}, Options{})
		r.Write([]byte("ID3\x03\x00\x00\x7f\x7f\x7f\x7f"))
		r.Write(make([]byte, 1000))
		r.Close()
	}); got > 1<<18 {
		t.Errorf("a tag took %d bytes of memory", got)
	}
	second := make([]byte, 1<<20)
	if got := memory(func() {
		r := New(&counter{}, Options{})
		r.Write(riff(chunk(le, "fmt ", format(le, 1, 2, 44100, 16)), append([]byte("data"), le.AppendUint32(nil, 635<<20)...)))
		for range 600 {
			r.Write(second)
		}
		r.Close()
	}); got > 1<<18 {
		t.Errorf("600 MB of WAV took %d bytes of memory", got)
	}
	sound := ownFile(t, "joint-44k-128")
	r := New(&counter{}, Options{})
	var least, most uint64
	for i := range 60 {
		r.Write(sound)
		runtime.GC()
		var now runtime.MemStats
		runtime.ReadMemStats(&now)
		if i == 10 {
			least, most = now.HeapAlloc, now.HeapAlloc
		}
		least, most = min(least, now.HeapAlloc), max(most, now.HeapAlloc)
	}
	if most > least+1<<18 {
		t.Errorf("memory grows from %d to %d bytes as a recording goes on", least, most)
	}
}

func ownFile(t testing.TB, name string) []byte {
	t.Helper()
	return filesOf(t, "testdata", name+".mp3")[name+".mp3"]
}

// memory is how many bytes a function asks for.
func memory(f func()) uint64 {
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	f()
	runtime.ReadMemStats(&after)
	return after.TotalAlloc - before.TotalAlloc
}

// TestCutShort cuts a recording at every place of a frame: what is before it is
// the same, and it is said.
func TestCutShort(t *testing.T) {
	t.Parallel()
	file := ownFile(t, "joint-44k-128")
	whole, _ := read(t, file)
	for cut := 4 * 417; cut < 6*417; cut += 13 {
		sink, f := read(t, file[:cut])
		n := len(sink.parts[0].left)
		if !equal(sink.parts[0].left, whole.parts[0].left[:n]) || n < cut/418*1152-2*1152 {
			t.Fatalf("cut at %d: %d samples, other than of the whole file", cut, n)
		}
		if f.Why != "" || f.Promised < 0.5 || !strings.Contains(strings.Join(f.Says, " "), "should hold 0.") {
			t.Errorf("cut at %d: %+v", cut, f)
		}
	}
}

// TestHole takes bytes out of the middle and puts garbage there: the gap is told,
// and what follows is right again after a frame or two.
func TestHole(t *testing.T) {
	t.Parallel()
	file := ownFile(t, "mono-48k-96")
	whole, _ := read(t, file)
	hurt := append([]byte(nil), file...)
	for i := 10 * 288; i < 12*288; i++ {
		hurt[i] = 0x55
	}
	sink, f := read(t, hurt)
	if f.Why != "" || len(sink.gaps) != 1 || sink.gaps[0].seconds < 0.04 || sink.gaps[0].seconds > 0.1 || f.Gaps != sink.gaps[0].seconds {
		t.Fatalf("%+v, gaps %v", f, sink.gaps)
	}
	got, want := sink.parts[0].left, whole.parts[0].left
	tail := 5 * 1152
	if !equal(got[len(got)-tail:], want[len(want)-tail:]) {
		t.Error("the end is other than that of the whole file")
	}
	if missing := float64(len(want)-len(got)) / 48000; missing > f.Gaps+0.05 || missing < f.Gaps-0.05 {
		t.Errorf("%v s are missing, gap %v", missing, f.Gaps)
	}
}

// TestBroken damages the sound inside of frames: every frame still takes its time.
func TestBroken(t *testing.T) {
	t.Parallel()
	file := ownFile(t, "joint-44k-128")
	whole, _ := read(t, file)
	random := rand.New(rand.NewPCG(7, 7))
	lost := 0.0
	for range 50 {
		hurt := append([]byte(nil), file...)
		for at := 417; at+417 < len(hurt); at += 417 {
			if hurt[at] != 0xff {
				at++ // a padded frame came before
			}
			for range 3 {
				hurt[at+4+random.IntN(200)] ^= 1 << random.IntN(8)
			}
		}
		sink, f := read(t, hurt)
		if f.Why == "" && len(sink.parts[0].left) != len(whole.parts[0].left) {
			t.Errorf("%d samples, want %d: %+v", len(sink.parts[0].left), len(whole.parts[0].left), f)
		}
		lost += f.Lost
	}
	if lost == 0 {
		t.Error("nothing was lost in damaged frames")
	}
}

// TestHugeGap puts megabytes of nothing between two recordings: what may be lost
// there is within the hour, however slow the bit rate.
func TestHugeGap(t *testing.T) {
	t.Parallel()
	part := ownFile(t, "mono-22k-32")
	sink := &recorder{t: t}
	r := New(sink, Options{})
	r.Write(part)
	nothing := make([]byte, 1<<20)
	for range 20 {
		r.Write(nothing)
	}
	r.Write(part)
	wanted := r.Write(part)
	f := r.Close()
	if f.Why != TooLong || wanted || !strings.Contains(f.Says[0], "damaged over so long a stretch") {
		t.Errorf("%+v, more is wanted: %v", f, wanted)
	}
	if f.Read < 0.5 || f.Read+f.Gaps > Longest+0.001 || f.Gaps < Longest-10 || len(sink.gaps) != 1 || sink.gaps[0].seconds != f.Gaps {
		t.Errorf("read %v s and gaps of %v s, %v", f.Read, f.Gaps, sink.gaps)
	}
	// Many of them, each within the hour.
	sink = &recorder{t: t}
	r = New(sink, Options{})
	for range 8 {
		r.Write(part)
		for range 3 {
			r.Write(nothing)
		}
	}
	r.Write(part)
	if f = r.Close(); f.Why != TooLong || f.Read+f.Gaps > Longest+0.001 || len(sink.gaps) < 4 {
		t.Errorf("%+v", f)
	}
}
