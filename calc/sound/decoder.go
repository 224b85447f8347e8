package sound

import (
	"io"

	"github.com/hajimehoshi/go-mp3"
)

// decoder guards the decoder of MP3: it is fed one whole frame at a time, as it
// ends in silence on a cut one, and caught when it breaks on a damaged one.
type decoder struct {
	feed feed
	mp3  *mp3.Decoder // nil: the next frame begins anew
	pcm  [4 * mostSamples]byte
}

// mostSamples is how many samples of each channel a frame has at most.
const mostSamples = 1152

// feed is what the decoder reads.
type feed struct{ rest []byte }

// Read is that of io.Reader: the end comes after each frame.
func (f *feed) Read(b []byte) (int, error) {
	if len(f.rest) == 0 {
		return 0, io.EOF
	}
	n := copy(b, f.rest)
	f.rest = f.rest[n:]
	return n, nil
}

// decode decodes a frame to as many samples of two channels, of 16 bits each.
// If it cannot, it is false, and the next frame begins anew. The samples are the
// caller's until the next call.
func (d *decoder) decode(frame []byte, samples int) (pcm []byte, ok bool) {
	defer func() {
		if recover() != nil || !ok {
			d.mp3, pcm, ok = nil, nil, false
		}
	}()
	d.feed.rest = frame
	if d.mp3 == nil {
		// It decodes the frame at once, and hands it on with the first Read.
		made, err := mp3.NewDecoder(&d.feed)
		if err != nil {
			return nil, false
		}
		d.mp3 = made
	}
	pcm = d.pcm[:4*samples]
	_, err := io.ReadFull(d.mp3, pcm)
	return pcm, err == nil && len(d.feed.rest) == 0
}

// spread turns a frame's samples into numbers from −1 to 1. The decoder cuts
// sample × 32767 toward zero; half of what it cuts on the average is put back, so
// that no sample is further than half a step from what was decoded.
func spread(left, right []float32, pcm []byte) {
	for i := range left {
		p := pcm[4*i : 4*i+4 : 4*i+4]
		left[i] = widen(uint16(p[0]) | uint16(p[1])<<8)
	}
	for i := range right {
		p := pcm[4*i : 4*i+4 : 4*i+4]
		right[i] = widen(uint16(p[2]) | uint16(p[3])<<8)
	}
}

func widen(bits uint16) float32 {
	value := int32(int16(bits))
	sign := value>>31 - (-value)>>31 // −1, 0 or 1, without a branch
	return float32(max(min(2*value+sign, 2*32767), -2*32767)) * (1.0 / (2 * 32767))
}
