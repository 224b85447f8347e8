package figure

import (
	"math"
	"strconv"
)

// Clock writes seconds as minutes and seconds with so many decimals, "2:05.4".
// Hours are minutes too: nothing that is timed takes many.
func Clock(seconds float64, places int) string {
	if !(math.Abs(seconds) < 1e9) {
		return "unknown"
	}
	before := ""
	if seconds < 0 {
		before = Minus
	}
	unit := int64(math.Pow10(places))
	all := int64(math.Round(math.Abs(seconds) * float64(unit)))
	if all == 0 {
		before = ""
	}
	rest := strconv.FormatFloat(float64(all%(60*unit))/float64(unit), 'f', places, 64)
	if all%(60*unit) < 10*unit {
		rest = "0" + rest
	}
	return before + strconv.FormatInt(all/(60*unit), 10) + ":" + rest
}
