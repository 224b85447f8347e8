package report

import (
	"fmt"
	"strings"

	"splittally/calc"
	"splittally/calc/gain"
	"splittally/calc/say"
)

// legs tells what was measured on the legs, and what that can explain.
func (r *writer) legs() {
	told := r.f.Checks.Given
	for _, i := range r.f.Instruments {
		told = told || len(i.Legs) > 0 || i.IsReached
	}
	if !told {
		return
	}
	r.section("Legs")
	if v := r.f.Checks; v.Given {
		for _, l := range v.Legs {
			r.leg(l)
		}
		r.text("All legs: ", say.Gained(v.Overall))
		r.whole("volts", v.Volts)
		r.whole("amperes", v.Amps)
		r.whole("loads", v.Power)
		r.legsTogether(v)
	}
	for _, i := range r.f.Instruments {
		r.ofLegs(i)
	}
}

func (r *writer) leg(l gain.LegResult) {
	if !l.Given {
		r.text(l.Name+": ", l.Waits)
		return
	}
	r.text(l.Name+": ", fmt.Sprintf("%s, resting on %s. It carries %.0f %% of the energy.", say.Gained(l.Correction), say.Basis(l.Basis), 100*l.Share))
	for _, kind := range []struct {
		name, unit string
		found      gain.Found
	}{{"volts", "V", l.Volts}, {"amperes", "A", l.Amps}, {"loads", "W", l.Power}} {
		if !kind.found.Given {
			continue
		}
		r.text(fmt.Sprintf("   %-9s", kind.name), say.Found(kind.found, kind.unit))
		if n := len(kind.found.Odd); n > 0 {
			r.text("            ", say.Counted(n, "of them stands apart; it is used.", "of them stand apart; they are used."))
		}
	}
	if l.Waits != "" {
		r.text("   waits: ", l.Waits)
	}
}

// legsTogether tells whether the legs differ, and whether the volts between the
// lines are what those of the legs come to.
func (r *writer) legsTogether(v gain.Result) {
	r.text("Service: ", say.Service(v))
	for _, d := range v.Differ {
		r.text("", d.Words)
	}
	for _, l := range v.Lines {
		r.text(l.Name+": ", l.Waits)
		for _, s := range l.Words {
			r.text(l.Name+": ", s)
		}
	}
}

// whole tells of one kind of gain over all legs.
func (r *writer) whole(name string, w gain.Whole) {
	if !w.Given {
		return
	}
	partly := ""
	if !w.Complete {
		partly = ", with legs that were not measured left as they are"
	}
	r.text(fmt.Sprintf("   %-9s", name), say.Gained(w.Correction)+partly)
}

// ofLegs tells what the legs are to one instrument.
func (r *writer) ofLegs(i calc.Instrument) {
	var shares []string
	for n, l := range i.Legs {
		if n < len(i.Shares) {
			shares = append(shares, fmt.Sprintf("%s %s %%", l.Name, say.Plain(100*i.Shares[n], 1)))
		} else {
			shares = append(shares, l.Name)
		}
	}
	if len(shares) > 0 {
		r.text(i.Name+": ", "the sum of its columns "+strings.Join(shares, ", ")+" of the energy")
	}
	if i.IsReached {
		for _, s := range i.Reach.Words {
			r.text(i.Name+": ", s)
		}
	}
	for n, res := range i.Results {
		if res.IsCorrected {
			r.text(fmt.Sprintf("%s, %d: ", i.Name, n+1), res.Corrected.Words)
		}
	}
}
