// Program bench puts calc/interval alone into a page, for BenchmarkFiles: what
// the page of Split Tally hands a file to, without the page.
package main

import (
	"encoding/json"
	"runtime/debug"
	"syscall/js"

	"splittally/calc/interval"
	"splittally/calc/record"
)

// chunk is what the page hands over at once.
const chunk = 1 << 20

var (
	buffer = make([]byte, chunk)
	found  interval.Found
)

func main() {
	debug.SetGCPercent(400) // as page.Start
	js.Global().Set("benchRead", js.FuncOf(read))
	js.Global().Set("benchResult", js.FuncOf(result))
	select {}
}

// read reads a Uint8Array as a file.
func read(_ js.Value, args []js.Value) any {
	file, name := args[0], args[1].String()
	size := file.Length()
	r := interval.NewReader(interval.Options{File: name, Bytes: int64(size)})
	for at := 0; at < size; at += chunk {
		n := js.CopyBytesToGo(buffer, file.Call("subarray", at, min(at+chunk, size)))
		if err := r.Write(buffer[:n]); err != nil {
			break
		}
	}
	found = r.Close()
	return nil
}

// result gives what was read last, as JSON, in the form of wasm/tools/gen.
func result(js.Value, []js.Value) any {
	var said struct {
		Rows     int        `json:"rows"`
		First    int64      `json:"first"`
		Days     []int64    `json:"days"`
		Gaps     [][2]int64 `json:"gaps"`
		Problems []string   `json:"problems"`
	}
	for _, p := range found.Problems {
		said.Problems = append(said.Problems, p.String())
	}
	if len(found.Records) > 0 {
		r := found.Records[0].Record
		c := r.Channels[0]
		said.Rows, said.First = r.Source.Rows, int64(c.First)
		for _, d := range c.Days {
			said.Days = append(said.Days, sum(d))
		}
		for _, g := range r.Gaps {
			said.Gaps = append(said.Gaps, [2]int64{g.From / 1000, g.To / 1000})
		}
	}
	text, err := json.Marshal(said)
	if err != nil {
		return err.Error()
	}
	return string(text)
}

func sum(d record.Day) int64 {
	total := d.Again.Energy
	for _, h := range d.Hours {
		total += h.Energy
	}
	return int64(total)
}
