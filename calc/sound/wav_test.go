package sound

import (
	"encoding/binary"
	"math"
	"strings"
	"testing"
)

var le, be = binary.LittleEndian, binary.BigEndian

// guid is the sub-format of an extensible format.
func guid(tag uint16) string {
	return string(le.AppendUint16(nil, tag)) + "\x00\x00\x00\x00\x10\x00\x80\x00\x00\xaa\x00\x38\x9b\x71"
}

// TestForms reads one sample of each form: the same numbers, whatever the form.
func TestForms(t *testing.T) {
	t.Parallel()
	f32 := func(v ...float32) (b []byte) {
		for _, v := range v {
			b = le.AppendUint32(b, math.Float32bits(v))
		}
		return b
	}
	f64 := func(v ...float64) (b []byte) {
		for _, v := range v {
			b = le.AppendUint64(b, math.Float64bits(v))
		}
		return b
	}
	extensible := append(format(le, 0xfffe, 1, 8000, 24), "\x16\x00\x18\x00\x04\x00\x00\x00"+guid(1)...)
	wide := format(le, 1, 1, 8000, 20)
	wide[12] = 4 // 20 bits in containers of 4 bytes
	tests := []struct {
		name   string
		format []byte
		data   []byte
		want   []float32
		words  string
	}{
		{"8 bit", format(le, 1, 1, 8000, 8), []byte{0, 128, 192}, []float32{-1, 0, 0.5}, "WAV, 8 bit, mono"},
		{"16 bit", format(le, 1, 1, 8000, 16), []byte("\x00\x80\x00\x00\x00\x40"), []float32{-1, 0, 0.5}, "WAV, 16 bit, mono"},
		{"24 bit", format(le, 1, 1, 8000, 24), []byte("\x00\x00\x80\x00\x00\x00\x00\x00\x40"), []float32{-1, 0, 0.5}, "WAV, 24 bit, mono"},
		{"12 bit", format(le, 1, 1, 8000, 12), []byte("\x00\x80\x00\x40"), []float32{-1, 0.5}, "WAV, 16 bit, mono"},
		{"20 bit in 4 bytes", wide, []byte("\x00\x00\x00\x80\x00\x00\x00\x40"), []float32{-1, 0.5}, "WAV, 32 bit, mono"},
		{"32 bit", format(le, 1, 1, 8000, 32), []byte("\x00\x00\x00\x80\x00\x00\x00\x40"), []float32{-1, 0.5}, "WAV, 32 bit, mono"},
		{"float 32", format(le, 3, 1, 8000, 32), f32(-1, 0.5), []float32{-1, 0.5}, "WAV, 32 bit floating point, mono"},
		{"float 64", format(le, 3, 1, 8000, 64), f64(-1, 0.5), []float32{-1, 0.5}, "WAV, 64 bit floating point, mono"},
		{"extensible", extensible, []byte("\x00\x00\x80\x00\x00\x40"), []float32{-1, 0.5}, "WAV, 24 bit, mono"},
		{"μ-law", format(le, 7, 1, 8000, 8), []byte{0xff, 0x80, 0x00}, []float32{0, 8031.0 / 8192, -8031.0 / 8192}, "WAV, μ-law, mono"},
		{"A-law", format(le, 6, 1, 8000, 8), []byte{0xff ^ 0x55, 0x7f ^ 0x55}, []float32{4032.0 / 4096, -4032.0 / 4096}, "WAV, A-law, mono"},
		{"no numbers", format(le, 3, 1, 8000, 32), f32(float32(math.NaN()), float32(math.Inf(1)), 0.5), []float32{0, 0, 0.5}, "WAV, 32 bit floating point, mono"},
		{"too loud", format(le, 3, 1, 8000, 32), f32(1.5, -2, 0.5), []float32{1, -1, 0.5}, "WAV, 32 bit floating point, mono"},
		{"stereo", format(le, 1, 2, 8000, 16), []byte("\x00\x80\x00\x40\x00\x40\x00\x00"), []float32{-1, 0.5}, "WAV, 16 bit, stereo"},
		{"5 channels", format(le, 1, 5, 8000, 8), []byte{0, 192, 1, 1, 1, 192, 0, 1, 1, 1}, []float32{-1, 0.5}, "WAV, 8 bit, 5 channels"},
	}
	for _, test := range tests {
		sink, f := read(t, riff(chunk(le, "fmt ", test.format), chunk(le, "data", test.data)))
		if f.Why != "" || f.Format != test.words || len(sink.parts) != 1 || !equal(sink.parts[0].left, test.want) {
			t.Errorf("%s: %+v, %+v, want %v", test.name, sink.parts, f, test.want)
			continue
		}
		if p := sink.parts[0]; p.channels == 2 && p.right[0] != 0.5 {
			t.Errorf("%s: right %v", test.name, p.right)
		}
	}
}

