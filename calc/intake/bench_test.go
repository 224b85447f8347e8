package intake

import (
	"fmt"
	"testing"

	"splittally/calc/calendar"
)

// BenchmarkYearOfHours reads a leap year of hourly rows.
func BenchmarkYearOfHours(b *testing.B) {
	text := benchmarkText(366*24, func(i int, _ calendar.Day) string {
		return fmt.Sprintf("%s %02d:00,%d.%03d\n", calendar.Day(19723+i/24), i%24, i*5%3, i*37%1000)
	})
	b.ReportAllocs()
	for b.Loop() {
		Read(text, Options{Path: "monitors.0"})
	}
}
