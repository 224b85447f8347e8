package say

import (
	"cmp"
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
		default:
			out = append(out, called(steps[0], step))
		}
		if err != nil {
			list = step
		}
	}
	place := strings.Join(out, ", ")
	first, size := utf8.DecodeRuneInString(place)
	return string(unicode.ToUpper(first)) + place[size:]
}

// called gives the page's word for a step of a path that begins with first.
func called(first, step string) string {
	own := ""
	switch first {
	case "periods":
		own = wordFor(step, billWords)
	case "plans":
		own = wordFor(step, planWords)
	}
	return cmp.Or(own, wordFor(step, placeWords), step)
}

// wordFor looks a name of a path up in lines of a name and what the page calls
// it. One text is smaller in the engine than a map.
func wordFor(name, lines string) string {
	_, rest, _ := strings.Cut(lines, "\n"+name+" ")
	words, _, _ := strings.Cut(rest, "\n")
	return words
}

// placeWords names groups, lists and fields whose name in a path is not the
// word that the page has for them.
const placeWords = `
monitors Monitor
periods Bill
meter The meter
price Price
confidence Intervals
checks Leg checks
legs Leg
lines between the lines
pairs pair
amps current pair
steps load step
voltmeter multimeter
clampmeter clamp meter
plugmeter plug-in meter
kwh energy billed
days days printed
previous previous read
present present read
loss-factor loss factor
loss-included losses included
read-hour hour of the read
convention which dates belong
apart energy on other circuits
produced solar produced
exported energy exported
reference multimeter
monitor monitor’s value
load plug-in meter
before monitor before
after monitor after
percent percent of reading
drop volts lost on the way
power-factor power factor
readings daily totals
class accuracy
per-kwh price per kWh
fixed fixed charge
today last edited
note notes
timing Timing
runs run
shows what is counted
constant meter constant
per what the constant says
hand scatter of the hand
turns how many
seconds in what time
watts the monitor’s watts
begins clock time of its beginning
marks pulses
how how it was counted
`

// billWords and planWords name what means something else in a bill and in a
// tariff.
const (
	billWords = `
lines printed line
uses time-of-use period
total printed total
solve what to find
`
	planWords = `
plans Tariff
rows row
kind what it is
price price
days days
steps tier
bands time-of-use period
up-to up to
per for each
basis on which kWh
on on which rows
from season’s first day
to season’s last day
since holds from
until holds until
round what is rounded
half where half a coin goes
places decimals
inclusive tax in the prices
region public holidays
dates holidays of your own
`
)
