package figure

import (
	"math"
	"testing"
)

func TestFigures(t *testing.T) {
	for _, c := range []struct{ got, want string }{
		{Error(2.314, 1.08), "+2.3\u202f%\u00a0±\u00a01.1\u202f%"},
		{Error(-0.404, 0.0312), "−0.404\u202f%\u00a0±\u00a00.031\u202f%"},
		{Error(1, math.Inf(1)), "+1.00\u202f%\u00a0±\u00a0unknown\u202f%"},
		{Between(3.14, 0.41, "%"), "3.14\u202f%\u00a0±\u00a00.41\u202f%"},
		{Fixed(-0.004, 2), "0.00"},
		{Plain(12.6, 0), "13"},
		{Interval(math.NaN()), "unknown"},
		{Degrees(1001), "over 1000"},
		{Chance(0.0004), "p < 0.001"},
		{Counted(1, "bill", "bills"), "1 bill"},
		{Counted(0, "bill", "bills"), "0 bills"},
		{Listed(nil), ""},
		{Listed([]string{"1"}), "1"},
		{Listed([]string{"1", "2"}), "1 and 2"},
		{Listed([]string{"1", "2", "4"}), "1, 2 and 4"},
	} {
		if c.got != c.want {
			t.Errorf("got %q, want %q", c.got, c.want)
		}
	}
}
