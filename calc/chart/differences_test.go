package chart

import (
	"math"
	"strings"
	"testing"
)

func TestApart(t *testing.T) {
	s := Differences{
		ID: "a", Title: "Title", Words: "Words", Ink: 1, Long: 4,
		Days: []Difference{
			{At: 0, Off: 0.2, Usual: 0.1}, {At: 1, Off: -0.1, Usual: 0.1}, {At: 3, Off: -9, Usual: 0.12, Odd: true}, {At: 3, Off: math.NaN()},
		},
		Labels: []Label{{0, "3 Sep"}},
	}
	drawn := Apart(s).String()
	for what, want := range map[string]int{"h3v3h-3z": 2, `class="warn"`: 1, "3 Sep": 1, "ink-1": 1, "NaN": 0, "−9": 0} {
		if got := strings.Count(drawn, what); got != want {
			t.Errorf("%q %d times, want %d", what, got, want)
		}
	}
}
