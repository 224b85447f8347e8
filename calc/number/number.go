// Package number turns the text of one number, as people and spreadsheets of
// many countries write it, into an exact decimal.
//
// The text must be the number and nothing else: finding it within a line, and
// knowing its unit, is the step before. Where a text can be two numbers, as
// "1,234" can, both are given and the caller, who sees the whole document,
// decides.
package number

import (
	"math/big"

	"github.com/shopspring/decimal"
)

// Reading is one way in which a text can be a number.
type Reading struct {
	Value decimal.Decimal
	// Places counts the decimals as written: 2 for "12.40". It is negative
	// where an exponent hides digits: -2 for "1.20e4".
	Places int32
	// Mark is the decimal mark, '.' or ','; 0 where none was needed.
	Mark rune
	// Group is what stood between groups of digits, '.', ',', '\'' or ' ',
	// which stand for all their likenesses; 0 where nothing did.
	Group rune
}

// Limits that keep nonsense out and the arithmetic short.
const (
	maxDigits   = 40
	maxExponent = 12
)

// Readings gives every way in which text can be a number: none if it is not
// one, two for "1,234", of which the first takes the mark as decimal.
//
// Blanks around the number, a sign (+, -, the Unicode minus, an en dash), wide
// forms of digits and marks, and an exponent of up to ±12 are understood.
// Groups of thousands may be set off by any blank, apostrophe, comma or dot,
// and by commas in the Indian manner (1,23,456.7). The decimal mark may stand
// first or last (".5", "5.").
func Readings(text string) []Reading {
	var room [maxDigits * 2]byte
	plain, ok := fold(room[:0], text)
	if !ok {
		return nil
	}
	body, exponent, ok := splitExponent(plain)
	if !ok {
		return nil
	}
	negative := false
	if len(body) > 0 && (body[0] == '-' || body[0] == '+') {
		negative = body[0] == '-'
		body = body[1:]
	}
	readings := mantissas(body)
	for i := range readings {
		r := &readings[i]
		if exponent != noExponent {
			if r.Group != 0 {
				return nil // no program writes 1,234e5
			}
			r.Value = r.Value.Shift(exponent)
			r.Places -= exponent
		}
		if negative {
			r.Value = r.Value.Neg()
		}
	}
	return readings
}

// noExponent is splitExponent's answer where none is written. It differs from
// an exponent of 0, which is one.
const noExponent = maxExponent + 1

// splitExponent parts "1.2e+3" into its mantissa and exponent.
func splitExponent(plain []byte) (mantissa []byte, exponent int32, ok bool) {
	for i, b := range plain {
		if b != 'e' {
			continue
		}
		digits, sign := plain[i+1:], int32(1)
		if len(digits) > 0 && (digits[0] == '+' || digits[0] == '-') {
			if digits[0] == '-' {
				sign = -1
			}
			digits = digits[1:]
		}
		if len(digits) == 0 || len(digits) > 3 {
			return nil, 0, false
		}
		for _, d := range digits {
			if d < '0' || d > '9' {
				return nil, 0, false
			}
			exponent = exponent*10 + int32(d-'0')
		}
		return plain[:i], sign * exponent, exponent <= maxExponent
	}
	return plain, noExponent, true
}

// mantissas reads digits with their marks; there is no sign and no exponent
// any more.
func mantissas(body []byte) []Reading {
	first, last := marks(body)
	switch {
	case len(body) == 0:
		return nil
	case first.kind == 0:
		return whole(body, Reading{})
	case last.kind != 0: // 1.234,5: the second kind can only be the decimal mark
		if last.count > 1 || first.at[1] > last.at[0] || !isDecimalMark(last.kind) {
			return nil
		}
		if !grouped(body[:last.at[0]], first.kind) {
			return nil
		}
		return fraction(body, last.at[0], Reading{Group: rune(first.kind)})
	case first.count > 1 || !isDecimalMark(first.kind):
		if !grouped(body, first.kind) {
			return nil
		}
		return whole(body, Reading{Group: rune(first.kind)})
	}
	readings := fraction(body, first.at[0], Reading{})
	if grouped(body, first.kind) {
		readings = append(readings, whole(body, Reading{Group: rune(first.kind)})...)
	}
	return readings
}

// mark says what is known of one kind of mark: how often it stands, and where
// for the first and for the last time.
type mark struct {
	kind  byte
	count int
	at    [2]int
}

func isDecimalMark(kind byte) bool { return kind == '.' || kind == ',' }

// marks gives the two kinds of mark in order of appearance. A third kind is
// folded into the second with a count that no number has.
func marks(body []byte) (first, last mark) {
	for i, b := range body {
		if b >= '0' && b <= '9' {
			continue
		}
		m := &first
		if first.kind != 0 && first.kind != b {
			m = &last
			if last.kind != 0 && last.kind != b {
				last.count = len(body)
			}
		}
		if m.count == 0 {
			m.kind, m.at[0] = b, i
		}
		m.count++
		m.at[1] = i
	}
	return first, last
}

// grouped says whether the digits stand in proper groups: one to three, then
// threes; or, with commas, in the Indian manner one or two, then twos, then a
// three. A leading zero is no group.
func grouped(body []byte, kind byte) bool {
	if len(body) == 0 || body[0] == '0' {
		return false
	}
	threes, indian := true, kind == ','
	size, groups := 0, 0
	for i := 0; i <= len(body); i++ {
		if i < len(body) && body[i] != kind {
			if body[i] < '0' || body[i] > '9' {
				return false
			}
			size++
			continue
		}
		final := i == len(body)
		if groups == 0 {
			threes = size >= 1 && size <= 3
			indian = indian && size >= 1 && size <= 2
		} else {
			threes = threes && size == 3
			indian = indian && (final && size == 3 || !final && size == 2)
		}
		groups++
		size = 0
	}
	return groups > 1 && (threes || indian)
}

// whole reads all digits as one whole number.
func whole(body []byte, r Reading) []Reading {
	v, ok := digitsOf(body)
	if !ok {
		return nil
	}
	r.Value = decimal.NewFromBigInt(v, 0)
	return []Reading{r}
}

// fraction reads the digits with the decimal mark at the given index.
func fraction(body []byte, at int, r Reading) []Reading {
	v, ok := digitsOf(body)
	if !ok {
		return nil
	}
	r.Places = int32(len(body) - at - 1)
	r.Mark = rune(body[at])
	r.Value = decimal.NewFromBigInt(v, -r.Places)
	return []Reading{r}
}

// digitsOf gives the digits of body, marks left out, as one whole number.
func digitsOf(body []byte) (*big.Int, bool) {
	var room [maxDigits]byte
	digits := room[:0]
	for _, b := range body {
		if b < '0' || b > '9' {
			continue
		}
		if len(digits) == maxDigits {
			return nil, false
		}
		digits = append(digits, b)
	}
	switch {
	case len(digits) == 0:
		return nil, false
	case len(digits) <= 18:
		var n int64
		for _, d := range digits {
			n = n*10 + int64(d-'0')
		}
		return big.NewInt(n), true
	}
	return new(big.Int).SetString(string(digits), 10)
}
