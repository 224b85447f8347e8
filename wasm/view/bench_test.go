package view

import (
	"testing"

	"splittally/calc"
	"splittally/calc/example"
)

func BenchmarkRender(b *testing.B) {
	c, _ := calc.Open(example.Text)
	f := calc.Work(c)
	b.ReportAllocs()
	n := 0
	for b.Loop() {
		n = 0
		for _, s := range Render(c, f, nil).Slots {
			n += len(s)
		}
	}
	b.ReportMetric(float64(n), "markup-bytes")
}

func BenchmarkWork(b *testing.B) {
	c, _ := calc.Open(example.Text)
	b.ReportAllocs()
	for b.Loop() {
		calc.Work(c)
	}
}
