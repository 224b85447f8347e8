package shelf

import (
	"strconv"
	"strings"
	"testing"

	"splittally/calc"
)

// BenchmarkKeep is what a key costs that is kept: noting it and writing the
// case, with a text as long as a year of hours.
func BenchmarkKeep(b *testing.B) {
	var record strings.Builder
	for i := range 366 {
		record.WriteString("2024-03-01 " + strconv.Itoa(i) + strings.Repeat(" 0.4123", 24) + "\n")
	}
	tab := newMemory().shelf("a").Add(calc.Case{Monitors: []calc.Monitor{{Record: record.String()}}})
	c := tab.Case()
	n := 0
	for b.Loop() {
		n++
		c.Title = strconv.Itoa(n)
		tab.Note(c, first)
		if _, err := tab.Keep(); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(float64(record.Len()), "bytes")
}
