package shelf

import (
	"sort"

	"splittally/calc/document"
)

// merged makes one document of two that have changed since base. What only one
// has changed is as that one has it, whatever the list it stands in has come to
// be: items are told by what is in them, not by their number. Where both changed
// one text, mine is taken if mineWins, else theirs. What one took away and the
// other changed stays. Of new items in one place mine stand last if mineLast.
//
// With the sides the other way round, and both the other way, it is the same.
func merged(base, mine, theirs document.Flat, mineWins, mineLast bool) document.Flat {
	m := merger{mineWins, mineLast}
	f := document.Flatten(m.group(base.Node(), mine.Node(), theirs.Node()))
	for path, text := range f.Texts {
		if text == "" {
			delete(f.Texts, path)
		}
	}
	if f.Texts[dayPath] = max(mine.Texts[dayPath], theirs.Texts[dayPath]); f.Texts[dayPath] == "" {
		delete(f.Texts, dayPath)
	}
	return f
}

// dayPath is the day of the last edit, which changes by itself.
const dayPath = "today"

type merger struct{ mineWins, mineLast bool }

// node merges any place. A place that is not there is an empty text.
func (m merger) node(base, mine, theirs document.Node) document.Node {
	switch {
	case mine.Kind == document.List || theirs.Kind == document.List:
		return m.list(base, mine, theirs)
	case mine.Kind == document.Group || theirs.Kind == document.Group:
		return m.group(base, mine, theirs)
	case mine.Text == base.Text:
		return theirs
	case theirs.Text == base.Text || m.mineWins:
		return mine
	}
	return theirs
}

func (m merger) group(base, mine, theirs document.Node) document.Node {
	out := document.Node{Kind: document.Group}
	for _, name := range names(mine, theirs) {
		b, _ := base.Get(name)
		x, _ := mine.Get(name)
		y, _ := theirs.Get(name)
		out.Set(name, m.node(b, x, y))
	}
	return out
}

func names(groups ...document.Node) []string {
	var all []string
	have := map[string]bool{}
	for _, g := range groups {
		for _, n := range g.Names {
			if !have[n.Name] {
				have[n.Name] = true
				all = append(all, n.Name)
			}
		}
	}
	sort.Strings(all)
	return all
}

// list merges lists of groups: the items of base that are left, with what is
// new on either side behind the item that it stands behind there.
func (m merger) list(base, mine, theirs document.Node) document.Node {
	out := document.Node{Kind: document.List}
	atMine, atTheirs := align(base.Items, mine.Items), align(base.Items, theirs.Items)
	x, y := 0, 0 // how many items of each are through
	for j := 0; j <= len(base.Items); j++ {
		endX, endY := len(mine.Items), len(theirs.Items)
		if j < len(base.Items) {
			endX, endY = until(atMine, j, x), until(atTheirs, j, y)
		}
		out.Items = append(out.Items, m.added(mine.Items[x:endX], theirs.Items[y:endY])...)
		x, y = endX, endY
		if j == len(base.Items) {
			break
		}
		isMine, isTheirs := atMine[j] >= 0, atTheirs[j] >= 0
		switch {
		case isMine && isTheirs:
			out.Items = append(out.Items, m.group(base.Items[j], mine.Items[x], theirs.Items[y]))
			x, y = x+1, y+1
		case isMine:
			if !same(mine.Items[x], base.Items[j]) {
				out.Items = append(out.Items, mine.Items[x])
			}
			x++
		case isTheirs:
			if !same(theirs.Items[y], base.Items[j]) {
				out.Items = append(out.Items, theirs.Items[y])
			}
			y++
		}
	}
	return out
}

// until gives the end of the new items that stand before item j of base, or none
// if j is gone.
func until(at []int, j, from int) int {
	if at[j] >= 0 {
		return at[j]
	}
	return from
}

// added puts the new items of both sides one behind the other; the same on both
// is there once.
func (m merger) added(mine, theirs []document.Node) []document.Node {
	first, second := mine, theirs
	if m.mineLast {
		first, second = theirs, mine
	}
	out := append([]document.Node(nil), first...)
	used := make([]bool, len(first))
	for _, item := range second {
		twin := false
		for i := range first {
			if !used[i] && same(first[i], item) {
				used[i], twin = true, true
				break
			}
		}
		if !twin {
			out = append(out, item)
		}
	}
	return out
}

func same(a, b document.Node) bool {
	return len(document.Changes(document.Flatten(a), document.Flatten(b))) == 0
}
