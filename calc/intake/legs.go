package intake

import (
	"cmp"
	"slices"
	"strings"

	"splittally/calc/calendar"
	"splittally/calc/energy"
	"splittally/calc/intake/words"
	"splittally/calc/remark"
	"splittally/calc/sorted"
)

// IsLeg says whether a heading names a leg or a phase of a supply: "Leg A",
// "phase 2 (kWh)", "L1", "leg1". Common practice, no source.
func IsLeg(heading string) bool {
	parts := strings.FieldsFunc(words.Fold(heading), func(r rune) bool { return strings.ContainsRune(" _-.,()[]#", r) })
	for i, part := range parts {
		bare := strings.TrimRight(part, "abc123")
		if len(part)-len(bare) == 1 && (bare == "l" || legWords[bare]) {
			return true
		}
		if legWords[part] && i+1 < len(parts) && len(parts[i+1]) == 1 {
			return true
		}
	}
	return false
}

var legWords = map[string]bool{"leg": true, "phase": true, "line": true, "hot": true, "pole": true, "fase": true}

// namesLegs says whether cells of a line name two legs: “Leg 1; Leg 2; Total” is
// no row of totals.
func (p *paper) namesLegs(line int) bool {
	legs := 0
	for _, cell := range p.headingTexts(line) {
		if IsLeg(cell) {
			legs++
		}
	}
	return legs > 1
}

// legsBut gives the columns but c that tell something of their own, if they are
// the legs of one supply, two or three with a name each; else nothing.
func (a *attempt) legsBut(c int) []int {
	var legs []int
	seen := map[string]bool{}
	for o, col := range a.p.columns {
		if o == c || a.derived[o] {
			continue
		}
		if name := words.Fold(col.name); IsLeg(name) && !seen[name] {
			seen[name] = true
			legs = append(legs, o)
			continue
		}
		return nil
	}
	if len(legs) < 2 || len(legs) > 3 {
		return nil
	}
	return legs
}

// leaveLegTotal leaves out a column that is the total of the legs beside it.
// Each leg stays a column, so that a clamp that is turned round is seen. Where
// the total is right only if one leg is taken off, the figures of that leg have
// lost their sign, or the total is wrong: that is asked, but of energies alone,
// for a read of a register has no other sign.
func (a *attempt) leaveLegTotal(all [][]figure, c int) bool {
	legs := a.legsBut(c)
	if len(legs) == 0 || IsLeg(a.p.columns[c].name) {
		return false
	}
	named := a.p.columns[c].label == words.Total
	if totalsLegs(all, c, legs, -1, named) {
		a.derived[c] = true
		a.notice("column-derived", a.named(c)+" only adds up "+a.namedAll(legs)+" and was left out.")
		a.fillLegs(c, legs)
		return true
	}
	for _, off := range legs {
		if totalsLegs(all, c, legs, off, named) && !a.p.register && !climbOf(all[off]).strong {
			a.derived[c] = true
			a.settleSign(c, off, legs)
			return true
		}
	}
	return false
}

// settleSign asks whether a leg that is taken off the total counts below zero.
// Until it is answered it does, because the total is what the monitor says.
func (a *attempt) settleSign(total, off int, legs []int) {
	var others []int
	for _, leg := range legs {
		if leg != off {
			others = append(others, leg)
		}
	}
	taken := a.ask("leg-sign", "Does "+a.named(off)+" count below zero?",
		"On every line "+a.named(total)+" is "+a.namedAll(others)+" less "+a.named(off)+", as where a clamp is turned round.", "below",
		remark.Choice{ID: "below", Label: "Below zero, as " + a.named(total) + " has it"},
		remark.Choice{ID: "above", Label: "Above zero, as written"})
	a.notice("column-derived", a.named(total)+" follows from "+a.namedAll(legs)+" and was left out.")
	if taken != "below" {
		return
	}
	for i := range a.placed {
		a.placed[i].gave[off].energy = -a.placed[i].gave[off].energy
	}
}

// totalsLegs says whether column c is the sum of the legs on every line, with
// leg off taken off it if that is one of them. A line without one leg tells
// nothing if the total is named one, for the leg can be had from it; else the
// total must be the sum of the others there.
//
// A column that is named a total need only agree within rounding. Any other may
// be of a second instrument, the utility's meter for one, that happens to agree:
// there half the lines must agree to the last digit too, and the digits of a sum
// be fine.
func totalsLegs(all [][]figure, c int, legs []int, off int, named bool) bool {
	whole, exact := 0, 0
	var size, slack energy.Energy
	for i := range all[c] {
		total := &all[c][i]
		sum, known := legSum(all, legs, off, i)
		if !total.known {
			continue
		}
		if named && off < 0 && known == len(legs)-1 {
			continue
		}
		miss := (sum.energy - total.energy).Abs()
		if miss > plus(sum.rounding, total.rounding) {
			return false
		}
		if known < len(legs) {
			continue
		}
		whole++
		if miss == 0 {
			exact++
		}
		size, slack = plus(size, total.energy.Abs()), plus(slack, plus(sum.rounding, total.rounding))
	}
	return whole > 2 && (named || 2*exact >= whole && (off >= 0 || size/fineDigits > slack))
}

// fineDigits is how many times its rounding a total must be for the digits to
// be fine.
const fineDigits = 50

// legSum adds the legs that are known on a line, leg off with its sign turned,
// and their roundings, and counts them.
func legSum(all [][]figure, legs []int, off, line int) (sum amount, known int) {
	for _, leg := range legs {
		f := &all[leg][line]
		if !f.known {
			continue
		}
		known++
		e := f.energy
		if leg == off {
			e = -e
		}
		sum.energy, sum.rounding = plus(sum.energy, e), plus(sum.rounding, f.rounding)
	}
	return sum, known
}

// fillLegs takes a leg without a figure as the total less the other legs, unless
// the total is just the sum of those.
func (a *attempt) fillLegs(total int, legs []int) {
	for _, leg := range legs {
		var days []calendar.Day
		for i := range a.placed {
			gave := a.placed[i].gave
			rest := gave[total]
			for _, other := range legs {
				if other != leg {
					rest.known = rest.known && gave[other].known
					rest.energy = plus(rest.energy, -gave[other].energy)
					rest.rounding = plus(rest.rounding, gave[other].rounding)
				}
			}
			if !gave[leg].known && rest.known && rest.energy.Abs() > rest.rounding {
				gave[leg] = rest
				days = append(days, a.placed[i].span.First)
			}
		}
		if len(days) > 0 {
			sorted.Stable(days, cmp.Compare)
			a.notice("leg-from-total", a.named(leg)+" has no figure on "+list(slices.Compact(days))+"; it was taken as "+a.named(total)+" less the rest.")
		}
	}
}

// namedAll gives columns in words: “L1”, “L2” and “L3”.
func (a *attempt) namedAll(columns []int) string {
	var names []string
	for _, c := range columns {
		names = append(names, a.named(c))
	}
	last := len(names) - 1
	if last == 0 {
		return names[0]
	}
	return strings.Join(names[:last], ", ") + " and " + names[last]
}
