// Package figure writes numbers for people, once, for every room that has
// something to say: a true minus, no more digits than an uncertainty allows,
// and blanks that no line breaks at.
package figure

import (
	"math"
	"strconv"
	"strings"

	"splittally/calc/uncertainty"
)

// Signs of numbers, none of which lets a line break within a figure.
const (
	Minus     = "−"
	Thin      = "\u202f"        // the blank before a unit
	PlusMinus = "\u00a0±\u00a0" // between a value and its interval
)

// Signed gives a value with its sign always shown, a true minus, and as many
// digits as its uncertainty allows: "+2.31", "−0.40".
func Signed(value, u float64) string {
	text, _ := uncertainty.Show(value, u)
	return sign(text)
}

// Fixed gives a signed value with a fixed number of decimals.
func Fixed(value float64, places int) string {
	return sign(strconv.FormatFloat(value, 'f', places, 64))
}

func sign(text string) string {
	bare := strings.TrimPrefix(text, "-")
	switch {
	case strings.Trim(bare, "0.") == "":
		return bare // nothing is left of it after rounding
	case bare != text:
		return Minus + bare
	}
	return "+" + text
}

// Interval gives an uncertainty for show, without its sign: "1.1".
func Interval(u float64) string {
	if math.IsInf(u, 0) || math.IsNaN(u) {
		return "unknown"
	}
	_, text := uncertainty.Show(0, u)
	return text
}

// Degrees gives degrees of freedom for show: past a thousand they change nothing.
func Degrees(dof float64) string {
	if dof > 1000 {
		return "over 1000"
	}
	return strconv.FormatFloat(dof, 'f', 1, 64)
}

// Chance gives the probability p of a test for show: "p = 0.773".
func Chance(p float64) string {
	if p < 0.001 {
		return "p < 0.001"
	}
	return "p = " + strconv.FormatFloat(p, 'f', 3, 64)
}

// Counted gives a number of things: "1 day", "3 days".
func Counted(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return strconv.Itoa(n) + " " + many
}

// Plain gives a number of fixed decimals without a plus.
func Plain(value float64, places int) string { return strings.TrimPrefix(Fixed(value, places), "+") }

// Percent puts the sign behind a number: "3.1 %".
func Percent(number string) string { return number + Thin + "%" }

// Error gives a percentage error with its interval: "+2.3 % ± 1.1 %".
func Error(percent, u float64) string {
	return Percent(Signed(percent, u)) + PlusMinus + Percent(Interval(u))
}

// Listed joins names: "1", "1 and 2", "1, 2 and 4".
func Listed(names []string) string {
	last := len(names) - 1
	if last < 1 {
		return strings.Join(names, "")
	}
	return strings.Join(names[:last], ", ") + " and " + names[last]
}

// Between gives a value with its interval and unit, no plus: "3.1 % ± 0.4 %".
func Between(value, u float64, unit string) string {
	return strings.TrimPrefix(Signed(value, u), "+") + Thin + unit + PlusMinus + Interval(u) + Thin + unit
}
