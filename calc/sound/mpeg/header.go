// Package mpeg walks through the frames of MPEG audio (ISO/IEC 11172-3 and
// 13818-3): where each begins and ends, how long it sounds, what lies between
// them that is no sound. It decodes nothing.
//
//	bytes in chunks --Walker--> frames, tags, bytes of no frame --> package sound
package mpeg

// Version of the standard that a frame follows.
type Version uint8

// The versions, as the header's two bits have them. MPEG-2.5 is in no standard.
const (
	Version25 Version = 0
	Version2  Version = 2
	Version1  Version = 3
)

// Mode says what the channels are.
type Mode uint8

// The modes, as the header's two bits have them.
const (
	Stereo Mode = iota
	Joint
	Dual
	Mono
)

// Words names the mode.
func (m Mode) Words() string {
	return [...]string{"stereo", "joint stereo", "two channels", "mono"}[m&3]
}

// HeaderLength is how many bytes a header has.
const HeaderLength = 4

// Header is what the four bytes say that begin a frame.
type Header struct {
	Version   Version
	Layer     int  // 1 to 3
	Protected bool // a checksum of 16 bits follows
	Kbit      int  // kbit/s; 0 in the free format, which does not say
	Rate      int  // samples per second
	Padded    bool // one slot longer
	Mode      Mode
	Extension uint8 // of joint stereo: 1 is intensity, 2 is middle and side
}

// kbits are the bit rates in kbit/s, by row (see kbitRow) and index.
var kbits = [5][15]int{
	{0, 32, 64, 96, 128, 160, 192, 224, 256, 288, 320, 352, 384, 416, 448},
	{0, 32, 48, 56, 64, 80, 96, 112, 128, 160, 192, 224, 256, 320, 384},
	{0, 32, 40, 48, 56, 64, 80, 96, 112, 128, 160, 192, 224, 256, 320},
	{0, 32, 48, 56, 64, 80, 96, 112, 128, 144, 160, 176, 192, 224, 256},
	{0, 8, 16, 24, 32, 40, 48, 56, 64, 80, 96, 112, 128, 144, 160},
}

// kbitRow is the row of kbits: the layers of MPEG-1, then layer I of the others
// and what their layers II and III have in common.
func kbitRow(v Version, layer int) int {
	switch {
	case v == Version1:
		return layer - 1
	case layer == 1:
		return 3
	}
	return 4
}

var rates = [3]int{44100, 48000, 32000} // of MPEG-1

// Parse reads a header from at least four bytes. It is false where a bit
// pattern is one that the standard keeps free, but for that of the emphasis:
// conformance streams have it.
func Parse(b []byte) (h Header, ok bool) {
	if b[0] != 0xff || b[1] < 0xe0 {
		return h, false
	}
	h.Version = Version(b[1] >> 3 & 3)
	h.Layer = 4 - int(b[1]>>1&3)
	index, rate := b[2]>>4, b[2]>>2&3
	if h.Version == 1 || h.Layer == 4 || index == 15 || rate == 3 {
		return h, false
	}
	h.Protected = b[1]&1 == 0
	h.Kbit = kbits[kbitRow(h.Version, h.Layer)][index]
	h.Rate = rates[rate]
	switch h.Version {
	case Version2:
		h.Rate /= 2
	case Version25:
		h.Rate /= 4
	}
	h.Padded = b[2]&2 != 0
	h.Mode = Mode(b[3] >> 6)
	h.Extension = b[3] >> 4 & 3
	return h, true
}

// Samples is how many samples of each channel a frame holds.
func (h Header) Samples() int {
	switch {
	case h.Layer == 1:
		return 384
	case h.Layer == 3 && h.Version != Version1:
		return 576
	}
	return 1152
}

// Seconds is how long a frame sounds.
func (h Header) Seconds() float64 { return float64(h.Samples()) / float64(h.Rate) }

// Size is the length of the frame in bytes, with its header; 0 in the free
// format.
func (h Header) Size() int {
	if h.Kbit == 0 {
		return 0
	}
	slot := 1
	if h.Layer == 1 {
		slot = 4
	}
	size := h.Samples() / 8 / slot * 1000 * h.Kbit / h.Rate
	if h.Padded {
		size++
	}
	return size * slot
}

// Channels is 1 or 2.
func (h Header) Channels() int {
	if h.Mode == Mono {
		return 1
	}
	return 2
}

// Alike says whether two frames can follow one another in one recording.
func (h Header) Alike(o Header) bool {
	return h.Version == o.Version && h.Layer == o.Layer && h.Rate == o.Rate
}

// Intensity says whether the upper bands of the two channels are one, with a
// direction.
func (h Header) Intensity() bool { return h.Layer == 3 && h.Mode == Joint && h.Extension&1 != 0 }

// Middle says whether the channels are written as their middle and side.
func (h Header) Middle() bool { return h.Layer == 3 && h.Mode == Joint && h.Extension&2 != 0 }

// SideLength is how many bytes of side information a frame of layer III has.
func (h Header) SideLength() int {
	switch {
	case h.Version == Version1 && h.Mode == Mono, h.Version != Version1 && h.Mode != Mono:
		return 17
	case h.Version == Version1:
		return 32
	}
	return 9
}

// SideStart is where the side information begins, after header and checksum.
func (h Header) SideStart() int {
	if h.Protected {
		return HeaderLength + 2
	}
	return HeaderLength
}

// Name names the standard and the layer.
func (h Header) Name() string {
	version := map[Version]string{Version1: "MPEG-1", Version2: "MPEG-2", Version25: "MPEG-2.5"}[h.Version]
	return version + " layer " + [...]string{"I", "II", "III"}[h.Layer-1]
}
