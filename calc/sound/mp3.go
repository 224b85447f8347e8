package sound

import (
	"strconv"

	"splittally/calc/sound/mpeg"
)

// Bounds of what is tried.
const (
	// mostAstray is how many bytes are searched for a first frame.
	mostAstray = 1 << 20
	// mostBroken is how many frames in a row may fail before it is given up.
	mostBroken = 500
	// aStart is before how many frames a recording is still left to the browser.
	aStart = 10
)

// mp3Form reads MP3.
type mp3Form struct {
	out       *output
	walker    mpeg.Walker
	reservoir reservoir
	decoder   decoder
	left      [mostSamples]float32
	right     [mostSamples]float32
	ends      [2]float32 // the last sample of each channel
	last      mpeg.Header
	sounded   bool // there was a frame of this recording
	broken    int  // frames in a row that could not be decoded
	tally     tally
	enough    bool
}

// newMP3 makes a reader of MP3. size is that of the file, 0 if not known, before
// what was passed of it already.
func newMP3(out *output, size, before int64) *mp3Form {
	m := &mp3Form{out: out}
	m.walker.Size = size
	m.walker.Start(before)
	m.tally.size, m.tally.tags = size, before
	return m
}

func (m *mp3Form) write(b []byte) bool {
	for len(b) > 0 && !m.enough {
		b = b[m.walker.Add(b):]
		m.walk(false)
	}
	return !m.enough
}

// portion is some 0.15 s of stereo at 44.1 kHz, more of what costs less.
func (m *mp3Form) portion() int {
	if skipping := m.walker.Skipping(); skipping > headLength {
		return int(min(skipping, skipPortion))
	}
	if m.tally.frames == 0 {
		return 2 * headLength
	}
	values := m.last.Rate * m.last.Channels()
	return min(max(m.last.Kbit*125*13230/values, 512), 8<<10)
}

// walk takes all the pieces there are.
func (m *mp3Form) walk(end bool) {
	for !m.enough {
		piece := m.walker.Next(end)
		switch piece.Kind {
		case mpeg.More:
			if m.tally.frames+m.tally.infos == 0 && m.walker.Astray() > mostAstray {
				m.enough = true
			}
			return
		case mpeg.Free:
			m.elsewhere(piece.Header, "in the free format")
		case mpeg.Frame:
			m.frame(piece)
		case mpeg.Cut:
			m.tally.cut = true
		case mpeg.Tag:
			m.tally.tags += piece.Length
		case mpeg.Lost:
			m.lose(piece)
		}
	}
}

// elsewhere leaves a form of MPEG audio to the browser.
func (m *mp3Form) elsewhere(h mpeg.Header, how string) {
	m.enough = true
	m.tally.elsewhere = h.Name()
	if how != "" {
		m.tally.elsewhere += " " + how
	}
}

func (m *mp3Form) frame(piece mpeg.Piece) {
	h := piece.Header
	switch {
	case h.Layer != 3:
		m.elsewhere(h, "")
		return
	case h.Rate < 11025:
		m.elsewhere(h, "at 8 kHz") // whose bands the decoder does not know
		return
	}
	if info, ok := mpeg.ReadInfo(h, piece.Bytes); ok {
		m.joined()
		m.tally.info(info, h)
		return
	}
	switch {
	case h.Intensity() && h.Version != mpeg.Version1:
		m.elsewhere(h, "with intensity stereo") // the decoder misreads its scale factors
		return
	case h.Rate == 22050 && h.Channels() == 2 && topSize(h) < len(piece.Bytes) && m.tally.frames < aStart:
		m.elsewhere(h, "of "+strconv.Itoa(h.Kbit)+" kbit/s") // the decoder takes in fewer bytes than come
		return
	}
	if h.Rate != m.out.rate || h.Channels() != m.out.channels {
		m.joined()
		m.reservoir.forget()
		m.decoder.mp3 = nil
		m.out.begin(h.Rate, h.Channels())
	}
	m.tally.frame(h)
	m.last, m.sounded = h, true
	m.sound(h, piece.Bytes)
	m.enough = m.enough || m.out.full
}

// joined is where another recording begins in the same file, if one came before.
func (m *mp3Form) joined() {
	if m.sounded {
		m.tally.joins.add(m.out.seconds())
		m.out.gap(0)
	}
	m.sounded = false
}

// sound decodes a frame, or puts silence in its place.
func (m *mp3Form) sound(h mpeg.Header, frame []byte) {
	n := h.Samples()
	left, right := m.left[:n], m.right[:0:0]
	if h.Channels() == 2 {
		right = m.right[:n]
	}
	fed, mute := m.reservoir.prepare(h, frame)
	pcm, ok := m.decoder.decode(fed, n)
	if ok {
		m.broken = 0
		spread(left, right, pcm)
	} else {
		m.broken++
		m.reservoir.restart()
		fade(left, m.ends[0])
		fade(right, m.ends[1])
	}
	m.ends[0] = left[n-1]
	if len(right) > 0 {
		m.ends[1] = right[n-1]
	}
	if mute || !ok {
		m.tally.lost += h.Seconds()
		m.tally.losses.add(m.out.seconds())
	} else {
		m.tally.decoded++
	}
	m.enough = m.broken >= mostBroken
	if len(right) == 0 {
		right = nil
	}
	m.out.take(left, right)
}

// fade makes silence that begins where the sound before it ends: a step would
// sound like a knock.
func fade(silence []float32, from float32) {
	const length = 64
	for i := range silence {
		silence[i] = from * max(0, float32(length-1-i)/length)
	}
}

// lose is for bytes of no frame: how long they sounded, nobody knows.
func (m *mp3Form) lose(piece mpeg.Piece) {
	switch {
	case m.tally.frames == 0:
		m.tally.front += piece.Length
	case piece.Last:
		m.tally.behind += piece.Length
	default:
		m.tally.gaps.add(m.out.seconds())
		m.tally.between += piece.Length
		m.reservoir.forget()
		m.out.gap(float64(piece.Length) / float64(m.last.Kbit*125))
		m.enough = m.enough || m.out.full
	}
}

func (m *mp3Form) end() { m.walk(true) }

func (m *mp3Form) tell(f *Found) {
	t := &m.tally
	if t.elsewhere != "" {
		f.Format = t.elsewhere
		f.refuse(Elsewhere, "The file holds "+t.elsewhere+", which is left to the browser. If it cannot decode it:"+advice)
		return
	}
	t.close(f)
	if m.broken >= mostBroken && t.decoded > 0 {
		f.refuse(OutOfOrder, "From "+seconds(m.out.seconds()-float64(mostBroken)*m.last.Seconds())+
			" on, no frame could be decoded. What came before it stands.")
	}
}
