package form

import (
	"strconv"
	"strings"
)

// ID gives the id that the field of a path has on the page: periods-0-kwh for
// periods.0.kwh.
func ID(path string) string { return strings.ReplaceAll(path, ".", "-") }

// Kind gives the path of a list without the numbers of the items that it stands
// in: plans.rows for plans.1.rows. All lists of a kind have the same items.
func Kind(path string) string {
	var kept []string
	for _, step := range strings.Split(path, ".") {
		if _, err := strconv.Atoi(step); err != nil {
			kept = append(kept, step)
		}
	}
	return strings.Join(kept, ".")
}

// Renumber gives the value of an id, for, aria-describedby or like attribute
// after the item that it belongs to has become number index of its list. list
// is the list's path. In every word of the value that begins with the list's
// id, the number behind it is replaced:
//
//	Renumber("periods-0-to periods-0-to-hint", "periods", 3)
//
// gives "periods-3-to periods-3-to-hint".
func Renumber(value, list string, index int) string {
	before := ID(list) + "-"
	words := strings.Fields(value)
	for i, word := range words {
		rest, ok := strings.CutPrefix(word, before)
		if !ok {
			continue
		}
		number, tail, _ := strings.Cut(rest, "-")
		if _, err := strconv.Atoi(number); err != nil {
			continue
		}
		words[i] = before + strconv.Itoa(index)
		if tail != "" {
			words[i] += "-" + tail
		}
	}
	return strings.Join(words, " ")
}

// With gives a list of words with one more, once.
func With(words, word string) string {
	return strings.TrimSpace(Without(words, word) + " " + word)
}

// Without gives a list of words less one.
func Without(words, word string) string {
	var kept []string
	for _, w := range strings.Fields(words) {
		if w != word {
			kept = append(kept, w)
		}
	}
	return strings.Join(kept, " ")
}
