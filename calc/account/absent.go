package account

import (
	"slices"

	"github.com/shopspring/decimal"

	"splittally/calc/tariff"
)

// absent finds printed lines whose row the tariff has, but that the computed bill
// lacks: a demand without the power of minutes, a row that could not be read. It
// gives the row of each such pair.
func (r *rebuild) absent() {
	r.rows = map[int]int{}
	for i := range r.out.Pairs {
		p := &r.out.Pairs[i]
		if p.At < 0 || p.Line >= 0 || p.Reason != "" {
			continue
		}
		for row := range r.b.Schedule.Rows {
			name := r.nameOf(row)
			if r.hasLine(row) || fold(p.Name) != fold(name) && !sameWords(p.Name, name) {
				continue
			}
			r.rows[i] = row
			p.Reason = "The tariff has “" + name + "”, but the computed bill has no line of it."
			break
		}
	}
}

func (r *rebuild) hasLine(row int) bool {
	return slices.ContainsFunc(r.out.Lines, func(l tariff.Line) bool { return l.Row == row })
}

// leftOut says which rows of the tariff no bill can hold.
func leftOut(t tariff.Tariff) (list []string) {
	for _, name := range t.LeftOut {
		list = append(list, "“"+name+"” is left out, as something of it is missing or can’t be read.")
	}
	return list
}

// lacks says what the tariff needs and the bill does not give.
func (r *rebuild) lacks() (list []string) {
	if r.t.NeedsExport && len(r.b.Usage.Export) == 0 {
		list = append(list, noExport)
	}
	if r.lossy() > 0 && !r.hasLosses() {
		list = append(list, "No loss factor is given, so that losses are taken as none.")
	}
	return list
}

const noExport = "Energy sent out is not given, so there is no credit for it."

// signs explains amounts that have the other sign.
func (r *rebuild) signs() {
	for i := range r.out.Pairs {
		if p := &r.out.Pairs[i]; p.differs() && p.Printed.Equal(p.Computed.Neg()) {
			p.IsExplained = true
			p.Reason = "It is the same amount with the other sign. A credit is typed with a minus."
		}
	}
}

// withTax tries whether a line is printed without the tax that its price holds,
// or with one that has a line of its own.
func (r *rebuild) withTax(l tariff.Line, printed decimal.Decimal) (fits []string) {
	one := decimal.NewFromInt(1)
	try := func(exact decimal.Decimal, says string) {
		if r.rounding().of(exact).Equal(printed) {
			fits = append(fits, says)
		}
	}
	if percent := r.t.TaxHeld(); percent.IsPositive() {
		try(l.Exact.DivRound(one.Add(percent.Shift(-2)), fine), "if the tax that its price holds is left out")
	}
	for k, tax := range r.out.Lines {
		isOwn := slices.ContainsFunc(r.out.Pairs, func(p Pair) bool { return p.Line == k && (p.IsEqual || p.IsExplained) })
		if !isOwn && r.kindOf(tax.Row) == tariff.Tax && r.t.Counts(tax.Row)[l.Row] {
			try(l.Exact.Mul(one.Add(tax.Rate)), "if “"+tax.Name+"” is in it")
		}
	}
	return fits
}

// heldTax explains a printed tax that the prices hold already.
func (r *rebuild) heldTax() {
	for i := range r.out.Pairs {
		p := &r.out.Pairs[i]
		if p.HasPrinted && p.Line < 0 && p.Reason == "" && r.t.TaxHeld().IsPositive() && p.Printed.Equal(r.out.Tax) {
			p.Reason = "The prices hold it already: it is the tax in the computed total."
		}
	}
}
