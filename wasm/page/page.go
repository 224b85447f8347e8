//go:build js && wasm

// Package page binds the page to the calculation: fields -> calc.Case ->
// calc.Work -> view -> page. It is the only package that touches the browser.
//
// It calculates nothing and knows no field by name. A field is an element with
// data-field, a list one with data-list whose items have data-item, a place for
// results one with data-slot, a button's act stands in data-do. Names inside
// items and data-group elements join to paths, which are those of the case.
//
// Everything the browser calls goes through guard, so that a bug is told and
// what was typed is kept.
package page

import (
	"runtime/debug"
	"syscall/js"

	"honnef.co/go/js/dom/v2"

	"splittally/calc"
	"splittally/calc/zone"
	"splittally/wasm/form"
	"splittally/wasm/shelf"
	"splittally/wasm/view"
)

// page is what the page holds and shows.
type page struct {
	doc dom.Document

	fields   []field
	slots    []*slot
	patterns map[string]js.Value // an empty item of each list, by the list's form.Kind

	c        calc.Case // as last worked out
	memory   calc.Memory
	f        calc.Findings
	unfolded map[string]bool // the parts that were drawn open

	answers []calc.Answer
	today   string            // the day of the last edit
	said    map[string]string // messages beside fields, by path
	short   string            // the verdict bar's text

	shelf     *shelf.Shelf
	tab       *shelf.Tab    // one's own case, which waits while another is shown
	list      []shelf.Entry // what the shelf has
	guest     string        // the kind of case that is shown instead and not kept, "" for none
	fragment  string        // of the link that it came from
	isMended  bool          // something in it was changed since the tab took note
	aside     string        // what was last replaced, to bring back
	notices   int           // how many there were
	unkept    bool          // there is something to keep
	held      []*shelf.Tab  // other cases that could not be kept
	isFailing bool          // and it could not be kept

	unread     map[string]string // what could not be read, by the keys where it is kept aside
	drawnCases string            // what the lists of cases show
	warned     bool              // that it can't be kept while a new version starts

	files files      // what came of files of readings
	spots []*spot    // where they can go
	jobs  []*job     // those that are read: the first now, the others after it
	beats beats      // pulses of the meter
	ears  []*ear     // where recordings of them can go
	hand  *hand      // the watch or the taps that go on
	laid  float64    // when a finger was laid on such a button, and is still there
	rules zone.Rules // of the person's own clock, once a file needed them

	rest    *rest         // what the second part of the engine does, nil until it is there
	waiting []func(*rest) // what was asked for meanwhile
	lacks   string        // why it could not be had
	isTold  bool          // that something waits for it

	typedIn js.Value // the field that was typed into last
	planAt  js.Value // the tariff that a file is picked for

	warm   bool // reading files has been tried out
	worked bool // something was worked out since the last frame
	stale  bool // and then something changed

	frame, calm, later, again, lister, hush, ticks *timer
}

// garbage is how much may gather, in percent of what is in use, before it is
// collected. Each key makes some 2 MB of it; by Go's own rule every second key
// would pay for a collection.
const garbage = 400

// garbageOfSound is the same while a recording is read: decoding makes much of
// it, and what is kept of an hour is large.
const garbageOfSound = 50

// Start binds everything, brings back what was kept, and draws. It returns; the
// program must then wait for events.
func Start() {
	debug.SetGCPercent(garbage)
	p := &page{doc: dom.GetWindow().Document(), said: map[string]string{}}
	p.guard("starting", func() {
		p.frame = newFrame(func() { p.guard("calculating", p.nextFrame) })
		p.calm = newTimer(150, func() { p.guard("drawing", p.picture) })
		p.later = newTimer(soonest, func() { p.guard("keeping", p.keep) })
		p.again = newTimer(1500, func() { p.guard("keeping", p.look) })
		p.lister = newTimer(400, func() { p.guard("listing the cases", p.relist) })
		p.hush = newTimer(1200, func() { p.guard("telling", p.tell) })
		p.learn()
		p.fit(nil)
		p.listen()
		p.restore()
		p.work()
		p.openLinked()
		p.enable()
		p.showSteps()
		p.showCases()
	})
	p.doc.DocumentElement().SetAttribute("data-engine", "ready")
}

// changed is called after each change of a field or an answer. The first change
// after a frame is worked out at once, so that the very next frame shows it;
// others, of keys that come faster than frames, wait for that frame together.
func (p *page) changed() {
	p.toKeep()
	if p.worked {
		p.redo()
		return
	}
	p.worked = true
	p.frame.start()
	p.work()
}

// touched is changed for what takes a while, as a file does: working it out and
// drawing it are tasks of their own.
func (p *page) touched() {
	p.toKeep()
	p.soon(func() {
		p.find()
		p.soon(p.drawFound)
	})
}

// toKeep lets what the page holds be kept soon.
func (p *page) toKeep() {
	switch p.guest {
	case "":
		p.today = today()
		p.unkept = true
		p.wait()
	case linkGuest:
		p.today = today()
		p.isMended = true
		p.foldChanges()
		p.wait()
	}
}

