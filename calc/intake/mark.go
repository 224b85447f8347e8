package intake

import (
	"splittally/calc/energy"
	"splittally/calc/intake/scan"
	"splittally/calc/remark"
)

// Energies of a day that a home plausibly uses, in kWh. They only tell which
// of two readings that differ a thousandfold is sensible (common practice, no
// source).
const (
	leastPlausible = 0.05
	mostPlausible  = 400
)

// settleMark finds the decimal mark. A figure such as 12,4 or 1.234,5 shows it;
// where all have one mark before three digits, as 1,234 has, size may tell, and
// otherwise the question is asked.
func (a *attempt) settleMark() {
	if a.p.joined {
		a.notice("digits-joined", "Groups of three digits behind a blank were read as one number with the digits before them.")
	}
	dots, commas := 0, 0
	var open []*scan.Item
	example := ""
	a.eachFigure(func(it *scan.Item, line int) {
		switch len(it.Readings) {
		case 1:
			r := it.Readings[0]
			switch {
			case r.Mark == '.' || r.Group == ',':
				dots++
			case r.Mark == ',' || r.Group == '.':
				commas++
			}
		case 2:
			if len(open) == 0 {
				example = a.p.sheet.Lines[line].Text[it.From:it.To]
			}
			open = append(open, it)
		}
	})
	switch {
	case dots > 0 && commas > 0:
		a.notice("mixed-marks", "Both the dot and the comma stand before decimals; each figure was read by itself.")
		fallthrough
	case dots+commas > 0:
		if commas > dots {
			a.mark = ','
		}
	case len(open) > 0:
		a.markBySize(open, example)
	}
}

// eachFigure visits the figures of all rows.
func (a *attempt) eachFigure(visit func(it *scan.Item, line int)) {
	for ri := range a.p.rows {
		r := &a.p.rows[ri]
		for _, i := range r.figures {
			if i >= 0 {
				visit(&a.p.sheet.Items[i], r.line)
			}
		}
	}
}

// markBySize settles figures that all have one mark before three digits.
func (a *attempt) markBySize(open []*scan.Item, example string) {
	mark, other := open[0].Readings[0].Mark, '.'
	if mark == '.' {
		other = ','
	}
	decimals, groups := a.plausible(open, 0), a.plausible(open, 1)
	a.mark = mark
	switch {
	case mark == '.' && (a.p.sheet.Delimiter == ',' || decimals && !groups):
		return
	case groups && !decimals: // as decimals the figures would be next to nothing
		a.mark = other
		a.notice("thousands-by-size", "“"+example+"” was read as "+open[0].Readings[1].Value.String()+": with decimals it would be next to nothing.")
		return
	}
	provisional := "decimals"
	if groups == decimals && mark == ',' {
		provisional = "thousands"
	}
	taken := a.ask("decimal-mark", "Is “"+example+"” "+open[0].Readings[0].Value.String()+" or "+open[0].Readings[1].Value.String()+"?",
		"Every figure has its mark before three digits, so it can part decimals or thousands.", provisional,
		remark.Choice{ID: "decimals", Label: "The mark parts decimals: " + open[0].Readings[0].Value.String()},
		remark.Choice{ID: "thousands", Label: "The mark parts thousands: " + open[0].Readings[1].Value.String()})
	if taken == "thousands" {
		a.mark = other
	}
}

// plausible says whether the middle one of the figures, read in the given way,
// is a day's energy of a home.
func (a *attempt) plausible(open []*scan.Item, way int) bool {
	var sizes []int
	for _, it := range open {
		unit := it.Unit
		if unit == 0 {
			unit = a.p.likelyUnit()
		}
		sizes = append(sizes, size(it.Readings[way].Value, unit))
	}
	usual := energy.Energy(middle(sizes)).KilowattHours() * a.perDay()
	return usual >= leastPlausible && usual <= mostPlausible
}