func equal(a, b []float32) bool {
	if len(a) != len(b) {
		return false
	}
	for i := range a {
		if a[i] != b[i] {
			return false
		}
	}
	return true
}

// TestOrder reads a file whose numbers have the highest byte first.
func TestOrder(t *testing.T) {
	t.Parallel()
	sink, f := read(t, wave("RIFX", be, chunk(be, "fmt ", format(be, 1, 2, 8000, 16)), chunk(be, "data", []byte("\x80\x00\x40\x00\x40\x00\x00\x00"))))
	if f.Why != "" || !equal(sink.parts[0].left, []float32{-1, 0.5}) || !equal(sink.parts[0].right, []float32{0.5, 0}) {
		t.Errorf("%+v, %+v", sink.parts, f)
	}
}

// TestChunks reads files whose chunks are in odd order, of odd or wrong sizes.
func TestChunks(t *testing.T) {
	t.Parallel()
	second := make([]byte, 16000)
	head := chunk(le, "fmt ", format(le, 1, 1, 8000, 16))
	list := chunk(le, "LIST", []byte("INFOISFT\x05\x00\x00\x00odd!\x00"))
	data := chunk(le, "data", second)
	sized := func(size uint32) []byte {
		return append(append([]byte("data"), le.AppendUint32(nil, size)...), second...)
	}
	ds64 := func(size uint64) []byte {
		return chunk(le, "ds64", le.AppendUint64(le.AppendUint64(le.AppendUint64(nil, 0), size), 8000))
	}
	long := wave("RF64", le, ds64(16000), head, sized(0xffffffff), list)
	copy(long[4:8], "\xff\xff\xff\xff")
	tests := []struct {
		name           string
		file           []byte
		read, promised float64
		says           string
	}{
		{"plain", riff(head, data), 1, 1, ""},
		{"a list before", riff(list, head, list, data), 1, 1, ""},
		{"a list behind", riff(head, data, list), 1, 1, ""},
		{"an odd chunk", riff(chunk(le, "junk", []byte("odd")), head, data), 1, 1, ""},
		{"sizes of 0", append([]byte("RIFF\x00\x00\x00\x00WAVE"), append(head, sized(0)...)...), 1, 1, "did not finish"},
		{"largest sizes", append([]byte("RIFF\xff\xff\xff\xffWAVE"), append(head, sized(0xffffffff)...)...), 1, 1, "did not finish"},
		{"nearly largest", riff(head, sized(0x7ffff000)), 1, 1, "did not finish"},
		{"cut short", riff(head, sized(160000)), 1, 10, "should hold 10.00 s of sound, but only 1.00 s"},
		{"64 bits", long, 1, 1, ""},
		{"64 bits, BW64", append([]byte("BW64"), long[4:]...), 1, 1, ""},
		{"bytes behind", append(riff(head, data), "\x01\x02\x03\x04\x05\x06\x07\x08\x09\x0a"...), 1, 1, "belong to nothing"},
		{"half a sample", riff(head, chunk(le, "data", second[:15999])), 1, 1, "less than a second"},
		{"a tag before", append([]byte("ID3\x03\x00\x00\x00\x00\x00\x05abcde"), riff(head, data)...), 1, 1, ""},
		{"half a second", riff(head, chunk(le, "data", second[:8000])), 0.5, 0.5, "less than a second"},
	}
	for _, test := range tests {
		_, f := read(t, test.file)
		if f.Why != "" || math.Abs(f.Read-test.read) > 2e-4 || math.Abs(f.Promised-test.promised) > 2e-4 || f.Rate != 8000 {
			t.Errorf("%s: %+v, want %v s of %v", test.name, f, test.read, test.promised)
		}
		if said := strings.Join(f.Says, " "); !strings.Contains(said, test.says) || test.says == "" && said != "" {
			t.Errorf("%s: says %q, want %q", test.name, said, test.says)
		}
	}
}

