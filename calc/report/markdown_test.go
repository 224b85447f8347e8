package report

import (
	"strings"
	"testing"

	"github.com/yuin/goldmark"
	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/extension"
	extast "github.com/yuin/goldmark/extension/ast"
	"github.com/yuin/goldmark/text"

	"splittally/calc"
	"splittally/calc/document"
	"splittally/calc/example"
)

// forums reads Markdown as forums do: CommonMark with GitHub's extensions.
var forums = goldmark.New(goldmark.WithExtensions(extension.GFM))

// hostile are texts that would be markup in a form that escapes badly.
var hostile = []string{
	"# heading", "> quoted", "- item", "1. first", "12) twelfth", "+ plus", "* star", "=====", "---", "~~~", "```", "    code",
	"*bold* __strong__ ~~gone~~ `code`", "[a](http://b.invalid) ![i](x)", "http://evil.invalid/x", "www.evil.invalid", "<http://evil.invalid>", "me@evil.invalid",
	"<script>alert(1)</script>", "<b>&amp; &#42; </b>", "a | b | c", `a \| b \`, "| --- |", "{{ x }} $y$ ^z^", "@everyone", "line\nbreak\r\n# more", "tab\there", "[x]: http://b.invalid",
	"=HYPERLINK(\"http://b.invalid\")", "\u202eevil\u202c", "***", "_", "\\", "|", "<!-- -->", "<?php ?>", "&lt;i&gt;", "!", "#", "a  \nb", "- [ ] task", ": def", "[^1]",
}

// Every text of the example in turn becomes a hostile one; what comes out has no
// markup but the paper's own, and each table as many cells as its head.
func TestMarkdownHoldsAgainstHostileTexts(t *testing.T) {
	paths := textPaths(t)
	for n, bad := range hostile {
		c := spoiled(t, bad, func(k int) bool {
			return k%len(hostile) == n || paths[k] == "title" || strings.HasSuffix(paths[k], ".name")
		})
		p := Compose(c, calc.Work(c), about)
		checkMarkdown(t, bad, p)
	}
}

func FuzzMarkdown(f *testing.F) {
	for _, bad := range hostile {
		f.Add(bad)
	}
	f.Fuzz(func(t *testing.T, bad string) {
		if escaped(bad) == "" || len(bad) > 200 {
			return // a paper has no empty sentence, and names are cut
		}
		p := Paper{
			Title: bad, Lead: []string{bad}, Stamp: bad,
			Sections: []Section{{Title: bad, Blocks: []Block{{Words: []string{bad, bad}}, {Points: []string{bad, bad}}, {Table: &Table{
				Caption: bad, Head: []string{bad, bad}, Numbers: []bool{true, false}, Rows: [][]string{{bad, bad}, {"1", bad}},
			}}}}},
		}
		checkMarkdown(t, bad, p)
	})
}

// textPaths lists the paths of the example's texts.
func textPaths(t *testing.T) (out []string) {
	t.Helper()
	c := opened(t, "the example", example.Text)
	n := document.Write(c.Fields)
	walk("", &n, func(path string, _ *document.Node) { out = append(out, path) })
	return out
}

// spoiled gives the example with a text in place of those that are chosen.
func spoiled(t *testing.T, bad string, chosen func(k int) bool) calc.Case {
	t.Helper()
	c := opened(t, "the example", example.Text)
	n := document.Write(c.Fields)
	k := 0
	walk("", &n, func(_ string, leaf *document.Node) {
		if chosen(k) {
			leaf.Text = bad
		}
		k++
	})
	var out calc.Case
	if problems := document.Read(n, out.Fields); len(problems) > 0 {
		t.Fatal(problems)
	}
	return out
}

func walk(path string, n *document.Node, leaf func(path string, n *document.Node)) {
	if n.Kind == document.Leaf {
		leaf(strings.TrimPrefix(path, "."), n)
	}
	for i := range n.Names {
		walk(path+"."+n.Names[i].Name, &n.Names[i].Node, leaf)
	}
	for i := range n.Items {
		walk(path, &n.Items[i], leaf)
	}
}

// checkMarkdown reads a paper's Markdown and holds what it is made of against
// the paper.
func checkMarkdown(t *testing.T, bad string, p Paper) {
	t.Helper()
	source := []byte(p.Markdown())
	tree := forums.Parser().Parse(text.NewReader(source))
	counts := map[string]int{}
	_ = ast.Walk(tree, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if !entering {
			return ast.WalkContinue, nil
		}
		counts[n.Kind().String()]++
		switch n := n.(type) {
		case *ast.RawHTML, *ast.HTMLBlock, *ast.Link, *ast.Image, *ast.AutoLink, *ast.CodeBlock, *ast.FencedCodeBlock, *ast.CodeSpan,
			*ast.Blockquote, *ast.ThematicBreak, *extast.Strikethrough, *extast.TaskCheckBox:
			t.Errorf("%q became %s in\n%s", bad, n.Kind(), source)
		case *ast.List:
			if n.IsOrdered() {
				t.Errorf("%q became a numbered list in\n%s", bad, source)
			}
		}
		return ast.WalkContinue, nil
	})
	want := map[string]int{"Heading": 1}
	for _, s := range p.Sections {
		if s.Title != "" {
			want["Heading"]++
		}
		for _, b := range s.Blocks {
			want["ListItem"] += len(b.Points)
			if b.Table != nil {
				want["Table"]++
				want["TableCell"] += len(b.Table.Head) * (1 + len(b.Table.Rows))
			}
		}
	}
	if lead := len(p.Lead); counts["Emphasis"] > lead {
		t.Errorf("%q: %d emphases for %d sentences of the lead\n%s", bad, counts["Emphasis"], lead, source)
	}
	for kind, n := range want {
		if counts[kind] != n {
			t.Errorf("%q: %d of %s, want %d\n%s", bad, counts[kind], kind, n, source)
		}
	}
}

// What a person typed is read in a forum as it was typed.
func TestMarkdownKeepsWords(t *testing.T) {
	for _, said := range hostile {
		p := Paper{Title: said, Stamp: "end"}
		source := []byte(p.Markdown())
		tree := forums.Parser().Parse(text.NewReader(source))
		heading, isHeading := tree.FirstChild().(*ast.Heading)
		if !isHeading {
			t.Errorf("%q: no heading in %q", said, source)
			continue
		}
		var got strings.Builder
		_ = ast.Walk(heading, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
			if s, is := n.(*ast.Text); is && entering {
				got.Write(s.Segment.Value(source))
			}
			return ast.WalkContinue, nil
		})
		if bare := unescaped(got.String()); bare != clean(said) {
			t.Errorf("%q is read as %q", said, bare)
		}
	}
}

// unescaped takes the backslashes off that Markdown takes off when it is shown.
func unescaped(text string) string {
	var b strings.Builder
	for i := 0; i < len(text); i++ {
		if text[i] == '\\' && i+1 < len(text) && strings.IndexByte("\\`*_{}[]<>()#+-=.!|~&$@^:", text[i+1]) >= 0 {
			i++
		}
		b.WriteByte(text[i])
	}
	return b.String()
}
