package changes

import (
	"slices"
	"strings"

	"splittally/calc/document"
)

// pairing is an item of mine and the one of theirs that belongs to it, −1 for none.
type pairing struct{ mine, theirs int }

// mostPairs bounds the work of laying two lists side by side.
const mostPairs = 20_000

// align lays two lists side by side, both in their order, so that the items
// beside each other have as much as possible in common.
func (m *merger) align(mine, theirs string, x, y []document.Node) (pairs []pairing) {
	if len(x)*len(y) > mostPairs {
		for i := range max(len(x), len(y)) {
			pairs = append(pairs, pairing{only(i, len(x)), only(i, len(y))})
		}
		return pairs
	}
	like := make([][]float64, len(x))
	for i := range x {
		for j := range y {
			like[i] = append(like[i], m.likeness(at(mine, i), at(theirs, j), &x[i], &y[j]))
		}
	}
	// best is how much the items from i and j on can have in common.
	best := make([][]float64, len(x)+1)
	for i := len(x); i >= 0; i-- {
		best[i] = make([]float64, len(y)+1)
		for j := len(y) - 1; j >= 0 && i < len(x); j-- {
			best[i][j] = max(best[i+1][j], best[i][j+1])
			if like[i][j] > 0 {
				best[i][j] = max(best[i][j], like[i][j]+best[i+1][j+1])
			}
		}
	}
	i, j := 0, 0
	for i < len(x) || j < len(y) {
		switch {
		case i < len(x) && j < len(y) && like[i][j] > 0 && best[i][j] == like[i][j]+best[i+1][j+1]:
			pairs = append(pairs, pairing{i, j})
			i, j = i+1, j+1
		case i < len(x) && (j == len(y) || best[i][j] == best[i+1][j]):
			pairs = append(pairs, pairing{i, -1})
			i++
		default:
			pairs = append(pairs, pairing{-1, j})
			j++
		}
	}
	return pairs
}

func only(i, n int) int {
	if i < n {
		return i
	}
	return -1
}

// leastLike is what items of their own must have in common to be the same one
// changed. Items of all other lists, such as a pair of figures, may have nothing.
const leastLike = 0.2

var ownItems = []string{"monitors", "periods", "plans", "timing.runs", "plans.*.rows"}

// likeness is how much two items have in common, 0 if they are not the same one
// and up to 1.
func (m *merger) likeness(mine, theirs string, x, y *document.Node) float64 {
	if isBlank(x) || isBlank(y) {
		return 0.01 // a blank one is where an item can be put
	}
	a, b := document.Flatten(*x).Texts, document.Flatten(*y).Texts
	both, all := 0.0, 0.0
	for path := range union(a, b) {
		switch {
		case path == "readings":
			all += 3
			both += 3 * m.daysLike(mine, theirs)
		case m.same(mine+"."+path, b[path]):
			all++
			both++
		default:
			all++
		}
	}
	like := both / max(all, 1)
	if slices.Contains(ownItems, strings.TrimSuffix(general(mine), ".*")) && like < leastLike {
		return 0
	}
	return 0.02 + like
}

func union(a, b map[string]string) map[string]bool {
	all := map[string]bool{}
	for path := range a {
		all[path] = true
	}
	for path := range b {
		all[path] = true
	}
	return all
}
