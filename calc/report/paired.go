package report

import (
	"fmt"
	"strings"

	"splittally/calc"
	"splittally/calc/say"
)

// metered holds the meter's own days against its bills.
func (r *writer) metered() {
	m := r.f.Metered
	if !r.f.IsMetered {
		return
	}
	r.section("The meter’s own days beside its bills")
	r.text("", m.Words)
	for _, f := range m.Found {
		r.text("", f.Words)
	}
	for _, b := range m.Bills {
		apart := ""
		if b.Missing == 0 {
			apart = fmt.Sprintf(", its own days %s kWh, apart %s kWh", minus(b.Metered.Text(3)), say.Fixed(b.Differs.KilowattHours(), 3))
		}
		r.line("   bill %d, %s: billed %s kWh%s: %s", b.Index+1, b.Span, minus(b.Billed.Decimal().String()), apart, say.MeteredBill(b))
	}
}

// paired tells of an instrument beside the meter, day by day.
func (r *writer) paired(i *calc.Instrument) {
	if !i.IsPaired {
		return
	}
	r.section(i.Name + ": day by day beside the meter")
	for _, s := range say.Paired(i.Name, i.Paired) {
		r.text("", s)
	}
	for _, o := range i.Paired.Odd {
		r.text("   "+o.Day.Day.Long()+": ", fmt.Sprintf("monitor %s kWh, meter %s kWh, usual %s%s%s kWh: %s",
			minus(o.Monitor.Text(2)), minus(o.Meter.Text(2)), say.Plain(o.Expected, 2), say.PlusMinus, say.Interval(o.Limit), say.OddDay(o)))
	}
}

func minus(number string) string {
	if rest, below := strings.CutPrefix(number, "-"); below {
		return say.Minus + rest
	}
	return number
}
