package pulse

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strconv"
	"strings"
	"testing"

	"splittally/calc/rhythm"
)

// home is a made-up home whose meter is timed and whose monitor is read
// meanwhile. Loads are in W, times in seconds.
type home struct {
	load     float64 // mean
	wander   float64 // standard deviation of a load that drifts about, as a fraction
	memory   float64 // seconds that it takes to drift
	switched float64 // height of a load that comes and goes, as a fraction
	on, off  float64 // its mean times
	each     float64 // Wh of a pulse
	pulses   int
	how      string
	hand     float64 // standard deviation of a press
	readings int
	timed    bool
	late     float64 // the monitor's delay, at most
	step     float64 // of the monitor's display
}

const trueGain = 1.02

// course is the load by fifths of a second, and its integral in Wh.
type course struct{ watts, energy []float64 }

const grain = 0.2

func (h home) course(r *rand.Rand) course {
	n := int((2*float64(h.pulses)*h.each*3600/h.load + 200) / grain)
	c := course{make([]float64, n), make([]float64, n+1)}
	drift, on := r.NormFloat64(), r.Float64() < h.on/(h.on+h.off+1e-9)
	keep := 1.0
	if h.memory > 0 {
		keep = math.Exp(-grain / h.memory)
	}
	for i := range c.watts {
		drift = keep*drift + math.Sqrt(1-keep*keep)*r.NormFloat64()
		w := h.load * (1 + h.wander*drift)
		if h.switched > 0 {
			if on && r.Float64() < grain/h.on || !on && r.Float64() < grain/h.off {
				on = !on
			}
			if on {
				w += h.switched * h.load
			}
		}
		c.watts[i] = max(w, h.load/20)
		c.energy[i+1] = c.energy[i] + c.watts[i]*grain/3600
	}
	return c
}

// when gives the time at which an energy in Wh is reached.
func (c course) when(energy float64, from int) (t float64, at int) {
	for c.energy[from+1] < energy {
		from++
	}
	return grain * (float64(from) + (energy-c.energy[from])/(c.energy[from+1]-c.energy[from])), from
}

// try draws one run and tells whether the power and the monitor's error lie in
// their stated intervals.
func (h home) try(t *testing.T, r *rand.Rand) (power, errors bool, wide float64) {
	const before = 30.0 // the load's own past, for the delay
	c := h.course(r)
	start := c.energy[int(before/grain)]
	at, times := int(before/grain), make([]float64, h.pulses+1)
	for i := range times {
		times[i], at = c.when(start+float64(i)*h.each, at)
	}
	first, whole := times[0], times[h.pulses]-times[0]
	truth := 3600 * h.each * float64(h.pulses) / whole
	clock := 1 + 50e-6*(2*r.Float64()-1)
	run := Run{How: h.how}
	if h.how == "" {
		seconds := (whole + h.hand*(r.NormFloat64()-r.NormFloat64())) * clock
		run.Turns, run.Seconds = strconv.Itoa(h.pulses), strconv.FormatFloat(seconds, 'f', 1, 64)
	} else {
		m := Marks{By: h.how}
		for _, x := range times {
			m.Marks = append(m.Marks, rhythm.Mark{At: (x-first+5)*clock + h.hand*r.NormFloat64(), Sure: 1})
		}
		run.Marks = Format(m)
	}
	late := h.late * r.Float64()
	var lines []string
	for i := range h.readings {
		x := whole * (float64(i) + r.Float64()) / float64(h.readings)
		shown := trueGain * c.watts[int((first+x-late)/grain)]
		line := strconv.FormatFloat(math.Round(shown/h.step)*h.step, 'f', max(0, -int(math.Floor(math.Log10(h.step)))), 64)
		if h.timed {
			line = fmt.Sprintf("%.1f s ", x) + line
		}
		lines = append(lines, line)
	}
	run.Watts = strings.Join(lines, "\n")
	got := Read(Timing{Constant: plain(h.each) + " Wh", Runs: []Run{run}}, Options{ReadMarks: allCount})
	f := got.Runs[0]
	if f.Waits != "" || h.readings > 0 && !f.IsCompared {
		t.Fatalf("%q %v %v\n%s", f.Waits, got.Problems, f.Rhythm.Why, run.Marks)
	}
	power = math.Abs(f.Watts.Value-truth) <= f.Watts.Expanded
	return power, math.Abs(f.Compared.Percent.InexactFloat64()-100*(trueGain-1)) <= f.Compared.Expanded, f.Compared.Expanded
}

// allCount judges taps of which each is one pulse: what package rhythm says of
// them, for little time.
func allCount(text string) (Marks, rhythm.Result, error) {
	m, err := Parse(text)
	n := len(m.Marks) - 1
	if err != nil || n < 1 {
		return m, rhythm.Result{Why: rhythm.TooFew}, err
	}
	h := rhythm.Result{Uses: make([]rhythm.Use, n+1), Intervals: n, Least: n, Most: n, Heard: n, Seconds: m.Marks[n].At - m.Marks[0].At}
	for i := range h.Uses {
		h.Uses[i] = rhythm.Counted
	}
	h.Stretches = []rhythm.Stretch{{First: 0, Last: n, Intervals: n, Seconds: h.Seconds}}
	r := run{Found: Found{Marks: m, Rhythm: h}}
	h.Jitter, _ = scatter(r.stretches())
	pace, sum := h.Seconds/float64(n), 0.0
	for i := range n {
		d := m.Marks[i+1].At - m.Marks[i].At - pace
		sum += d * d / float64(n-1)
	}
	h.Wander = math.Sqrt(max(0, sum-2*h.Jitter*h.Jitter)) / pace
	return m, h, nil
}

