package calc_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"splittally/calc"
	"splittally/calc/billing"
	"splittally/calc/calendar"
	"splittally/calc/compare"
)

// home is a made-up household by the hour, and what its two instruments make
// of it. All that Work sees is the texts.
type home struct {
	random *rand.Rand
	first  calendar.Day
	hours  []float64 // kWh in each hour from first on
}

// newHome draws days whose level wanders and whose weekends differ, and hours
// that are low at night and high at mealtimes.
func newHome(random *rand.Rand, days int) home {
	h := home{random: random, first: 19700 + calendar.Day(random.IntN(300))}
	level, mean := 0.0, 8+random.Float64()*25
	for d := range days {
		level = 0.7*level + 0.12*random.NormFloat64()
		day := mean * math.Exp(level+0.15*random.NormFloat64())
		if (h.first+calendar.Day(d)).Weekday()%6 == 0 {
			day *= 1.1
		}
		shape, sum := make([]float64, 24), 0.0
		for i := range shape {
			shape[i] = (0.4 + math.Exp(-math.Pow(float64(i)-8, 2)/6) + 1.5*math.Exp(-math.Pow(float64(i)-19, 2)/10)) * math.Exp(0.5*random.NormFloat64())
			sum += shape[i]
		}
		for _, s := range shape {
			h.hours = append(h.hours, day*s/sum)
		}
	}
	return h
}

// between sums the true energy from hour a up to before hour b.
func (h home) between(a, b int) float64 {
	sum := 0.0
	for _, x := range h.hours[a:b] {
		sum += x
	}
	return sum
}

// rectangular draws from ±a.
func (h home) rectangular(a float64) float64 { return a * (2*h.random.Float64() - 1) }

// readings writes the monitor's days, of which the missing ones have no line.
func (h home) readings(gain float64, missing map[int]bool) string {
	var b strings.Builder
	b.WriteString("Day\tkWh\n")
	for d := range len(h.hours) / 24 {
		if !missing[d] {
			fmt.Fprintf(&b, "%s\t%.1f\n", h.first+calendar.Day(d), gain*h.between(24*d, 24*d+24))
		}
	}
	return b.String()
}

// trial makes a case of two bills of 30 days, by instruments that are off by no
// more than they promise. hour gives the hour of a read and what is typed of it.
func trial(seed uint64, hour func(*rand.Rand) (at int, typed string)) calc.Case {
	random := rand.New(rand.NewPCG(seed, 1))
	h := newHome(random, 64)
	missing := map[int]bool{}
	if n := random.IntN(7); n > 0 {
		from := 3 + random.IntN(50)
		for d := range n {
			missing[from+d] = true
		}
	}
	c := calc.Case{Monitors: []calc.Monitor{{Accuracy: "2", Readings: h.readings(1+h.rectangular(0.02), missing)}}}
	c.Meter.Class = "1"
	meter, register := 1+h.rectangular(0.01), 1000+random.Float64()*8000
	for p := range 2 {
		a, typed := hour(random)
		b, _ := hour(random)
		from, to := 2+30*p, 32+30*p
		next := register + meter*h.between(24*from+a, 24*to+b)
		c.Periods = append(c.Periods, billing.Period{
			From: (h.first + calendar.Day(from)).String(), To: (h.first + calendar.Day(to)).String(), Days: "30",
			Previous: fmt.Sprint(int(register)), Present: fmt.Sprint(int(next)), ReadHour: typed,
		})
		// The next bill begins with its own draw of the hour; only single bills
		// are judged here, so the two need not join.
		register = next
	}
	return c
}

// TestStatedIntervalsHold makes sound instruments, whose errors are spread as
// they promise, and asks how often the stated 95 % interval holds the zero that
// a perfect pair would show. Everything is in it: rounding, truncated registers,
// gaps, the hour of the read, the promises. It is the promise of the whole road.
func TestStatedIntervalsHold(t *testing.T) {
	const trials = 1000
	for _, c := range []struct {
		name      string
		hour      func(*rand.Rand) (int, string)
		low, high float64
	}{
		// The instruments' own rectangular shares rule here, and the sum of few
		// rectangles has shorter tails than the t distribution it is judged by.
		{"read at midnight", func(*rand.Rand) (int, string) { return 0, "0" }, 94, 99},
		{"read at ten, which is said", func(*rand.Rand) (int, string) { return 10, "10" }, 94, 99},
		{"read at ten, not said", func(*rand.Rand) (int, string) { return 10, "" }, 95, 99.9},
		{"read by hand between 8 and 16, not said", func(r *rand.Rand) (int, string) { return 8 + r.IntN(9), "" }, 94, 99.9},
		{"read at any hour, not said", func(r *rand.Rand) (int, string) { return r.IntN(24), "" }, 93, 99},
	} {
		t.Run(c.name, func(t *testing.T) {
			held, n, accused := 0, 0, 0
			for seed := range uint64(trials) {
				f := calc.Work(trial(seed, c.hour))
				for _, r := range f.Instruments[0].Results {
					if !r.Compares() {
						t.Fatalf("seed %d: %s", seed, r.Waits)
					}
					n++
					if math.Abs(r.Compared.Percent.InexactFloat64()) <= r.Compared.Expanded {
						held++
					}
					if r.Compared.Verdict == compare.DifferHigh || r.Compared.Verdict == compare.DifferLow {
						accused++
					}
				}
			}
			share := 100 * float64(held) / float64(n)
			t.Logf("%.1f %% of %d intervals hold zero; %d sound pairs accused", share, n, accused)
			if share < c.low || share > c.high {
				t.Errorf("%.1f %% held, want %g to %g", share, c.low, c.high)
			}
		})
	}
}
