package pulse

import (
	"strings"
	"unicode"

	"splittally/calc/number"
)

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
