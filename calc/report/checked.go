package report

import (
	"strconv"
	"strings"

	"splittally/calc/gain"
	"splittally/calc/say"
)

// checked tells what was measured on the legs.
func (w *composer) checked() {
	v := w.f.Checks
	if !v.Given {
		return
	}
	var list []string
	for _, l := range v.Legs {
		name := short(l.Name, longName)
		if !l.Given {
			list = append(list, name+": "+l.Waits+".")
			continue
		}
		list = append(list, name+": "+say.Gained(l.Correction)+" by "+legBases[l.Basis]+"; it carries "+fixed(100*l.Share, 0)+say.Thin+"% of the energy.")
	}
	list = append(w.first(list, w.room[mostLegs], "leg"), "All legs: "+say.Gained(v.Overall)+".")
	for _, i := range w.told() {
		if i.IsReached && w.room[mostReached] > 0 {
			list = append(list, w.of(&i)+strings.Join(i.Reach.Words, " "))
		}
	}
	w.section("Checks of the legs", w.points(list))
}

// legBases say in a few words what the gain of a leg rests on.
var legBases = map[gain.Basis]string{
	gain.ByPower: "known loads", gain.ByVoltsAndAmp: "volts and amperes", gain.ByVolts: "its volts alone", gain.ByAmps: "its amperes alone",
}

// timed tells what was timed at the utility's meter.
func (w *composer) timed() {
	t := w.f.Timing
	if !t.Given {
		return
	}
	name := short(w.c.MonitorName(w.f.Timed), longName)
	var runs []string
	for n, run := range t.Runs {
		if !run.Given {
			continue
		}
		lead := "Run " + strconv.Itoa(n+1) + ": "
		if run.Waits != "" {
			runs = append(runs, lead+run.Waits+".")
			continue
		}
		said := lead + say.Watts(run.Watts) + " by the meter (" + say.Timed(w.c.Timing.Shows, run) + ")"
		if run.HasMonitor {
			said += ", " + say.Watts(run.Monitor) + " by " + say.Within(name)
		}
		if run.IsCompared {
			said += ": " + say.Error(run.Compared)
		}
		runs = append(runs, said+".")
	}
	runs = w.first(runs, w.room[mostLegs], "run")
	if c, ok := t.Leading(); ok {
		runs = append(runs, "All of it: "+say.Error(c)+", "+say.Short(c.Verdict)+".")
	}
	w.section("Timing the meter", w.points(runs))
}

// open tells the questions that are not answered, what is wrong and what was
// assumed.
func (w *composer) open() {
	var asked, wrong, noted []string
	for _, q := range w.f.Questions {
		if q.Answered {
			continue
		}
		taken := ""
		for _, ch := range q.Choices {
			if ch.ID == q.Taken {
				taken = " Taken for now: " + ch.Label + "."
			}
		}
		asked = append(asked, "Open: "+q.Asks+taken)
	}
	for _, p := range w.f.Problems {
		wrong = append(wrong, say.Place(p.Path)+": "+p.String()+".")
	}
	for _, n := range w.f.Notices {
		noted = append(noted, say.Place(n.Path)+": "+n.Text)
	}
	list := w.first(asked, w.room[mostPoints], "question")
	list = append(list, w.first(wrong, w.room[mostPoints]/2+1, "input that could not be read")...)
	list = append(list, w.first(noted, w.room[mostPoints], "remark")...)
	w.section("Open, and assumed", w.points(list))
}

// careful says whether the paper leads somebody to a panel or to live parts.
func (w *composer) careful() bool {
	if w.f.Checks.Given {
		return true
	}
	for _, i := range w.f.Instruments {
		if i.Causes.Decide.Panel || len(i.Corrections) > 0 {
			return true
		}
		for n, e := range i.Causes.Causes {
			if n < w.room[mostCauses] && e.Check.Panel {
				return true
			}
		}
	}
	return false
}
