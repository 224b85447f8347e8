//go:build js && wasm

// Command sound puts the decoding of MP3 into a page, alone and as the engine
// uses it, for benchmarks.
package main

import (
	"bytes"
	"io"
	"syscall/js"

	"github.com/hajimehoshi/go-mp3"

	"splittally/calc/onset"
	"splittally/calc/sound"
)

// alone decodes with go-mp3 and throws the samples away.
func alone(data []byte) int {
	d, err := mp3.NewDecoder(struct{ io.Reader }{bytes.NewReader(data)})
	if err != nil {
		return 0
	}
	n, _ := io.Copy(io.Discard, d)
	return int(n) / 4
}

// search decodes and searches as the page does, all at once.
func search(data []byte) int {
	finder := onset.New()
	r := sound.New(finder, sound.Options{Bytes: int64(len(data))})
	for len(data) > 0 {
		n := min(r.Portion(), len(data))
		if !r.Write(data[:n]) {
			break
		}
		data = data[n:]
	}
	r.Close()
	finder.End()
	for !finder.Step() {
	}
	return len(finder.Found().Pulses)
}

func main() {
	for name, f := range map[string]func([]byte) int{"alone": alone, "search": search} {
		js.Global().Set(name, js.FuncOf(func(_ js.Value, args []js.Value) any {
			data := make([]byte, args[0].Length())
			js.CopyBytesToGo(data, args[0])
			return f(data)
		}))
	}
	js.Global().Set("ready", true)
	select {}
}
