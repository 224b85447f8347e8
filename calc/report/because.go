package report

import (
	"strings"

	"splittally/calc"
	"splittally/calc/cause"
	"splittally/calc/correct"
	"splittally/calc/say"
)

// because ranks the causes of what each instrument shows.
func (w *composer) because() {
	for n, i := range w.told() {
		c := i.Causes
		if !c.Done {
			continue
		}
		told, others := say.Told(c)
		list := make([]string, 0, told)
		for k, e := range c.Causes[:told] {
			list = append(list, w.cause(e, n, k))
		}
		list = w.first(list, max(w.room.causes, min(c.Open, 3)), "cause")
		if n > 0 && w.room.size > 1 {
			others = ""
		}
		decide := ""
		if c.Decide.Words != "" {
			decide = "What would decide: " + c.Decide.Words
		}
		w.section("Why: "+i.Name, w.words(c.Words), w.points(list), w.words(decide, others))
	}
}

// cause tells one cause; the first ones with what speaks for and against them.
func (w *composer) cause(e cause.Explanation, instrument, rank int) string {
	said := say.Share(e.Probability) + "  " + strings.TrimSuffix(e.Name, ".") + ". " + e.How
	argued := w.room.argued
	if instrument > 0 {
		argued--
	}
	if rank >= argued {
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
	for _, i := range w.told() {
		list = append(list, w.setting(&i)...)
	}
	w.section("What to set", w.points(list))
}

func (w *composer) setting(i *calc.Instrument) (out []string) {
	if len(i.Corrections) == 0 {
		return nil
	}
	lead := i.Name + ": "
	if reserve := say.Reserve(i.Causes, i.Corrections); reserve != "" {
		out = append(out, lead+reserve)
	}
	whole := standing(i)
	for n, c := range i.Corrections {
		said := lead + say.Multiply(c)
		switch why := say.NoRemedy(i.Causes, c); {
		case why != "":
			said += " " + c.Words + " " + why + "."
		case n == whole:
			said += " " + c.Words + w.toSet(c) + " " + c.How
		default:
			said += " " + c.Words
		}
		out = append(out, said)
	}
	return out
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
			lead = cut(clean(s.Name), longName) + ": "
		}
		said = append(said, lead+s.Words())
	}
	return " " + strings.Join(w.first(said, w.room.legs, "setting"), " ")
}
