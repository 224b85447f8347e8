package account

import (
	"slices"
	"strings"

	"github.com/shopspring/decimal"

	"splittally/calc/figure"
	"splittally/calc/tariff"
)

// trial is something that could be otherwise, and the bill if it is.
type trial struct {
	says   string // behind "comes out, as printed,": "if halves are rounded to even"
	priced tariff.Priced
}

// reasons looks for why lines differ. Nothing is a reason that was not tried and
// came out to the printed amount; and what makes a line wrong that is right as
// it is, is none either.
func (r *rebuild) reasons() {
	r.follows()
	var open []int
	for i, p := range r.out.Pairs {
		if p.differs() && !p.IsExplained {
			open = append(open, i)
		}
	}
	if len(open) == 0 {
		return
	}
	fits, times := r.fits(open)
	r.common = map[int]int{}
	for k, i := range open {
		best := foremost(fits[k], times)
		if len(best) > 0 {
			r.common[i] = times[best[0]]
		}
		r.say(&r.out.Pairs[i], best)
	}
	if !r.lossReason(open) {
		r.energies(open)
	}
}

// fits lists for each open pair what makes it come out, and how many of them
// each does.
func (r *rebuild) fits(open []int) (fits [][]string, times map[string]int) {
	fits, times = make([][]string, len(open)), map[string]int{}
	trials := r.sound(r.trials(open))
	for k, i := range open {
		p := r.out.Pairs[i]
		at := r.placesOf(p)
		var list []string
		for _, t := range trials {
			if v, ok := amountAt(t.priced, at); ok && v.Equal(p.Printed) {
				list = append(list, t.says)
			}
		}
		for _, says := range append(list, r.alone(p)...) {
			if !slices.Contains(fits[k], says) {
				fits[k] = append(fits[k], says)
				times[says]++
			}
		}
	}
	return fits, times
}

// foremost keeps what makes the most lines come out: one cause of several
// differences is likelier than a cause of each.
func foremost(fits []string, times map[string]int) []string {
	most := 0
	for _, says := range fits {
		most = max(most, times[says])
	}
	return slices.DeleteFunc(fits, func(says string) bool { return times[says] < most })
}

// mostFits is how many ways are told that all give the printed amount.
const mostFits = 3

func (r *rebuild) say(p *Pair, fits []string) {
	more := ""
	if len(fits) > mostFits {
		more = ", or in " + figure.Counted(len(fits)-mostFits, "other way", "other ways")
		fits = fits[:mostFits]
	}
	p.IsExplained = len(fits) > 0
	switch {
	case len(fits) == 0:
		p.Reason = r.moreOrLess(p.Off) + " is printed than the " + r.text(p.Computed) + " that come out; nothing tried here explains it."
	case len(fits) == 1:
		p.Reason = r.text(p.Printed) + " comes out, as printed, " + fits[0] + "."
	default:
		p.Reason = r.text(p.Printed) + " comes out, as printed, " + strings.Join(fits, ", or ") + more + "; nothing here tells which."
	}
}

// sound keeps the trials that leave every line as it is that is right. Taxes and
// discounts don't count, as they go with the lines they are on.
func (r *rebuild) sound(trials []trial) []trial {
	return slices.DeleteFunc(trials, func(t trial) bool {
		for _, p := range r.out.Pairs {
			if !p.IsEqual || r.isShare(p) {
				continue
			}
			if v, ok := amountAt(t.priced, r.placesOf(p)); !ok || !v.Equal(p.Printed) {
				return true
			}
		}
		return false
	})
}

// isShare says whether a pair is a percentage on other lines.
func (r *rebuild) isShare(p Pair) bool {
	if len(p.linesOf()) != 1 {
		return false
	}
	l := r.out.Lines[p.Line]
	return l.Unit == "" && !l.Rate.Equal(decimal.NewFromInt(1))
}

// follows explains percentages that are right on the lines as printed.
func (r *rebuild) follows() {
	for i := range r.out.Pairs {
		p := &r.out.Pairs[i]
		if !p.differs() || !r.isShare(*p) {
			continue
		}
		l := r.out.Lines[p.Line]
		off := r.offOn(l.Row)
		base := l.Quantity.Add(off)
		if off.IsZero() || !r.rounding().of(base.Mul(l.Rate)).Equal(p.Printed) {
			continue
		}
		p.IsExplained = true
		p.Reason = "It follows from other lines: " + figure.Percent(l.Rate.Abs().Shift(2).String()) + " of " +
			r.text(base) + ", their printed amounts, is " + r.text(p.Printed.Abs()) + "."
	}
}

