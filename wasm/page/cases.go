//go:build js && wasm

package page

import (
	"syscall/js"

	"splittally/calc"
	"splittally/calc/example"
	"splittally/wasm/form"
	"splittally/wasm/shelf"
)

// What is shown in place of one's own case, by the root's data-case.
const (
	exampleGuest = "example"
	linkGuest    = "guest"
)

// isGuest says that another case is shown than one's own, and not kept.
func (p *page) isGuest() bool { return p.guest != "" }

// showGuest shows a case in place of one's own, which waits. Nothing of it is
// kept.
func (p *page) showGuest(c calc.Case, kind string) {
	p.keep()
	p.guest = kind
	p.doc.DocumentElement().SetAttribute("data-case", kind)
	p.replace(c)
	p.showSteps()
}

// leaveGuest shows one's own case again.
func (p *page) leaveGuest() {
	mended := p.mendedLink()
	p.endGuest()
	p.replace(p.tab.Case())
	p.settle()
	p.showSteps()
	p.tellMended(mended)
}

func (p *page) endGuest() {
	p.guest = ""
	if p.fragment != "" {
		p.dropFragment()
	}
	p.doc.DocumentElement().RemoveAttribute("data-case")
}

// showExample shows the invented home.
func (p *page) showExample() {
	c, problems := calc.Open(example.Text)
	if len(problems) > 0 { // a test opens it
		panic("the example can't be opened: " + problems[0].String())
	}
	p.showGuest(c, exampleGuest)
	p.work() // so that the findings are where they will be
	p.toFindings()
}

func (p *page) leaveExample() {
	p.leaveGuest()
	p.all(`[data-do="show-example"]`)[0].Call("focus")
}

// keepAs makes a case one of one's own, and opens it. What was open before stays
// on the shelf.
func (p *page) keepAs(c calc.Case) {
	p.keep()
	p.endGuest()
	p.openTab(p.shelf.Add(c))
	p.toKeep()
	p.keep()
}

// openTab shows a case of the shelf. What could not be kept of the one before is
// held.
func (p *page) openTab(t *shelf.Tab) {
	if t != p.tab {
		p.hold(p.tab)
	}
	p.tab = t
	p.replace(t.Case())
	if p.settle(); p.unkept {
		p.wait()
	}
	p.showSteps()
	p.showCases()
}

// cases gives the cases that are kept, what was changed last first. What was
// taken away is not among them.
func (p *page) cases() (kept []shelf.Entry) {
	for _, e := range p.list {
		if !e.IsAway {
			kept = append(kept, e)
		}
	}
	return kept
}

// caseOf gives a case that is kept, without opening it.
func (p *page) caseOf(id string) (calc.Case, error) {
	if id == p.tab.ID() {
		p.note()
		return p.tab.Case(), nil
	}
	return p.shelf.Case(id)
}

func (p *page) entry(id string) (shelf.Entry, bool) {
	for _, e := range p.list {
		if e.ID == id {
			return e, true
		}
	}
	return shelf.Entry{}, false
}

// caseActs are the buttons of the list of cases.
func (p *page) caseActs(act string, button js.Value) {
	id := attribute(button, "data-id")
	switch act {
	case "open-case":
		p.openCase(id)
	case "new-case":
		p.newCase()
	case "copy-case":
		p.copyCase(id)
	case "away-case":
		p.takeAway(id)
	case "back-case":
		p.told(p.shelf.BringBack(id))
		p.relist()
		p.openCase(id)
	case "erase-case", "discard":
		p.erase(button, act, id)
	case "save-aside":
		p.download("split-tally-set-aside.txt", p.shelf.Aside()[id])
	}
}

// openCase opens a case of the list.
func (p *page) openCase(id string) {
	p.keep()
	if id == p.tab.ID() && !p.isGuest() {
		p.notice("")
		return
	}
	t, err := p.tabOf(id)
	if err != nil {
		p.notice("That case can’t be opened: " + err.Error() + ".")
		p.relist()
		return
	}
	mended := p.mendedLink()
	p.endGuest()
	p.openTab(t)
	p.announce("“" + shelf.Name(p.tab.Case()) + "” is open.")
	p.tellMended(mended)
	p.toTop()
}

// newCase begins an empty case. What was open stays on the shelf.
func (p *page) newCase() {
	p.keep()
	before, mended := p.tab, p.mendedLink()
	p.endGuest()
	p.openTab(p.shelf.Add(calc.Case{Today: today()}))
	p.offerCase("A new case begins.", before)
	p.offerLink(mended)
	p.toTop()
}

// offerCase tells something, with a button that opens the case that was open
// before, if there is anything in it.
func (p *page) offerCase(text string, before *shelf.Tab) {
	p.notice(text)
	if form.Holds(before.Case()) {
		p.addAct("open-case", "Back to the case before", before.ID())
	}
}

// toTop goes to the beginning of the entries.
func (p *page) toTop() {
	js.Global().Call("scrollTo", 0, 0)
	p.fields[0].el.Call("focus", map[string]any{"preventScroll": true})
}

// copyCase puts a second one of a case on the shelf, and opens it.
func (p *page) copyCase(id string) {
	c, err := p.caseOf(id)
	if err != nil {
		p.notice("That case can’t be copied: " + err.Error() + ".")
		return
	}
	p.keep()
	before := p.tab
	c.Title = "Copy of " + shelf.Name(c)
	p.keepAs(c)
	p.offerCase("The copy is open.", before)
}

// takeAway takes a case off the list. It can be brought back.
func (p *page) takeAway(id string) {
	p.keep()
	if p.unkept && id == p.tab.ID() || p.isHeld(id) {
		p.notice("That case can’t be taken away as long as this browser can’t keep what was typed into it.")
		return
	}
	if !p.told(p.shelf.TakeAway(id)) {
		return
	}
	p.relist()
	if id == p.tab.ID() {
		next := p.shelf.Add(calc.Case{Today: today()})
		if left := p.cases(); len(left) > 0 {
			if t, err := p.tabOf(left[0].ID); err == nil {
				next = t
			}
		}
		if p.isGuest() {
			p.tab = next
		} else {
			p.openTab(next)
		}
	}
	e, _ := p.entry(id)
	p.notice("“" + e.Name + "” was taken away.")
	p.addAct("back-case", "Bring it back", id)
}

// erase erases a case that was taken away, or what could not be read: for good,
// and so only when it is pressed a second time.
func (p *page) erase(button js.Value, act, id string) {
	if !button.Call("hasAttribute", "data-sure").Bool() {
		button.Call("setAttribute", "data-sure", "")
		button.Set("textContent", "Press again to erase it for good")
		return
	}
	if act == "discard" {
		p.told(p.shelf.Discard(id))
	} else {
		p.told(p.shelf.Erase(id))
	}
	p.notice("") // which may offer to bring it back
	p.relist()
	p.byID("cases-title").Call("focus")
}

// replace shows another case than before.
func (p *page) replace(c calc.Case) {
	p.clearSays()
	p.stopAllReading()
	p.fill(c)
	p.notice("")
	p.redo()
}

// told tells what the storage refused, and says whether it refused nothing.
func (p *page) told(err error) bool {
	if err != nil {
		p.notice("This browser refused it: " + err.Error() + ".")
	}
	return err == nil
}
