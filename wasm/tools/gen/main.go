// Command gen writes the files that make bench reads: a year of an invented
// home, the same each time, in the forms that files of readings have.
//
//	go -C wasm/tools run ./gen -form common -out year.csv
//	go -C wasm/tools run ./gen -form seconds -bytes 100000000 -out part.csv
//
// Beside each file it writes what the file must come to (year.csv.truth.json):
// rows, the energy of each day in µWh, the gaps. It knows them from making the
// readings, not from reading the file.
package main

import (
	"bufio"
	"encoding/json"
	"flag"
	"fmt"
	"os"
	"slices"
	"strings"
)

func main() {
	form := flag.String("form", "common", strings.Join(names(), ", "))
	out := flag.String("out", "", "file to write")
	limit := flag.Int64("bytes", 0, "end after so many bytes, at the end of a row; 0 is the whole year")
	flag.Parse()
	if err := run(*form, *out, *limit); err != nil {
		fmt.Fprintln(os.Stderr, "gen:", err)
		os.Exit(1)
	}
}

func names() []string {
	all := []string{"seconds", "feed"}
	for name := range forms {
		all = append(all, name)
	}
	slices.Sort(all)
	return all
}

func run(form, out string, limit int64) error {
	if out == "" {
		return fmt.Errorf("-out is missing")
	}
	f, err := os.Create(out)
	if err != nil {
		return err
	}
	defer f.Close()
	w := &counted{w: bufio.NewWriterSize(f, 1<<20)}
	var t Truth
	switch {
	case form == "feed":
		t = feed(w)
	case form == "seconds":
		t = seconds(w, limit)
	case forms[form].row == nil:
		return fmt.Errorf("no form %q; there are %s", form, strings.Join(names(), ", "))
	default:
		t = minutes(w, forms[form], limit)
	}
	if err := w.w.Flush(); err != nil {
		return err
	}
	if err := f.Close(); err != nil {
		return err
	}
	t.Bytes = w.n
	said, err := json.Marshal(t)
	if err != nil {
		return err
	}
	return os.WriteFile(out+".truth.json", said, 0o644)
}

// Truth is what a file must come to.
type Truth struct {
	Bytes int64      `json:"bytes"`
	Rows  int        `json:"rows"`
	First int64      `json:"first"` // the first day, counted from 1970-01-01
	Days  []int64    `json:"days"`  // µWh, from the first day on
	Gaps  [][2]int64 `json:"gaps"`  // from and to, in seconds of the local clock since 1970-01-01
	Cost  int64      `json:"cost"`  // of a feed, in 1e-5 of its currency

	register int64 // what it showed last
}

// add counts a reading of so many µWh at a time of the local clock.
func (t *Truth) add(at, energy int64) {
	t.Rows++
	t.give(at, energy)
}

// give adds energy to the day of a time.
func (t *Truth) give(at, energy int64) {
	day := at / 86400
	if len(t.Days) == 0 {
		t.First = day
	}
	for int64(len(t.Days)) <= day-t.First {
		t.Days = append(t.Days, 0)
	}
	t.Days[day-t.First] += energy
}

// A counted writer knows how many bytes went through it. Errors are kept by the
// bufio.Writer until it is flushed.
type counted struct {
	w *bufio.Writer
	n int64
}

func (c *counted) write(b []byte) {
	c.n += int64(len(b))
	c.w.Write(b)
}
