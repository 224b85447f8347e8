package cause

// solar: what the panels gave is counted with the wrong sign, or one of the two
// nets it and the other does not.
func solar() kind {
	return kind{
		id:     Solar,
		name:   "Solar production with the wrong sign, or netted by one alone",
		remedy: "Look at which way the clamp of the solar circuit points, and whether the monitor and the bill both show use, import, or net.",
		forms: func(f *frame) []form {
			produced := f.entered(func(p Period) Amount { return p.Produced })
			exported := f.entered(func(p Period) Amount { return p.Exported })
			if exported == nil {
				exported = make([]float64, f.n())
			}
			var out []form
			if produced != nil {
				// Import is use, less what the panels gave, plus what went out.
				out = append(out,
					f.mended(mixed(produced, -1, exported, 1), 1, "The monitor counts all use, the bill only what came in: %.0f kWh between them."),
					f.mended(mixed(produced, -2, exported, 1), 1, "The monitor adds what the panels gave instead of taking it off: %.0f kWh too much."),
					f.mended(mixed(produced, -2, exported, 0), 1, "The monitor adds what the panels gave instead of taking it off, the bill is net: %.0f kWh too much."),
					f.mended(mixed(produced, -1, exported, 0), 1, "The monitor counts all use, the bill is net of what the panels gave: %.0f kWh between them."),
					f.mended(mixed(produced, 1, exported, -1), 0.5, "The monitor counts only what came in, the bill all use: %.0f kWh between them."))
			}
			if sum(exported) > 0 {
				out = append(out,
					f.mended(mixed(exported, 1, exported, 0), 1, "The monitor takes off what went out, the bill does not: %.0f kWh."),
					f.mended(mixed(exported, -1, exported, 0), 1, "The bill takes off what went out, the monitor does not: %.0f kWh."),
					f.mended(mixed(exported, -2, exported, 0), 1, "What went out is counted as if it had come in: %.0f kWh too much."))
			}
			return out
		},
	}
}

// mixed gives p·x + q·y.
func mixed(x []float64, p float64, y []float64, q float64) []float64 {
	out := make([]float64, len(x))
	for i := range x {
		out[i] = p*x[i] + q*y[i]
	}
	return out
}
