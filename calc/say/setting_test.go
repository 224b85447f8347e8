package say

import (
	"strings"
	"testing"

	"github.com/shopspring/decimal"

	"splittally/calc/cause"
	"splittally/calc/correct"
)

var (
	fromBills = correct.Correction{Basis: correct.FromBills, Factor: 0.97843, Expanded: 0.0112, Significant: true, Settings: []correct.Setting{{Factor: 0.97843, Expanded: 0.0112}}}
	// The legs are off, each more than its check can err, and the whole is not.
	offLegs  = correct.Correction{Basis: correct.FromChecks, Factor: 1.001, Expanded: 0.01, Settings: []correct.Setting{{Factor: 1.03, Expanded: 0.01}, {Factor: 0.97, Expanded: 0.01}, {Factor: 1.001, Expanded: 0.01}}}
	fineLegs = correct.Correction{Basis: correct.FromChecks, Factor: 1.001, Expanded: 0.01, Settings: []correct.Setting{{Factor: 1.002, Expanded: 0.01}}}
)

func TestMultiply(t *testing.T) {
	check(t, Multiply(fromBills), "Multiply its energy by 0.978 ± 0.011.")
	check(t, Multiply(fineLegs), "Multiply its energy by 1.001 ± 0.010. The interval holds 1: for the home as a whole nothing needs setting on this ground.")
}

var gains, offset, chance = cause.Explanation{ID: cause.Gain, Sets: true}, cause.Explanation{ID: cause.Offset, Name: "A constant power"}, cause.Explanation{ID: cause.Chance}

func weighed(asserted bool, open int, causes ...cause.Explanation) cause.Weighed {
	return cause.Weighed{Done: true, Asserted: asserted, Open: open, Causes: causes}
}

// A gain is not offered for what no gain mends, nor while it may be none; and
// "nothing shows" is not said beside legs that show something.
func TestReserve(t *testing.T) {
	for _, c := range []struct {
		w    cause.Weighed
		legs correct.Correction
		want string
	}{
		{cause.Weighed{}, offLegs, ""},
		{weighed(true, 1, gains, offset), offLegs, ""},
		{weighed(false, 2, gains, cause.Explanation{ID: cause.Legs, Sets: true}, offset), fineLegs, ""},
		{weighed(false, 2, gains, offset), fineLegs, "wait with the setting"},
		{weighed(false, 1, cause.Explanation{ID: cause.Other}), fineLegs, "wait with the setting"},
		{weighed(true, 1, offset, gains), fineLegs, "“A constant power”. A changed gain is not the remedy for that."},
		{weighed(true, 1, offset, gains), offLegs, "a second matter"},
		{weighed(true, 1, chance, gains), fineLegs, "Nothing shows that anything has to be set"},
		{weighed(true, 1, chance, gains), offLegs, "but the checks at the legs do"},
		{weighed(false, 2, chance, gains), offLegs, "but the checks at the legs do"},
	} {
		if got := Reserve(c.w, []correct.Correction{fromBills, c.legs}); !strings.Contains(got, c.want) || (c.want == "") != (got == "") {
			t.Errorf("Reserve(%+v) = %q, want it to say %q", c.w, got, c.want)
		}
	}
}

func TestNoRemedy(t *testing.T) {
	far, farLeg := fromBills, offLegs
	far.Factor = 0.79
	farLeg.Settings = []correct.Setting{{Factor: 1.26}}
	for _, c := range []struct {
		name string
		w    cause.Weighed
		c    correct.Correction
		want string
	}{
		{"a gain", weighed(true, 1, gains), fromBills, ""},
		{"not weighed", cause.Weighed{}, fromBills, ""},
		{"not settled", weighed(false, 2, offset, gains), fromBills, ""},
		{"an offset", weighed(true, 1, offset, gains), fromBills, "not the remedy here"},
		{"chance", weighed(true, 1, chance), fromBills, "not the remedy here"},
		{"an offset, and legs that are right", weighed(true, 1, offset), fineLegs, "not the remedy here"},
		{"an offset, and legs that are off", weighed(true, 1, offset), offLegs, ""},
		{"far off", weighed(true, 1, gains), far, "not the remedy for so much"},
		{"a leg far off", cause.Weighed{}, farLeg, "not the remedy for so much"},
	} {
		if got := NoRemedy(c.w, c.c); !strings.Contains(got, c.want) || (c.want == "") != (got == "") {
			t.Errorf("%s: %q, want it to say %q", c.name, got, c.want)
		}
	}
}

func TestSettingFigures(t *testing.T) {
	d := decimal.RequireFromString
	s := correct.Setting{Old: d("1.00"), New: d("0.98"), Inverse: d("1.0200"), Step: d("0.001")}
	check(t, Old(s)+" "+Set(s, s.New)+" "+Inverse(s), "1.00 0.980 1.020")
	s = correct.Setting{Old: d("-100"), New: d("-98.5"), Inverse: d("-101.5"), Step: d("0.1"), Unit: "%"}
	check(t, Old(s)+"; "+Set(s, s.New)+"; "+Inverse(s), "−100 %; −98.5 %; −101.5 %")
	s = correct.Setting{Old: d("1.000"), New: d("1"), Inverse: d("1"), Step: d("0.001")}
	check(t, Inverse(s), "") // there is nothing to set
}

func TestJudged(t *testing.T) {
	check(t, Judged(correct.Judged{Period: 1}), "bill 2")
	check(t, Judged(correct.Judged{Period: 1, With: []int{2, 3}}), "bills 2, 3 and 4 together")
	c := correct.Correction{Found: []int{1}}
	check(t, NoTest(c, correct.Judged{Period: 1, HeldOut: true}), "")
	check(t, NoTest(c, correct.Judged{Period: 1}), "no test: found on it")
	check(t, NoTest(c, correct.Judged{Period: 2}), "no test")
}