// TestRefusedWAV reads WAV files of which nothing can be read.
func TestRefusedWAV(t *testing.T) {
	t.Parallel()
	data := chunk(le, "data", make([]byte, 4000))
	of := func(tag, channels, rate, bits int) []byte {
		return riff(chunk(le, "fmt ", format(le, tag, channels, rate, bits)), data)
	}
	tests := []struct {
		file []byte
		why  Refusal
		says string
	}{
		{of(2, 1, 8000, 4), Elsewhere, "ADPCM"},
		{of(0x11, 1, 8000, 4), Elsewhere, "ADPCM"},
		{of(0x31, 1, 8000, 0), Elsewhere, "GSM"},
		{of(0x55, 1, 8000, 0), Elsewhere, "MP3"},
		{of(0x1234, 1, 8000, 16), Elsewhere, "number 4660"},
		{of(1, 0, 8000, 16), Unknown, "0 channels"},
		{of(1, 65535, 8000, 16), Unknown, "65535 channels"},
		{of(1, 1, 0, 16), Unknown, "0 samples in a second"},
		{of(1, 1, 1_000_000_000, 16), Unknown, "1000000000 samples in a second"},
		{of(1, 1, 8000, 0), Unknown, "0 bits"},
		{of(1, 1, 8000, 65535), Unknown, "65535 bits"},
		{of(3, 1, 8000, 16), Unknown, "16 bits"},
		{riff(data), Damaged, "“fmt ” is missing"},
		{riff(chunk(le, "fmt ", format(le, 1, 1, 8000, 16)), chunk(le, "data", nil)), Damaged, "“data” is empty"},
		{riff(chunk(le, "fmt ", format(le, 1, 1, 8000, 16)), chunk(le, "data", nil), chunk(le, "LIST", []byte("INFO"))), Damaged, "“data” is empty"},
		{riff(chunk(le, "fmt ", format(le, 1, 1, 8000, 16))), Damaged, "before the chunk “data”"},
		{riff(), Damaged, "before the chunk “data”"},
		{riff(chunk(le, "fmt ", []byte("short"))), Damaged, "before the chunk “data”"},
	}
	for i, test := range tests {
		sink, f := read(t, test.file)
		if f.Why != test.why || !strings.Contains(f.Says[0], test.says) {
			t.Errorf("%d: %+v, want %s: %s", i, f, test.why, test.says)
		}
		for _, p := range sink.parts {
			if len(p.left) > 0 {
				t.Errorf("%d: refused after %d samples", i, len(p.left))
			}
		}
	}
}

// TestHour reads an hour of sound and stops.
func TestHour(t *testing.T) {
	t.Parallel()
	sink := &counter{}
	r := New(sink, Options{})
	if !r.Write(riff(chunk(le, "fmt ", format(le, 1, 1, 8000, 8)), append([]byte("data"), le.AppendUint32(nil, 1<<30)...))[0:]) {
		t.Fatal("the head is refused")
	}
	second := make([]byte, 8000)
	written := 0
	for r.Write(second) {
		if written++; written > Longest+1 {
			t.Fatal("it does not stop")
		}
	}
	f := r.Close()
	if f.Why != TooLong || f.Read != Longest || sink.samples != Longest*8000 || written != Longest {
		t.Errorf("%d s, %d samples: %+v", written, sink.samples, f)
	}
	if r.Write(second) {
		t.Error("more is wanted after the end")
	}
}

// counter is a sink that counts.
type counter struct {
	samples int
	begun   int
}

func (c *counter) Begin(int, int)             { c.begun++ }
func (c *counter) Take(left, right []float32) { c.samples += len(left) }
func (c *counter) Gap(float64)                {}
