package report

import (
	"strings"

	"splittally/calc"
	"splittally/calc/cause"
	"splittally/calc/correct"
	"splittally/calc/fit"
	"splittally/calc/say"
)

// because ranks the causes of what each instrument shows.
func (w *composer) because() {
	for n, i := range w.explained() {
		c := i.Causes
		if !c.Done {
			continue
		}
		told, rest := say.Told(c)
		list := make([]string, 0, told)
		for k, e := range c.Causes[:told] {
			list = append(list, w.cause(e, n, k))
		}
		list = w.first(list, max(w.room[mostCauses], min(c.Open, 2)), "cause")
		if w.room[mostOthers] == 0 {
			rest = ""
		}
		decide := ""
		if c.Decide.Words != "" {
			decide = "What would decide: " + c.Decide.Words
		}
		w.section("Why: "+i.Name, w.words(c.Words), w.points(list), w.words(decide, rest))
	}
}

// cause tells one cause; the first ones with what speaks for and against them.
func (w *composer) cause(e cause.Explanation, instrument, rank int) string {
	said := say.Share(e.Probability) + " " + strings.TrimSuffix(e.Name, ".") + ". " + e.How
	if rank >= w.room[mostArgued]-min(1, instrument) {
		return said
	}
	for _, list := range []struct {
		lead string
		said []string
	}{{"For: ", e.For}, {"Against: ", e.Against}} {
		if len(list.said) > 0 {
			said += " " + list.lead + strings.Join(list.said, " ")
		}
	}
	if rank == 0 && e.Remedy != "" {
		said += " If it is: " + e.Remedy
	}
	return said
}

// settings says what to set: the first correction that is a remedy in full, the
// others by their factors.
func (w *composer) settings() {
	var list []string
	for _, i := range w.explained() {
		list = append(list, w.setting(&i)...)
	}
	w.section("What to set", w.points(list))
}

func (w *composer) setting(i *calc.Instrument) (out []string) {
	if len(i.Corrections) == 0 {
		return nil
	}
	lead := w.of(i)
	if reserve := say.Reserve(i.Causes, i.Corrections); reserve != "" {
		out = append(out, lead+reserve)
	}
	whole := standing(i)
	for n, c := range i.Corrections {
		switch why := say.NoRemedy(i.Causes, c); {
		case n == whole && w.room[mostAdvice] == 0:
			out = append(out, lead+say.Multiply(c)+" "+c.Words+w.toSet(c))
		case n == whole:
			out = append(out, lead+say.Multiply(c)+" "+c.Words+w.toSet(c)+" "+c.How)
		case why != "":
			out = append(out, lead+say.Multiply(c)+" "+c.Words+" "+why+".")
		default:
			out = append(out, lead+bases[c.Basis]+" × "+say.Factor(fit.Value{Value: c.Factor, Expanded: c.Expanded})+".")
		}
	}
	return out
}

// bases say what a further correction comes from.
var bases = map[correct.Basis]string{
	correct.FromBills: "By the bills", correct.FromChecks: "By the checks of the legs", correct.FromPulses: "By timing the meter",
}

// standing is the index of the first correction that is a remedy, or -1.
func standing(i *calc.Instrument) int {
	for n, c := range i.Corrections {
		if say.NoRemedy(i.Causes, c) == "" {
			return n
		}
	}
	return -1
}

func (w *composer) toSet(c correct.Correction) string {
	var said []string
	for _, s := range c.Settings {
		lead := ""
		if s.Name != "" {
			lead = short(s.Name, longName) + ": "
		}
		said = append(said, lead+s.Words())
	}
	return " " + w.inline(said, w.room[mostLegs], " ", "setting")
}
