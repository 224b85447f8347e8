package pulse

import (
	"math"
	"strconv"

	"github.com/shopspring/decimal"

	"splittally/calc/figure"
	"splittally/calc/number"
	"splittally/calc/remark"
)

// What makes sense as a meter constant: Kh and Wh of a step or flash up to 50
// (7.2 is usual), from 50 on for each kWh (75 of a disc, 1000 of a lamp).
// Common practice, no source; outside of it the person is asked.
var (
	leastWh  = decimal.New(1, -2)
	between  = decimal.NewFromInt(50)
	mostImp  = decimal.NewFromInt(1_000_000)
	thousand = decimal.NewFromInt(1000)
	million  = decimal.NewFromInt(1_000_000)
)

// The ways to state a meter constant, as Timing.Per names them.
const (
	perWh  = "wh"
	perKWh = "imp"
)

const constantWanted = "the meter constant from its face, such as Kh 7.2, 1 Wh or 1000 imp/kWh"

// readConstant finds the energy of one pulse.
func (s *sheet) readConstant() {
	times, ok := s.readMultiplier()
	path := s.Path + ".constant"
	s.lacks = "the meter constant"
	if number.IsBlank(s.Constant) {
		return
	}
	before, body, after := around(face(s.Constant))
	said, shift, wrong := unitOfConstant(before, after)
	if wrong != "" {
		s.problem(path, number.Trim(s.Constant), wrong)
		return
	}
	var ways []decimal.Decimal
	for _, r := range number.Readings(body) {
		if v := r.Value.Shift(shift); v.IsPositive() && v.LessThan(mostImp.Mul(thousand)) {
			ways = append(ways, v)
		}
	}
	kind, value, found := s.settleConstant(path, said, ways, times)
	switch {
	case !found:
		s.problem(path, number.Trim(s.Constant), constantWanted)
	case !ok:
		s.lacks = "a multiplier that can be read"
	default:
		s.each = perPulse(kind, value, times)
		s.out.PerPulse = s.each.float()
	}
}

// perPulse gives the Wh of a pulse.
func perPulse(kind string, value decimal.Decimal, times ratio) ratio {
	if kind == perKWh {
		return ratio{thousand.Mul(times.num), value.Mul(times.den)}
	}
	return ratio{value.Mul(times.num), times.den}
}

// settleConstant says which of both the constant is, and which number.
func (s *sheet) settleConstant(path, said string, ways []decimal.Decimal, times ratio) (kind string, value decimal.Decimal, ok bool) {
	kind = s.Per
	switch {
	case said != "":
		if s.Per != "" && s.Per != said {
			s.notice(path, "constant-unit", "The unit that was typed with the meter constant counts, not the one that was chosen beside it.")
		}
		kind = said
	case kind != perWh && kind != perKWh:
		kind = perKWh
		if s.Shows == "disc" || s.Shows == "block" {
			kind = perWh
		}
	}
	if len(sensible(kind, ways)) > 0 {
		return kind, s.whichConstant(path, kind, ways, times), true
	}
	other := perWh
	if kind == perWh {
		other = perKWh
	}
	if len(sensible(other, ways)) == 0 {
		return kind, decimal.Zero, false
	}
	q := remark.Question{
		ID: path, Path: path, Asks: "Which of both is the meter constant " + number.Trim(s.Constant) + "?",
		Why: "As it is stated, it would be far from what is usual.",
	}
	for _, k := range []string{perWh, perKWh} {
		v := usual(k, ways)
		q.Choices = append(q.Choices, remark.Choice{ID: k, Label: s.constantWords(k, v), Gives: s.example(perPulse(k, v, times))})
	}
	kind = s.asked(q, other)
	return kind, s.whichConstant(path, kind, ways, times), true
}

// whichConstant says which number the constant is, of those that make sense
// where there are any. If there are two it is asked, and if one is left out for
// making no sense it is told.
func (s *sheet) whichConstant(path, kind string, ways []decimal.Decimal, times ratio) decimal.Decimal {
	text, left := number.Trim(s.Constant), sensible(kind, ways)
	if len(left) == 1 && len(ways) > 1 {
		s.notice(path, "constant-number", "The meter constant “"+text+"” is taken as "+s.constantWords(kind, left[0])+
			": read in another way it would be far from what is usual.")
	}
	if len(left) == 0 {
		left = ways
	}
	if len(left) == 1 {
		return left[0]
	}
	q := remark.Question{
		ID: path + "-number", Path: path, Asks: "Which number is the meter constant “" + text + "”?",
		Why: "The mark in it can be a decimal mark or one of thousands.",
	}
	provisional := ""
	for i, v := range left {
		id := strconv.Itoa(i + 1)
		if v.Equal(usual(kind, left)) {
			provisional = id
		}
		q.Choices = append(q.Choices, remark.Choice{ID: id, Label: s.constantWords(kind, v), Gives: s.example(perPulse(kind, v, times))})
	}
	taken, _ := strconv.Atoi(s.asked(q, provisional))
	return left[taken-1]
}

// sensible gives the numbers that make sense as a constant of a kind.
func sensible(kind string, ways []decimal.Decimal) (left []decimal.Decimal) {
	least, most := leastWh, between
	if kind == perKWh {
		least, most = between, mostImp
	}
	for _, v := range ways {
		if v.GreaterThanOrEqual(least) && v.LessThanOrEqual(most) {
			left = append(left, v)
		}
	}
	return left
}

// usual gives the number that is nearest to what most meters have, 1 Wh for each
// pulse or 1000 of them for each kWh.
func usual(kind string, ways []decimal.Decimal) decimal.Decimal {
	if left := sensible(kind, ways); len(left) > 0 {
		ways = left
	}
	most := 1.0
	if kind == perKWh {
		most = 1000
	}
	best, nearest := ways[0], math.Inf(1)
	for _, v := range ways {
		if off := math.Abs(math.Log(v.InexactFloat64() / most)); off < nearest {
			best, nearest = v, off
		}
	}
	return best
}

func (s *sheet) constantWords(kind string, v decimal.Decimal) string {
	if kind == perKWh {
		return v.String() + " " + s.noun.many + " for each kWh (" + v.String() + " imp/kWh)"
	}
	return v.String() + " Wh for each " + s.noun.one + " (Kh " + v.String() + ")"
}

// example says what a constant would give: for the first run that can be
// worked out, or for one pulse in ten seconds.
func (s *sheet) example(each ratio) string {
	for _, r := range s.runs {
		if n, t := r.peek(); n > 0 && t > 0 {
			return watts(3600*each.float()*n/t) + " in " + r.name()
		}
	}
	return "one " + s.noun.one + " in 10" + figure.Thin + "s would be " + watts(360*each.float())
}
