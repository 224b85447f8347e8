package report

import (
	"strings"
	"unicode/utf8"
)

// Markdown gives a paper in the form that forums take (CommonMark, with the
// tables of GitHub's). No HTML is in it, and nothing that a person typed can
// become markup: what would be is escaped with a backslash.
func (p Paper) Markdown() string {
	var b strings.Builder
	b.WriteString("# " + escaped(p.Title) + "\n")
	for _, s := range p.Lead {
		b.WriteString("\n**" + escaped(s) + "**\n")
	}
	for _, s := range p.Sections {
		if s.Title != "" {
			b.WriteString("\n## " + escaped(s.Title) + "\n")
		}
		for _, k := range s.Blocks {
			k.markdown(&b)
		}
	}
	b.WriteString("\n" + escaped(p.Stamp) + "\n")
	return b.String()
}

func (k Block) markdown(b *strings.Builder) {
	for _, s := range k.Words {
		b.WriteString("\n" + escaped(s) + "\n")
	}
	for n, s := range k.Points {
		if n == 0 {
			b.WriteByte('\n')
		}
		b.WriteString("- " + escaped(s) + "\n")
	}
	if k.Table == nil {
		return
	}
	if k.Table.Caption != "" {
		b.WriteString("\n" + escaped(k.Table.Caption) + "\n")
	}
	b.WriteByte('\n')
	k.Table.markdownRow(b, k.Table.Head)
	for i := range k.Table.Head {
		if k.Table.Numbers[i] {
			b.WriteString("| ---: ")
		} else {
			b.WriteString("| --- ")
		}
	}
	b.WriteString("|\n")
	for _, row := range k.Table.Rows {
		k.Table.markdownRow(b, row)
	}
}

func (t *Table) markdownRow(b *strings.Builder, cells []string) {
	for _, c := range cells {
		b.WriteString("| " + escaped(c) + " ")
	}
	b.WriteString("|\n")
}

// plainBlanks writes blanks that any reader can break lines at.
var plainBlanks = strings.NewReplacer("\u202f", " ", "\u00a0", " ")

// escaped puts a backslash before whatever could be markup: before these signs
// anywhere, and before what would make a heading, a list or a quotation where a
// line begins. CommonMark lets any sign of ASCII be escaped so.
func escaped(text string) string {
	text = strings.TrimSpace(plainBlanks.Replace(clean(text)))
	var b strings.Builder
	isNumber := true // only digits so far
	for at, r := range text {
		next := text[at+utf8.RuneLen(r):]
		ends := next == "" || next[0] == ' ' // what follows is no part of the word
		switch {
		case strings.ContainsRune("\\`*_[]<>|~&$@^{}", r),
			at == 0 && (r == '#' || r == '=' || (r == '+' || r == '-') && (ends || next[0] == byte(r))),
			isNumber && at > 0 && ends && (r == '.' || r == ')'),
			r == ':' && strings.HasPrefix(next, "//"),
			r == '.' && at > 2 && strings.EqualFold(text[at-3:at], "www"):
			b.WriteByte('\\')
		}
		isNumber = isNumber && r >= '0' && r <= '9'
		b.WriteRune(r)
	}
	return b.String()
}
