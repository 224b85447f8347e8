package pulse

import (
	"strings"

	"github.com/shopspring/decimal"

	"splittally/calc/number"
	"splittally/calc/remark"
)

const multiplierWanted = "the ratio of the instrument transformers from 1 to 100000, such as 40 or 200:5"

var (
	one            = decimal.NewFromInt(1)
	mostMultiplier = decimal.NewFromInt(100_000)
)

// readMultiplier reads the ratio of instrument transformers: one number, or
// two such as 200/5. ok is false if something was typed that is none.
func (s *sheet) readMultiplier() (times ratio, ok bool) {
	path, text := s.Path+".multiplier", number.Trim(s.Multiplier)
	if text == "" {
		return ratio{one, one}, true
	}
	var ways []ratio
	for _, n := range numbersIn(upper(text)) {
		for _, d := range numbersIn(lower(text)) {
			if n.GreaterThanOrEqual(d) && d.IsPositive() && n.LessThanOrEqual(d.Mul(mostMultiplier)) {
				ways = append(ways, ratio{n, d})
			}
		}
	}
	switch len(ways) {
	case 0:
		s.problem(path, text, multiplierWanted)
		return ratio{one, one}, false
	case 1:
		return ways[0], true
	}
	q := remark.Question{ID: path, Path: path, Asks: "Which number is the multiplier " + text + "?", Why: "The mark in it can be a decimal mark or one of thousands."}
	by := map[string]ratio{}
	for _, w := range ways {
		id := plain(w.float())
		by[id] = w
		q.Choices = append(q.Choices, remark.Choice{ID: id, Label: id, Gives: "watts times " + id})
	}
	// A transformer's ratio is a whole number more often than not.
	return by[s.asked(q, q.Choices[len(q.Choices)-1].ID)], true
}

// upper and lower part "CTR 200:5 A" at its colon or stroke.
func upper(text string) string {
	if i := strings.IndexAny(text, ":/∶"); i > 0 && len(text[:i]) < len(text) {
		return text[:i]
	}
	return text
}

func lower(text string) string {
	i := strings.IndexAny(text, ":/∶")
	if i <= 0 {
		return "1"
	}
	return strings.TrimLeft(text[i:], ":/∶")
}

// multiplierWords may stand around a number of a multiplier.
var multiplierWords = map[string]bool{
	"": true, "ctr": true, "ct": true, "ctratio": true, "ptr": true, "pt": true, "vt": true, "tr": true, "ratio": true, "x": true, "×": true,
	"multiplier": true, "mult": true, "m": true, "a": true, "v": true, "amp": true, "amps": true, "times": true, "*": true,
}

// numbersIn gives every way in which a text is a number, words that go with a
// multiplier left out.
func numbersIn(text string) (ways []decimal.Decimal) {
	before, body, after := around(text)
	if !multiplierWords[before] || !multiplierWords[after] {
		return nil
	}
	for _, r := range number.Readings(body) {
		ways = append(ways, r.Value)
	}
	return ways
}
