package onset_test

import (
	"math"
	"math/rand/v2"
)

// recipe says how a recording is made up.
type recipe struct {
	sound    string  // click, tap, clap, beep, tick
	rate     int     // samples per second
	channels int     // 1, 2, or 3 for stereo with pulses in the right one only
	every    float64 // seconds of an interval
	pulses   int
	above    float64 // dB of the pulse over the noise, over its length; 99 is clean
	noise    string  // white, pink, babble, hum
	missing  float64
	doubled  float64
	uneven   float64 // dB, standard deviation of the loudness
	jitter   float64 // seconds
	load     string  // steady, steps, drift, limp
	fade     float64 // dB from first to last
	clip     bool
	gainRide bool // automatic gain
	seed     uint64
}

// made is a recording with its truth.
type made struct {
	left, right []float32
	truth       []float64 // pulses that sound
	intervals   int       // between first and last of them
}

func (r recipe) make() made {
	rng := rand.New(rand.NewPCG(r.seed, 7))
	all, end := r.times(rng)
	signal := make([]float64, int((end+0.2)*float64(r.rate)))
	var m made
	first, last, length, level := -1, -1, 0.0, 0.0
	for k, t := range all {
		t += r.jitter * rng.NormFloat64()
		if k > 0 && k < len(all)-1 && rng.Float64() < r.missing {
			continue
		}
		if first < 0 {
			first = k
		}
		last = k
		gain := math.Pow(10, (r.uneven*rng.NormFloat64()-r.fade*float64(k)/float64(len(all)))/20)
		var e float64
		e, length = r.add(signal, t, gain, rng)
		level = max(level, e/(gain*gain))
		if r.sound != "none" {
			m.truth = append(m.truth, t)
		}
		if rng.Float64() < r.doubled {
			r.add(signal, t+r.every*(0.25+0.4*rng.Float64()), gain, rng)
		}
	}
	m.intervals = last - first
	sd := math.Sqrt(level/(length*float64(r.rate))) * math.Pow(10, -r.above/20)
	m.mix(r, signal, sd, rng)
	return m
}

// times gives when pulses come, and when the recording ends.
func (r recipe) times(rng *rand.Rand) (all []float64, end float64) {
	at := 0.4 + rng.Float64()
	if r.every < 0.3 {
		at = 0.3
	}
	every := r.every
	for k := range r.pulses {
		all = append(all, at)
		switch {
		case r.load == "steps" && rng.Float64() < 0.04:
			every = r.every * math.Exp(1.2*(rng.Float64()-0.5))
		case r.load == "drift":
			every = r.every * (1 + 0.25*math.Sin(float64(k)/float64(r.pulses)*5))
		case r.load == "limp":
			every = r.every * (1 + 0.04*float64(1-2*(k&1)))
		case r.load == "steady":
			every = r.every
		}
		at += every
	}
	return all, at
}

// mix adds noise, and what a recorder does to a sound.
func (m *made) mix(r recipe, signal []float64, sd float64, rng *rand.Rand) {
	noise, other := r.background(len(signal), rng), r.background(len(signal), rng)
	m.left = make([]float32, len(signal))
	if r.channels > 1 {
		m.right = make([]float32, len(signal))
	}
	top := 0.0
	for _, v := range signal {
		top = max(top, math.Abs(v))
	}
	if top == 0 {
		top = 1
	}
	scale := 0.5 / top
	if r.clip {
		scale = 3 / top
	}
	env := 0.0
	for i, v := range signal {
		a, b := (v+sd*noise[i])*scale, (v+sd*other[i])*scale
		if r.channels == 3 {
			a = sd * noise[i] * scale
		}
		if r.gainRide {
			env = max(math.Abs(b), env*(1-3/float64(r.rate)))
			g := 1 / (0.2 + 2*env)
			a, b = a*g*0.5, b*g*0.5
		}
		m.left[i] = float32(max(-1, min(1, b)))
		if m.right != nil {
			m.left[i], m.right[i] = float32(max(-1, min(1, a))), float32(max(-1, min(1, b)))
		}
	}
}

