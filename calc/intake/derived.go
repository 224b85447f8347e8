package intake

import (
	"strings"

	"splittally/calc/energy"
	"splittally/calc/intake/words"
	"splittally/calc/remark"
)

// findDerived finds the columns that tell nothing new: running totals or
// register reads beside the energies that they differ by, and a sum beside its
// parts. Parts without their sum are added up, but legs are not: each tells of
// its own clamp. What is left out is told.
func (a *attempt) findDerived() {
	n := len(a.p.columns)
	a.derived = make([]bool, n)
	if n < 2 || a.p.blocks || len(a.placed) < 3 {
		return
	}
	all := make([][]figure, n)
	for c := range all {
		all[c] = a.column(c)
	}
	for c := range all {
		for o := range all {
			switch {
			case o == c || a.derived[o] || a.derived[c]:
			case runs(all[c], all[o]):
				a.derived[c] = true
				a.notice("column-derived", a.named(c)+" only adds up "+a.named(o)+" and was left out.")
			case a.units[c].unit > a.units[o].unit && repeats(all[c], all[o]):
				a.derived[c] = true
				a.notice("column-derived", a.named(c)+" gives in "+a.units[c].unit.Name()+" what "+a.named(o)+" gives in "+a.units[o].unit.Name()+" and was left out.")
			}
		}
	}
	for c := range all {
		if !a.derived[c] && a.leaveLegTotal(all, c) {
			return
		}
	}
	if len(a.legsBut(-1)) > 0 {
		return
	}
	for c := range all {
		if a.derived[c] || n < 3 || IsLeg(a.p.columns[c].name) || !a.sumsOthers(all, c) {
			continue
		}
		if a.ask("column-parts", "Is "+a.named(c)+" the figure that counts, and are the other columns its parts?",
			"On every line it is the sum of the others.", "sum",
			remark.Choice{ID: "sum", Label: "Take the sum alone"}, remark.Choice{ID: "apart", Label: "Take each column as a monitor of its own"}) == "sum" {
			for o := range all {
				a.derived[o] = a.derived[o] || o != c
			}
		}
		return
	}
	a.addParts()
}

// named gives a column in words.
func (a *attempt) named(c int) string {
	if name := a.p.columns[c].name; name != "" {
		return "“" + name + "”"
	}
	return "column " + string(rune('1'+c%9)) + " of the figures"
}

// runs says whether figures are reads whose differences are the others, each
// the energy up to its read, or each the energy from its read on. In a short
// table of whole numbers that can be chance, so there the reads must also begin
// with the first energy, or tower over all.
func runs(reads, others []figure) bool {
	upTo, from := difference{fits: true}, difference{fits: true}
	biggest := energy.Energy(0)
	for i := 1; i < len(reads); i++ {
		if reads[i].known && reads[i-1].known {
			upTo.add(&reads[i-1], &reads[i], &others[i])
			from.add(&reads[i-1], &reads[i], &others[i-1])
		}
		biggest = max(biggest, others[i].energy, others[i-1].energy)
	}
	d := upTo
	if !d.fits {
		d = from
	}
	begins := (reads[0].energy - others[0].energy).Abs() <= reads[0].rounding+others[0].rounding
	return d.fits && d.pairs >= 2 && 2*d.exact >= d.pairs && (d.pairs >= 6 || begins || reads[0].energy/20 > biggest)
}

// difference counts how differences of reads agree with energies.
type difference struct {
	fits         bool // all, as far as rounding lets one tell
	pairs, exact int
}

func (d *difference) add(before, read, other *figure) {
	off := (read.energy - before.energy - other.energy).Abs()
	d.fits = d.fits && other.known && off <= before.rounding+read.rounding+other.rounding
	if other.energy != 0 {
		d.pairs++
		if off == 0 {
			d.exact++
		}
	}
}

// repeats says whether two columns give the same energies, as far as rounding
// lets one tell.
func repeats(x, y []figure) bool {
	known := 0
	for i := range x {
		if x[i].known != y[i].known || (x[i].energy-y[i].energy).Abs() > x[i].rounding+y[i].rounding {
			return false
		}
		if x[i].known && x[i].energy != 0 {
			known++
		}
	}
	return known > 2
}

// sumsOthers says whether column c is the sum of all others, two or more, on
// every line.
func (a *attempt) sumsOthers(all [][]figure, c int) bool {
	several, exact := false, 0
	for i := range all[c] {
		total := all[c][i]
		var sum, slack energy.Energy
		parts := 0
		for o := range all {
			if o == c || a.derived[o] {
				continue
			}
			f := all[o][i]
			if f.known != total.known {
				return false
			}
			sum, slack = plus(sum, f.energy), plus(slack, f.rounding)
			if f.energy != 0 {
				parts++
			}
		}
		several = several || parts > 1
		if (sum - total.energy).Abs() > slack+total.rounding {
			return false
		}
		if sum == total.energy {
			exact++
		}
	}
	return several && 2*exact >= len(all[c])
}

// addParts adds up columns that are named as the parts of one meter: tariffs by
// time.
func (a *attempt) addParts() {
	var names []string
	kinds := ""
	for c, col := range a.p.columns {
		if a.derived[c] {
			return
		}
		kind := partOf(col.name)
		if kind == 0 || strings.IndexByte(kinds, kind) >= 0 {
			return
		}
		kinds += string(kind)
		names = append(names, col.name)
	}
	switch kinds {
	case "dn", "nd", "dsn", "12":
	default:
		return
	}
	if a.ask("column-parts", "Are "+strings.Join(names, " and ")+" parts of one meter's energy?",
		"The headings name parts of a day or of a supply.", "add",
		remark.Choice{ID: "add", Label: "Add them up"}, remark.Choice{ID: "apart", Label: "Take each column as a monitor of its own"}) != "add" {
		return
	}
	a.merged = strings.Join(names, " + ")
	for i := range a.placed {
		gave := a.placed[i].gave
		for c := 1; c < len(gave); c++ {
			gave[0].known = gave[0].known && gave[c].known
			gave[0].energy = plus(gave[0].energy, gave[c].energy)
			gave[0].rounding = rootSum(gave[0].rounding, gave[c].rounding)
			a.derived[c] = true
		}
	}
}

// partOf says which part of a meter's energy a heading names: d and n for day
// and night, s for the hours between, 1 and 2 for numbered tariffs; 0 for none.
func partOf(name string) byte {
	folded := words.Fold(name)
	for _, cut := range []string{"energy", "usage", "consumption", "verbrauch", "meterstand", "zahlerstand", "rate", "tariff", "tarif"} {
		folded = strings.TrimSpace(strings.ReplaceAll(folded, cut, ""))
	}
	switch strings.Trim(folded, " -_") {
	case "day", "peak", "on-peak", "on peak", "hp", "ht", "tag", "dag", "jour", "high", "hoog", "heures pleines", "punta":
		return 'd'
	case "night", "off-peak", "off peak", "offpeak", "hc", "nt", "nacht", "nuit", "low", "laag", "heures creuses", "valle":
		return 'n'
	case "mid-peak", "mid peak", "shoulder", "llano":
		return 's'
	case "t1":
		return '1'
	case "t2":
		return '2'
	}
	return 0
}
