package gain

import (
	"math/rand/v2"
	"strconv"
	"testing"
)

// trial is one way to measure: how the real errors are drawn is said here, what
// the page would know of them in checks.
type trial struct {
	name      string
	kind      int
	n         int     // pairs or steps
	noise     float64 // standard deviation of what changes between two looks, in the kind's unit
	alike     float64 // half-width of the same where it is anywhere alike
	meter     Accuracy
	drop      string
	loss      float64 // portion of a load lost in the wiring, at most
	low, high float64 // what share of the intervals must hold the truth
}

// The stated 95 % intervals hold the truth. Where rounding and the pairs'
// spread rule, that is 93 to 97 times in 100. Where a stated accuracy, the drop
// or the assumed wander rules it is more, up to always, because ±k·u is wider
// than a rectangle (JCGM 100:2008 G.2.3). Two or three pairs beside small parts
// of another kind are where the Welch–Satterthwaite formula falls short, as
// package uncertainty tells: over 20,000 trials three pairs by an instrument
// without any error hold 93.2 % and two 91.3 %, which stand here so that nobody
// takes them for covered. With the accuracy that even good instruments have,
// both hold.
func TestIntervalsHoldTheTruth(t *testing.T) {
	exact, usual := Accuracy{"0", "0"}, Accuracy{"1", "3"}
	for _, c := range []trial{
		{"two pairs, a perfect multimeter", volts, 2, 0.4, 0, exact, "", 0, 0.90, 0.95},
		{"three pairs, a perfect multimeter", volts, 3, 0.4, 0, exact, "", 0, 0.925, 0.97},
		{"two pairs, a good multimeter", volts, 2, 0.4, 0, Accuracy{"0.3", "1"}, "", 0, 0.93, 0.98},
		{"two pairs, a usual multimeter", volts, 2, 0.3, 0, usual, "", 0, 0.97, 1},
		{"two steps, a usual plug-in meter", steps, 2, 30, 0, Accuracy{"2", "2"}, "", 0.02, 0.94, 0.99},
		{"five pairs, a perfect multimeter", volts, 5, 0.4, 0, exact, "", 0, 0.93, 0.97},
		{"ten pairs, a good multimeter", volts, 10, 0.4, 0, Accuracy{"0.1", "1"}, "", 0, 0.94, 0.98},
		{"three pairs, a good multimeter", volts, 3, 0.4, 0, Accuracy{"0.3", "1"}, "", 0, 0.93, 0.98},
		{"four pairs, a usual multimeter", volts, 4, 0.3, 0, usual, "", 0, 0.97, 1},
		{"one pair", volts, 1, 0, 0.48, exact, "", 0, 0.97, 1},
		{"a drop of up to 2 V", volts, 5, 0.2, 0, Accuracy{"0.3", "1"}, "2", 0, 0.94, 1},
		{"three current pairs, a perfect clamp meter", amps, 3, 0.2, 0, exact, "", 0, 0.93, 0.97},
		{"six current pairs, a usual clamp meter", amps, 6, 0.2, 0, Accuracy{"2", "5"}, "", 0, 0.96, 1},
		{"three steps, a perfect plug-in meter", steps, 3, 30, 0, exact, "0", 0, 0.93, 0.97},
		{"three steps, a usual plug-in meter", steps, 3, 30, 0, Accuracy{"2", "2"}, "", 0.02, 0.93, 0.99},
		{"six steps, a usual plug-in meter", steps, 6, 30, 0, Accuracy{"2", "2"}, "", 0.02, 0.95, 1},
		{"one step", steps, 1, 0, 50, Accuracy{"2", "2"}, "", 0.02, 0.94, 1},
	} {
		t.Run(c.name, func(t *testing.T) {
			const trials = 4000
			random := rand.New(rand.NewPCG(21, 4))
			held := 0
			for range trials {
				truth := 0.94 + 0.12*random.Float64()
				f := c.measure(random, truth)
				if f.Pairs != c.n {
					t.Fatalf("%d of %d were used", f.Pairs, c.n)
				}
				if f.Percent-f.Expanded <= 100*(truth-1) && 100*(truth-1) <= f.Percent+f.Expanded {
					held++
				}
			}
			share := float64(held) / trials
			t.Logf("held %.2f %%", 100*share)
			if share < c.low || share > c.high {
				t.Errorf("held %.2f %%, want %.0f to %.0f %%", 100*share, 100*c.low, 100*c.high)
			}
		})
	}
}

