package compare

import (
	"math/rand/v2"
	"testing"
)

// Both run at every keystroke, for each monitor and each period.

func BenchmarkJudge(b *testing.B) {
	p := trial(rand.New(rand.NewPCG(1, 2)), 0)[0]
	for b.Loop() {
		Judge(p.Indicated, p.Reference, 0.95)
	}
}

func BenchmarkPoolOfSixMonths(b *testing.B) {
	periods := trial(rand.New(rand.NewPCG(1, 2)), 0)
	for b.Loop() {
		if _, err := Pool(periods); err != nil {
			b.Fatal(err)
		}
	}
}
