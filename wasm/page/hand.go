//go:build js && wasm

package page

import (
	"fmt"
	"strconv"
	"strings"
	"syscall/js"

	"splittally/calc/pulse"
	"splittally/calc/say"
)

// hand is the watch that runs, or the taps that go on. There is one at most.
type hand struct {
	run
	button js.Value // the pad, or the button of the watch
	taps   bool
	began  float64 // of the page's clock, in milliseconds
	awake  js.Value
	asks   bool // the browser has not answered yet
}

// listenToHand takes presses when they happen: a click comes only once the
// finger is lifted, and a handler when the page has time. So the time is that
// of the event, and the event is the first of the press.
func (p *page) listenToHand() {
	p.on("pointerdown", func(e, target js.Value) {
		p.laid = 0
		switch b := pressed(target); {
		case b.IsNull() || e.Get("button").Int() != 0:
		case p.hand != nil && p.hand.button.Equal(b):
			p.press(b, e.Get("timeStamp").Float())
		default: // it may be the beginning of scrolling, or else a click follows
			p.laid = e.Get("timeStamp").Float()
		}
	})
	p.on("keydown", func(e, target js.Value) {
		key := e.Get("key").String()
		switch b := p.keyed(key, target); {
		case !b.IsNull():
			e.Call("preventDefault")
			if !e.Get("repeat").Bool() {
				p.press(b, e.Get("timeStamp").Float())
			}
		case attribute(target, "role") == "button" && (key == "Enter" || key == " "): // of a picture
			e.Call("preventDefault")
			if !e.Get("repeat").Bool() {
				p.apart()
				p.act(target, e)
			}
		}
	})
	p.on("keyup", func(e, target js.Value) {
		key := e.Get("key").String()
		switch {
		case !p.keyed(key, target).IsNull(): // where a browser makes its click
			e.Call("preventDefault")
		case key == "Enter" && target.Get("classList").Call("contains", "noted").Bool():
			p.noteWatts(runAround(target), e) // not before: what has the focus then would be pressed
		}
	})
	p.on("visibilitychange", func(js.Value, js.Value) {
		if p.hand != nil && p.doc.Underlying().Get("visibilityState").String() == "visible" {
			p.hand.stayAwake(p)
		}
	})
}

// pressed gives the button of a watch or of taps that an element is or is in, or null.
func pressed(target js.Value) js.Value {
	b := target.Call("closest", `[data-do="tap"],[data-do="watch"]`)
	if !b.IsNull() && b.Get("disabled").Bool() {
		return js.Null()
	}
	return b
}

// keyed gives the button that a key presses, or null: that which has the focus,
// and while taps go on the space bar is theirs wherever it writes or presses
// nothing else.
func (p *page) keyed(key string, target js.Value) js.Value {
	if key != " " && key != "Enter" {
		return js.Null()
	}
	if b := pressed(target); !b.IsNull() {
		return b
	}
	elsewhere := target.Call("closest", "input, textarea, select, button, summary, a, [role=button]")
	if p.hand != nil && p.hand.taps && key == " " && elsewhere.IsNull() {
		return p.hand.button
	}
	return js.Null()
}

// clicked takes the click of such a button. Of one that is at work the press has
// come already; a click without any press is that of a reader of the screen.
func (p *page) clicked(button, event js.Value) {
	laid := p.laid
	p.laid = 0
	switch {
	case event.Get("detail").Int() == 0:
		p.press(button, event.Get("timeStamp").Float())
	case laid > 0:
		p.press(button, laid)
	}
}

// press is one press of a button of this kind, at a time of the page's clock.
func (p *page) press(button js.Value, at float64) {
	switch mine := p.hand != nil && p.hand.button.Equal(button); {
	case !mine && p.beats.at(runAround(button).marks()) != nil && attribute(button, "data-do") == "tap":
		p.notice("This run has its pulses. “Begin anew” puts them away.")
	case !mine:
		p.stopWatch(at)
		p.takeUp(button, at)
	case p.hand.taps:
		if k := p.beats.at(p.hand.marks()); k != nil {
			p.setMarks(p.hand.marks(), k.marks.Tap((at-p.hand.began)/1000))
		} else { // it was taken away meanwhile
			p.letGo()
			p.takeUp(button, at)
		}
	default:
		p.stopWatch(at)
		p.changed()
	}
}

