package cause

// legs: the gains that were measured on the legs are the error.
var legs = kind{
	id: Legs, side: InMonitor, sets: true,
	name:   "The gains measured on the legs",
	remedy: "Set the gain of each leg as under “What to set”.",
	forms: func(f *frame) []form {
		if len(f.checks) == 0 {
			return nil
		}
		var out []form
		for _, sd := range gainOff {
			out = append(out, form{weight: 1, effects: []effect{f.gained(sd, inAll)}, how: legsHow, reasons: legsReasons})
			if f.Checks.Power.Given {
				out = append(out, form{weight: 1, effects: []effect{f.gained(sd, inPower)}, how: legsHow, reasons: legsReasons})
			}
		}
		return out
	},
}

func legsHow(o outcome) string {
	high := 100 * o.sizes[0] / (100 - o.sizes[0])
	return "The legs’ gains, as checked and as billed, make the monitor read " + amount(high, o.doubts[0], "%", "high", "low") + "."
}

func legsReasons(o outcome) (pro, con []string) {
	for _, c := range o.checks {
		what := "volts"
		if c.power {
			what = "known loads"
		}
		said := "By the " + what + " measured on the legs it reads " + amount(c.high, c.standard*o.k(), "%", "high", "low") + "."
		if size := o.sizes[0]; (size > 0) == (c.high > 0) && abs(c.high) > o.k()*c.standard {
			pro = append(pro, said)
		} else {
			con = append(con, said)
		}
	}
	return pro, con
}
