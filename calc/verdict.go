package calc

// Verdict takes the part of the road that is there first when the page starts:
// from readings and bills to errors and verdicts. Its findings are those of Work
// without what else Work finds. It takes cases of which IsPlain holds.
//
// It leads to nothing that the page does without at first: wasm/pack parts the
// engine by what each function calls.
func (m *Memory) Verdict(c Case) Findings {
	w := work{c: c, memory: m}
	w.begin()
	w.readSettings()
	w.readBills()
	for i := range c.Monitors {
		r, read := w.readPasted(i)
		w.addInstruments(i, read)
		w.addReadings(r)
	}
	w.midnights = make([]bool, len(w.f.Periods)) // those are known by the meter's own days alone
	w.compare()
	w.pool()
	m.turn()
	return w.f
}

// IsPlain says that readings are as they were pasted, and the monitor's alone:
// then Verdict finds what Work does as far as it goes.
func (c *Case) IsPlain() bool {
	for _, m := range c.Monitors {
		if m.Record != "" {
			return false
		}
	}
	return c.Meter.Record == "" && c.Meter.Readings == ""
}
