package onset

import "math"

// model is how this recording's pulses sound, and what else rises: the mean and
// the scatter of how far each band stands above its floor, hop by hop.
type model struct {
	cells  []cell // frame of each band
	from   int    // hops of the frame that are looked at
	to     int
	reach  int        // hops by which a sound is moved to be most like
	stands [2]float32 // mean and 1/2σ² of the logarithm of how they rise
	strong []strong   // the cells that are loudest from the onset on
	louder float32    // scatter of the pulses' loudness as a whole
}

// strong is a loud cell of the pulses' picture.
type strong struct {
	band, hop int
	pulse     float32
}

type cell struct {
	pulse, other         float32 // means
	narrow, wide, offset float32 // 1/2σ² of both and ln of their ratio
	strong               bool
}

// limit keeps the next pulse out of the picture of one, as far as it comes at
// a pace of so many hops, and the reach within 12 ms.
func (m *model) limit(hops int, seconds float64) {
	m.from = lead - min(lead, max(2, hops/4))
	m.to = lead + min(tail, max(4, hops*6/10))
	m.reach = min(reach, max(2, hops/4), int(math.Round(0.012/seconds)))
}

// gain is how much louder a picture is as a whole than the pulses are.
func (m *model) gain(picture []uint8, stride, shift int) float32 {
	gain := float32(0)
	for _, s := range m.strong {
		gain += float32(picture[s.band*stride+s.hop+shift]) - s.pulse
	}
	return gain / float32(max(1, len(m.strong)))
}

// dear is the log-likelihood of a gain, and how much of it is made up for.
func (m *model) dear(gain float32) (cost, bounded float32) {
	z := gain / m.louder
	return max(-12, -0.5*z*z), max(-2*m.louder, min(2*m.louder, gain))
}

const (
	blunt  = 3         // what one cell may say of whether a sound is a pulse
	evenly = 0.5 / 144 // 1/2σ² of a cell, when a sound is laid over the pulses' picture
)

// likeness is the log of how much likelier a picture is a pulse's than anything
// else's. A pulse may be louder or softer than the others as a whole, and no
// cell of the picture says more than so much.
func (m *model) likeness(picture []uint8, stride, shift int) float32 {
	sum, gain := m.dear(m.gain(picture, stride, shift))
	for b := 0; b*frame < len(m.cells); b++ {
		row := picture[b*stride+shift:]
		for i := m.from; i < m.to; i++ {
			c := &m.cells[b*frame+i]
			x := float32(row[i])
			d0, d1 := x-c.other, x-c.pulse
			if c.strong {
				d1 -= gain
			}
			v := d0*d0*c.wide - d1*d1*c.narrow + c.offset
			switch {
			case i < lead-1: // loud before its onset, it is the rest of anything
				v = max(-3*blunt, -d1*d1*c.narrow)
			case i < lead+5:
				v = max(-blunt, min(blunt, v))
			default:
				v = max(-blunt, min(blunt, v)) / 2
			}
			sum += v
		}
	}
	return sum
}

// fits is how well a picture coincides with the pulses' own.
func (m *model) fits(picture []uint8, stride, shift int) float32 {
	sum, gain := m.dear(m.gain(picture, stride, shift))
	for b := 0; b*frame < len(m.cells); b++ {
		row := picture[b*stride+shift:]
		for i := m.from; i < m.to; i++ {
			c := &m.cells[b*frame+i]
			d := float32(row[i]) - c.pulse
			if c.strong {
				d -= gain
			}
			sum -= min(20, d*d*evenly)
		}
	}
	return sum
}

// flat is the log-likelihood of a candidate that rises less than the pulses do.
func (m *model) flat(all float32) float32 {
	d := m.stands[0] - float32(math.Log(float64(all)))
	if d < 0 {
		return 0
	}
	return max(-40, -d*d*m.stands[1])
}
