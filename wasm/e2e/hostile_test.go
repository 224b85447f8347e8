//go:build !js

package e2e

import (
	"context"
	"encoding/json"
	"fmt"
	"os"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/accessibility"
	"github.com/chromedp/chromedp"

	"splittally/calc"
	"splittally/calc/document"
	"splittally/calc/example"
	"splittally/calc/link"
)

// forgeries are texts that would be more than texts in a page that takes them for
// markup, turns by them, or is stretched by them. None holds a slash alone or a
// line's end, so that a file can be called so.
var forgeries = map[string]string{
	"markup":     `<button>Forged</button><h2>Forged</h2><a href=#x>Forged</a><img src=x onerror=document.title='hit'><svg onload=document.title='hit'>`,
	"closing":    `"'></textarea></select></title></svg></table><script>document.title='hit'</script><h3>Forged</h3>`,
	"attribute":  `x" autofocus onfocus="document.title='hit'" role="alert" style="position:fixed" y='`,
	"entities":   `&lt;button&gt;Forged&lt;/button&gt; &#60;h2&#62;Forged&#60;/h2&#62; {{7*7}} ${7*7} javascript:document.title='hit'`,
	"directions": "\u202e% hgih 9.9 sdaer \u2066Forged\u2067\u200f\u200eש 12",
	"unseen":     "Hall\u200bway\ufeff mon\u00aditor\u2060\x07\u0085 Forged",
	"long":       strings.Repeat("W", 4000),
}

// unforged fails the walk if a text came to be more than a text.
func (p *page) unforged(what string) {
	p.Helper()
	p.frame()
	for _, f := range append(p.forged(), p.forgedAloud()...) {
		p.Errorf("%s: %s", what, f)
	}
	p.fits()
}

// forged is what texts have come to be in the page.
func (p *page) forged() []string {
	p.Helper()
	return evaluate[[]string](p, `(() => {
		const found = [];
		if (document.title !== "Split Tally") found.push("a script ran: the title is " + document.title);
		for (const e of document.body.querySelectorAll("*")) {
			const name = e.localName;
			const is = e.outerHTML.slice(0, 120);
			if (/^(img|iframe|object|embed|video|audio|base|meta|link|style|frame|template)$/.test(name)) found.push(is);
			if (name === "script" && !/^(engine|wasm|$)/.test(e.id)) found.push(is);
			for (const a of e.getAttributeNames()) {
				if (/^on|^(style|action|formaction|srcdoc|target|ping|autofocus|contenteditable|xlink:href)$/.test(a)) found.push(a + " of " + is);
				if (a === "href" && !e.getAttribute(a).startsWith("#")) found.push(a + " of " + is);
			}
			if (/^(button|a|h[1-6]|summary|legend|label)$/.test(name) && e.textContent.trim() === "Forged") found.push(is);
		}
		return found;
	})()`)
}

// turning are signs that could turn or hide what a reader of the screen says.
const turning = "\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u200e\u200f\u200b\u2060\ufeff\u00ad"

// forgedAloud is what readers of the screen are given. What a field holds is as it
// was typed.
func (p *page) forgedAloud() (found []string) {
	p.Helper()
	ctx, cancel := context.WithTimeout(p.ctx, patience)
	defer cancel()
	tree, err := chromedp.Call(ctx, accessibility.GetFullAXTree, accessibility.GetFullAXTreeParams{})
	if err != nil {
		p.Fatal(err)
	}
	said := func(v *accessibility.Value) string {
		var text string
		if v != nil {
			json.Unmarshal(v.Value, &text) // of what is no text nothing is read
		}
		return text
	}
	nodes := map[accessibility.NodeID]*accessibility.Node{}
	for _, n := range tree.Nodes {
		nodes[n.NodeID] = n
	}
	inField := func(n *accessibility.Node) bool {
		for ; n != nil; n = nodes[n.ParentID] {
			if role := said(n.Role); role == "textbox" || role == "combobox" || role == "searchbox" {
				return true
			}
		}
		return false
	}
	if len(tree.Nodes) < 200 {
		found = append(found, fmt.Sprintf("the tree of the page has %d nodes: the check is blind", len(tree.Nodes)))
	}
	for _, n := range tree.Nodes {
		role, name := said(n.Role), said(n.Name)
		switch {
		case (role == "link" || role == "button" || role == "heading" || role == "alert") && name == "Forged":
			found = append(found, fmt.Sprintf("a reader of the screen is told of a %s %q", role, name))
		case strings.ContainsAny(name, turning) && !inField(n):
			found = append(found, fmt.Sprintf("the name of a %s holds signs that turn it: %q", role, name))
		}
	}
	return found
}