// redo works the case out at the next frame.
func (p *page) redo() {
	p.stale = true
	p.frame.start()
}

func (p *page) nextFrame() {
	stale := p.stale
	p.worked, p.stale = false, false
	if stale {
		p.work()
	}
}

// work reads the fields, works the case out and draws what it comes to.
func (p *page) work() {
	p.find()
	p.drawFound()
}

func (p *page) find() {
	p.c = p.read()
	switch {
	case p.rest != nil:
		p.f = p.rest.work(p.c)
	case p.c.IsPlain():
		p.f = p.memory.Verdict(p.c)
	}
}

func (p *page) drawFound() {
	p.drawFindings()
	p.calm.start()
}

// redraw draws what was last found, with what is unfolded now.
func (p *page) redraw() {
	p.drawFindings()
	p.picture()
}

func (p *page) picture() {
	if p.rest != nil {
		p.rest.pictures()
	}
}

// drawPictures draws what waits until nobody has typed for a moment, and writes
// the findings as text.
func (p *page) drawPictures() {
	p.writeText()
	drawn := view.Pictures(p.c, p.f, p.unfolded)
	for _, s := range p.slots {
		if view.IsPicture(s.path) {
			p.show(s, drawn[s.path])
		}
	}
	p.writeLink()
}

func (p *page) drawFindings() {
	p.unfolded = map[string]bool{}
	for _, d := range p.all("details[open][id]") {
		p.unfolded[d.Get("id").String()] = true
	}
	if p.rest == nil {
		if p.c.IsPlain() { // others are drawn with the second part of the engine
			p.draw(view.First(p.c, p.f, p.unfolded))
		}
		return
	}
	p.byID("offer-hours").Set("hidden", !p.holdsHours()) // at once: later it would move what is pressed
	d := p.rest.render(p.c, p.f, p.unfolded)
	for slot, card := range p.rest.cards() {
		d.Slots[slot] = card
	}
	p.draw(d)
}

// read makes a case of what the page holds.
func (p *page) read() calc.Case {
	c, problems := form.Case(p.typed())
	if len(problems) > 0 { // a test holds page and case together
		panic("the page has a field that the case lacks: " + problems[0].Path)
	}
	c.Answers, c.Today = p.answers, p.today
	return c
}

// fill puts a case into the page.
func (p *page) fill(c calc.Case) {
	filled := form.Fields(c)
	p.fit(filled.Items)
	for _, f := range p.fields {
		text := filled.Texts[f.path]
		if text != f.text() {
			f.set(text)
			unfoldAround(f.el) // nothing that counts is hidden
		}
	}
	p.answers, p.today = c.Answers, c.Today
}

// listen takes up every event once, for the whole document; so items that are
// added later need no more.
func (p *page) listen() {
	p.on("input", func(e, target js.Value) {
		if target.Call("hasAttribute", "data-field").Bool() {
			p.typedIn = target
			p.outdate()
			p.changed()
		}
	})
	p.on("change", p.settled)
	p.on("click", func(e, target js.Value) {
		if button := target.Call("closest", "[data-do]"); !button.IsNull() {
			p.apart()
			isNotice, before := !button.Call("closest", "#page-notice").IsNull(), p.notices
			p.do(button, e)
			if isNotice && p.notices == before {
				p.notice("") // its button has been pressed
			}
		}
	})
	p.on("toggle", func(_, target js.Value) {
		if id := attribute(target, "id"); id != "" && target.Get("open").Truthy() != p.unfolded[id] {
			p.redraw()
		}
	})
	p.on("submit", func(e, _ js.Value) { e.Call("preventDefault") })
	p.watchPlace()
	p.listenToKeys()
	p.listenToLeaving()
	p.listenToRest()
}

// on calls f for each event of a kind anywhere in the document. f gets the
// event and the element that it happened to.
func (p *page) on(kind string, f func(e, target js.Value)) {
	p.doc.Underlying().Call("addEventListener", kind, js.FuncOf(func(_ js.Value, args []js.Value) any {
		p.guard(kind, func() { f(args[0], element(args[0].Get("target"))) })
		return nil
	}), true) // on the way down: a toggle does not bubble up
}

// settled takes changes that are complete: answers, dates picked, files chosen,
// and fields that a browser changed without typing.
func (p *page) settled(_, target js.Value) {
	switch {
	case target.Call("matches", restFields).Bool():
		p.whole(func(r *rest) { r.settle(target) })
	case target.Call("hasAttribute", "data-question").Bool():
		p.answer(attribute(target, "data-question"), target.Get("value").String())
	case target.Get("classList").Call("contains", "picker").Bool():
		p.picked(target)
	case target.Call("hasAttribute", "data-field").Bool():
		if p.hand != nil {
			p.rest.settle(target)
		}
		p.changed()
	}
}

// answer keeps the choice taken for a question.
func (p *page) answer(question, choice string) {
	p.answers = form.Answered(p.answers, question, choice)
	p.changed()
}

// enable opens the buttons that needed the engine.
func (p *page) enable() {
	js.Global().Call("openButtons")
	p.limit()
}
