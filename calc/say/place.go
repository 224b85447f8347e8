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
	if path == "meter.readings" {
		return "The meter’s daily figures"
	}
	steps := strings.Split(path, ".")
	var out []string
	list := "" // the list that a number or field is of
	for _, step := range steps {
		n, err := strconv.Atoi(step)
		switch {
		case err == nil && len(out) > 0 && list == "lines" && steps[0] == "checks":
			out = append(out, "pair "+strconv.Itoa(n+1))
		case err == nil && len(out) > 0:
			out[len(out)-1] += " " + strconv.Itoa(n+1)
		case step == "checks" && len(steps) > 2:
		case step == "reference" && list == "amps":
			out = append(out, "clamp meter")
		case moneyWords[steps[0]][step] != "":
			out = append(out, moneyWords[steps[0]][step])
		case placeWords[step] != "":
			out = append(out, placeWords[step])
		default:
			out = append(out, step)
		}
		if err != nil {
			list = step
		}
	}
	place := strings.Join(out, ", ")
	first, size := utf8.DecodeRuneInString(place)
	return string(unicode.ToUpper(first)) + place[size:]
}

// placeWords names groups, lists and fields whose name in a path is not the
// word that the page has for them.
var placeWords = map[string]string{
	// groups and lists
	"monitors": "Monitor", "periods": "Bill", "meter": "The meter", "price": "Price", "confidence": "Intervals",
	"checks": "Leg checks", "legs": "Leg", "lines": "between the lines",
	"pairs": "pair", "amps": "current pair", "steps": "load step",
	"voltmeter": "multimeter", "clampmeter": "clamp meter", "plugmeter": "plug-in meter",
	// of a bill
	"kwh": "energy billed", "days": "days printed", "previous": "previous read", "present": "present read",
	"loss-factor": "loss factor", "loss-included": "losses included", "read-hour": "hour of the read",
	"convention": "which dates belong", "apart": "energy on other circuits", "produced": "solar produced",
	"exported": "energy exported",
	// of the checks
	"reference": "multimeter", "monitor": "monitor’s value", "load": "plug-in meter",
	"before": "monitor before", "after": "monitor after", "percent": "percent of reading",
	"drop": "volts lost on the way", "power-factor": "power factor",
	// of the rest
	"readings": "daily totals", "class": "accuracy", "per-kwh": "price per kWh", "fixed": "fixed charge",
	"today": "last edited", "note": "notes",
}

// moneyWords names what means something else in a bill and in a tariff, by the
// list that it is of.
var moneyWords = map[string]map[string]string{
	"periods": {
		"lines": "printed line", "uses": "time-of-use period", "total": "printed total", "solve": "what to find",
	},
	"plans": {
		"plans": "Tariff", "rows": "row", "kind": "what it is", "price": "price", "days": "days", "steps": "tier", "bands": "time-of-use period",
		"up-to": "up to", "per": "for each", "basis": "on which kWh", "on": "on which rows",
		"from": "season’s first day", "to": "season’s last day", "since": "holds from", "until": "holds until",
		"round": "what is rounded", "half": "where half a coin goes", "places": "decimals", "inclusive": "tax in the prices",
		"region": "public holidays", "dates": "holidays of your own",
	},
}