// stopWatch ends what goes on; of a watch it writes the time.
func (p *page) stopWatch(at float64) {
	if p.hand != nil && !p.hand.taps {
		p.hand.find(`[data-field="seconds"]`).Set("value", strconv.FormatFloat((at-p.hand.began)/1000, 'f', 2, 64))
	}
	p.letGo()
}

// takeUp begins a run of the watch or of taps.
func (p *page) takeUp(button js.Value, at float64) {
	h := &hand{run: runAround(button), button: button, taps: attribute(button, "data-do") == "tap", began: at}
	p.stopListening(p.earOf(h.marks()))
	p.forgetAnswers(h.run)
	p.hand = h
	button.Call("setAttribute", "data-on", "")
	h.stayAwake(p)
	if seconds := h.find(`[data-field="seconds"]`); h.taps {
		p.putMarks(h.marks(), pulse.Marks{By: "taps"}.Tap(0), &heard{})
	} else if seconds.Get("value").String() != "" { // what was noted beside it goes too
		before := p.saved()
		for _, name := range []string{"seconds", "turns", "watts"} {
			h.find(`[data-field="`+name+`"]`).Set("value", "")
		}
		p.offer("This run begins anew.", before)
	}
	h.find(`[data-field="begins"]`).Set("value", clock())
	p.changed()
	p.ticks.start()
}

// letGo ends the watch or the taps, if there are any.
func (p *page) letGo() {
	if p.hand == nil {
		return
	}
	p.hand.button.Call("removeAttribute", "data-on")
	if !p.hand.awake.IsUndefined() {
		p.hand.awake.Call("release").Call("catch", nothing)
	}
	p.hand = nil
}

// tick shows the time on the watch, ten times a second.
func (p *page) tick() {
	if p.hand == nil {
		return
	}
	if !p.hand.button.Get("isConnected").Bool() { // its run was taken away
		p.letGo()
		return
	}
	if !p.hand.taps {
		p.hand.find("[data-watch]").Set("textContent", say.Watch((now()-p.hand.began)/1000, 1))
	}
	p.ticks.start()
}

// untap takes the last tap back.
func (p *page) untap(button js.Value) {
	field := p.marksOf(button)
	if k := p.beats.at(field); k != nil && k.marks.By == "taps" && len(k.marks.Marks) > 0 {
		p.setMarks(field, k.marks.Undo())
	}
	if p.hand != nil { // for the next tap
		p.hand.button.Call("focus")
	}
}

// noteWatts writes what the monitor shows now into the run's readings, with the
// time since its first press while it goes on.
func (p *page) noteWatts(r run, event js.Value) {
	noted, area := r.find(".noted"), r.find(`[data-field="watts"]`)
	watts := strings.TrimSpace(noted.Get("value").String())
	if watts == "" {
		noted.Call("focus")
		return
	}
	line := watts
	if p.hand != nil && p.hand.item.Equal(r.item) {
		line = say.Watch((event.Get("timeStamp").Float()-p.hand.began)/1000, 0) + "  " + watts
	}
	if text := strings.TrimRight(area.Get("value").String(), "\n "); text != "" {
		line = text + "\n" + line
	}
	area.Set("value", line)
	noted.Set("value", "")
	if p.hand != nil && p.hand.item.Equal(r.item) { // for the next tap
		noted = p.hand.button
	}
	noted.Call("focus")
	p.changed()
}

// stayAwake asks the browser not to darken the screen. It may refuse.
func (h *hand) stayAwake(p *page) {
	lock := js.Global().Get("navigator").Get("wakeLock")
	if lock.IsUndefined() || h.asks {
		return
	}
	h.asks = true
	var got, failed js.Func
	release := func() { got.Release(); failed.Release(); h.asks = false }
	got = js.FuncOf(func(_ js.Value, args []js.Value) any {
		defer release()
		if p.hand == h {
			h.awake = args[0]
		} else { // it has ended meanwhile
			args[0].Call("release").Call("catch", nothing)
		}
		return nil
	})
	failed = js.FuncOf(func(js.Value, []js.Value) any { release(); return nil })
	lock.Call("request", "screen").Call("then", got, failed)
}

// clock is the local time of day.
func clock() string {
	now := js.Global().Get("Date").New()
	return fmt.Sprintf("%02d:%02d:%02d", now.Call("getHours").Int(), now.Call("getMinutes").Int(), now.Call("getSeconds").Int())
}
