package say

import (
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Place names the field of a path, such as "Bill 2, energy billed" for
// "periods.1.kwh".
func Place(path string) string {
	if path == "" {
		return ""
	}
	steps := strings.Split(path, ".")
	words := map[string]string{
		"monitors": "Monitor", "periods": "Bill", "legs": "Leg", "checks": "Leg checks", "lines": "Between the lines", "amps": "current pair", "steps": "load step", "price": "Price",
		"meter": "The meter", "confidence": "Intervals", "pairs": "pair",
	}
	var out []string
	for _, step := range steps {
		n, err := strconv.Atoi(step)
		switch {
		case err == nil && len(out) > 0:
			out[len(out)-1] += " " + strconv.Itoa(n+1)
		case step == "checks" && len(steps) > 2:
		case words[step] != "":
			out = append(out, words[step])
		case fieldWords[step] != "":
			out = append(out, fieldWords[step])
		default:
			out = append(out, step)
		}
	}
	place := strings.Join(out, ", ")
	first, size := utf8.DecodeRuneInString(place)
	return string(unicode.ToUpper(first)) + place[size:]
}

// fieldWords names fields that a path's last step does not name well.
var fieldWords = map[string]string{
	"kwh": "energy billed", "days": "days printed", "readings": "daily totals", "per-kwh": "price per kWh",
	"previous": "previous read", "present": "present read", "digits": "digits", "loss-factor": "loss factor",
	"loss-included": "losses included", "read-hour": "hour of the read", "convention": "which dates belong",
	"reference": "reference instrument", "monitor": "monitor’s value", "voltmeter": "multimeter", "clampmeter": "clamp meter", "plugmeter": "plug-in meter", "setting": "setting", "apart": "energy on other circuits", "class": "accuracy", "today": "last edited", "title": "title", "note": "notes", "fixed": "fixed charge",
}
