package table

import (
	"fmt"
	"strings"
	"testing"
)

// BenchmarkFind measures the head of a long file: 64 KiB of minutes.
func BenchmarkFind(b *testing.B) {
	var text strings.Builder
	text.WriteString("time,Mains (kW),Solar (kW)\n")
	for i := 0; text.Len() < HeadLength; i++ {
		fmt.Fprintf(&text, "2024-03-%02d %02d:%02d,%d.%03d,0.%03d\n", 1+i/1440, i/60%24, i%60, i%3, i*7%1000, i*13%1000)
	}
	head := []byte(text.String())
	b.SetBytes(HeadLength)
	b.ReportAllocs()
	for b.Loop() {
		if _, _, err := Find(head, false, nil); err != nil {
			b.Fatal(err)
		}
	}
}
