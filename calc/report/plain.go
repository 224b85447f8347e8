package report

import (
	"strings"
	"unicode/utf8"
)

// Plain gives a paper as plain text in lines of at most about 100 characters,
// for whoever shows no Markdown.
func (p Paper) Plain() string {
	r := &writer{}
	r.text("", p.Title)
	for _, s := range p.Lead {
		r.line("")
		r.text("", s)
	}
	for _, s := range p.Sections {
		if s.Title != "" {
			r.section(s.Title)
		}
		for n, k := range s.Blocks {
			if n > 0 && k.Picture.Kind == NoPicture {
				r.line("")
			}
			r.block(k)
		}
	}
	r.line("")
	r.text("", p.Stamp)
	return plainBlanks.Replace(r.b.String())
}

func (r *writer) block(k Block) {
	for _, s := range k.Words {
		r.text("", s)
	}
	for _, s := range k.Points {
		r.text("- ", s)
	}
	if k.Table != nil {
		r.text("", k.Table.Caption)
		r.table(k.Table)
	}
}

// table writes columns as wide as their widest cells, and where they are too
// wide together each row as a list.
func (r *writer) table(t *Table) {
	wide, whole := make([]int, len(t.Head)), 0
	for i, head := range t.Head {
		wide[i] = utf8.RuneCountInString(head)
		for _, row := range t.Rows {
			wide[i] = max(wide[i], utf8.RuneCountInString(row[i]))
		}
		whole += wide[i] + 2
	}
	if whole > width+20 {
		r.listed(t)
		return
	}
	for _, row := range append([][]string{t.Head}, t.Rows...) {
		line := ""
		for i, cell := range row {
			room := strings.Repeat(" ", wide[i]-utf8.RuneCountInString(cell))
			if t.Numbers[i] {
				line += room + cell + "  "
			} else {
				line += cell + room + "  "
			}
		}
		r.line("%s", line)
	}
}

func (r *writer) listed(t *Table) {
	for _, row := range t.Rows {
		var said []string
		for i, cell := range row {
			if cell != "" && cell != "—" {
				said = append(said, strings.TrimSpace(strings.ToLower(t.Head[i])+" "+cell))
			}
		}
		r.text("- ", strings.Join(said, "; "))
	}
}
