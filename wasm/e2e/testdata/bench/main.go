// Program bench puts calc/interval alone into a page, for BenchmarkFiles: what
// the page of Split Tally hands a file to, without the page.
package main

import (
	"runtime/debug"
	"strings"
	"syscall/js"

	"splittally/calc/interval"
	"splittally/calc/record"
)

// Sizes as in wasm/page/stream.go: what is brought over at once, and what the
// reader gets at once.
const (
	bufferSize = 1 << 20
	portion    = 64 << 10
)

var (
	buffer = make([]byte, bufferSize)
	found  interval.Found
)

func main() {
	debug.SetGCPercent(400) // as page.Start
	js.Global().Set("benchRead", js.FuncOf(read))
	js.Global().Set("benchResult", js.FuncOf(result))
	select {}
}

// read reads a Uint8Array as a file of a name.
func read(_ js.Value, args []js.Value) any {
	o := interval.Options{File: args[1].String(), Bytes: int64(args[0].Length())}
	r := pass(args[0], o)
	if settings, again := r.Again(); again {
		o.Settings = settings
		r = pass(args[0], o)
	}
	found = r.Close()
	return nil
}

func pass(file js.Value, o interval.Options) *interval.Reader {
	r := interval.New(o)
	for at := 0; at < int(o.Bytes); at += bufferSize {
		n := js.CopyBytesToGo(buffer, file.Call("subarray", at, min(at+bufferSize, int(o.Bytes))))
		for chunk := buffer[:n]; len(chunk) > 0; {
			part := chunk[:min(portion, len(chunk))]
			if r.Write(part) != nil {
				return r
			}
			chunk = chunk[len(part):]
		}
	}
	return r
}

// result gives the record of what was read last, as a case keeps it, or what
// there is to say instead.
func result(js.Value, []js.Value) any {
	if len(found.Records) > 0 {
		return record.Format(found.Records[0].Record)
	}
	var said []string
	for _, p := range found.Problems {
		said = append(said, p.String())
	}
	return "no record: " + strings.Join(said, "; ")
}
