//go:build js && wasm

package page

import (
	"strings"
	"syscall/js"
	"unicode"

	"splittally/calc"
	"splittally/calc/changes"
	"splittally/calc/link"
	"splittally/wasm/view"
)

// guestKey is where the tab's own storage holds what was mended in a case from a
// link, until it is kept: a reload or a crash brings it back. The link follows.
const guestKey = "split-tally/guest/1/"

// mostBeside is how many of one's own cases are tried for the one that a link is
// a version of.
const mostBeside = 12

// guestActs are the buttons beside a case from a link.
func (p *page) guestActs(act string, button js.Value) {
	switch act {
	case "open-link":
		p.openTyped()
	case "keep-guest":
		p.keepGuest()
	case "leave-guest":
		p.leaveGuest()
	case "as-sent":
		p.isMended = false
		p.forget(p.fragment)
		p.showLink(p.fragment)
	case "show-link":
		p.showLink(attribute(button, "data-id"))
	case "ask-changes":
		if p.disclose(button, "changes") {
			p.offerBeside()
			p.showChanges()
		}
	case "take-changes":
		p.takeChanges()
	}
}

// openTyped opens the link that was pasted into the page.
func (p *page) openTyped() {
	field := p.byID("link-in")
	text := strings.TrimSpace(field.Get("value").String())
	if _, behind, ok := strings.Cut(text, "#"); ok {
		text = behind
	}
	err := p.openLink(text)
	// A mail may have broken it into lines, or quoted these.
	if whole := strings.Join(strings.FieldsFunc(text, isBreak), ""); err != nil && whole != text && p.openLink(whole) == nil {
		text, err = whole, nil
	}
	says := ""
	switch {
	case text == "":
		says = "Paste a link first."
	case !link.Is(text):
		says = "There is no case in this. A link made here has a long run of letters and digits behind its #, which begins with “tally”."
	case err != nil:
		says = err.Error() + " Your own case is as it was."
	}
	p.byID("link-in-says").Set("textContent", says)
	p.byID("link-in-says").Set("hidden", says == "")
	if says == "" {
		field.Set("value", "")
		p.setFragment(fragmentOf(text))
	}
}

func isBreak(r rune) bool { return unicode.IsSpace(r) || r == '>' }

// openLinked opens the case in the page's own address, if there is one, once it
// can be read; and leaves such a case when the address no longer has it.
func (p *page) openLinked() {
	fragment := js.Global().Get("location").Get("hash").String()
	switch {
	case link.Is(fragment):
		p.whole(func(r *rest) { r.openFragment() })
	case fragment == "" && p.guest == linkGuest: // the way back was taken
		p.leaveGuest()
	}
}

// openFragment opens the case in the page's own address, if there is one.
func (p *page) openFragment() {
	fragment := js.Global().Get("location").Get("hash").String()
	if !link.Is(fragment) {
		return
	}
	if err := p.openLink(fragment[1:]); err != nil {
		p.setFragment(fragmentOf(p.fragment))
		p.notice(err.Error() + " Your own case is as it was.")
	}
}

// fragmentOf gives what stands in the address for a link, or for none.
func fragmentOf(text string) string {
	if text == "" {
		return ""
	}
	return "#" + text
}

// openLink shows the case of a link in place of one's own, which waits.
func (p *page) openLink(fragment string) error {
	c, err := link.Read(fragment)
	if err != nil {
		return err
	}
	p.mend()
	p.foldChanges()
	p.all(`[data-do="ask-changes"]`)[0].Set("hidden", len(p.cases()) == 0)
	p.fragment = fragment
	mended, isMended := p.mended(fragment)
	if isMended {
		c = mended
	}
	p.showGuest(c, linkGuest)
	if isMended {
		p.notice("This is the case of the link with what you mended in it.")
		p.addAct("as-sent", "Show it as it was sent", "")
	}
	p.work()
	js.Global().Call("scrollTo", 0, 0)
	p.announce("A case from a link is shown. Your own cases wait untouched.")
	return nil
}

// foldChanges puts the changes away, before they are no longer those of what is
// shown.
func (p *page) foldChanges() {
	p.byID("changes").Set("hidden", true)
	p.all(`[data-do="ask-changes"]`)[0].Call("setAttribute", "aria-expanded", false)
}

// mend lets the tab remember what was changed in a case from a link.
func (p *page) mend() {
	if !p.isMended {
		return
	}
	p.isMended = false
	text := p.saved()
	if p.attempt(func() { storage("sessionStorage").Call("setItem", guestKey+p.fragment, text) }) != nil {
		p.tellKept("This browser does not remember what you mend here. Keep the case or send it on before you leave.")
	}
}

