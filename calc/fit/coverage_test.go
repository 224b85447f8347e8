package fit

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"splittally/calc/uncertainty"
)

// home makes periods of a home whose monitor has a known offset and gain, as
// budgets would tell of them.
type home struct {
	periods       int
	use           float64 // mean of a period, kWh
	spread        float64 // standard deviation of use over periods, kWh
	own           float64 // standard uncertainty of each period for itself, both sides, kWh
	read          float64 // of each read, kWh: what it takes from one period it gives to the next
	class, tuning float64 // common to all: of the meter and of the monitor, as fractions
	filled, dof   float64 // of what every third period had filled, kWh, its size known by dof
}

// points draws one history: the true offset and gain are 12 kWh and 1.03.
func (h home) points(r *rand.Rand) (x, y []float64, bx, by []uncertainty.Budget) {
	known := func(source string, u float64) uncertainty.Part {
		return uncertainty.Part{Source: source, Standard: u, DoF: math.Inf(1)}
	}
	class, tuning, read := h.class*r.NormFloat64(), h.tuning*r.NormFloat64(), h.read*r.NormFloat64()
	for i := range h.periods {
		use := h.use + h.spread*math.Sqrt(12)*((float64(i)+0.5)/float64(h.periods)-0.5)
		if h.periods > 2 && i%2 == 1 { // not in order, so that time and use are different things
			use = 2*h.use - use
		}
		next := h.read * r.NormFloat64()
		meter := use*(1+class) + h.own*r.NormFloat64() + next - read
		monitor := (trueOffset+trueGain*use)*(1+tuning) + h.own*r.NormFloat64()
		mine := uncertainty.Budget{known("", h.own), known("monitor", h.tuning*monitor)}
		if h.filled > 0 && i%3 == 0 {
			monitor += h.filled * r.NormFloat64()
			mine = append(mine, uncertainty.Part{Standard: h.filled * chi(r, h.dof), DoF: h.dof})
		}
		x, y = append(x, meter), append(y, monitor)
		bx = append(bx, uncertainty.Budget{
			known("", h.own), known("meter", h.class*meter),
			known(fmt.Sprint("read ", i), -h.read), known(fmt.Sprint("read ", i+1), h.read),
		})
		by = append(by, mine)
		read = next
	}
	return x, y, bx, by
}

const trueOffset, trueGain = 12, 1.03

// chi draws a standard deviation estimated with dof degrees of freedom, of 1.
func chi(r *rand.Rand, dof float64) float64 {
	sum := 0.0
	for range int(dof) {
		z := r.NormFloat64()
		sum += z * z
	}
	return math.Sqrt(sum / dof)
}

var homes = []struct {
	name string
	home
}{
	{"three periods", home{periods: 3, use: 600, spread: 150, own: 5}},
	{"two periods", home{periods: 2, use: 600, spread: 150, own: 5}},
	{"a year", home{periods: 12, use: 600, spread: 150, own: 8}},
	{"reads that two periods share", home{periods: 8, use: 600, spread: 150, own: 2, read: 10}},
	{"nothing but shared reads and rounding", home{periods: 6, use: 600, spread: 100, own: 0.3, read: 12}},
	{"all of it", home{periods: 9, use: 700, spread: 200, own: 3, read: 8, class: 0.006, tuning: 0.012}},
	{"instruments that promise little", home{periods: 6, use: 700, spread: 200, own: 2, class: 0.01, tuning: 0.05}},
	{"fills known by 8", home{periods: 9, use: 600, spread: 150, own: 3, read: 5, filled: 15, dof: 8}},
	{"fills known by 14", home{periods: 6, use: 600, spread: 150, own: 3, tuning: 0.012, filled: 25, dof: 14}},
	{"daily values", home{periods: 40, use: 20, spread: 6, own: 0.8}},
	{"use that hardly varies", home{periods: 6, use: 600, spread: 25, own: 5}},
	{"use that varies half as much again as it is known", home{periods: 6, use: 600, spread: 7.5, own: 5}},
}

// A stated 95 % interval of either parameter holds the truth 93 to 97 times in
// 100, and χ² at 5 % refuses a good line as seldom.
func TestIntervalsHold(t *testing.T) {
	if testing.Short() {
		t.Skip("the long trials")
	}
	const trials = 3000
	for i, c := range homes {
		r := rand.New(rand.NewPCG(uint64(i), 95))
		var lines, offset, gain, passed float64
		for range trials {
			x, y, bx, by := c.points(r)
			l := Both(x, y, Covariances(bx, by), 0.95)
			if !l.Known {
				continue
			}
			lines++
			offset += count(math.Abs(l.Offset.Value-trueOffset) <= l.Offset.Expanded)
			gain += count(math.Abs(l.Gain.Value-trueGain) <= l.Gain.Expanded)
			passed += count(l.P >= 0.05)
		}
		t.Logf("%s: offset %.1f %%, gain %.1f %%, χ² passes %.1f %% of %.0f lines",
			c.name, 100*offset/lines, 100*gain/lines, 100*passed/lines, lines)
		near(t, c.name+": offset held", offset/lines, 0.95, 0.02)
		near(t, c.name+": gain held", gain/lines, 0.95, 0.02)
		if c.periods > 2 {
			near(t, c.name+": χ² passed", passed/lines, 0.95, 0.02)
		}
		if lines < 0.95*trials {
			t.Errorf("%s: only %.0f lines of %d", c.name, lines, trials)
		}
	}
}

func count(is bool) float64 {
	if is {
		return 1
	}
	return 0
}
