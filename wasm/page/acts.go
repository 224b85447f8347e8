//go:build js && wasm

package page

import (
	"syscall/js"

	"splittally/calc/calendar"
	"splittally/wasm/form"
)

// act does what a button is for that needs the second part of the engine. The
// names are those of data-do; do has the others.
func (p *page) act(button, event js.Value) {
	switch attribute(button, "data-do") {
	case "show-example":
		p.showExample()
	case "leave-example":
		p.leaveExample()
	case "tap", "watch":
		p.clicked(button, event)
	case "tap-done":
		p.letGo()
	case "untap":
		p.untap(button)
	case "marks-away":
		p.marksAway(button)
	case "mark":
		p.tellMark(button)
	case "insert-mark":
		p.insertMark(button)
	case "note-watts":
		p.noteWatts(runAround(button), event)
	case "stop-sound":
		p.stopSound(button)
	case "wave":
		p.wave(button)
	case "stop-file":
		p.stopReading(button)
	case "drop-file":
		p.dropFile(button)
	case "use-bill":
		p.useBill(button)
	case "save-plan":
		p.savePlan(button)
	case "print":
		p.print()
	case "as-text":
		p.asText(button)
	case "copy-text":
		p.copyText(button)
	case "save-table":
		p.saveTable(button)
	case "undo", "redo":
		p.goBack(attribute(button, "data-do") == "undo")
	case "next-month":
		p.nextMonth()
	case "further-days":
		p.furtherDays(button)
	case "open-case", "new-case", "copy-case", "away-case", "back-case", "erase-case", "save-aside", "discard":
		p.caseActs(attribute(button, "data-do"), button)
	case "bring-back":
		p.bringBack()
	default:
		p.shareActs(attribute(button, "data-do"), button)
	}
}

// pick opens the browser's calendar for the date field beside the button. The
// field itself takes text, because a date field would lose what is half typed
// or written out, and what a file holds.
func (p *page) pick(button js.Value) {
	picker := button.Get("nextElementSibling")
	if picker.Get("showPicker").IsUndefined() || p.attempt(func() { picker.Call("showPicker") }) != nil {
		button.Get("previousElementSibling").Call("focus")
	}
}

// picked writes a date from the calendar into its field, in words.
func (p *page) picked(picker js.Value) {
	day, ok := calendar.ParseISO(picker.Get("value").String())
	if !ok {
		return
	}
	field := picker.Get("parentElement").Get("firstElementChild")
	field.Set("value", day.Long())
	field.Call("focus")
	p.changed()
}

// goTo brings a field into view and puts the cursor into it.
func (p *page) goTo(path string) {
	el := p.doc.Underlying().Call("getElementById", form.ID(path))
	if el.IsNull() {
		return
	}
	unfoldAround(el)
	if attribute(el, "type") == "hidden" { // what fills it stands beside it
		el = firstShown(within(el.Get("parentElement"), "button"))
	}
	el.Call("scrollIntoView", map[string]any{"block": "center"})
	el.Call("focus", map[string]any{"preventScroll": true})
}

// firstShown gives the first of some elements that is not hidden, or the last.
func firstShown(all []js.Value) (el js.Value) {
	for _, el = range all {
		if el.Get("offsetParent").Truthy() {
			break
		}
	}
	return el
}

// unfoldAround opens every part that an element is folded away in.
func unfoldAround(el js.Value) {
	for d := el.Call("closest", "details"); !d.IsNull(); d = d.Get("parentElement").Call("closest", "details") {
		d.Set("open", true)
	}
}

// selectText marks a place in a text of several lines and scrolls it into view.
func (p *page) selectText(button js.Value) {
	path := attribute(button, "data-at")
	f, ok := p.field(path)
	if !ok {
		return
	}
	p.goTo(path)
	f.el.Call("setSelectionRange", number(button, "data-from"), number(button, "data-to"))
	if total := number(button, "data-lines"); total > 0 {
		height := f.el.Get("scrollHeight").Float() / float64(total)
		f.el.Set("scrollTop", height*float64(number(button, "data-line")-3))
	}
}

// toAndFro goes to the findings, and from there back to what was typed.
func (p *page) toAndFro() {
	if attribute(p.doc.DocumentElement().Underlying(), "data-at") != "" {
		p.toEntries()
	} else {
		p.toFindings()
	}
}

// toFindings moves to the results, for readers of the screen as well.
func (p *page) toFindings() {
	title := p.byID("findings-title")
	p.byID("findings").Call("scrollIntoView")
	title.Call("focus", map[string]any{"preventScroll": true})
}

// toEntries moves to the field that was typed into last, or to the first.
func (p *page) toEntries() {
	last := p.typedIn
	if last.IsUndefined() || !last.Get("isConnected").Bool() {
		last = p.fields[0].el
	}
	last.Call("scrollIntoView", map[string]any{"block": "center"})
	last.Call("focus", map[string]any{"preventScroll": true})
}

// watchPlace keeps data-at right: "findings" while they fill the middle of the
// window, so that the bar offers the way back.
func (p *page) watchPlace() {
	observer := js.Global().Get("IntersectionObserver")
	if observer.IsUndefined() {
		return
	}
	root := p.doc.DocumentElement()
	seen := js.FuncOf(func(_ js.Value, args []js.Value) any {
		p.guard("scrolling", func() {
			if last := args[0].Index(args[0].Length() - 1); last.Get("isIntersecting").Bool() {
				root.SetAttribute("data-at", "findings")
			} else {
				root.RemoveAttribute("data-at")
			}
		})
		return nil
	})
	observer.New(seen, map[string]any{"rootMargin": "-50% 0px -50% 0px"}).Call("observe", p.byID("findings"))
}