func (p *page) mended(fragment string) (c calc.Case, ok bool) {
	_ = p.attempt(func() {
		if v := storage("sessionStorage").Call("getItem", guestKey+fragment); v.Type() == js.TypeString {
			opened, problems := calc.Open(v.String())
			c, ok = opened, len(problems) == 0
		}
	})
	return c, ok
}

// forget lets go of what was mended in the case of a link.
func (p *page) forget(fragment string) {
	_ = p.attempt(func() { storage("sessionStorage").Call("removeItem", guestKey+fragment) })
}

// mendedLink gives the link of the case that is shown, if something in it was
// mended.
func (p *page) mendedLink() string {
	p.mend()
	if p.guest == linkGuest {
		if _, isMended := p.mended(p.fragment); isMended {
			return p.fragment
		}
	}
	return ""
}

// tellMended says where the mends of a case from a link are that is shown no more.
func (p *page) tellMended(fragment string) {
	if fragment != "" {
		p.notice("What you mended in the case from the link waits in this tab.")
		p.offerLink(fragment)
	}
}

// offerLink has a notice lead back to what mendedLink gave.
func (p *page) offerLink(fragment string) {
	if fragment != "" {
		p.addAct("show-link", "Back to the case from the link", fragment)
	}
}

// showLink shows the case of a link that was open before.
func (p *page) showLink(fragment string) {
	if err := p.openLink(fragment); err != nil {
		panic("a link that was open can't be read: " + err.Error())
	}
	p.setFragment(fragmentOf(fragment))
}

// keepGuest makes a case from a link one of one's own.
func (p *page) keepGuest() {
	fragment := p.fragment
	p.keepAs(p.read())
	if p.unkept {
		p.notice("It is one of your cases now, but this browser could not keep it. Save it to a file before you leave.")
		p.addAct("save-file", "Save to a file", "")
		return
	}
	p.forget(fragment)
	p.notice("It is one of your cases now, and kept in this browser.")
}

// dropFragment takes the link out of the page's address, so that a reload shows
// one's own case.
func (p *page) dropFragment() {
	p.fragment, p.isMended = "", false
	p.setFragment("")
}

// setFragment changes the part of the address behind the #, which loads nothing.
func (p *page) setFragment(fragment string) {
	place := js.Global().Get("location")
	address := place.Get("pathname").String() + place.Get("search").String() + fragment
	_ = p.attempt(func() { js.Global().Get("history").Call("replaceState", nil, "", address) })
}

// offerBeside lists one's own cases, the one first that differs least.
func (p *page) offerBeside() {
	list := p.byID("against")
	list.Set("textContent", "")
	theirs, best, fewest := p.read(), "", 0
	for i, e := range p.cases() {
		option := p.doc.Underlying().Call("createElement", "option")
		option.Set("value", e.ID)
		show(option, e.Name)
		list.Call("append", option)
		if i >= mostBeside {
			continue
		}
		if mine, err := p.caseOf(e.ID); err == nil {
			if n := len(changes.Between(mine, theirs)); best == "" || n < fewest {
				best, fewest = e.ID, n
			}
		}
	}
	list.Set("value", best)
}

// showChanges shows what differs from the case that was chosen.
func (p *page) showChanges() {
	mine, err := p.caseOf(p.byID("against").Get("value").String())
	if err != nil {
		p.notice("That case can’t be read: " + err.Error() + ".")
		return
	}
	items := changes.Between(mine, p.read())
	p.show(&slot{el: p.byID("changed")}, view.Changes(items))
	p.all(`[data-do="take-changes"]`)[0].Set("hidden", len(items) == 0)
}

// takeChanges takes what is ticked over into one's own case, as one step that
// can be undone.
func (p *page) takeChanges() {
	id := p.byID("against").Get("value").String()
	mine, err := p.caseOf(id)
	if err != nil {
		p.notice("That case can’t be read: " + err.Error() + ".")
		return
	}
	var keys []string
	for _, box := range p.all("[data-change]") {
		if box.Get("checked").Bool() {
			keys = append(keys, attribute(box, "data-change"))
		}
	}
	if len(keys) == 0 {
		p.notice("Nothing is ticked.")
		return
	}
	taken := changes.Take(mine, p.read(), keys)
	p.openCase(id)
	if p.tab.ID() != id {
		return // openCase has said why
	}
	p.take(taken)
	p.toKeep()
	p.keep()
	p.notice("What was ticked is now in your case.")
	p.addAct("undo", "Undo that", "")
}
