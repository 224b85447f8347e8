package pulse

import (
	"math"
	"strconv"
	"strings"

	"splittally/calc/number"
)

// span is a time as typed, in seconds, and one count of its last digit.
type span struct{ seconds, digit float64 }

// timeUnits are what may stand behind a number of a time, in seconds.
var timeUnits = map[string]float64{
	"s": 1, "sec": 1, "secs": 1, "second": 1, "seconds": 1, "″": 1, "\"": 1, "''": 1, "”": 1,
	"m": 60, "min": 60, "mins": 60, "minute": 60, "minutes": 60, "′": 60, "'": 60, "’": 60,
	"h": 3600, "hr": 3600, "hrs": 3600, "hour": 3600, "hours": 3600,
}

// readSpans gives every way in which text can be a time: "125.4", "125,4 s",
// "2:05.4", "1:02:05", "2 min 5.4 s". None is longer than a day.
func readSpans(text string) []span {
	text = strings.ToLower(number.Trim(text))
	var ways []span
	switch {
	case strings.Contains(text, ":"):
		if c, ok := readColons(text); ok && c.noon == 0 {
			ways = append(ways, c.elapsed())
		}
	default:
		ways = bareSeconds(strings.TrimSuffix(text, "."))
		if ways == nil {
			ways = united(text)
		}
	}
	kept := ways[:0]
	for _, w := range ways {
		if w.seconds > 0 && w.seconds <= MostSeconds {
			kept = append(kept, w)
		}
	}
	return kept
}

// bareSeconds reads a number with nothing or the unit of seconds behind it.
func bareSeconds(text string) (ways []span) {
	end := len(text)
	for end > 0 && strings.IndexByte("0123456789", text[end-1]) < 0 {
		end--
	}
	unit := number.Trim(text[end:])
	if unit != "" && timeUnits[unit] != 1 && unit != "." && unit != "," {
		return nil
	}
	if unit == "." || unit == "," {
		end = len(text)
	}
	for _, r := range number.Readings(text[:end]) {
		if !r.Value.IsNegative() {
			ways = append(ways, span{r.Value.InexactFloat64(), math.Pow10(-int(r.Places))})
		}
	}
	return ways
}

// united reads numbers that have their units behind them, the largest first, in
// every way that they can be read.
func united(text string) (ways []span) {
	last := math.Inf(1)
	for text = number.Trim(text); text != ""; text = number.Trim(text) {
		n := 0
		for n < len(text) && strings.IndexByte("0123456789.,", text[n]) >= 0 {
			n++
		}
		head := text[:n]
		text = number.Trim(text[n:])
		n = 0
		for n < len(text) && strings.IndexByte("0123456789., \u00a0", text[n]) < 0 {
			n++
		}
		unit := timeUnits[text[:n]]
		text = strings.TrimPrefix(text[n:], ".")
		if n == 0 && last == 60 {
			unit = 1 // 2 min 05
		}
		if unit == 0 || unit >= last {
			return nil
		}
		if ways = joined(ways, number.Readings(head), unit); len(ways) == 0 {
			return nil
		}
		last = unit
	}
	return ways
}

// joined adds what each reading of a number with its unit may be to what came
// before it. Who writes 5 min has looked at the seconds; who writes 2.5 min, at
// tenths of a minute.
func joined(before []span, readings []number.Reading, unit float64) (ways []span) {
	if before == nil {
		before = []span{{}}
	}
	for _, b := range before {
		for _, r := range readings {
			digit := 1.0
			if r.Places > 0 {
				digit = unit * math.Pow10(-int(r.Places))
			}
			ways = append(ways, span{b.seconds + unit*r.Value.InexactFloat64(), digit})
		}
	}
	return ways
}

// colons is a time with colons: of the clock, or elapsed.
type colons struct {
	parts  []float64
	places int // decimals of the last part
	noon   int // 1 if it says am, 2 if it says pm
}

// readColons reads two or three numbers with colons between, and am or pm.
func readColons(text string) (c colons, ok bool) {
	text = strings.ToLower(number.Trim(text))
	for i, mark := range []string{"am", "pm", "a.m.", "p.m."} {
		if bare, found := strings.CutSuffix(text, mark); found {
			text, c.noon = number.Trim(bare), 1+i%2
			break
		}
	}
	fields := strings.Split(text, ":")
	if len(fields) < 2 || len(fields) > 3 {
		return c, false
	}
	for i, f := range fields {
		if i == len(fields)-1 {
			f = strings.Replace(f, ",", ".", 1)
			if at := strings.IndexByte(f, '.'); at >= 0 {
				c.places = len(f) - at - 1
			}
		}
		if f == "" || len(f) > 9 || strings.Trim(f, "0123456789.") != "" || i < len(fields)-1 && strings.Contains(f, ".") {
			return c, false
		}
		v, err := strconv.ParseFloat(f, 64)
		if err != nil || i > 0 && v >= 60 || v > 1440 {
			return c, false
		}
		c.parts = append(c.parts, v)
	}
	return c, true
}

// elapsed takes it for minutes:seconds or hours:minutes:seconds.
func (c colons) elapsed() span {
	sp := span{digit: math.Pow10(-c.places)}
	for _, p := range c.parts {
		sp.seconds = sp.seconds*60 + p
	}
	return sp
}

// clock takes it for a time of the day, in seconds from midnight.
func (c colons) clock() (seconds float64, ok bool) {
	hour := c.parts[0]
	switch {
	case hour >= 24, c.noon > 0 && (hour < 1 || hour > 12), len(c.parts) == 2 && c.places > 0:
		return 0, false
	case c.noon == 1 && hour == 12:
		hour = 0
	case c.noon == 2 && hour < 12:
		hour += 12
	}
	seconds = hour*3600 + c.parts[1]*60
	if len(c.parts) == 3 {
		seconds += c.parts[2]
	}
	return seconds, true
}
