//go:build !js

package e2e

import (
	"flag"
	"fmt"
	"path/filepath"
	"testing"
)

// BenchmarkFiles reads a year of an invented home's minutes, and of its seconds,
// beside what else could read them: loops by hand, general libraries, databases.
// Everyone must come to the same rows, days and gaps as the program that made
// the files (wasm/tools/gen), to the last unit.
//
// What counts are ratios within one table, to the careful loop by hand in the
// same browser, which checks every byte as a reader of unknown files must; the
// byteloop beside it knows where the digits stand and checks nothing. Times alone
// say more about the machine. A single table is had by
//
//	go test -run '^$' -bench Files/year -benchtime 1x ./wasm/e2e
func BenchmarkFiles(b *testing.B) {
	for _, table := range []struct {
		name string
		make func(b *testing.B)
	}{
		{"year", benchYear},
		{"forms", benchForms},
		{"native", benchNative},
		{"feed", benchFeed},
		{"seconds", benchSeconds},
		{"memory", benchMemory},
	} {
		b.Run(table.name, func(b *testing.B) {
			program(b, "chromium")
			peers(b)
			for b.Loop() {
				table.make(b)
			}
			b.ReportMetric(0, "ns/op") // the loop's own time says nothing
		})
	}
}

var laps = flag.Int("laps", 15, "warm runs of each contender in a benchmark of files")

// yardstick is the contender that all ratios are to.
const yardstick = "careful"

// bare is the loop by hand that knows each form and checks nothing.
const bare = "byteloop"

// settle is how many runs of each go before those that count as warm: a browser
// compiles WebAssembly twice, the second time in the background.
const settle = 10

// benchYear is the race over the form that files most often have.
func benchYear(b *testing.B) {
	r := newRace(b, "common")
	r.enter(min(5, *laps), yardstick, bare, "newlines", "engine", "dsv", "papa", "duckdb")
	r.warm(settle)
	r.forget()
	r.warm(*laps)
	r.print("A year of minutes, in the browser: "+r.file.about(), yardstick)
	ratio(b, r, "engine", yardstick)
	ratio(b, r, "papa", "engine")
	ratio(b, r, "duckdb", "engine")
}

// benchForms is the race over the other forms of the same year. The loop by hand
// that checks nothing has a form of its own for each.
func benchForms(b *testing.B) {
	common := newRace(b, "common")
	common.enter(1, bare)
	var races []*race
	for _, form := range []string{"offset", "ampm", "dayfirst", "kW", "register", "epoch"} {
		r := newRace(b, form)
		r.enter(1, bare, "engine", "papa", "duckdb")
		races = append(races, r)
	}
	for range *laps {
		common.warm(1)
		for _, r := range races {
			r.warm(1)
		}
	}
	base := common.least(bare)
	fmt.Printf("\nThe same year in other forms, in the browser, least of %d warm runs (the loop by hand over the common form: %.1f ms):\n\n", *laps, base)
	fmt.Println("| form | loop by hand ms | engine ms | Papa Parse ms | DuckDB-Wasm ms | engine to the loop over the common form | engine to its own loop | Papa Parse to engine | DuckDB-Wasm to engine |")
	fmt.Println("|---|---:|---:|---:|---:|---:|---:|---:|---:|")
	for _, r := range races {
		loop, engine, papa, duckdb := r.least(bare), r.least("engine"), r.least("papa"), r.least("duckdb")
		fmt.Printf("| %s | %.1f | %.1f | %.0f | %.0f | %.2f | %.2f | %.1f | %.1f |\n", r.form, loop, engine, papa, duckdb, engine/base, engine/loop, papa/engine, duckdb/engine)
		b.ReportMetric(engine/base, r.form+"/loop")
	}
}

// benchNative sets programs outside the browser beside the engine in it. They
// read the file themselves.
func benchNative(b *testing.B) {
	r := newRace(b, "common")
	r.enter(min(5, *laps), yardstick, "engine")
	natives := []string{"pandas", "polars", "duckdb"}
	for _, name := range natives {
		r.native(name, *laps)
	}
	r.warm(*laps)
	r.print("The same year by native programs, which read the file themselves: "+r.file.about(), yardstick)
	for _, name := range natives {
		ratio(b, r, "native-"+name, "engine")
	}
}

// benchFeed is the race over an ESPI feed.
func benchFeed(b *testing.B) {
	r := newRace(b, "feed")
	r.enter(1, "dom", "engine")
	r.warm(*laps)
	r.print("An ESPI feed of four years of quarter-hours, in the browser: "+r.file.about(), "dom")
	ratio(b, r, "dom", "engine")
}

// ratio reports how many times the time of one contender another one takes.
func ratio(b *testing.B, r *race, of, to string) {
	if x, y := r.median(of), r.median(to); x > 0 && y > 0 {
		b.ReportMetric(x/y, of+"/"+to)
	}
}

// peersFolder holds the contenders.
func peersFolder() string { return filepath.Join("..", "tools", "peers") }
