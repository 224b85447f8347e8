package account

import (
	"strconv"
	"strings"

	"github.com/shopspring/decimal"

	"splittally/calc/billing"
	"splittally/calc/number"
	"splittally/calc/remark"
)

// Uses is what a bill prints of its time-of-use periods.
type Uses struct {
	// Shares are the portions of the billed energy, by the names of the periods
	// as the tariff has them; nil if the bill prints none, or one can't be used.
	Shares   map[string]decimal.Decimal
	Problems []remark.Problem
	Notices  []remark.Notice
}

// ReadUses reads the kWh that a bill prints for each of its time-of-use periods.
// periods are the names that the tariff has. What can't be used is told, and the
// shares are then left to be assumed.
//
// A text as "1,592" is the highest number that the billed kWh can hold. If not
// all periods are printed the others share what is left; else the shares are of
// the sum, which is told if it is not what was billed.
func ReadUses(path string, typed []billing.Line, periods []string, billed decimal.Decimal) (u Uses) {
	kWh, total, ok := map[string]decimal.Decimal{}, decimal.Zero, true
	for i, l := range typed {
		if number.IsBlank(l.Amount) {
			continue
		}
		at := path + ".uses." + strconv.Itoa(i)
		value, isEnergy := useOf(l.Amount, billed)
		if !isEnergy {
			u.Problems = append(u.Problems, remark.Problem{Path: at + ".amount", Found: l.Amount, Wanted: "energy in kWh, such as 121"})
		}
		name, isPeriod := periodOf(l.Name, periods)
		if !isPeriod && len(periods) > 0 {
			u.Problems = append(u.Problems, remark.Problem{Path: at + ".name", Found: l.Name, Wanted: "a time-of-use period of the tariff: " + strings.Join(periods, ", ")})
		}
		ok = ok && isEnergy && isPeriod
		kWh[name] = kWh[name].Add(value)
		total = total.Add(value)
	}
	if !ok || !total.IsPositive() {
		return u
	}
	whole := total
	if len(kWh) < len(periods) && total.LessThan(billed) {
		whole = billed
	} else if slack := decimal.NewFromInt(int64(len(kWh))); total.Sub(billed).Abs().GreaterThan(slack) {
		u.Notices = append(u.Notices, remark.Notice{Code: "uses-differ", Path: path + ".uses", Text: "The kWh of the time-of-use periods add up to " +
			total.String() + ", not to the " + billed.Round(3).String() + " billed. They are taken in their proportion."})
	}
	u.Shares = map[string]decimal.Decimal{}
	for name, value := range kWh {
		u.Shares[name] = value.DivRound(whole, fine)
	}
	return u
}

// useOf reads an energy in kWh.
func useOf(typed string, billed decimal.Decimal) (value decimal.Decimal, ok bool) {
	for _, w := range number.Readings(strings.TrimSuffix(strings.ToLower(number.Trim(typed)), "kwh")) {
		if !w.Value.IsNegative() && (!ok || w.Value.GreaterThan(value) && w.Value.LessThanOrEqual(billed.Add(decimal.NewFromInt(1)))) {
			value, ok = w.Value, true
		}
	}
	return value, ok
}

// periodOf gives the name as the tariff has it.
func periodOf(typed string, periods []string) (string, bool) {
	for _, name := range periods {
		if fold(name) == fold(typed) {
			return name, true
		}
	}
	return number.Trim(typed), false
}
