package onset

import "math"

// input is the state of listening.
type input struct {
	store    store
	channels []channel // as many as the first Begin had
	rate     int
	hop      int     // samples of a hop
	samples  int     // since the last Begin or Gap
	begins   float64 // seconds at which that was
	first    int     // hop at which that was
	peak     float32
	loud     uint32 // loudest sample of the present hop, as bits
	loudLeft int    // samples until it ends
	loudHop  int
	breaks   []float64
	mixed    []float32
	hum      hum
}

// begin starts a part of the recording.
func (in *input) begin(rate, channels int) {
	if rate <= 0 {
		return
	}
	in.flush()
	if in.channels == nil {
		in.channels = make([]channel, max(1, min(channels, 2)))
		in.store.planes = octaves*len(in.channels) + 1
	}
	in.rate = rate
	// Hops of about 2.5 ms.
	in.hop = 1 << int(math.Round(math.Log2(0.0025*float64(rate))))
	in.hop = max(in.hop, 4)
	in.first = in.store.hops
	in.samples = 0
	in.store.parts = append(in.store.parts, part{first: in.first, begins: in.begins, seconds: float64(in.hop) / float64(rate)})
	for c := range in.channels {
		in.channels[c].begin(rate, in.hop, in.first, c*octaves)
	}
	in.loud, in.loudLeft, in.loudHop = 0, in.hop, in.first
	in.hum.begin(float64(rate) / float64(int(1)<<len(in.channels[0].levels)))
}

// take listens to samples.
func (in *input) take(left, right []float32) {
	if in.rate == 0 || len(left) == 0 {
		return
	}
	in.samples += len(left)
	switch {
	case len(in.channels) == 2 && right == nil:
		right = left
	case len(in.channels) == 1 && right != nil:
		in.mixed = in.mixed[:0]
		for i := range left {
			in.mixed = append(in.mixed, 0.5*(left[i]+right[i]))
		}
		left, right = in.mixed, nil
	}
	in.loudest(left, right)
	in.channels[0].take(&in.store, left, &in.hum)
	if right != nil {
		in.channels[1].take(&in.store, right, nil)
	}
}

// loudest keeps the loudest sample of each hop.
func (in *input) loudest(left, right []float32) {
	for i := 0; i < len(left); {
		end := min(len(left), i+in.loudLeft)
		in.loudLeft -= end - i
		in.loud = highest(in.loud, left[i:end])
		if right != nil {
			in.loud = highest(in.loud, right[i:end])
		}
		i = end
		if in.loudLeft == 0 {
			in.endLoud()
		}
	}
}

// highest is the largest magnitude, as bits: those of positive numbers are in
// the order of the numbers, and are compared faster.
func highest(most uint32, samples []float32) uint32 {
	for _, v := range samples {
		if b := math.Float32bits(v) &^ (1 << 31); b > most {
			most = b
		}
	}
	return most
}

func (in *input) endLoud() {
	loud := math.Float32frombits(min(in.loud, math.Float32bits(1))) // not a number is more
	in.peak = max(in.peak, loud)
	in.store.put(in.store.planes-1, in.loudHop, loudness(loud*loud))
	in.loud, in.loudLeft = 0, in.hop
	in.loudHop++
}

// flush ends the present part: what the filters hold back comes out.
func (in *input) flush() {
	if in.samples == 0 {
		return
	}
	silence := make([]float32, in.hop*2+16<<octaves)
	for c := range in.channels {
		in.channels[c].take(&in.store, silence, nil)
	}
	if in.loudLeft != in.hop {
		in.endLoud()
	}
	in.store.hops = in.first + (in.samples+in.hop-1)/in.hop
	in.begins += float64(in.samples) / float64(in.rate)
	in.samples = 0
}

// gap leaves out some seconds.
func (in *input) gap(seconds float64) {
	if in.rate == 0 || !(seconds >= 0) {
		return
	}
	in.flush()
	in.breaks = append(in.breaks, in.begins)
	in.begins += seconds
	in.begin(in.rate, len(in.channels))
}
