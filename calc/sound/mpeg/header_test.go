package mpeg

import "testing"

// ISO/IEC 11172-3, 2.4.2.3 and 2.4.3.1, and 13818-3, 2.4.2.3: a frame of layer I
// has 384 samples in slots of four bytes, others 1152, those of layer III in
// MPEG-2 half as many (from memory).
func TestHeader(t *testing.T) {
	t.Parallel()
	tests := []struct {
		bytes                               [4]byte
		name                                string
		kbit, rate, size, samples, channels int
		side                                int // its length, of layer III
	}{
		{[4]byte{0xff, 0xfb, 0x90, 0x00}, "MPEG-1 layer III", 128, 44100, 417, 1152, 2, 32},
		{[4]byte{0xff, 0xfb, 0x92, 0x40}, "MPEG-1 layer III", 128, 44100, 418, 1152, 2, 32},
		{[4]byte{0xff, 0xfb, 0xe8, 0xc0}, "MPEG-1 layer III", 320, 32000, 1440, 1152, 1, 17},
		{[4]byte{0xff, 0xfb, 0x14, 0xc0}, "MPEG-1 layer III", 32, 48000, 96, 1152, 1, 17},
		{[4]byte{0xff, 0xf3, 0x40, 0xc0}, "MPEG-2 layer III", 32, 22050, 104, 576, 1, 9},
		{[4]byte{0xff, 0xf3, 0x42, 0xc0}, "MPEG-2 layer III", 32, 22050, 105, 576, 1, 9},
		{[4]byte{0xff, 0xf3, 0x14, 0x00}, "MPEG-2 layer III", 8, 24000, 24, 576, 2, 17},
		{[4]byte{0xff, 0xe3, 0x18, 0xc0}, "MPEG-2.5 layer III", 8, 8000, 72, 576, 1, 9},
		{[4]byte{0xff, 0xfd, 0xa4, 0x00}, "MPEG-1 layer II", 192, 48000, 576, 1152, 2, 0},
		{[4]byte{0xff, 0xff, 0xc8, 0x00}, "MPEG-1 layer I", 384, 32000, 576, 384, 2, 0},
		{[4]byte{0xff, 0xff, 0xca, 0x00}, "MPEG-1 layer I", 384, 32000, 580, 384, 2, 0},
		{[4]byte{0xff, 0xfb, 0x00, 0x00}, "MPEG-1 layer III", 0, 44100, 0, 1152, 2, 32},
	}
	for _, test := range tests {
		h, ok := Parse(test.bytes[:])
		if !ok || h.Name() != test.name || h.Kbit != test.kbit || h.Rate != test.rate || h.Size() != test.size ||
			h.Samples() != test.samples || h.Channels() != test.channels || h.Layer == 3 && h.SideLength() != test.side {
			t.Errorf("%x: %+v, %v, %s of %d bytes, %d samples, want %+v", test.bytes, h, ok, h.Name(), h.Size(), h.Samples(), test)
		}
	}
	for _, b := range [][4]byte{
		{0xfe, 0xfb, 0x90, 0}, {0xff, 0xdb, 0x90, 0}, {0xff, 0xeb, 0x90, 0}, // no sync, and the version that is kept free
		{0xff, 0xf9, 0x90, 0}, {0xff, 0xfb, 0xf0, 0}, {0xff, 0xfb, 0x9c, 0}, // layer, bit rate, sampling rate
	} {
		if h, ok := Parse(b[:]); ok {
			t.Errorf("%x is %+v, want none", b, h)
		}
	}
}

func TestInfo(t *testing.T) {
	t.Parallel()
	with := func(header byte, at int, text string) []byte {
		f := frame()
		f[1] = header
		copy(f[at:], text)
		return f
	}
	tests := []struct {
		frame []byte
		want  Info
		ok    bool
	}{
		{with(0xfb, 36, "Xing\x00\x00\x00\x0f\x00\x00\x01\x02"), Info{"Xing", 258}, true},
		{with(0xfb, 36, "Info\x00\x00\x00\x0e\x00\x00\x01\x02"), Info{"Info", 0}, true},
		{with(0xfa, 38, "Info\x00\x00\x00\x01\x00\x00\x01\x02"), Info{"Info", 258}, true},
		{with(0xfa, 36, "Info\x00\x00\x00\x01\x00\x00\x01\x02"), Info{"Info", 258}, true},
		{with(0xfb, 36, "VBRI\x00\x01\x00\x00\x00\x00\x00\x00\x10\x00\x00\x00\x01\x02"), Info{"VBRI", 258}, true},
		{with(0xfb, 37, "Xing\x00\x00\x00\x0f\x00\x00\x01\x02"), Info{}, false},
		{low(), Info{}, false},
	}
	for i, test := range tests {
		h, _ := Parse(test.frame)
		if got, ok := ReadInfo(h, test.frame); got != test.want || ok != test.ok {
			t.Errorf("%d: %+v, %v, want %+v, %v", i, got, ok, test.want, test.ok)
		}
	}
}
