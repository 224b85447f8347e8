package billing

import (
	"strconv"
	"strings"
	"unicode"

	"github.com/shopspring/decimal"

	"splittally/calc/number"
	"splittally/calc/remark"
)

// registered is the outcome of two register reads.
type registered struct {
	ok   bool
	kWh  decimal.Decimal // difference times multiplier
	step decimal.Decimal // one step of one read, times multiplier
}

// registerReads reads the two reads and the multiplier and takes their
// difference, with roll-over. billed is the printed energy in kWh, nil if there
// is none: it can confirm a roll-over.
func (s *sheet) registerReads(b *bill, billed *decimal.Decimal) registered {
	previous := s.readRegister(b, "previous", b.typed.Previous)
	present := s.readRegister(b, "present", b.typed.Present)
	multiplier, ok := s.multiplier(b)
	if len(previous) == 0 || len(present) == 0 || !ok {
		return registered{}
	}
	from, to := s.chooseReads(b, previous, present, multiplier)
	b.reads, b.previous, b.end = true, from.value, to.value
	digits, ok := s.registerDigits(b, from, to)
	if !ok {
		return registered{}
	}
	use := to.value.Sub(from.value)
	if use.IsNegative() {
		use, ok = s.rollOver(b, use, digits, multiplier, billed)
	}
	return registered{ok, use.Mul(multiplier), decimal.Max(from.step, to.step).Mul(multiplier)}
}

// readRegister gives every way to read one register read, none if it is empty
// or wrong.
func (s *sheet) readRegister(b *bill, field, typed string) []quantity {
	if number.IsBlank(typed) {
		return nil
	}
	ways := quantities(typed)
	if len(ways) == 0 || ways[0].value.IsNegative() {
		s.problem(b, field, typed, "the figures of the register, such as 40081")
		return nil
	}
	return ways
}

// multiplier reads the meter multiplier, 1 if none is given.
func (s *sheet) multiplier(b *bill) (decimal.Decimal, bool) {
	text := strings.TrimLeft(number.Trim(b.typed.Multiplier), "x×X* ")
	if text == "" {
		return decimal.NewFromInt(1), true
	}
	ways := quantities(text)
	if len(ways) == 0 || !ways[0].value.IsPositive() || ways[0].value.GreaterThan(decimal.NewFromInt(100_000)) {
		s.problem(b, "multiplier", b.typed.Multiplier, "a factor above 0, such as 1 or 40")
		return decimal.Decimal{}, false
	}
	return s.choose(b, doubt{
		field: "multiplier", what: "multiplier", typed: text, ways: ways,
		odd:   func(q quantity) float64 { return q.value.InexactFloat64() }, // the smaller is the likelier
		gives: func(q quantity) string { return "the reads times " + q.value.String() },
	}).value, true
}

// chooseReads settles reads with an ambiguous mark by the use that each pair
// would mean.
func (s *sheet) chooseReads(b *bill, previous, present []quantity, multiplier decimal.Decimal) (from, to quantity) {
	odd := func(p, q quantity) float64 {
		return oddness(b.perDay(q.value.Sub(p.value).Mul(multiplier)))
	}
	from, to = previous[0], present[0]
	for _, p := range previous {
		for _, q := range present {
			if odd(p, q) < odd(from, to) {
				from, to = p, q
			}
		}
	}
	likelyFrom, likelyTo := from, to
	use := func(p, q quantity) string { return q.value.Sub(p.value).Mul(multiplier).String() + " kWh" }
	from = s.choose(b, doubt{
		field: "previous", what: "previous read", typed: b.typed.Previous, ways: previous,
		odd:   func(q quantity) float64 { return distance(q, likelyFrom) },
		gives: func(q quantity) string { return use(q, likelyTo) },
	})
	to = s.choose(b, doubt{
		field: "present", what: "present read", typed: b.typed.Present, ways: present,
		odd:   func(q quantity) float64 { return distance(q, likelyTo) },
		gives: func(q quantity) string { return use(from, q) },
	})
	return from, to
}

func distance(p, q quantity) float64 { return p.value.Sub(q.value).Abs().InexactFloat64() }

// registerDigits gives the digits of the register before its decimal mark: as
// told, or else as many as the longer of the two reads is written with, whose
// leading zeros count.
func (s *sheet) registerDigits(b *bill, from, to quantity) (digits int, ok bool) {
	written := max(wholeDigits(b.typed.Previous, from), wholeDigits(b.typed.Present, to))
	if number.IsBlank(b.typed.Digits) {
		return written, true
	}
	told, err := strconv.Atoi(number.Trim(b.typed.Digits))
	if err != nil || told < 3 || told > 9 {
		s.problem(b, "digits", b.typed.Digits, "the number of the register's digits before the decimal mark, 3 to 9")
		return written, true
	}
	ring := decimal.New(1, int32(told))
	for _, r := range []struct {
		field, typed string
		value        decimal.Decimal
	}{{"previous", b.typed.Previous, from.value}, {"present", b.typed.Present, to.value}} {
		if r.value.GreaterThanOrEqual(ring) {
			s.problem(b, r.field, r.typed, "a read that a register of "+strconv.Itoa(told)+" digits can show")
			ok = true
		}
	}
	return told, !ok
}

// wholeDigits counts the digits before the decimal mark as written.
func wholeDigits(text string, q quantity) int {
	n := 0
	for _, r := range text {
		if unicode.IsDigit(r) {
			n++
		}
	}
	return max(1, n-int(max(q.places, 0)))
}

// rollOver judges a present read below the previous one. A register that has
// gone through all its nines has used its whole circle more than the difference
// shows. ok is false where that would be no home's use and the person has not
// said that it was so.
func (s *sheet) rollOver(b *bill, difference decimal.Decimal, digits int, multiplier decimal.Decimal, billed *decimal.Decimal) (use decimal.Decimal, ok bool) {
	ring := decimal.New(1, int32(min(digits, 30)))
	use = ring.Add(difference)
	kWh := use.Mul(multiplier)
	confirmed := billed != nil && billed.Sub(kWh).Abs().LessThanOrEqual(multiplier)
	half := use.Mul(decimal.NewFromInt(2)).LessThanOrEqual(ring)
	if confirmed || half && b.perDay(kWh) <= mostPerDay {
		s.notice(b, "present", "register-roll-over", "The register of "+strconv.Itoa(digits)+" digits rolled over from "+
			strings.Repeat("9", digits)+" to 0: the period used "+kWh.String()+" kWh.")
		return use, true
	}
	taken := s.ask(remark.Question{
		ID:   s.field(b, "roll-over"),
		Path: s.field(b, "present"),
		Asks: "Why is the present read below the previous one?",
		Why:  "A roll-over of a register of " + strconv.Itoa(digits) + " digits would mean " + kWh.String() + " kWh in one period.",
		Choices: []remark.Choice{
			{ID: "rolled-over", Label: "The register rolled over", Gives: kWh.String() + " kWh"},
			{ID: "not-comparable", Label: "The meter was exchanged, or a read is mistyped", Gives: "no energy from these reads"},
		},
	}, "not-comparable")
	return use, taken == "rolled-over"
}
