package view

import (
	"strconv"
	"strings"

	"splittally/calc/chart"
	"splittally/calc/pulse"
	"splittally/calc/say"
	"splittally/calc/uncertainty"
)

// runs puts into each run what it comes to: the figure beside the pad, and the
// workings below.
func (s *sheet) runs() {
	for i, r := range s.f.Timing.Runs {
		if r.Given {
			at := "timing.runs." + strconv.Itoa(i)
			s.put(at+".live", s.live(r))
			s.put(at+".found", s.runFound(i, r))
		}
	}
	for i := len(s.f.Timing.Runs); i < len(s.c.Timing.Runs); i++ {
		s.put("timing.runs."+strconv.Itoa(i)+".found", s.wrongWatts(i))
	}
}

// live is what a run comes to so far, large.
func (s *sheet) live(r pulse.Found) piece {
	if r.Waits != "" {
		return para("quiet", capital(r.Waits)+".")
	}
	value, interval, _ := strings.Cut(say.Watts(r.Watts), say.PlusMinus)
	told := say.Timed(s.c.Timing.Shows, r)
	if r.Last > 0 {
		told += "; the last interval alone " + say.Plain(r.Last, 0) + say.Thin + "W"
	}
	told += "."
	for _, l := range r.Longer {
		if l.Possible && l.Percent/100*r.Watts.Value < r.Watts.Expanded {
			told += " " + say.Longer(l)
			break
		}
	}
	return join(el("p", class("reads"), el("strong", text(value)), text(" ±"+nbsp+interval), gives("by the meter; ± is the "+s.confidence()+" interval")),
		para("quiet", told))
}

// runFound is all that is below a run's fields.
func (s *sheet) runFound(i int, r pulse.Found) piece {
	parts, b := []piece{s.wrongWatts(i)}, gather(r.Marks.Marks, r.Rhythm)
	if r.Waits == "" {
		parts = append(parts, s.beside(i, r))
	}
	parts = append(parts, s.pace(i, r, b), s.doubtful(i, r, b))
	if r.Waits == "" {
		parts = append(parts, s.longer(i, r), s.runBudget(i, r))
	}
	return join(parts...)
}

// beside sets the monitor's watts against the meter's.
func (s *sheet) beside(i int, r pulse.Found) piece {
	if !r.HasMonitor && i < len(s.c.Timing.Runs) && strings.TrimSpace(s.c.Timing.Runs[i].Watts) != "" {
		return prose("None of the monitor’s watts could be placed within this run. The notes on the figures say why.")
	}
	if !r.HasMonitor {
		return prose("With the monitor’s watts of these minutes, it says how far they differ.")
	}
	list := []fact{
		{"By the meter", say.Watts(r.Watts)},
		{"By the monitor, " + say.Counted(len(r.Readings), "reading", "readings"), say.Watts(r.Monitor)},
	}
	if !r.IsCompared {
		return facts(list...)
	}
	return join(facts(append(list, fact{"Percentage error", say.Error(r.Compared)})...),
		said(say.Verdict(s.c.MonitorName(s.f.Timed), r.Compared)))
}

// pace draws the run interval by interval.
func (s *sheet) pace(i int, r pulse.Found, b beats) piece {
	if len(b.holds) < 2 {
		return none
	}
	one, _ := say.Pulse(s.c.Timing.Shows)
	c := chart.Pace{
		ID: id("pace", i), Title: "Run " + strconv.Itoa(i+1) + ", interval by interval", Unit: "seconds from one " + one + " to the next",
		Long: b.last - b.first, Beats: b.beats, Holds: b.holds,
	}
	if perPulse := s.f.Timing.PerPulse; perPulse > 0 {
		c.Unit = "watts"
		for k := range c.Holds {
			c.Holds[k].Value = 3600 * perPulse / c.Holds[k].Value
		}
		for _, at := range r.Readings {
			if at.Timed {
				c.Dots = append(c.Dots, chart.At{At: at.At, Value: at.Watts})
			}
		}
		c.Mean, c.Doubt, c.IsKnown = r.Watts.Value, r.Watts.Expanded, r.Waits == ""
	}
	low, high := c.Holds[0].Value, c.Holds[0].Value
	for _, h := range c.Holds {
		low, high = min(low, h.Value), max(high, h.Value)
	}
	places := 0
	if high < 100 {
		places = 2
	}
	c.Words = capital(say.Counted(len(c.Holds), "interval", "intervals")) + ", " + c.Unit + ": from " + say.Plain(low, places) + " to " + say.Plain(high, places) + ". " + b.told()
	return el("figure", chart.Paced(c), el("figcaption", text(paceKey(c))))
}

// paceKey explains the signs that the drawing has.
func paceKey(c chart.Pace) string {
	key := "Line: each interval."
	if len(c.Holds) > chart.Crowd {
		key = "Line: means of many intervals; strokes: from their least to their most."
	}
	if c.IsKnown {
		key += " Dashed: the whole run, ± in its band."
	}
	if len(c.Dots) > 0 {
		key += " Above the pulses, ◆" + say.Thin + "what the monitor read."
	}
	return key + " " + beatKey(c.Beats)
}

// longer says how long to count for how narrow an interval.
func (s *sheet) longer(i int, r pulse.Found) piece {
	if len(r.Longer) == 0 {
		return none
	}
	return s.folded("more", id("longer", i), "How long for a narrower ±", func() piece {
		return list(len(r.Longer), func(k int) string { return say.Longer(r.Longer[k]) })
	})
}

// runBudget shows what the uncertainty of a run is made of.
func (s *sheet) runBudget(i int, r pulse.Found) piece {
	return s.folded("more", id("run-budget", i), "What the ± is made of", func() piece {
		if r.IsCompared && len(r.Compared.Budget) > 0 {
			return s.budgetTable(r.Compared)
		}
		return s.wattsTable(r.Watts)
	})
}

func (s *sheet) wattsTable(f pulse.Figure) piece {
	parts := f.Budget.Merged()
	shares := uncertainty.Budget(parts).Shares()
	heads := []string{"What could be wrong", "Adds, W", "Share"}
	var rows []piece
	for _, k := range byShare(shares) {
		rows = append(rows, partRow(parts[k], shares[k], heads))
	}
	return join(table("narrow", "Uncertainty budget of the meter’s watts", heads, tbody(rows...)),
		prose("Standard uncertainty "+say.Interval(f.Standard)+say.Thin+"W ("+freedom(f.DoF)+", "+s.confidence()+") gives ±"+nbsp+say.Interval(f.Expanded)+say.Thin+"W."))
}
