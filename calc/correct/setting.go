package correct

import (
	"math"
	"strings"

	"github.com/shopspring/decimal"

	"splittally/calc/figure"
	"splittally/calc/number"
	"splittally/calc/remark"
	"splittally/calc/uncertainty"
)

// assumedSetting is what stands where nobody typed a setting: no correction yet.
const assumedSetting = "1.000"

// stepsLeast is how many steps a setting is long at least, so that rounding to
// half a step moves the energy by no more than 0.1 %.
const stepsLeast = 500

// old is a setting as typed.
type old struct {
	value     decimal.Decimal
	places    int32 // decimals as typed; negative if an exponent hides digits
	unit      string
	isAssumed bool
}

// readSetting reads a setting such as "1.000", "0,985", "1500" or "100 %". A
// text that could be a thousand or a one with decimals is read as the latter:
// the new setting has the same digits either way. Blank is 1.000, assumed, and
// so is, beside a problem, what is not a number other than 0.
func readSetting(t Typed) (old, *remark.Problem) {
	bare, percent := strings.CutSuffix(number.Trim(t.Text), "%")
	ways := number.Readings(bare)
	if len(ways) > 0 && !ways[0].Value.IsZero() {
		o := old{value: ways[0].Value, places: ways[0].Places}
		if percent {
			o.unit = "%"
		}
		return o, nil
	}
	one := old{value: decimal.RequireFromString(assumedSetting), places: 3, isAssumed: true}
	if number.IsBlank(t.Text) {
		return one, nil
	}
	return one, &remark.Problem{Path: t.Path, Found: t.Text, Wanted: "the setting as the monitor shows it, a number such as 1.000 or 100 %"}
}

// set adds a setting to change. New is rounded half away from zero to the
// digits that were typed, or, where those are coarser than the setting's
// 500th part, to the next power of ten that is not.
func (c *Correction) set(name string, t Typed, factor ratio, expanded float64) {
	o, problem := readSetting(t)
	if problem != nil {
		c.Problems = append(c.Problems, *problem)
	}
	places := o.places
	for decimal.New(stepsLeast, -places).GreaterThan(o.value.Abs()) {
		places++
	}
	s := Setting{
		Name: name, Old: o.value, Unit: o.unit, IsAssumed: o.isAssumed,
		Factor: factor.float(), Expanded: expanded,
		New:     o.value.Mul(factor.num).DivRound(factor.den, places),
		Inverse: o.value.Mul(factor.den).DivRound(factor.num, places),
		Step:    decimal.New(1, -places),
		Coarse:  o.value.Mul(factor.num).DivRound(factor.den, o.places),
	}
	s.Rounded = over(s.New, o.value)
	s.IsFiner, s.CoarseRounded = places > o.places, over(s.Coarse, o.value)
	c.Settings = append(c.Settings, s)
}

// over is a/b, to 15 decimals.
func over(a, b decimal.Decimal) float64 { return a.DivRound(b, 15).InexactFloat64() }

// Places is how many decimals New and Inverse are shown with.
func (s Setting) Places() int32 { return max(0, -s.Step.Exponent()) }

// Words say what to set, and what is lost by rounding: one or two sentences.
func (s Setting) Words() string {
	show := func(d decimal.Decimal, places int32) string {
		text := strings.Replace(d.StringFixed(max(0, places)), "-", figure.Minus, 1)
		if s.Unit != "" {
			text += figure.Thin + s.Unit
		}
		return text
	}
	typed := -s.Old.Exponent()
	if s.New.Equal(s.Old) {
		return "Leave it at " + show(s.Old, typed) + ": one step of " + show(s.Step, s.Places()) + " would move it further than it is off."
	}
	text := "Set " + show(s.New, s.Places()) + " instead of " + show(s.Old, typed)
	if s.IsAssumed {
		text += " (assumed)"
	}
	text += "; rounding it changes the energy by " + percent(s.Rounded/s.Factor) + "."
	switch {
	case !s.IsFiner:
		return text
	case s.Coarse.IsZero() || s.Coarse.Equal(s.Old):
		return text + " A setting that takes no more digits than were typed is too coarse for this."
	}
	return text + " If it takes no more digits than were typed, set " + show(s.Coarse, typed) + ", which changes it by " + percent(s.CoarseRounded/s.Factor) + "."
}

// percent shows how far a factor is from 1.
func percent(factor float64) string { return figure.Percent(figure.Fixed(100*(factor-1), 2)) }

// times shows a factor and its uncertainty.
func times(factor, expanded float64) string {
	if math.IsInf(expanded, 0) || math.IsNaN(expanded) || expanded == 0 {
		return decimal.NewFromFloat(factor).StringFixed(4)
	}
	value, _ := uncertainty.Show(factor, expanded)
	return value + figure.PlusMinus + figure.Interval(expanded)
}

// Factors beyond these are further off than a setting is likely to be.
const (
	largeLow  = 0.8
	largeHigh = 1.25
)

func (c *Correction) noticeLarge(path string) {
	if c.Factor >= largeLow && c.Factor <= largeHigh {
		return
	}
	c.Notices = append(c.Notices, remark.Notice{
		Code: "correction-large", Path: path,
		Text: "A factor of " + times(c.Factor, c.Expanded) + " is further from 1 than a setting is likely to be. Look for the cause first: a setting would only hide a clamp, a leg or a unit that is wrong.",
	})
}
