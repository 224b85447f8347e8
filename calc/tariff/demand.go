package tariff

import (
	"strconv"

	"github.com/shopspring/decimal"

	"splittally/calc/energy"
	"splittally/calc/remark"
)

// demandOf gives the highest mean power in kW within the row's window of the
// clock, rounded to two decimals, half up: the places to which registers of
// demand are commonly read (common practice, no source). why is set if it
// cannot be known.
//
// A window counts if slots within it cover all its minutes. The hour that a
// clock set back repeats has windows of its own.
func (p *pricing) demandOf(r *row, h held) (kW, exact decimal.Decimal, why *remark.Notice) {
	perDay := minutesOfDay / r.window
	windows := make([]window, len(p.facts)*perDay*2)
	tooLong := p.skip(r, "power-unknown", "needs readings of "+strconv.Itoa(r.window)+" minutes or less")
	for _, s := range p.shorts {
		if !h.on[s.day] {
			continue
		}
		if int(s.to-s.from) > r.window {
			return kW, exact, tooLong
		}
		i := int(s.from) / r.window
		if int(s.to-1)/r.window != i {
			continue
		}
		at := (int(s.day)*perDay + i) * 2
		if s.again {
			at++
		}
		windows[at].covered += int(s.to - s.from)
		windows[at].energy += s.energy
	}
	if p.anyLonger(r, h) {
		return kW, exact, tooLong
	}
	any, most := false, energy.Energy(0)
	for _, w := range windows {
		if w.covered >= r.window {
			most = max(most, w.energy)
			any = true
		}
	}
	if !any {
		return kW, exact, p.skip(r, "power-unknown", "needs whole windows of "+strconv.Itoa(r.window)+" minutes, and there is none")
	}
	exact = most.Decimal().Mul(decimal.NewFromInt(int64(60 / r.window)))
	return exact.Round(2), exact, nil
}

// window is one of the windows of the clock.
type window struct {
	covered int // minutes
	energy  energy.Energy
}

// anyLonger says whether one of the slots that are not short is longer than the
// row's window on a day on which it holds. One over midnight is in no window.
func (p *pricing) anyLonger(r *row, h held) bool {
	c := cutter{span: p.u.Span}
	for _, slot := range p.long {
		cut := c.cut(slot)
		for _, piece := range cut.pieces {
			if h.on[piece.day] && cut.total > int64(r.window) {
				return true
			}
		}
	}
	return false
}

func (p *pricing) skip(r *row, code, why string) *remark.Notice {
	return &remark.Notice{
		Code: code, Path: p.rowPath(r),
		Text: "“" + r.name + "” is not in the bill: it " + why + ".",
	}
}
