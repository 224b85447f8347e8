//go:build js && wasm

package page

import (
	"fmt"
	"syscall/js"
)

// timer calls a function once, some time after it was started last. It makes
// one callback for its whole life.
type timer struct {
	call    js.Func
	milli   int // 0: at the next frame
	pending js.Value
	waits   bool
}

func newTimer(milli int, f func()) *timer {
	t := &timer{milli: milli}
	t.call = js.FuncOf(func(js.Value, []js.Value) any {
		t.waits = false
		f()
		return nil
	})
	return t
}

// newFrame makes a timer for the browser's next frame. However often it is
// started before, it calls once.
func newFrame(f func()) *timer { return newTimer(0, f) }

func (t *timer) start() {
	switch {
	case t.milli == 0 && !t.waits:
		js.Global().Call("requestAnimationFrame", t.call)
	case t.milli > 0:
		if t.waits {
			js.Global().Call("clearTimeout", t.pending)
		}
		t.pending = js.Global().Call("setTimeout", t.call, t.milli)
	}
	t.waits = true
}

// soon calls a function once, in a task of its own.
func (p *page) soon(f func()) {
	var call js.Func
	call = js.FuncOf(func(js.Value, []js.Value) any {
		call.Release()
		p.guard("going on", f)
		return nil
	})
	js.Global().Call("setTimeout", call, 0)
}

// inTurns calls step, some milliseconds at a time, until it says that it is
// done; the page has its turn in between. If one of them fails, fell is called.
func (p *page) inTurns(step func() bool, done, fell func()) {
	channel := js.Global().Get("MessageChannel").New()
	here, there := channel.Get("port1"), channel.Get("port2")
	var run js.Func
	run = js.FuncOf(func(js.Value, []js.Value) any {
		fine := p.guard("going on", func() {
			for began := now(); !step(); {
				if now()-began > budget {
					there.Call("postMessage", js.Null())
					return
				}
			}
			here.Call("close")
			run.Release()
			done()
		})
		if !fine {
			here.Call("close")
			fell()
		}
		return nil
	})
	here.Set("onmessage", run)
	there.Call("postMessage", js.Null())
}

// today gives the civil day where the browser is, as year-month-day.
func today() string {
	now := js.Global().Get("Date").New()
	return fmt.Sprintf("%04d-%02d-%02d", now.Call("getFullYear").Int(), 1+now.Call("getMonth").Int(), now.Call("getDate").Int())
}
