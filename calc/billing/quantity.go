package billing

import (
	"math"
	"strings"

	"github.com/shopspring/decimal"

	"splittally/calc/energy"
	"splittally/calc/number"
	"splittally/calc/remark"
)

// usualPerDay is a middling home's use in kWh a day, to tell 1234 from 1.234;
// mostPerDay is more than a home's connection is likely to carry day after day.
// (Common practice, no source.)
const (
	usualPerDay = 20
	mostPerDay  = 400
)

// quantity is a number as typed: the value and one step of its last digit.
type quantity struct {
	value, step decimal.Decimal
	places      int32
	grouped     bool
}

// quantities gives every way to read an energy in kWh, with its unit if one
// is written.
func quantities(text string) []quantity {
	plain, unit := cutUnit(text)
	var all []quantity
	for _, r := range number.Readings(plain) {
		all = append(all, quantity{
			value: r.Value.Shift(unit), step: decimal.New(1, unit-r.Places),
			places: r.Places, grouped: r.Group != 0,
		})
	}
	return all
}

// cutUnit takes the unit of energy off the end and gives its power of ten
// against the kilowatt-hour.
func cutUnit(text string) (plain string, power int32) {
	text = number.Trim(text)
	for _, u := range []struct {
		name  string
		power int32
	}{{"kwh", 0}, {"mwh", 3}, {"wh", -3}} {
		if n := len(text) - len(u.name); n >= 0 && strings.EqualFold(text[n:], u.name) {
			return number.Trim(text[:n]), u.power
		}
	}
	return text, 0
}

// perDay spreads an energy in kWh over the days of the bill, or over 30 while
// its dates are not known.
func (b *bill) perDay(kWh decimal.Decimal) float64 {
	days := 30
	if b.says.Dated {
		days = b.says.Days()
	}
	return kWh.InexactFloat64() / float64(days)
}

// oddness tells how far an amount per day is from a home's usual one, in
// powers of ten.
func oddness(perDay float64) float64 {
	if perDay <= 0 {
		return math.Inf(1)
	}
	return math.Abs(math.Log10(perDay / usualPerDay))
}

// doubt is a number that can be read in more than one way.
type doubt struct {
	field, what, typed string
	ways               []quantity
	odd                func(quantity) float64 // ranks them, the smaller the likelier
	gives              func(quantity) string  // what each would give
}

// choose settles a doubt. The question's choices are named by their values, so
// that an answer does not outlive the text it was given for.
func (s *sheet) choose(b *bill, d doubt) quantity {
	if len(d.ways) == 1 {
		return d.ways[0]
	}
	q := remark.Question{
		ID:   s.field(b, d.field),
		Path: s.field(b, d.field),
		Asks: "Is the " + d.what + " “" + strings.TrimSpace(d.typed) + "” " + d.ways[0].value.String() + " or " + d.ways[1].value.String() + "?",
		Why:  "The mark can stand before the decimals or between the thousands.",
	}
	best := d.ways[0]
	for _, w := range d.ways {
		label := "the mark stands before the decimals"
		if w.grouped {
			label = "the mark stands between the thousands"
		}
		q.Choices = append(q.Choices, remark.Choice{ID: w.value.String(), Label: w.value.String() + ": " + label, Gives: d.gives(w)})
		if d.odd(w) < d.odd(best) {
			best = w
		}
	}
	taken := s.ask(q, best.value.String())
	for _, w := range d.ways {
		if w.value.String() == taken {
			best = w
		}
	}
	return best
}

// toEnergy gives kWh as an Energy; ok is false for what is not above 0 or out
// of range, and then a problem stands at the field.
func (s *sheet) toEnergy(b *bill, field, found string, kWh decimal.Decimal) (energy.Energy, bool) {
	e, _, err := energy.FromDecimal(kWh, energy.KilowattHour)
	if err != nil && kWh.IsPositive() {
		s.problem(b, field, found, "the energy of a home, such as 412 kWh")
		return 0, false
	}
	if err != nil || e <= 0 {
		s.problem(b, field, found, "an energy above 0, such as 412 kWh: no percentage can be formed against less")
		return 0, false
	}
	return e, true
}

// roundedEnergy gives kWh as an Energy where range has been seen to; 0 if not.
func roundedEnergy(kWh decimal.Decimal) energy.Energy {
	e, _, err := energy.FromDecimal(kWh, energy.KilowattHour)
	if err != nil {
		return 0
	}
	return e
}
