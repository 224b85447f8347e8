//go:build js && wasm

package page

import (
	"encoding/binary"
	"math"
	"syscall/js"

	"splittally/calc/sound"
)

// Bounds of what the browser decodes, which it does all at once: the bytes of a
// file, those above which it decodes coarsely, and both its rates.
const (
	mostDecoded, coarseFrom   = 64_000_000, 4_000_000
	fineDecoded, coarseDecode = 24_000, 8_000
	takenAtOnce               = 1 << 13 // samples
)

// decode lets the browser decode what the engine does not, and never plays it.
func (p *page) decode(l *listening, read sound.Found) {
	context := js.Global().Get("OfflineAudioContext")
	if context.IsUndefined() {
		p.unheard(l.ear, l.name, undecoded(read))
		return
	}
	if l.total > mostDecoded {
		p.unheard(l.ear, l.name, "It is too large for the browser to decode at once. Save it as WAV or MP3 and pick it again.")
		return
	}
	rate := fineDecoded
	if l.total > coarseFrom {
		rate = coarseDecode
	}
	p.busy(l, "the browser decodes it")
	var loaded, decoded, failed js.Func
	release := func() { loaded.Release(); decoded.Release(); failed.Release() }
	answer := func(f func(js.Value)) js.Func {
		return js.FuncOf(func(_ js.Value, args []js.Value) any {
			if !p.guard("decoding a recording", func() { f(args[0]) }) {
				p.fell(l)
			}
			return nil
		})
	}
	decoded = answer(func(buffer js.Value) {
		if release(); !l.isOff {
			p.takeDecoded(l, read, buffer)
		}
	})
	failed = answer(func(js.Value) {
		if release(); !l.isOff {
			p.unheard(l.ear, l.name, undecoded(read))
		}
	})
	loaded = answer(func(bytes js.Value) {
		if l.isOff {
			release()
			return
		}
		context.New(1, 1, rate).Call("decodeAudioData", bytes).Call("then", decoded, failed)
	})
	l.file.Call("arrayBuffer").Call("then", loaded, failed)
}

// undecoded tells of what neither the engine nor the browser decodes.
func undecoded(read sound.Found) string {
	what := read.Format
	if what == "" {
		what = "no recording that is known"
	}
	return "It is " + what + ", which neither this program nor this browser can decode, or it is damaged. Save it as WAV or MP3 and pick it again."
}

// takeDecoded hands the samples of the browser's decoder to the finder.
func (p *page) takeDecoded(l *listening, read sound.Found, buffer js.Value) {
	rate, length := buffer.Get("sampleRate").Int(), buffer.Get("length").Int()
	channels := min(2, buffer.Get("numberOfChannels").Int())
	at, end := 0, min(length, sound.Longest*rate)
	read.Read, read.Promised, read.Lost = float64(end)/float64(rate), float64(length)/float64(rate), 0
	if read.Why, read.Says = "", nil; end < length {
		read.Says = []string{"It is longer than an hour: only the first hour was read."}
	}
	if l.finder.Begin(rate, channels); read.Format == "" {
		read.Format = "a form that the browser decodes"
	}
	var sides [2]js.Value
	for c := range channels {
		samples := buffer.Call("getChannelData", c)
		sides[c] = js.Global().Get("Uint8Array").New(samples.Get("buffer"), samples.Get("byteOffset"), samples.Get("byteLength"))
	}
	raw := make([]byte, 4*takenAtOnce)
	var left, right [takenAtOnce]float32
	p.inTurns(func() bool {
		if l.isOff || at >= end {
			return true
		}
		n := min(takenAtOnce, end-at)
		floats(left[:n], raw, sides[0], at)
		if channels == 2 {
			floats(right[:n], raw, sides[1], at)
			l.finder.Take(left[:n], right[:n])
		} else {
			l.finder.Take(left[:n], nil)
		}
		at += n
		return false
	}, func() {
		if !l.isOff {
			p.search(l, read)
		}
	}, func() { p.fell(l) })
}

// floats copies samples out of the browser.
func floats(into []float32, raw []byte, from js.Value, at int) {
	js.CopyBytesToGo(raw[:4*len(into)], from.Call("subarray", 4*at, 4*(at+len(into))))
	for i := range into {
		into[i] = math.Float32frombits(binary.LittleEndian.Uint32(raw[4*i:]))
	}
}
