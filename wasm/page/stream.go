//go:build js && wasm

package page

import "syscall/js"

// Sizes and times of reading a file. One buffer goes back and forth between the
// browser and the engine, so that nothing piles up to be collected.
const (
	bufferSize = 1 << 20
	// portion is what is handed over between two looks at the clock, and budget
	// the milliseconds after which the page has its turn.
	portion = 64 << 10
	budget  = 10
)

// stream hands over the bytes of a file in chunks and lets the page breathe in
// between. Promises alone do not, and a timer waits 4 ms each time, so it sends
// itself a message. At any time it waits for one callback at most.
type stream struct {
	p     *page
	write func(chunk []byte) bool // false ends the reading
	turn  func()                  // before each of the page's turns
	// portion is how many bytes to hand over at once; nil for the usual.
	portion func() int
	end     func() // once, when all is handed over or no more can be read
	fell    func() // once, if one of these fails; nil for nothing

	read  float64 // bytes handed over
	broke string  // why the end came too soon

	source js.Value // the browser's reader
	isOwn  bool     // it fills a buffer of ours
	buffer js.Value // ours, while the browser does not have it
	value  js.Value // the chunk that is handed over
	taken  int      // bytes of it that are in into
	into   []byte
	rest   []byte // what of into is not handed over

	began             float64 // when the page had its last turn, or later
	waits             bool
	isDone, isOff     bool // nothing more comes; nobody wants it
	isLast, isGone    bool // the next task is the end; all is given back
	got, failed, mine js.Func
	here, there       js.Value // the ports of the message
}

// start begins to read a stream of the browser's.
func (t *stream) start(bytes js.Value) {
	t.into = make([]byte, bufferSize)
	t.got, t.failed, t.mine = t.callback(t.came), t.callback(t.breaks), t.callback(func(js.Value) { t.began = now() })
	channel := js.Global().Get("MessageChannel").New()
	t.here, t.there = channel.Get("port1"), channel.Get("port2")
	t.here.Set("onmessage", t.mine)
	// Where the browser has no streams of bytes it makes its own chunks.
	if t.p.attempt(func() { t.source = bytes.Call("getReader", map[string]any{"mode": "byob"}) }) == nil {
		t.isOwn = true
		t.buffer = js.Global().Get("ArrayBuffer").New(bufferSize)
	} else {
		t.source = bytes.Call("getReader")
	}
	t.ask()
}

// callback is called by the browser, and then goes on.
func (t *stream) callback(f func(js.Value)) js.Func {
	return js.FuncOf(func(_ js.Value, args []js.Value) any {
		fine := t.p.guard("reading a file", func() {
			t.waits = false
			if !t.isOff {
				f(args[0])
			}
			t.run()
		})
		if !fine && t.fell != nil {
			t.fell()
		}
		return nil
	})
}

// ask wishes for the next chunk.
func (t *stream) ask() {
	t.waits = true
	var wish js.Value
	if t.isOwn {
		wish = t.source.Call("read", js.Global().Get("Uint8Array").New(t.buffer))
	} else {
		wish = t.source.Call("read")
	}
	wish.Call("then", t.got, t.failed)
}

// came takes a chunk. Whether it was there at once, so that the page has had no
// turn since the one before, can't be told.
func (t *stream) came(result js.Value) {
	if result.Get("done").Bool() {
		t.isDone = true
		return
	}
	t.value, t.taken = result.Get("value"), 0
}

func (t *stream) breaks(err js.Value) { t.broke, t.isDone = reason(err), true }

// run hands over what there is until the page must have its turn.
func (t *stream) run() {
	for {
		switch {
		case t.isOff:
			t.release()
			return
		case now()-t.began > budget:
			t.turn()
			t.breathe()
			return
		case len(t.rest) > 0 || t.more():
			t.hand()
		case t.isLast:
			t.release()
			t.end()
			return
		case t.isDone: // the end has work of its own
			t.isLast = true
			t.breathe()
			return
		default:
			t.ask()
			return
		}
	}
}

// more brings the next part of the chunk into the engine.
func (t *stream) more() bool {
	if t.value.IsUndefined() {
		return false
	}
	all := t.value.Get("byteLength").Int()
	part := t.value
	if t.taken > 0 || all > len(t.into) {
		part = part.Call("subarray", t.taken, min(all, t.taken+len(t.into)))
	}
	n := js.CopyBytesToGo(t.into, part)
	t.rest, t.taken = t.into[:n], t.taken+n
	if t.taken >= all {
		if t.isOwn {
			t.buffer = t.value.Get("buffer")
		}
		t.value = js.Undefined()
	}
	return n > 0
}

func (t *stream) hand() {
	n := min(portion, len(t.rest))
	if t.portion != nil {
		n = min(t.portion(), n)
	}
	chunk := t.rest[:n]
	t.rest, t.read = t.rest[n:], t.read+float64(n)
	if !t.write(chunk) {
		t.rest, t.value, t.isDone = nil, js.Undefined(), true
		t.leave()
	}
}

// breathe goes on in a task of its own.
func (t *stream) breathe() {
	t.waits = true
	t.there.Call("postMessage", js.Null())
}

// stop ends the reading; end is not called.
func (t *stream) stop() {
	if t.isGone {
		return
	}
	t.isOff = true
	t.leave()
	if !t.waits {
		t.release()
	}
}

// leave tells the browser that no more is wanted.
func (t *stream) leave() { t.source.Call("cancel").Call("catch", nothing) }

// release gives back what the browser holds for the stream.
func (t *stream) release() {
	t.isGone = true
	t.here.Call("close")
	t.got.Release()
	t.failed.Release()
	t.mine.Release()
	t.into, t.rest, t.buffer, t.value = nil, nil, js.Undefined(), js.Undefined()
}

// nothing is done with a promise that nobody waits for.
var nothing = js.FuncOf(func(js.Value, []js.Value) any { return nil })

// bytesOf gives all bytes of a small blob, or why it can't be read.
func (p *page) bytesOf(blob js.Value, done func(data []byte, broke string)) {
	var got, failed js.Func
	answer := func(f func(js.Value)) js.Func {
		return js.FuncOf(func(_ js.Value, args []js.Value) any {
			got.Release()
			failed.Release()
			p.guard("reading a file", func() { f(args[0]) })
			return nil
		})
	}
	got = answer(func(buffer js.Value) {
		array := js.Global().Get("Uint8Array").New(buffer)
		data := make([]byte, array.Length())
		js.CopyBytesToGo(data, array)
		done(data, "")
	})
	failed = answer(func(err js.Value) { done(nil, reason(err)) })
	blob.Call("arrayBuffer").Call("then", got, failed)
}

// reason gives a browser's own words for what went wrong.
func reason(err js.Value) string {
	if err.Type() == js.TypeObject && err.Get("message").Type() == js.TypeString {
		return err.Get("message").String()
	}
	return "the browser gives no reason"
}

// now is the time in milliseconds since the page began.
func now() float64 { return performance.Call("now").Float() }

var performance = js.Global().Get("performance")