// measure draws one set of readings of a monitor with that gain, and reads it.
func (c trial) measure(random *rand.Rand, gain float64) Found {
	within := func(half float64) float64 { return half * (2*random.Float64() - 1) }
	percent, _ := strconv.ParseFloat(c.meter.Percent, 64)
	digits, _ := strconv.ParseFloat(c.meter.Digits, 64)
	drop, _ := strconv.ParseFloat(c.drop, 64)
	off, lost := within(1), random.Float64()
	checks := Checks{Voltmeter: c.meter, Clampmeter: c.meter, Plugmeter: c.meter, Drop: c.drop}
	leg := Leg{Name: "A"}
	for range c.n {
		meanwhile := c.noise*random.NormFloat64() + within(c.alike)
		switch c.kind {
		case volts:
			v := 120 + 1.5*random.NormFloat64()
			leg.Pairs = append(leg.Pairs, Pair{
				shown(v-lost*drop+off*(percent/100*v+digits*0.1)+meanwhile, 1), shown(v/gain, 1),
			})
		case amps:
			a := 8 + 20*random.Float64()
			leg.Amps = append(leg.Amps, Pair{
				shown(a+off*(percent/100*a+digits*0.1)+meanwhile, 1), shown(a/gain, 1),
			})
		case steps:
			base, load := 300+400*random.Float64(), 1480+10*random.NormFloat64()
			leg.Steps = append(leg.Steps, Step{
				shown(base, 0), shown(base+load*(1+lost*c.loss)/gain+meanwhile, 0), shown(load+off*(percent/100*load+digits), 0),
			})
		}
	}
	checks.Legs = []Leg{leg}
	l := Read(checks, Options{}).Legs[0]
	return [kindCount]Found{l.Volts, l.Amps, l.Power}[c.kind]
}

// shown is a value as an instrument shows it.
func shown(v float64, places int) string { return strconv.FormatFloat(v, 'f', places, 64) }

// Legs that are alike are told apart by chance in no more than 5 % and a little,
// however far off the multimeter is; with three legs too, where the two that
// differ most are picked.
func TestLegsThatAreAlike(t *testing.T) {
	for _, legs := range []int{2, 3} {
		const trials = 3000
		random := rand.New(rand.NewPCG(5, uint64(legs)))
		differ, lines, ratios := 0, 0, 0
		for range trials {
			r := Read(alike(random, legs, 5), Options{})
			if r.Differ[0].Significant {
				differ++
			}
			for _, l := range r.Lines {
				if !l.Reference.Agrees || !l.Monitor.Agrees {
					lines++
				}
				if !l.Gain.Agrees {
					ratios++
				}
			}
		}
		t.Logf("%d legs: differ %d, lines %d, gains between lines %d of %d", legs, differ, lines, ratios, trials)
		for what, n := range map[string]int{"legs": differ, "lines": lines, "gains": ratios} {
			if n > trials*65/1000 {
				t.Errorf("%d legs, %s: %d of %d were told apart", legs, what, n, trials)
			}
		}
	}
}

// alike draws checks of a monitor whose legs are all off by the same, with a
// multimeter that is off too, and one look between two lines.
func alike(random *rand.Rand, legs, pairs int) Checks {
	gain, off := 0.95+0.1*random.Float64(), 1+0.01*(2*random.Float64()-1)
	between, nominal := 2.0, 120.0
	if legs == 3 {
		between, nominal = 1.7320508, 230
	}
	c := Checks{Voltmeter: Accuracy{"1", "3"}}
	for range legs {
		var l Leg
		for range pairs {
			v := nominal * (1 + 0.002*random.NormFloat64())
			l.Pairs = append(l.Pairs, Pair{shown(v*off*(1+0.001*random.NormFloat64()), 1), shown(v/gain, 1)})
		}
		c.Legs = append(c.Legs, l)
	}
	v := between * nominal * (1 + 0.002*random.NormFloat64())
	c.Lines = []Pair{{shown(v*off, 1), shown(v/gain, 1)}}
	return c
}
