package account

import (
	"slices"
	"strings"
	"unicode"

	"splittally/calc/tariff"
)

// parts takes the name of a line apart into the row's and the tier's or band's.
func parts(l tariff.Line, uses []tariff.Use) (row, label string) {
	for _, u := range uses {
		if row, ok := strings.CutSuffix(l.Name, ", "+u.Name); ok && u.Row == l.Row {
			return row, u.Name
		}
	}
	return l.Name, ""
}

// fold makes names comparable: letters and digits in lower case, one blank
// between words.
func fold(name string) string {
	return strings.Join(strings.FieldsFunc(strings.ToLower(name), func(r rune) bool {
		return !unicode.IsLetter(r) && !unicode.IsDigit(r)
	}), " ")
}

// common are words that lines of any kind have, so that sharing one says little.
const common = " charge charges rate rates cost costs fee kwh the of per and at for a in on to electric electricity amount total "

func words(name string) (own, all []string) {
	all = strings.Fields(fold(name))
	for _, w := range all {
		if !strings.Contains(common, " "+w+" ") {
			own = append(own, w)
		}
	}
	return own, all
}

// sameWords says whether two names have the same words but for common ones.
func sameWords(a, b string) bool {
	x, _ := words(a)
	y, _ := words(b)
	slices.Sort(x)
	slices.Sort(y)
	return len(x) > 0 && slices.Equal(x, y)
}

// likeness is how much of their words two names share, 0 if none of their own:
// twice the shared over all, a word of its own counting four times a common one.
func likeness(a, b string) float64 {
	x, xs := words(a)
	y, ys := words(b)
	own, all := shared(x, y), shared(xs, ys)
	if own == 0 {
		return 0
	}
	weigh := func(own, all int) float64 { return float64(own*3 + all) }
	return 2 * weigh(own, all) / (weigh(len(x), len(xs)) + weigh(len(y), len(ys)))
}

func shared(a, b []string) (n int) {
	for _, w := range a {
		if slices.Contains(b, w) {
			n++
		}
	}
	return n
}
