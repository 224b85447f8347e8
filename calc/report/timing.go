package report

import (
	"fmt"
	"strings"

	"splittally/calc/pulse"
	"splittally/calc/say"
)

// timing tells what was timed at the utility's meter.
func (r *writer) timing() {
	t := r.f.Timing
	if !t.Given {
		return
	}
	r.section("Timing the meter")
	r.text("  ", say.Each(r.c.Timing.Shows, t.PerPulse))
	compared := 0
	for i, run := range t.Runs {
		if run.Given {
			r.run(i, run)
		}
		if run.IsCompared {
			compared++
		}
	}
	if t.IsPooled {
		if !t.Differ() {
			r.text("  ", say.RunsTogether(r.c.MonitorName(r.f.Timed), compared, t.Pooled))
		}
		r.text("  ", say.RunsAgree(t.Consistent))
	}
	if t.IsLined {
		r.text("  ", say.LineOfLoads(t.Line))
		r.text("  ", say.LineMeans(t.Line))
	}
}

func (r *writer) run(i int, run pulse.Found) {
	name := fmt.Sprintf("  Run %d: ", i+1)
	if run.Marks.By == "sound" {
		r.text(name, "recording "+run.Marks.File+", "+run.Marks.Format+", "+say.Watch(run.Marks.Read, 0)+" read.")
		name = strings.Repeat(" ", len(name))
	}
	if run.Waits != "" {
		r.text(name, "waits: "+strings.TrimPrefix(run.Waits, "missing: ")+".")
		return
	}
	r.text(name, say.Watts(run.Watts)+" by the meter ("+say.Timed(r.c.Timing.Shows, run)+").")
	if run.HasMonitor {
		r.text("    ", say.Watts(run.Monitor)+" by the monitor, "+say.Counted(len(run.Readings), "reading", "readings")+".")
	}
	if run.IsCompared {
		r.text("    ", say.Verdict(r.c.MonitorName(r.f.Timed), run.Compared))
	}
	for k, m := range run.Rhythm.Missing {
		if k == mostTold {
			r.text("    ", fmt.Sprintf("and %d more places like this", len(run.Rhythm.Missing)-k))
			break
		}
		r.text("    ", fmt.Sprintf("After mark %d, at %s, %s to be missing; it is in the count.", m.After+1, say.Watch(run.Marks.Marks[m.After].At, 1),
			say.Counted(m.Count, "pulse seems", "pulses seem")))
	}
}

// mostTold bounds what is told one by one.
const mostTold = 12
