package shelf

import "splittally/calc/document"

// align gives, for each item of a list as it was, its number in the list as it
// is, or -1 if it is gone. What moved is gone and new: the numbers rise. Of all
// such ways it takes the one that finds most of the texts again.
func align(was, is []document.Node) []int {
	// best[i][j] is the best score of was[i:] and is[j:].
	best := make([][]int, len(was)+1)
	for i := range best {
		best[i] = make([]int, len(is)+1)
	}
	alike := make([][]int, len(was))
	flatIs := flattened(is)
	for i, a := range flattened(was) {
		alike[i] = make([]int, len(is))
		for j, b := range flatIs {
			alike[i][j] = likeness(a, b)
			if i == j || len(was)-i == len(is)-j {
				alike[i][j]++ // at the same place: an item typed anew is still that item
			}
		}
	}
	for i := len(was) - 1; i >= 0; i-- {
		for j := len(is) - 1; j >= 0; j-- {
			best[i][j] = max(best[i+1][j], best[i][j+1], best[i+1][j+1]+alike[i][j])
		}
	}
	at := make([]int, len(was))
	i, j := 0, 0
	for ; i < len(was); i++ {
		at[i] = -1
		for j < len(is) && best[i][j] == best[i][j+1] && best[i][j] != best[i+1][j+1]+alike[i][j] {
			j++
		}
		if j < len(is) && alike[i][j] > 0 && best[i][j] == best[i+1][j+1]+alike[i][j] {
			at[i] = j
			j++
		}
	}
	return at
}

func flattened(items []document.Node) []document.Flat {
	out := make([]document.Flat, len(items))
	for i, item := range items {
		out[i] = document.Flatten(item)
	}
	return out
}

// likeness is how many texts two items share, each weighing four, and more if
// nothing differs.
func likeness(a, b document.Flat) int {
	shared, differ := 0, 0
	for path, text := range a.Texts {
		switch other := b.Texts[path]; {
		case text == "":
		case other == text:
			shared++
		default:
			differ++
		}
	}
	for path, text := range b.Texts {
		if text != "" && a.Texts[path] == "" {
			differ++
		}
	}
	switch {
	case differ == 0:
		return 4*shared + 3
	case shared == 0:
		return 0
	}
	return 4 * shared
}
