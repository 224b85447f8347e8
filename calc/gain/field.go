package gain

import (
	"math"
	"strings"

	"github.com/shopspring/decimal"

	"splittally/calc/number"
)

// unit is a unit that may stand behind a number, in small letters; shift is the
// power of ten to the unit that is used here.
type unit struct {
	suffix string
	shift  int32
}

// field is one field of a pair or step.
type field struct {
	name   string // the last step of its path
	words  string // what it holds, for what is waited for
	least  decimal.Decimal
	most   decimal.Decimal // belongs
	units  []unit          // the longest first
	wanted string
}

// quantity is one number as typed, within its field's limits.
type quantity struct {
	value  float64
	places int32 // decimals as written; less than 0 where kW hide digits
}

// read gives every way in which the text can be a number within the limits, the
// one with the mark as decimal first.
func (f field) read(text string) (ways []quantity) {
	text = strings.ToLower(number.Trim(text))
	var shift int32
	for _, u := range f.units {
		if bare, ok := strings.CutSuffix(text, u.suffix); ok {
			text, shift = bare, u.shift
			break
		}
	}
	for _, r := range number.Readings(text) {
		v := r.Value.Shift(shift)
		if v.GreaterThanOrEqual(f.least) && v.LessThanOrEqual(f.most) {
			ways = append(ways, quantity{v.InexactFloat64(), max(0, r.Places) - shift})
		}
	}
	return ways
}

// Fields of the checks. The limits of volts hold every low-voltage service to
// neutral and between lines. They also settle numbers that could be two:
// 120,125 is never 120 thousand volts, and because a load ends below 20,000 W
// and begins at 20 W, no text is a load both ways.
var (
	voltUnits = []unit{{"volts", 0}, {"volt", 0}, {"v", 0}}
	ampUnits  = []unit{{"amps", 0}, {"amp", 0}, {"a", 0}}
	wattUnits = []unit{{"watts", 0}, {"watt", 0}, {"kw", 3}, {"w", 0}}

	voltFields = []field{
		voltField("reference", "the multimeter's volts"),
		voltField("monitor", "the monitor's volts"),
	}
	ampFields = []field{
		ampField("reference", "the clamp meter's amperes"),
		ampField("monitor", "the monitor's amperes"),
	}
	stepFields = []field{
		wattField("before", "the monitor's watts before"),
		wattField("after", "the monitor's watts after"),
		{"load", "the watts of the load", decimal.NewFromInt(20), decimal.New(19999999, -3), wattUnits, "watts of the load from 20 to less than 20000, such as 1480"},
	}
)

func voltField(name, words string) field {
	return field{name, words, decimal.NewFromInt(50), decimal.NewFromInt(500), voltUnits, "volts from 50 to 500, such as 121.3"}
}

func ampField(name, words string) field {
	return field{name, words, decimal.New(1, -1), decimal.NewFromInt(1000), ampUnits, "amperes from 0.1 to 1000, such as 12.4"}
}

// A home that feeds in has watts below zero.
func wattField(name, words string) field {
	return field{name, words, decimal.NewFromInt(-100_000), decimal.NewFromInt(100_000), wattUnits, "the monitor's watts, such as 412"}
}

// limit reads a number from 0 to a limit; ok is false if there is none.
func (s *sheet) limit(path, typed string, most int64, wanted string) (v float64, ok bool) {
	if number.IsBlank(typed) {
		return 0, false
	}
	f := field{most: decimal.NewFromInt(most), units: []unit{{"%", 0}}}
	ways := f.read(typed)
	if len(ways) == 0 {
		s.problem(path, typed, wanted)
		return 0, false
	}
	return ways[0].value, true
}

// countOf is one count of the last digit of v, seen among other figures of the
// same instrument. People leave zeros off, 121 for 121.0, so that the most
// decimals count; but an instrument changes its range, and what 5.23 A shows
// says nothing of 41.2 A: only figures of four fifths of v and more count.
func countOf(v quantity, among []quantity) float64 {
	places := v.places
	for _, o := range among {
		if math.Abs(o.value) >= 0.8*math.Abs(v.value) {
			places = max(places, o.places)
		}
	}
	return math.Pow10(-int(places))
}
