package say

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"github.com/shopspring/decimal"

	"splittally/calc/account"
	"splittally/calc/tariff"
)

// Apart writes how far two amounts are apart, printed less computed.
func Apart(off decimal.Decimal, c tariff.Currency) string {
	if off.IsZero() {
		return "the same"
	}
	return Plus(off, c)
}

// Plus writes an amount with its sign always shown.
func Plus(amount decimal.Decimal, c tariff.Currency) string {
	if amount.Round(c.Places()).IsPositive() {
		return "+" + c.Text(amount)
	}
	return c.Text(amount)
}

// Worth writes an amount of money with its sign and its interval.
func Worth(value, expanded float64, c tariff.Currency) string {
	digits := c
	digits.Code = ""
	within := "unknown"
	if isNumber(expanded) {
		within = c.Text(decimal.NewFromFloat(expanded))
	}
	if !isNumber(value) {
		value = 0
	}
	return Plus(decimal.NewFromFloat(value), digits) + PlusMinus + within
}

func isNumber(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }

// Reckoned says what a line is reckoned with: "600 kWh × 0.12". It is empty
// where the amount itself says all.
func Reckoned(l tariff.Line, c tariff.Currency) string {
	one := decimal.NewFromInt(1)
	quantity := Number(l.Quantity.Round(4))
	switch {
	case l.Unit == "" && l.Rate.Equal(one), l.Unit == "period" && l.Quantity.Equal(one):
		return ""
	case l.Unit == "":
		return Number(l.Rate.Shift(2)) + Thin + "% of " + c.Text(l.Quantity)
	case l.Unit == "day" || l.Unit == "month" || l.Unit == "period":
		return quantity + " × " + Number(l.Rate) + " per " + l.Unit
	}
	return quantity + Thin + l.Unit + " × " + Number(l.Rate)
}

// ReckonedPair says how the computed amount of a pair of a bill came about.
func ReckonedPair(a account.Account, p account.Pair) string {
	switch {
	case len(p.Lines) > 1:
		return strconv.Itoa(len(p.Lines)) + " lines of the tariff"
	case p.Line >= 0 && p.Line < len(a.Lines):
		return Reckoned(a.Lines[p.Line], a.Currency)
	}
	return ""
}

// Number writes a decimal with a true minus.
func Number(d decimal.Decimal) string { return strings.Replace(d.String(), "-", Minus, 1) }

// AssumedHours says what a bill could come to if hours of use are assumed; it is
// empty if they are not.
func AssumedHours(p tariff.Priced) string {
	if !p.IsAssumed {
		return ""
	}
	return "The readings do not tell these hours. If all that is assumed fell into the cheapest period, or all into the dearest, the bill would come to " +
		p.Currency.Text(p.Least) + " or " + p.Currency.Text(p.Most) + "."
}

// TaxIn tells what of a total is tax; it is empty if nothing is, or if one line
// tells it.
func TaxIn(p tariff.Priced) string {
	isLine := func(l tariff.Line) bool { return l.Unit == "" && l.Amount.Equal(p.Tax) }
	if p.Tax.IsZero() || slices.ContainsFunc(p.Lines, isLine) {
		return ""
	}
	return "Tax in the total: " + p.Currency.Text(p.Tax) + "."
}

// Netting tells what energy sent out does to a bill; it is empty if it does
// nothing.
func Netting(p tariff.Priced) string {
	said := ""
	for _, u := range p.Uses {
		if u.KWh.IsNegative() {
			said = u.KWh.Neg().Round(2).String() + Thin + "kWh that were sent out are taken off what was drawn. "
		}
	}
	if p.Carry.IsPositive() {
		said += p.Carry.Round(2).String() + Thin + "kWh are carried over to the next bill."
	}
	return strings.TrimSpace(said)
}

// Marginal tells the price of one kWh more.
func Marginal(w account.Worth) string { return Number(w.Marginal.Round(6)) }

// WorthMeans says how to read what a disagreement is worth.
const WorthMeans = "A plus: the bill would be higher by the monitor’s figures than by the meter’s. Each kWh counts at what one more would have cost in that bill, tiers and taxes included."

// AcrossEdge stands where a tier or a minimum ends between the two energies.
const AcrossEdge = "A tier or a minimum ends between the two figures, so that no one price holds: the difference of the two bills is taken."

// InCommon gives the words that are said of every tariff, so that they are said
// once; of a single tariff nothing is.
func InCommon(list []account.Choice) (common []string) {
	if len(list) < 2 {
		return nil
	}
	for _, words := range list[0].Words {
		isOfAll := true
		for _, c := range list[1:] {
			isOfAll = isOfAll && slices.Contains(c.Words, words)
		}
		if isOfAll {
			common = append(common, words)
		}
	}
	return common
}
