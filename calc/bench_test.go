package calc_test

import (
	"testing"

	"splittally/calc"
	"splittally/calc/example"
)

// BenchmarkWork takes two months of two monitors through, as each keystroke does.
func BenchmarkWork(b *testing.B) {
	c, problems := calc.Open(example.Text)
	if len(problems) > 0 {
		b.Fatal(problems)
	}
	for b.Loop() {
		calc.Work(c)
	}
}

// BenchmarkMemory types a digit into a bill and takes it out again.
func BenchmarkMemory(b *testing.B) {
	c, problems := calc.Open(example.Text)
	if len(problems) > 0 {
		b.Fatal(problems)
	}
	var memory calc.Memory
	for i := 0; b.Loop(); i++ {
		c.Periods[1].Present = "4933" + "55"[:1+i%2]
		memory.Work(c)
	}
}
