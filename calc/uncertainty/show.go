package uncertainty

import (
	"math"
	"strconv"
	"strings"
)

// Places gives the decimal place to which an uncertainty is rounded for show:
// two significant digits (JCGM 100:2008 7.2.6 calls at most two enough). It is
// 2 for 0.0996, which shows as 0.10, and -1 for 123, which shows as 120. known
// is false if u is 0 or not finite, as no digits follow from that.
func Places(u float64) (places int, known bool) {
	if u == 0 || math.IsNaN(u) || math.IsInf(u, 0) {
		return 0, false
	}
	// The rounding may carry into a new digit, so it goes first.
	text := strconv.FormatFloat(math.Abs(u), 'e', 1, 64)
	exponent, _ := strconv.Atoi(text[strings.IndexByte(text, 'e')+1:])
	return 1 - exponent, true
}

// Show rounds an uncertainty to two significant digits and the value to the
// same place (JCGM 100:2008 7.2.2 and 7.2.6), such as "2.30" and "0.15". It is
// for show only and the last step: never calculate with it. Both are rounded
// to the nearest, a half to the even digit (ISO 80000-1 annex B, rule A, from
// memory); an uncertainty is not rounded up on principle.
//
// An uncertainty of 0 shows the value with two decimals; one that is infinite
// or no number shows as "unknown".
func Show(value, u float64) (valueText, uText string) {
	places, known := Places(u)
	switch {
	case known:
		return fixed(value, places), fixed(math.Abs(u), places)
	case u == 0:
		return fixed(value, 2), "0"
	}
	return fixed(value, 2), "unknown"
}

// fixed writes x rounded to the place, which may be left of the point, without
// a sign on a zero.
func fixed(x float64, places int) string {
	if places < 0 {
		unit := math.Pow(10, float64(-places))
		x, places = math.RoundToEven(x/unit)*unit, 0
	}
	text := strconv.FormatFloat(x, 'f', places, 64)
	if strings.Trim(text, "-0.") == "" {
		text = strings.TrimPrefix(text, "-")
	}
	return text
}
