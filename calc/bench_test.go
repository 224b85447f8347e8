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
