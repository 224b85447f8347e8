package load

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/shopspring/decimal"
	"gonum.org/v1/gonum/stat"
	"pgregory.net/rapid"
)

// gonum has definition 4, whose order statistic is that of p·n where definition 7
// has 1 + p·(n − 1).
func TestQuantileAgainstGonum(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x := rapid.SliceOfN(rapid.Float64Range(-1e6, 1e6), 1, 60).Draw(t, "values")
		p := rapid.Float64Range(0, 1).Draw(t, "p")
		slices.Sort(x)
		n := float64(len(x))
		want := stat.Quantile(math.Min(1, (1+p*(n-1))/n), stat.LinInterp, x, nil)
		if got := Quantile(x, p); math.Abs(got-want) > 1e-6 {
			t.Fatalf("Quantile(%v, %g) = %g, want %g", x, p, got, want)
		}
	})
}

// nights makes days whose hours 0 to 4 are all alike, drawn anew each night.
func nights(chance *rand.Rand, n int) []int64 {
	var wh []int64
	for range n {
		low := int64(100 + 100*chance.Float64())
		for h := range 24 {
			if h < nightHours {
				wh = append(wh, low)
			} else {
				wh = append(wh, 900)
			}
		}
	}
	return wh
}

// Where the hours of a night are one draw, the interval holds the tenth
// percentile as often as it says.
func TestIntervalHolds(t *testing.T) {
	chance := rand.New(rand.NewPCG(1, 2))
	const tries, truth = 1000, 110.0
	held := 0
	for range tries {
		b := Of(hoursOf(nights(chance, 60)...), 0.95).Base
		if !b.IsBounded || b.From != 0 || b.To != nightHours || b.Nights != 60 {
			t.Fatalf("base %+v", b)
		}
		// Whole watt-hours: the truth lies within the watt.
		if b.Low <= truth && truth <= b.High {
			held++
		}
	}
	if share := float64(held) / tries; share < 0.945 {
		t.Errorf("the interval held in %.3f of %d tries", share, tries)
	}
}

func TestBase(t *testing.T) {
	chance := rand.New(rand.NewPCG(1, 2))
	few := Of(hoursOf(nights(chance, MinNights-1)...), 0.95).Base
	if few.IsKnown {
		t.Errorf("a base load of %d nights: %+v", MinNights-1, few)
	}
	if dead := Of(hoursOf(make([]int64, 24*MinNights)...), 0.95).Base; dead.IsKnown || dead.Nights != MinNights {
		t.Errorf("a base load of nothing: %+v", dead)
	}
	some := Of(hoursOf(nights(chance, 35)...), 0.95).Base
	if !some.IsKnown || some.IsBounded { // 0.9^35 is more than 2.5 %: all may be above
		t.Errorf("35 nights: %+v", some)
	}
	if more := Of(hoursOf(nights(chance, 36)...), 0.95).Base; !more.IsBounded {
		t.Errorf("36 nights: %+v", more)
	}
	if got := Cost(100, decimal.RequireFromString("0.25")).String(); got != "219.25" { // 877 kWh
		t.Errorf("a year of 100 W costs %s, want 219.25", got)
	}
}

// A night may lie across midnight, or at noon where a home heats at night; but
// not where the sun makes noon the least.
func TestNight(t *testing.T) {
	day := func(low int, depth int64) []int64 {
		wh := make([]int64, 24)
		for h := range wh {
			wh[h] = 500
		}
		for h := low; h < low+nightHours; h++ {
			wh[h%24] = depth
		}
		return wh
	}
	of := func(wh []int64) Base {
		var all []int64
		for range 40 {
			all = append(all, wh...)
		}
		return Of(hoursOf(all...), 0.95).Base
	}
	if b := of(day(22, 120)); b.From != 22 || b.To != 3 || b.Watts != 120 || b.Nights != 41 {
		t.Errorf("across midnight: %+v", b)
	}
	if b := of(day(11, 120)); b.From != 11 || b.Watts != 120 || b.IsClocked || b.Nights != 40 {
		t.Errorf("at noon: %+v", b)
	}
	sunny := day(11, -2000)
	sunny[3] = 90
	if b := of(sunny); b.From > 3 && b.From < 20 || !b.IsClocked || b.Watts < 0 {
		t.Errorf("with the sun: %+v", b)
	}
}