// TestNothingForgesMarkup hands the page hostile texts in each way that there is.
func TestNothingForgesMarkup(t *testing.T) {
	for kind, text := range forgeries {
		t.Run(kind, func(t *testing.T) {
			p := open(t, look{width: 360})
			p.fillIn(1)
			p.unfoldAll()
			p.unforged("before anything hostile")
			evaluate[chromedp.Void](p, `document.querySelectorAll("[data-field]:is(input:not([type=checkbox], [type=hidden]), textarea)").forEach((f) => {
				f.value = `+quote(text)+`;
				for (const kind of ["input", "change"]) f.dispatchEvent(new Event(kind, { bubbles: true }));
			})`)
			p.unfoldAll()
			p.unforged("every field")
			for _, all := range []bool{false, true} {
				c := poisoned(t, text, all)
				p.upload("#plan-file", written(t, "plan.json", []byte(calc.SavePlan(c.Plans[0]))))
				p.until("the tariff", func() bool { return p.value("#plans-0-name") == c.Plans[0].Name })
				p.unfoldAll()
				p.unforged("a file of a tariff")
				p.upload("#file", written(t, "case.json", []byte(calc.Save(c))))
				p.waitFor("#page-notice", "is open")
				p.unfoldAll()
				p.unforged("a file of a case")
				openLink(p, "#"+link.Write(c, link.Options{Names: true}))
				p.unfoldAll()
				p.unforged("a link")
				p.tap(`[data-do="leave-guest"]`)
			}
			p.tap(`[data-do="new-case"]`)
			hostileFiles(t, p, text)
		})
	}
}

// hostileFiles lets the page read files of readings, a feed and a recording that
// are hostile in all they name, and are named so.
func hostileFiles(t *testing.T, p *page, text string) {
	t.Helper()
	name := strings.Map(func(r rune) rune {
		if r == '/' || r == 0 {
			return '|'
		}
		return r
	}, text[:min(len(text), 180)])
	quoted := `"` + strings.ReplaceAll(text, `"`, `""`) + `"`
	table := "time," + quoted + " (kWh)," + quoted + "\n2024-03-01 00:00,1.5," + quoted + "\n2024-03-01 01:00,1.25," + quoted + "\n" + quoted + ",1," + quoted + "\n"
	feed := strings.ReplaceAll(twoMeters(), "<entry>", "<entry><title>"+escaped(text)+"</title>")
	feed = strings.ReplaceAll(feed, "<e:kind>0", "<e:kind>"+escaped(text))
	for ending, data := range map[string]string{".csv": table, ".xml": feed, ".txt": text} {
		p.upload(pickFile, written(t, name+ending, []byte(data)))
		p.until("the file to be read", func() bool { return p.count(".going") == 0 && p.text(fileCard) != "" })
		p.unfoldAll()
		p.unforged("a file" + ending)
	}
	p.choose("#timing-runs-0-how", "sound")
	p.upload(pickSound, written(t, name+".wav", clicks(5)))
	p.until("the recording to be read", func() bool { return p.text(soundCard) != "" && p.count(".going") == 0 })
	p.unfoldAll()
	p.unforged("a recording")
}

func escaped(text string) string {
	return strings.NewReplacer("&", "&amp;", "<", "&lt;", "\x07", "").Replace(text)
}

// poisoned is the worked example with a tariff: with the text for each name, or
// for everything that it holds.
func poisoned(t *testing.T, text string, all bool) calc.Case {
	t.Helper()
	c, problems := calc.Open(example.Text)
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	data, err := os.ReadFile("../../testdata/tariff/evening.tariff.json")
	if err != nil {
		t.Fatal(err)
	}
	plan, problems := calc.OpenPlan(string(data))
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	c.Plans = append(c.Plans, plan)
	root := document.Write(c.Fields)
	var walk func(name string, n *document.Node)
	walk = func(name string, n *document.Node) {
		for i := range n.Names {
			walk(n.Names[i].Name, &n.Names[i].Node)
		}
		for i := range n.Items {
			walk(name, &n.Items[i])
		}
		switch name {
		case "splittally", "today": // the version; a file with another one is refused
		case "name", "title", "note", "on", "question":
			n.Text = text
		default:
			if all && n.Kind == document.Leaf {
				n.Text = text
			}
		}
	}
	walk("", &root)
	var out calc.Case
	if problems := document.Read(root, out.Fields); len(problems) > 0 {
		t.Fatal(problems)
	}
	return out
}

// The check sees what it is for.
func TestForgeriesAreSeen(t *testing.T) {
	p := open(t, look{width: 360})
	for _, added := range []string{
		`document.createElement("img")`,
		`Object.assign(document.createElement("a"), { href: "x:y" })`,
		`Object.assign(document.createElement("h2"), { textContent: "Forged" })`,
		`(() => { const p = document.createElement("p"); p.style.position = "fixed"; return p; })()`,
		`Object.assign(document.createElement("button"), { textContent: "a\u202eb" })`,
	} {
		if found := append(p.forged(), p.forgedAloud()...); len(found) > 0 {
			t.Fatalf("before: %q", found)
		}
		evaluate[chromedp.Void](p, `(window.added = `+added+`, document.querySelector("main").append(added))`)
		if found := append(p.forged(), p.forgedAloud()...); len(found) == 0 {
			t.Errorf("%s went unseen", added)
		}
		evaluate[chromedp.Void](p, `added.remove()`)
	}
}
