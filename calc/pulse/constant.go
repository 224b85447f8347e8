package pulse

import (
	"strings"
	"unicode"

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
	path := s.Path + ".constant"
	if number.IsBlank(s.Constant) {
		return
	}
	before, body, after := around(s.Constant)
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
	times, ok := s.readMultiplier()
	if len(ways) == 0 || !ok {
		if len(ways) == 0 {
			s.problem(path, number.Trim(s.Constant), constantWanted)
		}
		return
	}
	kind, value, ok := s.settleConstant(path, said, ways, times)
	if !ok {
		s.problem(path, number.Trim(s.Constant), constantWanted)
		return
	}
	s.each = perPulse(kind, value, times)
	s.out.PerPulse = s.each.float()
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
	if v, ok := sensible(kind, ways); ok {
		return kind, v, true
	}
	other := perWh
	if kind == perWh {
		other = perKWh
	}
	v, ok := sensible(other, ways)
	if !ok {
		return kind, v, false
	}
	values := map[string]decimal.Decimal{kind: ways[0], other: v}
	q := remark.Question{
		ID: path, Path: path, Asks: "Which of both is the meter constant " + number.Trim(s.Constant) + "?",
		Why: "As it is stated, it would be far from what is usual.",
	}
	for _, k := range []string{perWh, perKWh} {
		q.Choices = append(q.Choices, remark.Choice{ID: k, Label: s.constantWords(k, values[k]), Gives: s.example(perPulse(k, values[k], times))})
	}
	kind = s.asked(q, other)
	return kind, values[kind], true
}

func sensible(kind string, ways []decimal.Decimal) (decimal.Decimal, bool) {
	for _, v := range ways {
		least, most := leastWh, between
		if kind == perKWh {
			least, most = between, mostImp
		}
		if v.GreaterThanOrEqual(least) && v.LessThanOrEqual(most) {
			return v, true
		}
	}
	return decimal.Zero, false
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

// around parts a text into the letters before its number, the number and what
// stands behind it; letters are small and without blanks and dots.
func around(text string) (before, body, after string) {
	text = strings.ToLower(number.Trim(text))
	first := strings.IndexFunc(text, unicode.IsDigit)
	if first < 0 {
		return "", "", ""
	}
	last := strings.LastIndexFunc(text, unicode.IsDigit)
	for last++; last < len(text) && text[last]&0xc0 == 0x80; last++ { // a wide digit has several bytes
	}
	if head := text[:first]; head == "." || head == "," || strings.HasSuffix(head, " .") || strings.HasSuffix(head, " ,") {
		first--
	}
	return squeezed(text[:first]), text[first:last], squeezed(text[last:])
}

// squeezed leaves out blanks and marks that say nothing.
func squeezed(text string) string {
	return strings.Map(func(c rune) rune {
		switch {
		case number.Blank(c), c == '.', c == '=', c == '(', c == ')':
			return -1
		}
		return c
	}, text)
}

// unitOfConstant reads the words around a meter constant: what it is, "" if
// they do not say, and the power of ten to that. wrong is what would be
// accepted if they say that it is another figure of the meter's face.
func unitOfConstant(before, after string) (kind string, shift int32, wrong string) {
	before = strings.TrimRight(before, ":")
	both := before + after
	switch {
	case before == "rr" || before == "rs" || before == "ra" || strings.Contains(both, "ratio"):
		return "", 0, "the meter constant, such as Kh 7.2: this is the register ratio of its gears"
	case strings.Contains(both, "var") || strings.Contains(both, "vah"):
		return "", 0, "the constant for active energy, such as 1000 imp/kWh: this is for reactive or apparent energy"
	case strings.HasSuffix(before, "-") || strings.HasSuffix(before, "−"):
		return "", 0, constantWanted
	case before == "cl" || before == "ta" || after == "v" || after == "a" || after == "hz":
		return "", 0, "the meter constant, such as Kh 7.2 or 1000 imp/kWh: this is another figure of its face"
	case strings.HasSuffix(both, "/kwh") || strings.HasSuffix(both, "perkwh"):
		return perKWh, 0, ""
	case strings.HasSuffix(both, "/wh") || strings.HasSuffix(both, "perwh"):
		return perKWh, 3, ""
	case strings.HasPrefix(after, "kwh/") || strings.HasPrefix(after, "kwhper"):
		return perWh, 3, ""
	case strings.HasPrefix(after, "wh"), before == "kh" || before == "kt":
		return perWh, 0, ""
	case countWords[after]:
		return perKWh, 0, ""
	case after != "":
		return "", 0, constantWanted
	}
	return "", 0, ""
}

// countWords are what people write for imp/kWh in short.
var countWords = map[string]bool{
	"imp": true, "imps": true, "impulses": true, "pulses": true, "flashes": true, "revs": true, "rev": true, "r": true, "u": true, "kwh": true,
}
