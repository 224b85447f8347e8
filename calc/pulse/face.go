package pulse

import (
	"strings"
	"unicode"
)

// face finds the meter constant in what was copied from a meter's face, such as
// "CL200 240V 3W Kh 7.2" or "1000 imp/kWh 10000 imp/kvarh". Anything else, and a
// face with two constants, comes back as it is.
func face(text string) string {
	plain := strings.NewReplacer("kw·h", "kwh", "kw-h", "kwh", "kw.h", "kwh", "kw h", "kwh", "watt-hours", "wh", "watt-hour", "wh", "watt hours", "wh", "watt hour", "wh", ":", " ").
		Replace(strings.ToLower(text))
	if count, each, ok := strings.Cut(plain, "="); ok && strings.HasPrefix(strings.TrimSpace(count), "1 ") { // 1 pulse = 1 Wh
		plain = each
	}
	words := strings.Fields(plain)
	var found []string
	for i, w := range words {
		next, grouped := "", i > 0 && strings.Trim(words[i-1], "0123456789") == "" // 1 000 imp/kWh
		if i+1 < len(words) {
			next = words[i+1]
		}
		switch {
		case (w == "kh" || w == "kt") && startsNumber(next):
			found = append(found, w+" "+next)
		case (strings.HasPrefix(w, "kh") || strings.HasPrefix(w, "kt")) && startsNumber(strings.TrimPrefix(w[2:], "=")):
			found = append(found, w)
		case grouped:
		case startsNumber(w) && strings.HasSuffix(w, "/kwh"):
			found = append(found, w)
		case startsNumber(w) && strings.HasSuffix(next, "/kwh") && !startsNumber(next):
			found = append(found, w+" "+next)
		}
	}
	if len(found) == 1 && len(strings.Fields(found[0])) < len(words) {
		return found[0]
	}
	if strings.ToLower(text) == plain {
		return text
	}
	return plain
}

func startsNumber(w string) bool {
	w = strings.TrimLeft(w, ".,")
	return w != "" && unicode.IsDigit(rune(w[0]))
}
