package cause

import "math"

// legs: the gains that were measured on the legs are the error.
func legs() kind {
	return kind{
		id: Legs, sets: true,
		name:   "The gains measured on the legs",
		remedy: "Set the gain of each leg as under “What to set”.",
		forms: func(f *frame) []form {
			if f.legChecks == 0 {
				return nil
			}
			var out []form
			for _, sd := range gainOff {
				out = append(out, form{weight: 1, effects: append([]effect{f.gained(sd, inAll)}, f.unevenly()...), how: legsHow, reasons: legsReasons})
				if f.Checks.Power.Given {
					out = append(out, form{weight: 1, effects: append([]effect{f.gained(sd, inPower)}, f.unevenly()...), how: legsHow, reasons: legsReasons})
				}
			}
			return out
		},
	}
}

// unevenly is what legs of unlike gains do from bill to bill, as their shares of
// the energy move.
func (f *frame) unevenly() (out []effect) {
	differ := max(f.Checks.Volts.Differ, f.Checks.Power.Differ)
	if differ == 0 || f.n() == 1 {
		return nil
	}
	for p := range f.n() {
		out = append(out, effect{by: f.alone(p, differ*f.r[p]/100), sd: legMoves})
	}
	return out
}

// legMoves is how far a leg's share of the energy moves from bill to bill, in
// percent of the energy (common practice, no source).
const legMoves = 4

func legsHow(o outcome) string {
	return "The legs’ gains, as checked and as billed, make the monitor read " + o.amount(o.sizes[0], o.doubts[0], "%", "high", "low") + "."
}

func legsReasons(o outcome) (pro, con []string) {
	for _, c := range o.checks[:o.legChecks] {
		what := "volts"
		if c.by == byPower {
			what = "known loads"
		}
		said := "By the " + what + " measured on the legs it reads " + o.amount(c.high, c.standard, "%", "high", "low") + "."
		switch off := math.Abs(o.sizes[0] - c.high); {
		case off > o.k()*math.Hypot(c.standard, o.doubts[0]):
			con = append(con, said)
		case math.Abs(c.high) > o.k()*c.standard:
			pro = append(pro, said)
		}
	}
	return pro, con
}
