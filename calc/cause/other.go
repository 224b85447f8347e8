package cause

// How far something unknown may put each bill off by itself, in percent:
// standard deviations with equal weight.
var otherOff = [3]float64{2, 8, 40}

// other: none of the causes known here. Every bill is off by something of its
// own, and so is every check; it foretells little, and wins only where nothing
// else fits.
func other() kind {
	return kind{
		id:     Other,
		name:   "Something that is not in this list",
		remedy: "Go through the bills and the readings again for slips, and wait for another bill.",
		forms: func(f *frame) []form {
			var out []form
			for _, sd := range otherOff {
				fo := form{weight: 1, how: func(outcome) string { return "Each bill is off by something of its own." }}
				for p := range f.n() {
					fo.effects = append(fo.effects, effect{by: f.alone(p, f.r[p]/100), sd: sd})
				}
				if f.legChecks > 0 {
					fo.effects = append(fo.effects, effect{by: make([]float64, f.n()), shows: inAll, sd: gainOff[0]})
				}
				if f.Daily.Given {
					fo.effects = append(append(fo.effects, effect{by: make([]float64, f.n()), days: ownHigh, sd: sd}), f.anySlope()...)
				}
				if f.Timed.Given {
					fo.effects = append(fo.effects, effect{by: make([]float64, f.n()), days: ownPulses, sd: sd})
				}
				out = append(out, fo)
			}
			return out
		},
	}
}
