package changes

import (
	"slices"
	"strconv"
	"strings"

	"splittally/calc/document"
)

// group merges the fields of a group; the paths are where it stands in mine and
// in theirs.
func (m *merger) group(mine, theirs string, a, b *document.Node) *document.Node {
	out := &document.Node{Kind: document.Group}
	names := order(mine)
	for _, n := range []*document.Node{a, b} {
		for i := range n.Names {
			if !slices.Contains(names, n.Names[i].Name) {
				names = append(names, n.Names[i].Name)
			}
		}
	}
	for _, name := range names {
		x, y := get(a, name), get(b, name)
		pathX, pathY := join(mine, name), join(theirs, name)
		switch {
		case x == &nothing && y == &nothing:
			continue
		case pathX == "today", pathX == "answers":
		case name == "readings":
			x = m.readings(mine, theirs, x, y)
		case isList(x) || isList(y):
			x = m.list(pathX, pathY, x, y)
		case x.Kind == document.Group || y.Kind == document.Group:
			x = m.group(pathX, pathY, x, y)
		default:
			x = m.leaf(pathX, x, y)
		}
		if x.Kind != document.Leaf || x.Text != "" {
			out.Names = append(out.Names, document.Named{Name: name, Node: *x})
		}
	}
	return out
}

// nothing is the place of a field that a document lacks.
var nothing document.Node

// get gives the place of a field in a group.
func get(n *document.Node, name string) *document.Node {
	for i := range n.Names {
		if n.Names[i].Name == name {
			return &n.Names[i].Node
		}
	}
	return &nothing
}

// leaf merges a text. What a file came to is one too, but too long to show.
func (m *merger) leaf(path string, x, y *document.Node) *document.Node {
	a, b := text(x), text(y)
	if m.same(path, b) {
		return x
	}
	show := func(text string) string { return brief(shown(path, text)) }
	if strings.HasSuffix(path, ".record") || strings.HasSuffix(path, ".marks") {
		show = lines
	}
	if m.wants("field "+path, m.where(path), what(path), show(a), show(b)) {
		return y
	}
	return x
}

func lines(text string) string {
	if text == "" {
		return ""
	}
	return strconv.Itoa(strings.Count(text, "\n")) + " lines"
}

// brief shortens a text of several lines, or a long one.
func brief(text string) string {
	text = strings.Join(strings.Fields(text), " ")
	const most = 80
	if r := []rune(text); len(r) > most {
		return string(r[:most]) + "…"
	}
	return text
}

// where is where a path leads, with a monitor by its name.
func (m *merger) where(path string) string {
	if rest, ok := strings.CutPrefix(path, "monitors."); ok {
		number, _, _ := strings.Cut(rest, ".")
		if i, err := strconv.Atoi(number); err == nil && i < len(m.mine.Monitors) {
			if name := strings.TrimSpace(m.mine.Monitors[i].Name); name != "" {
				return name
			}
		}
	}
	return where(path)
}

// list merges a list of groups. Items that only one case has are taken or left
// as a whole.
func (m *merger) list(mine, theirs string, x, y *document.Node) *document.Node {
	out := &document.Node{Kind: document.List}
	put := func(i, j int, n *document.Node) {
		if i >= 0 {
			m.moved[0][at(mine, i)] = len(out.Items)
		}
		if j >= 0 {
			m.moved[1][at(theirs, j)] = len(out.Items)
		}
		if i >= 0 && j >= 0 {
			m.paired[at(mine, i)], m.asTheirs[at(theirs, j)] = j, i
		}
		out.Items = append(out.Items, *n)
	}
	for _, p := range m.align(mine, theirs, x.Items, y.Items) {
		a, b := &nothing, &nothing
		pathA, pathB := at(mine, p.mine), at(theirs, p.theirs)
		if p.mine >= 0 {
			a = &x.Items[p.mine]
		}
		if p.theirs >= 0 {
			b = &y.Items[p.theirs]
		}
		switch blankA, blankB := isBlank(a), isBlank(b); {
		case !blankA && p.theirs >= 0:
			put(p.mine, p.theirs, m.group(pathA, pathB, a, b))
		case !blankA:
			if !m.wants("without "+pathA, m.where(pathA), "all of it", summary(pathA, a), "") {
				put(p.mine, -1, a)
			}
		case blankB:
			if p.mine >= 0 {
				put(p.mine, p.theirs, a)
			}
		case m.wants("with "+pathB, "Added: "+where(pathB), "all of it", "", summary(pathB, b)):
			put(p.mine, p.theirs, b)
			m.renew(1, pathB)
		case p.mine >= 0:
			put(p.mine, -1, a)
		}
	}
	return out
}

// summary names an item by its first few fields.
func summary(path string, n *document.Node) string {
	said := ""
	left := 3
	for _, name := range order(path) {
		f := get(n, name)
		t := text(f)
		switch {
		case isBlank(f):
			continue
		case name == "readings":
			t = "daily totals"
		case name == "record":
			t = "a file of readings"
		case t == "" || isList(f) || name == "marks" || left == 0:
			continue
		default:
			t = brief(shown(join(path, name), t))
			left--
		}
		if said != "" {
			said += ", "
		}
		said += t
	}
	if said == "" {
		return "figures"
	}
	return said
}

func isList(n *document.Node) bool {
	return n.Kind == document.List && len(n.Items) > 0 && n.Items[0].Kind != document.Leaf
}

// isBlank says that nothing is typed in an item.
func isBlank(n *document.Node) bool {
	for i := range n.Names {
		if !isBlank(&n.Names[i].Node) {
			return false
		}
	}
	for i := range n.Items {
		if !isBlank(&n.Items[i]) {
			return false
		}
	}
	return n.Kind != document.Leaf || n.Text == ""
}

// text is the text of a field, of one line or of several.
func text(n *document.Node) string {
	if n.Kind != document.List {
		return n.Text
	}
	all := make([]string, len(n.Items))
	for i := range n.Items {
		all[i] = n.Items[i].Text
	}
	return strings.Join(all, "\n")
}

func join(path, name string) string {
	if path == "" {
		return name
	}
	return path + "." + name
}

func at(path string, i int) string { return path + "." + strconv.Itoa(i) }

func lastDot(path string) int { return strings.LastIndexByte(path, '.') }
