package view

import (
	"strconv"
	"strings"

	"splittally/calc"
	"splittally/calc/chart"
	"splittally/calc/intake"
	"splittally/calc/pulse"
	"splittally/calc/remark"
	"splittally/calc/say"
)

// timing tells what all that was timed at the meter comes to.
func (s *sheet) timing() piece {
	t := s.f.Timing
	if !t.Given {
		return none
	}
	parts := []piece{said(say.Each(s.c.Timing.Shows, t.PerPulse)), s.runTable(t), s.runErrors(t)}
	if t.IsPooled {
		runs := 0
		for _, r := range t.Runs {
			if r.IsCompared {
				runs++
			}
		}
		if !s.f.Timing.Differ() {
			parts = append(parts, said(say.RunsTogether(s.c.MonitorName(s.f.Timed), runs, t.Pooled)))
		}
		parts = append(parts, said(say.RunsAgree(t.Consistent)))
	}
	if t.IsLined {
		parts = append(parts, s.loadLine(t))
	}
	return headed("What timing the meter says", parts)
}

// timedVerdict says it where there is no bill yet to judge by.
func (s *sheet) timedVerdict() piece {
	c, ok := s.f.Timing.Leading()
	if !ok {
		return none
	}
	if s.f.Timing.Differ() {
		return para("says-all", tied("Timed at the meter, the runs differ among themselves: "+say.Within(s.c.MonitorName(s.f.Timed))+" is not off by one percentage. See under “What timing the meter says”."))
	}
	return para("says-all", tied("Timed at the meter: "+say.Verdict(say.Within(s.c.MonitorName(s.f.Timed)), c)))
}

// runTable has a row for each run.
func (s *sheet) runTable(t pulse.Result) piece {
	heads := []string{"Run", "By the meter", "By the monitor", "Error ± " + s.confidence(), "Verdict"}
	rows := each(len(t.Runs), func(i int) piece {
		r := t.Runs[i]
		if !r.Given {
			return none
		}
		name := func(more string) piece {
			return join(text("Run "+strconv.Itoa(i+1)), s.footnotes("timing.runs."+strconv.Itoa(i)+"."), gives(s.howCounted(i)+more))
		}
		if r.Waits != "" {
			return tr(name(""), num(heads[1], "—"), num(heads[2], "—"), num(heads[3], "—"), word(heads[4], "waits: "+strings.TrimPrefix(r.Waits, "missing: ")))
		}
		cells := []cell{num(heads[1], say.Watts(r.Watts)), num(heads[2], "—"), num(heads[3], "—"), word(heads[4], "no watts of the monitor")}
		if r.HasMonitor {
			cells[1] = num(heads[2], say.Watts(r.Monitor))
		}
		if r.IsCompared {
			cells[2], cells[3] = num(heads[3], say.Error(r.Compared)), cell{heads[4], text(say.Short(r.Compared.Verdict)), "short-word"}
		}
		return tr(name(", "+say.Timed(s.c.Timing.Shows, r)), cells...)
	})
	return table("wide", "Run by run", heads, tbody(rows))
}

// howCounted says by what a run was counted.
func (s *sheet) howCounted(i int) string {
	if i < len(s.c.Timing.Runs) {
		return howWords[s.c.Timing.Runs[i].How]
	}
	return howWords[""]
}

// howWords are the ways to count.
var howWords = map[string]string{"": "by the watch", "taps": "by tapping along", "sound": "from a recording"}

// runErrors sets the errors of several runs side by side.
func (s *sheet) runErrors(t pulse.Result) piece {
	c := chart.Errors{ID: "run-errors", Title: "Errors of the runs, side by side"}
	for i, r := range t.Runs {
		if r.IsCompared {
			c.Promise = max(c.Promise, r.Compared.Promise)
			c.Rows = append(c.Rows, chart.Row{
				Label: "Run " + strconv.Itoa(i+1) + ", " + say.Plain(r.Watts.Value, 0) + say.Thin + "W", Percent: r.Compared.Percent.InexactFloat64(),
				Expanded: r.Compared.Expanded, Text: say.Error(r.Compared),
			})
		}
	}
	if len(c.Rows) < 2 {
		return none
	}
	if t.IsPooled {
		c.Rows = append(c.Rows, chart.Row{Label: "Together", Percent: t.Pooled.Percent.InexactFloat64(), Expanded: t.Pooled.Expanded, Text: say.Error(t.Pooled), Pooled: true})
	}
	for _, r := range c.Rows {
		c.Words += r.Label + ": " + r.Text + ". "
	}
	caption := "Whiskers: " + s.confidence() + " interval. Line at 0: the meter."
	if c.Promise > 0 {
		caption += " Grey band: what meter and monitor promise, ±" + nbsp + percent(say.Interval(c.Promise)) + "."
	}
	return el("figure", chart.Intervals(c), el("figcaption", text(caption)))
}

// loadLine draws the monitor against the meter over several loads.
func (s *sheet) loadLine(t pulse.Result) piece {
	words := say.LineOfLoads(t.Line)
	c := chart.Against{
		ID: "loads-line", Title: "The monitor’s watts against the meter’s, run by run", Unit: "watts",
		Words: capital(say.Counted(len(t.Points), "run", "runs")) + ", one mark for each. " + words, Name: s.c.MonitorName(s.f.Timed),
		Offset: t.Line.Offset.Value, Gain: t.Line.Gain.Value, IsLaid: t.Line.Known,
	}
	for _, p := range t.Points {
		c.Dots = append(c.Dots, chart.Dot{Meter: p.Meter, Monitor: p.Monitor, MeterBar: p.MeterDoubt, MonitorBar: p.MonitorDoubt})
	}
	caption := "One mark for each run, with its standard uncertainty both ways. Solid: the line through them. Dashed: where both would show alike."
	return join(el("figure", chart.Scatter(c), el("figcaption", text(caption))),
		said(words), said(say.LineMeans(t.Line)), said(say.LineFits(t.Line, s.f.Confidence, false)))
}

// wrongWatts lists the lines of a run's watts that can't be read, as buttons
// that mark them.
func (s *sheet) wrongWatts(i int) piece {
	var wrong []remark.Problem
	path := "timing.runs." + strconv.Itoa(i) + ".watts"
	for _, p := range s.f.Problems {
		if p.Path == path && p.Line > 0 {
			wrong = append(wrong, p)
		}
	}
	if len(wrong) == 0 || i >= len(s.c.Timing.Runs) {
		return none
	}
	watts := s.c.Timing.Runs[i].Watts
	lines := make([]intake.Line, strings.Count(watts, "\n")+1)
	return el("div", class("lines"), pasted{path: path, text: watts, Readings: calc.Readings{Lines: lines}}.wrong(wrong))
}
