//go:build js && wasm

package page

import (
	"syscall/js"

	"splittally/calc"
	"splittally/calc/pulse"
	"splittally/calc/record"
	"splittally/wasm/view"
)

// rest is what only the second part of the engine does: all that a person has to
// ask for first. The page reaches it by these values alone, and wake makes them
// when that part is there. So nothing here can be called too soon, and wasm/pack
// finds by itself which functions belong to which part: those that wake alone
// leads to are in the second.
type rest struct {
	work          func(calc.Case) calc.Findings
	render        func(calc.Case, calc.Findings, map[string]bool) view.Drawing
	cards         func() map[string]string
	pictures      func()
	act           func(button, event js.Value)
	settle        func(target js.Value)
	openFragment  func()
	drop          func(files, target js.Value)
	goBack        func(undo bool)
	stopAll       func()
	stop          func(*job)
	stopListening func(*ear)
}

// wake takes up what the second part does. Nobody may call it before that part is
// there: wasm/pack knows it by its name.
func (p *page) wake() {
	p.rest = &rest{
		work: p.memory.Work, render: view.Render, cards: p.cards, pictures: p.drawPictures,
		act: p.act, settle: p.settleRest, openFragment: p.openFragment, drop: p.dropped, goBack: p.goBack,
		stopAll: p.stopAll, stop: p.stop, stopListening: p.stopListening,
	}
	p.files.wake(readKept)
	p.beats.wake(readMarks)
	p.ticks = newTimer(100, func() { p.guard("running the watch", p.tick) })
	p.on("dragenter", func(js.Value, js.Value) { p.warmUp() })
	p.on("click", func(e, target js.Value) {
		if target.Call("hasAttribute", "data-picks-readings").Bool() {
			p.warmUp()
		}
		if picture := target.Call("closest", "[data-wave]"); !picture.IsNull() && target.Call("closest", "[data-do]").IsNull() {
			p.touchWave(picture, e)
		}
	})
	p.listenToDrops()
	p.listenToHand()
	p.listenToPrinting()
}

func readKept(text string) *view.Kept {
	r, _ := record.Parse(text) // calc.Work tells what is wrong with it
	return view.Keep(view.Kept{Record: r})
}

func readMarks(text string) pulse.Marks {
	marks, _ := pulse.Parse(text) // likewise
	return marks
}

// listenToRest takes up the second part when static/boot.js has made it.
func (p *page) listenToRest() {
	p.on("whole", func(_, root js.Value) {
		if reason := attribute(root, "data-whole-reason"); attribute(root, "data-whole") != "yes" {
			p.lacks = reason
			p.tellRest()
			return
		}
		p.wake()
		if p.lacks = ""; p.isTold {
			p.notice("")
		}
		waiting := p.waiting
		p.waiting = nil
		p.work()
		for _, f := range waiting {
			p.guard("going on", func() { f(p.rest) })
		}
	})
	// A file dropped too soon must not take the page's place.
	early := func(e js.Value) bool {
		if p.rest != nil || !holdsFiles(e) {
			return false
		}
		e.Call("preventDefault")
		return true
	}
	p.on("dragover", func(e, _ js.Value) { early(e) })
	p.on("drop", func(e, target js.Value) {
		if early(e) {
			// Their list is emptied when the event is over.
			files := js.Global().Get("Array").Call("from", e.Get("dataTransfer").Get("files"))
			p.whole(func(r *rest) { r.drop(files, target) })
		}
	})
	p.onWindow("beforeprint", func(js.Value) {
		if p.rest == nil {
			p.tellRest()
		}
	})
}

// whole calls f once the second part is there: now, or as soon as it has come.
func (p *page) whole(f func(*rest)) {
	if p.rest != nil {
		f(p.rest)
		return
	}
	p.waiting = append(p.waiting, f)
	p.tellRest()
}

// tellRest tells that something has to wait for the second part, or that this
// part could not be had.
func (p *page) tellRest() {
	p.isTold = true
	if p.lacks == "" {
		p.notice("A part of this program is still on its way. What you asked for comes with it.")
		return
	}
	p.notice("A part of this program could not be had: " + p.lacks + ". Readings and bills are compared without it, and kept; the rest has to wait.")
	p.addAct("fetch-rest", "Try again", "")
}

// fetchRest has static/boot.js try the second part again.
func (p *page) fetchRest() {
	p.lacks = ""
	p.tellRest()
	p.doc.Underlying().Call("dispatchEvent", js.Global().Get("Event").New("fetch-rest"))
}

func holdsFiles(e js.Value) bool {
	data := e.Get("dataTransfer")
	return !data.IsNull() && data.Get("types").Call("includes", "Files").Bool()
}

// stopAllReading ends all reading of files and recordings.
func (p *page) stopAllReading() {
	if p.rest != nil {
		p.rest.stopAll()
	}
}

// do does what a button is for, if only the first part is needed; all else waits
// for the second. What opens a dialogue of the browser cannot wait.
func (p *page) do(button, event js.Value) {
	switch attribute(button, "data-do") {
	case "add-item":
		p.addItem(button)
	case "remove-item":
		p.removeItem(button)
	case "pick-date":
		p.pick(button)
	case "go":
		p.goTo(attribute(button, "data-at"))
	case "select":
		p.selectText(button)
	case "to-findings":
		p.toAndFro()
	case "save-file":
		p.saveFile()
	case "choose-file":
		p.byID("file").Call("click")
	case "choose-readings":
		button.Get("parentElement").Call("querySelector", "[data-picks-readings]").Call("click")
	case "choose-sound":
		button.Get("parentElement").Call("querySelector", "[data-picks-sound]").Call("click")
	case "choose-plan":
		p.choosePlan(button)
	case "take-update":
		p.takeUpdate()
	case "put-away":
		p.notice("")
	case "fetch-rest":
		p.fetchRest()
	default:
		p.whole(func(r *rest) { r.act(button, event) })
	}
}

// restFields are those whose changes need the second part of the engine.
const restFields = `#file, #plan-file, #against, [data-picks-readings], [data-picks-sound], [data-setting], [data-candidate], [data-role], [data-with]`

// settleRest takes these, and ends the watch of a run that is to be
// counted in another way.
func (p *page) settleRest(target js.Value) {
	switch {
	case target.Get("id").String() == "file":
		p.openChosen(target, p.openText)
	case target.Get("id").String() == "plan-file":
		p.openChosen(target, p.openPlan)
	case target.Call("hasAttribute", "data-picks-readings").Bool():
		p.readingsChosen(target)
	case target.Call("hasAttribute", "data-picks-sound").Bool():
		p.soundChosen(target)
	case target.Call("hasAttribute", "data-setting").Bool():
		p.setRight(target)
	case target.Call("hasAttribute", "data-candidate").Bool():
		p.setCandidate(target)
	case target.Call("hasAttribute", "data-role").Bool():
		p.setRole(target)
	case target.Get("id").String() == "against":
		p.showChanges()
	case target.Call("hasAttribute", "data-with").Bool():
		p.writeLink()
	case target.Call("hasAttribute", "data-field").Bool():
		if attribute(target, "data-field") == "how" && runAround(target).item.Equal(p.hand.item) {
			p.stopWatch(now())
		}
	}
}
