//go:build js && wasm

package page

import (
	"fmt"
	"strconv"
	"strings"
	"syscall/js"

	"splittally/calc/calendar"
	"splittally/calc/chart/markup"
	"splittally/calc/sorted"
	"splittally/wasm/shelf"
)

// relist reads anew what the shelf has, and shows it.
func (p *page) relist() {
	if list, err := p.shelf.Cases(); err == nil {
		p.list, p.unread = list, p.shelf.Aside()
	}
	p.showCases()
}

// listed brings the list up to date with what this tab has kept.
func (p *page) listed(e shelf.Entry) {
	list := []shelf.Entry{e}
	for _, other := range p.list {
		if other.ID != e.ID {
			list = append(list, other)
		}
	}
	p.list = list
	p.showCases()
}

// showCases draws the lists of cases, of those taken away, and of what could not
// be read, if anything in them has changed. Names come from people: they are put
// in as text.
func (p *page) showCases() {
	var lines [3][]line
	for _, e := range p.list {
		if e.IsAway {
			lines[1] = append(lines[1], line{e.Name, p.caseFacts(e), e.ID, []string{"back-case", "Bring back", "erase-case", "Erase for good"}})
			continue
		}
		acts := []string{"open-case", "Open", "copy-case", "Copy", "away-case", "Take away"}
		facts := p.caseFacts(e)
		if e.ID == p.tab.ID() && !p.isGuest() {
			acts, facts = acts[2:], facts+", open now"
		}
		lines[0] = append(lines[0], line{e.Name, facts, e.ID, acts})
	}
	for _, t := range p.held {
		if _, isListed := p.entry(t.ID()); !isListed {
			lines[0] = append(lines[0], line{shelf.Name(t.Case()), "not kept yet", t.ID(), []string{"open-case", "Open"}})
		}
	}
	for key, text := range p.unread {
		lines[2] = append(lines[2], line{"What could not be read", kilobytes(len(text)), key, []string{"save-aside", "Save it to a file", "discard", "Erase for good"}})
	}
	sorted.Stable(lines[2], func(a, b line) int { return strings.Compare(a.id, b.id) })
	drawn := fmt.Sprint(lines)
	if drawn == p.drawnCases {
		return
	}
	p.drawnCases = drawn
	for i, id := range []string{"cases", "cases-away", "cases-aside"} {
		list := p.byID(id)
		list.Get("parentElement").Set("hidden", len(lines[i]) == 0)
		p.drawLines(list, lines[i])
	}
	p.byID("away-count").Set("textContent", len(lines[1]))
}

// line is one entry of such a list; acts are pairs of an act and its words.
type line struct {
	name, facts, id string
	acts            []string
}

func (p *page) drawLines(list js.Value, lines []line) {
	focus := ""
	if active := p.doc.Underlying().Get("activeElement"); !active.IsNull() && list.Call("contains", active).Bool() {
		focus = active.Get("id").String()
	}
	list.Call("replaceChildren")
	for _, l := range lines {
		item := p.make(list, "li", "")
		p.make(item, "strong", l.name)
		p.make(item, "span", l.facts).Set("className", "quiet")
		acts := p.make(item, "span", "")
		acts.Set("className", "acts")
		for i := 0; i < len(l.acts); i += 2 {
			b := p.button(l.acts[i], l.acts[i+1])
			b.Set("id", l.acts[i]+"-"+l.id)
			b.Call("setAttribute", "data-id", l.id)
			b.Call("setAttribute", "aria-label", markup.Plain(l.acts[i+1]+": "+l.name))
			acts.Call("append", b)
		}
	}
	if focus != "" {
		el := p.doc.Underlying().Call("getElementById", focus)
		if el.IsNull() {
			el = p.byID("cases-title")
		}
		el.Call("focus", map[string]any{"preventScroll": true})
	}
}

// make appends an element with a text.
func (p *page) make(parent js.Value, tag, text string) js.Value {
	el := p.doc.Underlying().Call("createElement", tag)
	show(el, text)
	parent.Call("append", el)
	return el
}

// caseFacts says when a case was changed, and how large it is.
func (p *page) caseFacts(e shelf.Entry) string {
	at := js.Global().Get("Date").New(float64(e.At))
	day, _ := calendar.Date(at.Call("getFullYear").Int(), at.Call("getMonth").Int()+1, at.Call("getDate").Int())
	return fmt.Sprintf("changed %s, %d:%02d, %s", day.Long(), at.Call("getHours").Int(), at.Call("getMinutes").Int(), kilobytes(e.Size))
}

func kilobytes(bytes int) string { return strconv.Itoa((bytes+999)/1000) + " kB" }