// The stated 95 % of the power and of the monitor's error hold the truth as
// often as they say. Bounds above 97 % stand where too little is known to be
// exact: readings spread over a run stand for it better than their scatter
// says, by how much hangs on how quickly the load drifts, and only the pulses
// show that. The one below 93 % is a load that a few readings by the watch can
// miss altogether: it is why the page asks for a steady one.
//
// 1,500 trials put ± 1.1 % (two standard deviations) around a true 95 %.
func TestIntervalsHoldWhatTheySay(t *testing.T) {
	if testing.Short() {
		t.Skip("tens of thousands of made-up runs prove nothing more the second time")
	}
	drifting := home{load: 1500, wander: 0.03, memory: 20, each: 1, pulses: 100, how: "taps", hand: 0.05, readings: 6, timed: true, step: 1}
	for _, c := range []struct {
		name        string
		least, most float64 // of the error; of the power 93 and most
		power       float64
		change      func(*home)
	}{
		{"taps, a drifting load", 93, 97, 97, func(*home) {}},
		{"taps, 3 readings", 93, 97, 97, func(h *home) { h.readings = 3 }},
		{"taps, 12 readings", 93, 97, 97, func(h *home) { h.readings = 12 }},
		{"taps, 12 readings, late", 93, 98, 97, func(h *home) { h.readings, h.late = 12, 5 }},
		{"taps, without times", 93, 100, 97, func(h *home) { h.timed = false }},
		{"taps, a heater comes and goes", 93, 100, 100, func(h *home) { h.switched, h.on, h.off, h.late = 0.5, 40, 60, 5 }},
		{"taps, steady", 93, 100, 97, func(h *home) { h.wander = 0.003 }},
		{"taps, quite steady, in tens", 93, 100, 97, func(h *home) { h.wander, h.step = 0.0003, 10 }},
		{"taps, quick drift", 93, 97, 100, func(h *home) { h.memory = 2 }},
		{"taps, slow drift", 93, 99, 97, func(h *home) { h.memory = 200 }},
		{"taps, slow pulses", 93, 97, 100, func(h *home) { h.each, h.pulses = 7.2, 20 }},
		{"taps, few", 93, 100, 97, func(h *home) { h.pulses, h.hand = 8, 0.1 }},
		{"watch, drifting", 93, 100, 97, func(h *home) { h.how, h.hand = "", 0.1 }},
		{"watch, quick drift", 93, 97, 97, func(h *home) { h.how, h.hand, h.memory = "", 0.1, 2 }},
		{"watch, quick drift, 12 readings", 93, 97, 97, func(h *home) { h.how, h.hand, h.memory, h.readings = "", 0.1, 2, 12 }},
		{"watch, slow drift", 93, 100, 97, func(h *home) { h.how, h.hand, h.memory = "", 0.1, 200 }},
		{"watch, slow drift, 12 readings", 93, 100, 97, func(h *home) { h.how, h.hand, h.memory, h.readings = "", 0.1, 200, 12 }},
		{"watch, 3 readings", 93, 98, 97, func(h *home) { h.how, h.hand, h.readings = "", 0.1, 3 }},
		{"taps, 3 readings, quick drift", 93, 98, 97, func(h *home) { h.readings, h.memory = 3, 2 }},
		{"taps, 4 readings, quicker than a pulse", 93, 98, 100, func(h *home) { h.readings, h.memory = 4, 0.5 }},
		{"watch, 3 readings beside as much doubt", 94, 97, 97, func(h *home) { h.how, h.hand, h.readings, h.wander, h.memory, h.pulses = "", 0.1, 3, 0.01, 2, 60 }},
		{"watch, 3 readings, short", 94, 98, 97, func(h *home) { h.how, h.hand, h.readings, h.wander, h.memory, h.pulses = "", 0.1, 3, 0.02, 0.5, 20 }},
		{"watch, without times", 93, 100, 97, func(h *home) { h.how, h.hand, h.timed = "", 0.1, false }},
		{"watch, a heater comes and goes", 90, 97, 97, func(h *home) { h.how, h.hand, h.switched, h.on, h.off = "", 0.1, 0.5, 20, 30 }},
		{"watch, short", 93, 100, 97, func(h *home) { h.how, h.hand, h.pulses = "", 0.1, 5 }},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			h := drifting
			c.change(&h)
			const trials = 1500
			r := rand.New(rand.NewPCG(6, 2026))
			var power, errors, wide float64
			for range trials {
				p, e, w := h.try(t, r)
				if p {
					power += 100. / trials
				}
				if e {
					errors += 100. / trials
				}
				wide += w / trials
			}
			t.Logf("power %.1f %%, error %.1f %%, ± %.2f %%", power, errors, wide)
			if power < 93 || power > c.power {
				t.Errorf("the power is held %.1f %%, want 93 to %g %%", power, c.power)
			}
			if errors < c.least || errors > c.most {
				t.Errorf("the error is held %.1f %%, want %g to %g %%", errors, c.least, c.most)
			}
		})
	}
}
