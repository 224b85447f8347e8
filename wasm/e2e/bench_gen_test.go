//go:build !js

package e2e

import (
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"sync"
	"testing"

	"splittally/calc/record"
)

// A made file is one that wasm/tools/gen wrote, with what it must come to.
type made struct {
	path  string
	Bytes int64
	came
}

// came is what a file came to, whoever read it.
type came struct {
	Rows  int
	First int64      // day, counted from 1970-01-01
	Days  []int64    // µWh
	Gaps  [][2]int64 // seconds of the local clock
	Cost  int64      // of a feed
	// Record is the text of a record that says all this, if our own engine read
	// the file.
	Record string
}

// unfolded is what a record's text says.
func (c came) unfolded(tb testing.TB) came {
	tb.Helper()
	if c.Record == "" {
		return c
	}
	r, problems := record.Parse(c.Record)
	if len(problems) > 0 || len(r.Channels) != 1 {
		tb.Errorf("the engine came to %d channels: %.500s %v", len(r.Channels), c.Record, problems)
		return came{}
	}
	c.Rows, c.First = r.Source.Rows, int64(r.Channels[0].First)
	for _, d := range r.Channels[0].Days {
		e, err := d.Energy()
		if err != nil {
			tb.Error(err)
		}
		c.Days = append(c.Days, int64(e))
	}
	for _, g := range r.Gaps {
		c.Gaps = append(c.Gaps, [2]int64{g.From / 1000, g.To / 1000})
	}
	return c
}

func (f made) about() string {
	return fmt.Sprintf("%d rows, %.1f MB, %d gaps", f.Rows, float64(f.Bytes)/1e6, len(f.Gaps))
}

var files sync.Map // path -> made

// makeFile has a file written in a form, up to limit bytes if that is not 0. It
// stays until the end of the run, unless drop takes it away before.
func makeFile(tb testing.TB, form string, limit int64) made {
	tb.Helper()
	path := filepath.Join(work, fmt.Sprintf("%s-%d.csv", form, limit))
	if form == "feed" {
		path = filepath.Join(work, "feed.xml")
	}
	if f, ok := files.Load(path); ok {
		return f.(made)
	}
	if _, err := goCommand("-C", "wasm/tools", "run", "./gen", "-form", form, "-bytes", fmt.Sprint(limit), "-out", path); err != nil {
		tb.Fatal(err)
	}
	said, err := os.ReadFile(path + ".truth.json")
	if err != nil {
		tb.Fatal(err)
	}
	f := made{path: path}
	if err := json.Unmarshal(said, &f); err != nil {
		tb.Fatal(err)
	}
	files.Store(path, f)
	return f
}

// drop removes a large file.
func (f made) drop() {
	files.Delete(f.path)
	os.Remove(f.path)
}

// check fails the benchmark if somebody read the file otherwise.
func (f made) check(tb testing.TB, who string, got came) {
	tb.Helper()
	got = got.unfolded(tb)
	if got.Rows != f.Rows {
		tb.Errorf("%s: %d rows, want %d", who, got.Rows, f.Rows)
	}
	if who == "newlines" { // they count, and no more
		return
	}
	if got.First != f.First || len(got.Days) != len(f.Days) {
		tb.Errorf("%s: %d days from %d, want %d from %d", who, len(got.Days), got.First, len(f.Days), f.First)
	}
	for i := range min(len(got.Days), len(f.Days)) {
		if got.Days[i] != f.Days[i] {
			tb.Errorf("%s: day %d has %d µWh, want %d", who, i, got.Days[i], f.Days[i])
			break
		}
	}
	if !slices.Equal(got.Gaps, f.Gaps) {
		tb.Errorf("%s: %d gaps %v …, want %d %v …", who, len(got.Gaps), got.Gaps[:min(2, len(got.Gaps))], len(f.Gaps), f.Gaps[:min(2, len(f.Gaps))])
	}
	if got.Cost != 0 && got.Cost != f.Cost {
		tb.Errorf("%s: cost %d, want %d", who, got.Cost, f.Cost)
	}
}