// offOn gives how much more is printed of the lines that a row counts.
func (r *rebuild) offOn(row int) (off decimal.Decimal) {
	for k, p := range r.out.Pairs {
		of, isAbsent := r.rows[k]
		switch {
		case p.differs() && r.isOn(row, p):
			off = off.Add(p.Off)
		case isAbsent && p.HasPrinted && r.t.Counts(row)[of]:
			off = off.Add(p.Printed)
		}
	}
	return off
}

// isOn says whether a row counts the lines of a pair.
func (r *rebuild) isOn(row int, p Pair) bool {
	for _, l := range p.linesOf() {
		if other := r.out.Lines[l].Row; other >= row || !r.t.Counts(row)[other] {
			return false
		}
	}
	return true
}

// rounding is how the schedule rounds.
type rounding struct {
	half   string
	places int32
}

func (r *rebuild) rounding() rounding {
	out := rounding{fold(r.b.Schedule.Half), r.t.Currency.Places()}
	if text := fold(r.b.Schedule.Places); len(text) == 1 && text[0] <= '6' && text[0] >= '0' {
		out.places = int32(text[0] - '0')
	}
	return out
}

func (r rounding) of(amount decimal.Decimal) decimal.Decimal {
	switch r.half {
	case "even":
		return amount.RoundBank(r.places)
	case "down":
		return amount.Truncate(r.places)
	}
	return amount.Round(r.places)
}

// alone tries what concerns one line only: the energy or the days that stand
// behind it.
func (r *rebuild) alone(p Pair) (fits []string) {
	if len(p.linesOf()) != 1 {
		return nil
	}
	l := r.out.Lines[p.Line]
	try := func(quantity decimal.Decimal, says string) {
		if !quantity.Equal(l.Quantity) && r.rounding().of(quantity.Mul(l.Rate)).Equal(p.Printed) {
			fits = append(fits, says)
		}
	}
	switch l.Unit {
	case "kWh", "kW":
		for _, q := range []decimal.Decimal{l.Quantity.Round(0), l.Quantity.Truncate(0), l.Quantity.Round(1)} {
			try(q, "if "+q.String()+" "+l.Unit+" are priced, not "+l.Quantity.Round(3).String())
		}
	case "day":
		for _, n := range dayOffsets {
			q := l.Quantity.Add(decimal.NewFromInt(int64(n)))
			try(q, "if it is for "+q.String()+" days, not "+l.Quantity.String())
		}
	case "month", "period":
		r.months(l, try)
	}
	return append(fits, r.withTax(l, p.Printed)...)
}

var dayOffsets = []int{-1, 1, -2, 2}

// months tries the ways to count months of a charge.
func (r *rebuild) months(l tariff.Line, try func(decimal.Decimal, string)) {
	days := int64(r.b.Usage.Span.Days())
	try(decimal.NewFromInt(1), "if it is charged once and whole")
	offsets := []int64{0, -1, 1, -2, 2}
	if r.areDaysRight() {
		offsets = offsets[:1]
	}
	for _, n := range offsets {
		d := decimal.NewFromInt(days + n)
		count := figure.Counted(int(days+n), "day", "days")
		try(d.DivRound(decimal.NewFromInt(30), fine), "if it is for "+count+" in months of 30")
		try(d.Mul(decimal.NewFromInt(12)).DivRound(decimal.NewFromInt(365), fine), "if it is for "+count+" at a twelfth of 365 a month")
		if n != 0 && days > 0 {
			try(l.Quantity.Mul(d).DivRound(decimal.NewFromInt(days), fine), "if it is for "+count+", not "+decimal.NewFromInt(days).String())
		}
	}
}

// areDaysRight says whether a charge by the day shows that the days are right.
func (r *rebuild) areDaysRight() bool {
	return slices.ContainsFunc(r.out.Pairs, func(p Pair) bool {
		return p.IsEqual && !p.Printed.IsZero() && r.out.Lines[p.Line].Unit == "day"
	})
}

// fine are the places of quotients, as the tariff has them.
const fine = 24
