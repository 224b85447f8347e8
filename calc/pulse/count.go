package pulse

import (
	"strconv"
	"strings"

	"github.com/shopspring/decimal"

	"splittally/calc/number"
)

const mostTurns = 1_000_000

// begin reads the texts of a run, as far as that needs no other.
func (s *sheet) begin(i int) {
	r := &run{typed: s.Timing.Runs[i], index: i, path: s.Path + ".runs." + strconv.Itoa(i)}
	s.runs = append(s.runs, r)
	byWatch := !number.IsBlank(r.typed.Turns) || !number.IsBlank(r.typed.Seconds)
	byMarks := !number.IsBlank(r.typed.Marks)
	if r.watched() {
		r.Given = byWatch || !number.IsBlank(r.typed.Watts)
		s.beginWatch(r)
	} else {
		r.Given = byMarks || !number.IsBlank(r.typed.Watts)
		s.beginMarks(r)
	}
	s.out.Given = s.out.Given || r.Given
}

func (r *run) watched() bool { return r.typed.How != "taps" && r.typed.How != "sound" }

func (s *sheet) beginWatch(r *run) {
	var missing []string
	if number.IsBlank(r.typed.Turns) {
		missing = append(missing, "how many "+s.noun.many+" there were")
	} else if r.turns = s.readTurns(r.typed.Turns); len(r.turns) == 0 {
		s.problem(r.path+".turns", number.Trim(r.typed.Turns), s.turnsWanted())
		missing = append(missing, "a number of "+s.noun.many)
	}
	if number.IsBlank(r.typed.Seconds) {
		missing = append(missing, "the seconds that they took")
	} else if r.seconds = readSpans(r.typed.Seconds); len(r.seconds) == 0 {
		s.problem(r.path+".seconds", number.Trim(r.typed.Seconds), secondsWanted(r.typed.Seconds))
		missing = append(missing, "a time")
	}
	r.waitFor(missing)
}

func (r *run) waitFor(missing []string) {
	if len(missing) > 0 {
		r.Waits = "missing: " + strings.Join(missing, " and ")
	}
}

func secondsWanted(text string) string {
	if c, ok := readColons(text); ok && c.noon > 0 {
		return "the time that they took, such as 125.4 or 2:05.4: this is a time of the clock"
	}
	return "seconds up to a day, such as 125.4 or 2:05.4"
}

func (s *sheet) turnsWanted() string {
	if s.Shows == "disc" {
		return "turns of the disc, such as 10, 4.25 or 2 1/4"
	}
	return "a whole number of " + s.noun.many + ", such as 10: the first one is zero"
}

// fractions are the characters that people type for them.
var fractions = strings.NewReplacer("¼", " 1/4", "½", " 1/2", "¾", " 3/4", "⅓", " 1/3", "⅔", " 2/3", "⅛", " 1/8", "⅜", " 3/8", "⅝", " 5/8", "⅞", " 7/8", "⁄", "/")

// thirds is how many decimals a fraction of a turn is carried to.
const thirds = 12

// readTurns gives every way in which text can be a count. Only a disc has
// fractions.
func (s *sheet) readTurns(text string) (ways []decimal.Decimal) {
	text = strings.ToLower(number.Trim(fractions.Replace(number.Trim(text))))
	text = number.Trim(strings.TrimRight(text, "abcdefghijklmnopqrstuvwxyz."))
	add := func(v decimal.Decimal) {
		if v.IsPositive() && v.LessThanOrEqual(decimal.NewFromInt(mostTurns)) && (s.Shows == "disc" || v.IsInteger()) {
			ways = append(ways, v)
		}
	}
	body, den, broken := strings.Cut(text, "/")
	if !broken {
		for _, r := range number.Readings(text) {
			add(r.Value)
		}
		return ways
	}
	rest := decimal.Zero
	if i := strings.LastIndexFunc(body, number.Blank); i >= 0 {
		whole := number.Readings(body[:i])
		if len(whole) != 1 {
			return nil
		}
		rest, body = whole[0].Value, number.Trim(body[i:])
	}
	above, below := number.Readings(body), number.Readings(den)
	if len(above) == 1 && len(below) == 1 && above[0].Value.IsInteger() && below[0].Value.IsPositive() && !rest.IsNegative() {
		add(rest.Add(above[0].Value.DivRound(below[0].Value, thirds)))
	}
	return ways
}

// peek gives count and seconds as far as they are known before the meter
// constant is.
func (r *run) peek() (n, seconds float64) {
	switch {
	case r.Waits != "":
		return 0, 0
	case r.watched():
		return r.turns[0].InexactFloat64(), r.seconds[0].seconds
	}
	return r.Count, r.Seconds
}