// add adds one pulse and gives its energy and length in seconds.
func (r recipe) add(signal []float64, t, gain float64, rng *rand.Rand) (energy, length float64) {
	rate := float64(r.rate)
	base := rand.New(rand.NewPCG(r.seed, 99))
	pitch := min(0.35*rate, 1500+3500*base.Float64())
	decay := 0.001 + 0.003*base.Float64()
	length = 4 * decay
	switch r.sound {
	case "none":
		return 0.02, 0.1
	case "tap":
		pitch, decay, length = min(0.3*rate, 500+1500*base.Float64()), 0.008, 0.03
	case "clap":
		decay, length = 0.012, 0.04
	case "beep":
		pitch, length = 800+1500*base.Float64(), 0.08
	}
	low := 0.0
	n := int(length * 1.5 * rate)
	if r.sound == "beep" {
		n = int(length * rate)
	}
	from := int(math.Ceil(t * rate))
	for i := range n {
		if from+i < 0 || from+i >= len(signal) {
			continue
		}
		x := float64(from+i)/rate - t
		v := 0.0
		switch r.sound {
		case "click":
			v = math.Sin(2*math.Pi*pitch*x) * math.Exp(-x/decay)
		case "tap":
			v = (0.7*math.Sin(2*math.Pi*pitch*x) + 0.3*rng.NormFloat64()) * math.Exp(-x/decay)
		case "clap":
			low += 0.5 * (rng.NormFloat64() - low)
			v = low * math.Exp(-x/decay)
			if x < 0.006 {
				v += low * math.Exp(-math.Mod(x, 0.003)/0.001)
			}
		case "beep":
			v = math.Sin(2*math.Pi*pitch*x) * min(1, x/0.003) * min(1, (length-x)/0.003)
		}
		signal[from+i] += gain * v
		energy += gain * v * gain * v
	}
	return energy, length
}

// background makes noise of unit power.
func (r recipe) background(n int, rng *rand.Rand) []float64 {
	x := make([]float64, n)
	rate := float64(r.rate)
	switch r.noise {
	case "pink":
		var a, b, c float64
		for i := range x {
			w := rng.NormFloat64()
			a, b, c = 0.997*a+0.03*w, 0.97*b+0.1*w, 0.7*c+0.4*w
			x[i] = a + b + c + 0.2*w
		}
	case "babble":
		for range 4 {
			voice(x, rate, rng)
		}
	case "speech":
		voice(x, rate, rng)
	case "hum":
		for i := range x {
			t := float64(i) / rate
			x[i] = math.Sin(2*math.Pi*50*t) + 0.4*math.Sin(2*math.Pi*150*t+1) + 0.2*math.Sin(2*math.Pi*250*t) + 0.05*rng.NormFloat64()
		}
	default:
		for i := range x {
			x[i] = rng.NormFloat64()
		}
	}
	sum := 0.0
	for _, v := range x {
		sum += v * v
	}
	for i := range x {
		x[i] /= math.Sqrt(sum / float64(n))
	}
	return x
}

// voice adds something like a person who speaks: syllables of a buzz through
// two resonances, hisses and stops, and pauses.
func voice(x []float64, rate float64, rng *rand.Rand) {
	for i := int(rng.Float64() * rate / 4); i < len(x); {
		n := int((0.08 + 0.2*rng.Float64()) * rate)
		kind, loud := rng.Float64(), 0.3+rng.Float64()
		pitch := 90 + 120*rng.Float64()
		f1, f2 := 300+500*rng.Float64(), 1000+1300*rng.Float64()
		phase, y1, y2, z1, z2 := 0.0, 0.0, 0.0, 0.0, 0.0
		for k := 0; k < n && i+k < len(x); k++ {
			u := float64(k) / float64(n)
			e := loud * math.Sin(math.Pi*u)
			var v float64
			if kind < 0.75 {
				phase += pitch * (1 + 0.1*u) / rate
				in := 0.0
				if phase > 1 {
					phase--
					in = 1
				}
				q := math.Exp(-math.Pi * 90 / rate)
				y := in + 2*q*math.Cos(2*math.Pi*f1/rate)*y1 - q*q*y2
				y2, y1 = y1, y
				z := in + 2*q*math.Cos(2*math.Pi*f2/rate)*z1 - q*q*z2
				z2, z1 = z1, z
				v = y + 0.5*z
			} else if kind < 0.9 {
				w := rng.NormFloat64()
				v = w - y1
				y1 = w
				e *= 0.4
			} else {
				e = loud * math.Exp(-float64(k)/rate/0.01)
				v = 2 * rng.NormFloat64()
			}
			x[i+k] += e * v
		}
		i += n
		if rng.Float64() < 0.25 {
			i += int(0.3 * rng.Float64() * rate)
		}
	}
}
