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
	ways := ratiosOf(text)
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

// ratiosOf gives every ratio that a text can be, each once.
func ratiosOf(text string) (ways []ratio) {
	seen := map[string]bool{}
	above, below := parted(text)
	for _, n := range numbersIn(above) {
		for _, d := range numbersIn(below) {
			if !alike(n, d) || n.Value.LessThan(d.Value) || !d.Value.IsPositive() || n.Value.GreaterThan(d.Value.Mul(mostMultiplier)) {
				continue
			}
			w := ratio{n.Value, d.Value}
			if id := plain(w.float()); !seen[id] {
				seen[id] = true
				ways = append(ways, w)
			}
		}
	}
	return ways
}

// alike says that no mark stands for decimals in one number and for thousands
// in the other.
func alike(a, b number.Reading) bool {
	return (a.Mark == 0 || a.Mark != b.Group) && (b.Mark == 0 || b.Mark != a.Group)
}

// parted gives the upper and the lower part of "CTR 200:5 A", at its colon or
// stroke.
func parted(text string) (above, below string) {
	i := strings.IndexAny(text, ":/∶")
	if i < 0 {
		return text, "1"
	}
	return text[:i], strings.TrimLeft(text[i:], ":/∶")
}

// multiplierWords may stand around a number of a multiplier.
var multiplierWords = map[string]bool{
	"": true, "ctr": true, "ct": true, "ctratio": true, "ptr": true, "pt": true, "vt": true, "tr": true, "ratio": true, "x": true, "×": true,
	"multiplier": true, "mult": true, "m": true, "a": true, "v": true, "amp": true, "amps": true, "times": true, "*": true,
}

// numbersIn gives every way in which a text is a number, words that go with a
// multiplier left out.
func numbersIn(text string) []number.Reading {
	before, body, after := around(text)
	if !multiplierWords[before] || !multiplierWords[after] {
		return nil
	}
	return number.Readings(body)
}
