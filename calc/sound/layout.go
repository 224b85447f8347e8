package sound

import "strconv"

// coding is how a sample is written.
type coding uint8

const (
	uint8s coding = iota
	int16s
	int24s
	int32s
	float32s
	float64s
	muLaws
	aLaws
)

var codingWords = [...]string{
	"8 bit", "16 bit", "24 bit", "32 bit", "32 bit floating point", "64 bit floating point", "μ-law", "A-law",
}

// layout is how the sound of a WAV file is written.
type layout struct {
	coding         coding
	rate, channels int
	width          int // bytes of a sample
	block          int // bytes of a sample of all channels
	big            bool
}

// Bounds of what is believed.
const (
	mostChannels = 64
	lowestRate   = 1000
	highestRate  = 768_000
)

// Format tags (RFC 2361 and, for the last, Microsoft's WAVEFORMATEXTENSIBLE).
const (
	tagPCM        = 1
	tagFloat      = 3
	tagALaw       = 6
	tagMuLaw      = 7
	tagExtensible = 0xfffe
)

// subFormat is how a GUID ends of which the first two bytes are a format tag.
const subFormat = "\x00\x00\x00\x00\x10\x00\x80\x00\x00\xaa\x00\x38\x9b\x71"

// format reads the chunk "fmt ", of which b is the start.
func (w *wavForm) format(b []byte) {
	tag := int(w.number(b[0:2]))
	l := layout{
		big: w.big, channels: int(w.number(b[2:4])), rate: int(w.number(b[4:8])), block: int(w.number(b[12:14])),
	}
	bits := int(w.number(b[14:16]))
	if tag == tagExtensible && len(b) >= 40 && string(b[26:40]) == subFormat {
		tag = int(w.number(b[24:26]))
	}
	switch {
	case tag != tagPCM && tag != tagFloat && tag != tagALaw && tag != tagMuLaw:
		w.refuse(Elsewhere, "The WAV file holds "+tagName(tag)+", which is left to the browser. If it cannot decode it:"+advice)
		return
	case l.channels == 0 || l.channels > mostChannels:
		w.refuse(Unknown, "The WAV file says that it has "+strconv.Itoa(l.channels)+" channels; 1 or 2 are usual."+advice)
		return
	case l.rate < lowestRate || l.rate > highestRate:
		w.refuse(Unknown, "The WAV file says that it has "+strconv.Itoa(l.rate)+
			" samples in a second; 8000 to 48000 are usual."+advice)
		return
	}
	l.width = (bits + 7) / 8
	if wide := l.block / l.channels; l.block%l.channels == 0 && wide > l.width && wide <= 4 && tag == tagPCM {
		l.width = wide // samples stand in the upper bits of a wider container
	}
	l.block = l.width * l.channels
	var ok bool
	if l.coding, ok = codingOf(tag, l.width); !ok {
		w.refuse(Unknown, "The WAV file says that its samples have "+strconv.Itoa(bits)+" bits, in a form that nobody reads."+advice)
		return
	}
	w.layout, w.known = l, true
}

func codingOf(tag, width int) (coding, bool) {
	switch [2]int{tag, width} {
	case [2]int{tagPCM, 1}:
		return uint8s, true
	case [2]int{tagPCM, 2}:
		return int16s, true
	case [2]int{tagPCM, 3}:
		return int24s, true
	case [2]int{tagPCM, 4}:
		return int32s, true
	case [2]int{tagFloat, 4}:
		return float32s, true
	case [2]int{tagFloat, 8}:
		return float64s, true
	case [2]int{tagMuLaw, 1}:
		return muLaws, true
	case [2]int{tagALaw, 1}:
		return aLaws, true
	}
	return 0, false
}

// tagName names what a format tag stands for (RFC 2361; the later ones common
// practice, no source).
func tagName(tag int) string {
	switch tag {
	case 0x02, 0x11, 0x40, 0x45:
		return "ADPCM"
	case 0x31, 0x32:
		return "GSM"
	case 0x50, 0x55:
		return "MP3 or other MPEG audio"
	case 0xff, 0x1600, 0x1601, 0x1610, 0x706d:
		return "AAC"
	case 0x160, 0x161, 0x162, 0x163:
		return "Windows Media audio"
	case 0x2000:
		return "AC-3"
	case 0xf1ac:
		return "FLAC"
	case 0x566f, 0x674f, 0x676f:
		return "Vorbis"
	}
	return "sound in the form number " + strconv.Itoa(tag)
}

// words describes the layout.
func (l layout) words() string {
	if l.channels == 0 {
		return "WAV"
	}
	channels := [...]string{"mono", "stereo"}[min(l.channels, 2)-1]
	if l.channels > 2 {
		channels = strconv.Itoa(l.channels) + " channels"
	}
	return "WAV, " + codingWords[l.coding] + ", " + channels
}
