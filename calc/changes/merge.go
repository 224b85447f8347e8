package changes

import (
	"slices"
	"strconv"
	"strings"

	"splittally/calc/document"
)

// group merges the fields of a group; the paths are where it stands in mine and
// in theirs.
func (m *merger) group(mine, theirs string, a, b document.Node) document.Node {
	out := document.Node{Kind: document.Group, Names: slices.Clone(a.Names)}
	names := order(mine)
	for _, n := range [][]document.Named{a.Names, b.Names} {
		for _, f := range n {
			if !slices.Contains(names, f.Name) {
				names = append(names, f.Name)
			}
		}
	}
	for _, name := range names {
		x, hasX := a.Get(name)
		y, hasY := b.Get(name)
		pathX, pathY := join(mine, name), join(theirs, name)
		switch {
		case !hasX && !hasY, pathX == "today", pathX == "answers":
			continue
		case name == "readings":
			x = m.readings(mine, theirs, x, y)
		case name == "record":
			x = m.record(pathX, x, y)
		case isList(x) || isList(y):
			x = m.list(pathX, pathY, x, y)
		case x.Kind == document.Group || y.Kind == document.Group:
			x = m.group(pathX, pathY, x, y)
		default:
			x = m.leaf(pathX, x, y)
		}
		out.Set(name, x)
	}
	out.Names = slices.DeleteFunc(out.Names, func(n document.Named) bool { return n.Node.Kind == document.Leaf && n.Node.Text == "" })
	return out
}

func (m *merger) leaf(path string, x, y document.Node) document.Node {
	a, b := text(x), text(y)
	if m.same(path, b) {
		return x
	}
	i := Item{Key: "field " + path, Where: m.where(path), What: what(path), Mine: brief(shown(path, a)), Theirs: brief(shown(path, b))}
	if m.wants(i) {
		return y
	}
	return x
}

// record merges what a file came to, which is taken as a whole.
func (m *merger) record(path string, x, y document.Node) document.Node {
	a, b := text(x), text(y)
	if m.same(path, b) {
		return x
	}
	if m.wants(Item{Key: "field " + path, Where: m.where(path), What: what(path), Mine: lines(a), Theirs: lines(b)}) {
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
func (m *merger) list(mine, theirs string, x, y document.Node) document.Node {
	out := document.Node{Kind: document.List}
	put := func(i, j int, n document.Node) {
		if i >= 0 {
			m.moved[0][at(mine, i)] = len(out.Items)
		}
		if j >= 0 {
			m.moved[1][at(theirs, j)] = len(out.Items)
		}
		if i >= 0 && j >= 0 {
			m.paired[at(mine, i)], m.asTheirs[at(theirs, j)] = j, i
		}
		out.Items = append(out.Items, n)
	}
	for _, p := range m.align(mine, theirs, x.Items, y.Items) {
		switch {
		case p.mine >= 0 && p.theirs >= 0 && !isBlank(x.Items[p.mine]):
			put(p.mine, p.theirs, m.group(at(mine, p.mine), at(theirs, p.theirs), x.Items[p.mine], y.Items[p.theirs]))
		case p.theirs < 0:
			n := x.Items[p.mine]
			if isBlank(n) || !m.wants(Item{
				Key: "without " + at(mine, p.mine), Where: m.where(at(mine, p.mine)), What: "all of it", Mine: summary(at(mine, p.mine), n),
			}) {
				put(p.mine, -1, n)
			}
		default:
			n := y.Items[p.theirs]
			if isBlank(n) {
				if p.mine >= 0 {
					put(p.mine, p.theirs, x.Items[p.mine])
				}
				continue
			}
			taken := m.wants(Item{
				Key: "with " + at(theirs, p.theirs), Where: "Added: " + where(at(theirs, p.theirs)), What: "all of it", Theirs: summary(at(theirs, p.theirs), n),
			})
			switch {
			case taken:
				put(p.mine, p.theirs, n)
				m.renew(1, at(theirs, p.theirs))
			case p.mine >= 0:
				put(p.mine, -1, x.Items[p.mine])
			}
		}
	}
	return out
}

// summary names an item by its first few fields.
func summary(path string, n document.Node) string {
	var said []string
	for _, name := range order(path) {
		f, ok := n.Get(name)
		if t := text(f); ok && t != "" && !isList(f) && name != "readings" && name != "record" && name != "marks" && len(said) < 3 {
			said = append(said, brief(shown(join(path, name), t)))
		}
	}
	if _, ok := n.Get("readings"); ok {
		said = append(said, "daily totals")
	}
	if _, ok := n.Get("record"); ok {
		said = append(said, "a file of readings")
	}
	if len(said) == 0 {
		return "figures"
	}
	return strings.Join(said, ", ")
}

func isList(n document.Node) bool {
	return n.Kind == document.List && len(n.Items) > 0 && n.Items[0].Kind != document.Leaf
}

// isBlank says that nothing is typed in an item.
func isBlank(n document.Node) bool {
	for _, f := range n.Names {
		if !isBlank(f.Node) {
			return false
		}
	}
	for _, item := range n.Items {
		if !isBlank(item) {
			return false
		}
	}
	return n.Kind != document.Leaf || n.Text == ""
}

// text is the text of a field, of one line or of several.
func text(n document.Node) string {
	if n.Kind != document.List {
		return n.Text
	}
	all := make([]string, len(n.Items))
	for i, item := range n.Items {
		all[i] = item.Text
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
