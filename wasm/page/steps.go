//go:build js && wasm

package page

import (
	"strings"
	"syscall/js"

	"splittally/calc/document"
	"splittally/wasm/form"
)

// note takes what the fields hold into the steps of one's own case.
func (p *page) note() {
	if !p.isGuest() && p.tab != nil && p.tab.Note(p.read(), p.stepWords) {
		p.showSteps()
	}
}

// apart lets what comes next be a step of its own, and what was typed another.
func (p *page) apart() {
	if p.unkept {
		p.note()
	}
	if p.tab != nil {
		p.tab.Pause()
	}
}

// goBack undoes the last step, or does the next one again.
func (p *page) goBack(undo bool) {
	if p.isGuest() {
		return
	}
	p.apart()
	words, redo := p.tab.Undoes()
	went, does := p.tab.Undo, "Undone: "
	if !undo {
		words, went, does = redo, p.tab.Redo, "Done again: "
	}
	switch {
	case went():
		p.notice("")
		p.take(p.tab.Case())
		p.today = today()
		p.unkept = true
		p.wait()
		p.tellKept(does + words + ".")
		p.announce(does + words + ".")
	case words != "":
		p.notice("The earlier steps do not fit this case any more, so they were dropped. Nothing else changed.")
	}
	p.showSteps()
}

// showSteps writes onto the buttons what they would undo and do again.
func (p *page) showSteps() {
	undo, redo := "", ""
	if !p.isGuest() {
		undo, redo = p.tab.Undoes()
	}
	for _, b := range p.all(`[data-do="undo"], [data-do="redo"]`) {
		word, words := "Undo", undo
		if attribute(b, "data-do") == "redo" {
			word, words = "Redo", redo
		}
		switch {
		case !b.Call("hasAttribute", "data-step").Bool(): // one that a notice offers
			continue
		case words != "":
			word += ": " + words
		}
		b.Set("disabled", words == "")
		if b.Get("className").String() == "corner" {
			b.Set("hidden", words == "")
			b.Call("setAttribute", "aria-label", word)
		} else {
			b.Set("textContent", word)
		}
	}
}

// listenToKeys takes the keys for undoing, but for those in a field that takes
// text: there the browser's own undoing is what is meant.
func (p *page) listenToKeys() {
	p.on("keydown", func(e, target js.Value) {
		key := strings.ToLower(e.Get("key").String())
		if key != "z" && key != "y" || !e.Get("ctrlKey").Bool() && !e.Get("metaKey").Bool() || e.Get("altKey").Bool() || takesText(target) {
			return
		}
		e.Call("preventDefault")
		undo := key == "z" && !e.Get("shiftKey").Bool()
		p.whole(func(r *rest) { r.goBack(undo) })
	})
	p.on("focusin", func(js.Value, js.Value) {
		if p.unkept {
			p.apart()
		}
	})
}

func takesText(el js.Value) bool {
	return el.Call("matches", `textarea, select, [contenteditable], input:not([type="checkbox"], [type="radio"], [type="file"], [type="button"])`).Bool()
}

// stepWords says what a step is, in the words that stand beside the field.
func (p *page) stepWords(changes []document.Change) string {
	for _, c := range changes {
		if c.IsItems && p.isShown(c.Path) {
			return p.itemWords(c)
		}
	}
	words, more := "", 0
	for _, c := range changes {
		if strings.HasPrefix(c.Path, "answers.") {
			return "an answer"
		}
		switch w := p.fieldWords(c.Path); {
		case words == "":
			words = w
		case w != words:
			more++
		}
	}
	if more > 0 {
		words += ", and more"
	}
	return words
}

// isShown says whether a list is one of the page.
func (p *page) isShown(path string) bool {
	_, ok := p.patterns[form.Kind(path)]
	return ok
}

// itemWords says that an item was added or taken away.
func (p *page) itemWords(c document.Change) string {
	what := "an entry"
	if legend := p.patterns[form.Kind(c.Path)].Call("querySelector", ":scope > legend"); !legend.IsNull() {
		what = strings.ToLower(strings.TrimSpace(legend.Get("firstChild").Get("textContent").String()))
	}
	if len(c.After) > len(c.Before) || len(c.After) == len(c.Before) && c.After > c.Before {
		return what + " added"
	}
	return what + " taken away"
}

// fieldWords says which field a path is: what it stands in and its label.
func (p *page) fieldWords(path string) string {
	f, ok := p.field(path)
	if !ok {
		return "an entry"
	}
	if f.store != nil {
		return "a file or recording"
	}
	words := p.labelOf(f.el)
	if item := f.el.Call("closest", ".item"); !item.IsNull() {
		if legend := item.Call("querySelector", ":scope > legend"); !legend.IsNull() {
			words = strings.Join(strings.Fields(legend.Get("textContent").String()), " ") + ", " + words
		}
	}
	return words
}

// labelOf gives the label of a field.
func (p *page) labelOf(el js.Value) string {
	text := ""
	if labels := el.Get("labels"); labels.Truthy() && labels.Length() > 0 {
		text = labels.Index(0).Get("textContent").String()
	} else if by := p.doc.Underlying().Call("getElementById", strings.Split(attribute(el, "aria-labelledby"), " ")[0]); !by.IsNull() {
		text = by.Get("textContent").String()
	}
	if text = strings.Join(strings.Fields(text), " "); text == "" {
		return "an entry"
	}
	return text
}

// lostWords tells which entries two tabs both changed.
func (p *page) lostWords(lost []document.Change) string {
	c := lost[0]
	text := "Two tabs changed the same: " + p.fieldWords(c.Path)
	if !c.IsItems && len(c.Before) < mostQuoted && len(c.After) < mostQuoted {
		text += ". “" + c.After + "” stands now, and the other was “" + c.Before + "”"
	}
	if len(lost) > 1 {
		text += ", and more"
	}
	return text + "."
}

// mostQuoted is how long a text may be that a notice quotes, in bytes.
const mostQuoted = 60
