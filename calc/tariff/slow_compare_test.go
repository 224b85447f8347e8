package tariff_test

import (
	"fmt"
	"math/big"
	"strings"

	"github.com/shopspring/decimal"

	"splittally/calc/tariff"
)

// kWhPlaces is how far energies are compared that don't end as decimals, such
// as a third of an hour's. Money is compared to the last digit.
const kWhPlaces = 12

// differences says in words where the tariff's bill is not the slow one's.
func differences(s tariff.Schedule, u tariff.Usage) []string {
	built := tariff.Build(s, tariff.Options{})
	if t := built.Tariff; !t.Given || len(built.Problems) > 0 || len(built.Questions) > 0 {
		return []string{fmt.Sprintf("not read: %q %v %v", t.Waits, built.Problems, built.Questions)}
	}
	return compared(s, u, built.Tariff.Price(u), int(built.Tariff.Places()))
}

func compared(s tariff.Schedule, u tariff.Usage, got tariff.Priced, places int) []string {
	slow := reckon(s, u, places, assumed)
	want := slow.bill
	var d differ
	d.lines(got, want)
	d.uses(s, got, want)
	d.money("total", got.Total, want.total)
	d.money("tax", got.Tax, want.tax)
	d.energy("carry", got.Carry, slow.carry)
	if len(got.Skipped) != len(want.skipped) {
		d.add("%d rows skipped, want %d", len(got.Skipped), len(want.skipped))
	}
	if got.IsAssumed != slow.vague {
		d.add("assumed %v, want %v", got.IsAssumed, slow.vague)
	}
	if slow.vague {
		d.money("least", got.Least, reckon(s, u, places, cheapest).bill.total)
		d.money("most", got.Most, reckon(s, u, places, dearest).bill.total)
	}
	return d.found
}

type differ struct{ found []string }

func (d *differ) add(format string, args ...any) {
	d.found = append(d.found, fmt.Sprintf(format, args...))
}

func (d *differ) money(what string, got decimal.Decimal, want *big.Rat) {
	if got.Rat().Cmp(want) != 0 {
		d.add("%s = %s, want %s", what, got, want.FloatString(6))
	}
}

func (d *differ) energy(what string, got decimal.Decimal, want *big.Rat) {
	if g := got.StringFixed(kWhPlaces); g != want.FloatString(kWhPlaces) {
		d.add("%s = %s kWh, want %s", what, g, want.FloatString(kWhPlaces))
	}
}

// lines compares the amounts that aren't 0, in the order of the bill.
func (d *differ) lines(got tariff.Priced, want slowBill) {
	var amounts, wanted []string
	for _, l := range got.Lines {
		if !l.Amount.IsZero() {
			amounts = append(amounts, l.Amount.StringFixed(6))
		}
	}
	for _, l := range want.lines {
		if l.shown.Sign() != 0 {
			wanted = append(wanted, l.shown.FloatString(6))
		}
	}
	if g, w := strings.Join(amounts, " "), strings.Join(wanted, " "); g != w {
		d.add("lines %s\n\t want %s", g, w)
	}
}

// uses compares the energy of tiers and time-of-use periods.
func (d *differ) uses(s tariff.Schedule, got tariff.Priced, want slowBill) {
	var energies, wanted []string
	for _, use := range got.Uses {
		if kind := tariff.Kind(s.Rows[use.Row].Kind); !use.KWh.IsZero() && (kind == tariff.Tiers || kind == tariff.Times) {
			energies = append(energies, fmt.Sprintf("%d:%s", use.Row, use.KWh.StringFixed(kWhPlaces)))
		}
	}
	for _, use := range want.uses {
		if use.kWh.Sign() != 0 {
			wanted = append(wanted, fmt.Sprintf("%d:%s", use.row, use.kWh.FloatString(kWhPlaces)))
		}
	}
	if g, w := strings.Join(energies, " "), strings.Join(wanted, " "); g != w {
		d.add("uses %s\n\t want %s", g, w)
	}
}
