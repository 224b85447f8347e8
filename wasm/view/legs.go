package view

import (
	"strconv"
	"strings"

	"splittally/calc"
	"splittally/calc/gain"
	"splittally/calc/say"
)

// legs tells what the checks of the legs say, what correcting would do, and what
// they can't explain.
func (s *sheet) legs() piece {
	if !s.f.Checks.Given {
		return none
	}
	parts := []piece{el("h3", text("What the checks at the legs say")), s.legTable(s.f.Checks), legsSaid(s.f.Checks)}
	for _, pair := range s.compared() {
		if pair.Corrected.Words != "" {
			parts = append(parts, prose(s.name(pair)+", "+s.bill(pair.period)+": "+strings.ReplaceAll(pair.Corrected.Words, " %", say.Thin+"%")))
		}
	}
	for i, inst := range s.f.Instruments {
		if inst.IsReached {
			parts = append(parts, s.reach(i, inst))
		}
	}
	return join(parts...)
}

// kinds are the columns of what was measured.
var kinds = []struct {
	head string
	of   func(gain.LegResult) gain.Found
	unit string
	each string
}{
	{"By volts", func(l gain.LegResult) gain.Found { return l.Volts }, "V", "pair"},
	{"By amperes", func(l gain.LegResult) gain.Found { return l.Amps }, "A", "pair"},
	{"By a known load", func(l gain.LegResult) gain.Found { return l.Power }, "W", "step"},
}

// legTable has a column for each kind of check that was made on some leg.
func (s *sheet) legTable(r gain.Result) piece {
	heads := []string{"Leg"}
	var made []int
	for k, kind := range kinds {
		for _, l := range r.Legs {
			if kind.of(l).Given {
				made, heads = append(made, k), append(heads, kind.head)
				break
			}
		}
	}
	heads = append(heads, "Multiply it by")
	rows := each(len(r.Legs), func(i int) piece {
		l := r.Legs[i]
		var cells []cell
		for at, k := range made {
			cells = append(cells, foundCell(heads[at+1], k, kinds[k].of(l)))
		}
		return tr(legName(l), append(cells, correctionCell(heads[len(heads)-1], l))...)
	})
	return table("wide", "What each leg would have to be multiplied by, ± "+s.confidence(), heads, tbody(rows))
}

// legName names a leg, with its share and a mark if it is off.
func legName(l gain.LegResult) piece {
	parts := []piece{text(l.Name)}
	if l.Given && l.Significant {
		parts = append(parts, mark("mark", "off"))
	}
	if l.Share > 0 {
		share := percent(strconv.FormatFloat(100*l.Share, 'f', 0, 64)) + " of the energy" + shareFrom[l.ShareFrom]
		parts = append(parts, gives(share))
	}
	return join(parts...)
}

// shareFrom says where a leg's share comes from.
var shareFrom = map[gain.Whence]string{
	gain.ShareTyped: ", as typed", gain.ShareReadings: ", by the readings", gain.ShareEqual: ", taken as equal",
}

func foundCell(head string, kind int, f gain.Found) cell {
	if !f.Given {
		return num(head, "—")
	}
	unit := say.Thin + kinds[kind].unit
	detail := figure(f.Reference) + unit + " against " + figure(f.Monitor) + unit + ", " + say.Counted(f.Pairs, kinds[kind].each, kinds[kind].each+"s")
	return cell{head, el("span", text(say.Gained(f.Correction)), gives(detail)), ""}
}

func correctionCell(head string, l gain.LegResult) cell {
	if !l.Given {
		return word(head, l.Waits)
	}
	detail := "rests on " + say.Basis(l.Basis)
	if l.Waits != "" {
		detail += "; " + l.Waits
	}
	return cell{head, el("span", text(say.Gained(l.Correction)), gives(detail)), ""}
}

// figure writes a mean reading for show.
func figure(v float64) string {
	places := 2
	if v >= 1000 {
		places = 0
	}
	return minus(strconv.FormatFloat(v, 'f', places, 64))
}

// legsSaid says what the legs come to: together, beside each other, and between
// the lines.
func legsSaid(r gain.Result) piece {
	parts := []piece{prose("All legs together, each by its share: multiply by " + say.Gained(r.Overall) + ". " + overallWords(r.Overall))}
	parts = append(parts, labelled("Service", say.Service(r)))
	for _, d := range r.Differ {
		parts = append(parts, said(d.Words))
	}
	for _, l := range r.Lines {
		if l.Waits != "" {
			parts = append(parts, labelled(l.Name, l.Waits))
		}
		for _, words := range l.Words {
			parts = append(parts, labelled(l.Name, words))
		}
	}
	return join(parts...)
}

func overallWords(c gain.Correction) string {
	if c.Significant {
		return "That is more than these checks can be off by."
	}
	return "That is no more than these checks can be off by, so the monitor may well be right."
}

// reach tells what the volts can explain of an error, and what is left to the
// current.
func (s *sheet) reach(i int, inst calc.Instrument) piece {
	return join(el("h4", class(inkText(i)), text("What the volts explain of "+inst.Name)),
		paragraphs(inst.Reach.Words), s.limits(i, inst.Reach))
}

// limits is the table of what a current transformer may add, by its class.
func (s *sheet) limits(i int, r gain.Reach) piece {
	if len(r.Limits) == 0 {
		return none
	}
	return s.folded("more", id("limits", i), "What a current transformer may add", func() piece {
		factor := "at a power factor of " + plain(r.PowerFactor)
		if r.IsAssumed {
			factor += " (assumed)"
		}
		heads := []string{"Class, and current", "By its ratio", "By its phase"}
		rows := each(len(r.Limits), func(i int) piece {
			l := r.Limits[i]
			at := "at " + percent(plain(l.Load)) + " of the rated current; up to " + plain(l.Minutes) + "′"
			return row(heads, join(text("Class "+l.Class), gives(at)), "±"+nbsp+percent(plain(l.Ratio)), "±"+nbsp+percent(strconv.FormatFloat(l.Phase, 'f', 2, 64)))
		})
		return table("narrow", "The most error of the energy that its class allows, "+factor, heads, tbody(rows))
	})
}

// plain writes a figure with no more decimals than it has.
func plain(v float64) string { return minus(strconv.FormatFloat(v, 'f', -1, 64)) }
