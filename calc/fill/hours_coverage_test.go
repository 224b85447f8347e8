package fill

import (
	"flag"
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"splittally/calc/calendar"
	"splittally/calc/ledger"
)

var hourTrials = flag.Int("hours", 60, "trials of partly covered days for each home and pattern")

// patterns are the ways in which hours are lost in the trials.
var patterns = []string{"one stretch", "many little ones", "nights", "evenings", "with whole days"}

// stretches gives what is lost of one day, in minutes.
func stretches(pattern string, r *rand.Rand) (out [][2]int) {
	switch pattern {
	case "one stretch", "with whole days": // 10 minutes to 20 hours
		n := int(10 * math.Exp(r.Float64()*math.Log(120)))
		from := r.IntN(1440 - n)
		out = append(out, [2]int{from, from + n})
	case "many little ones":
		for range 5 + r.IntN(20) {
			from := r.IntN(1400)
			out = append(out, [2]int{from, from + 10 + r.IntN(30)})
		}
	case "nights":
		out = append(out, [2]int{0, 60 * (1 + r.IntN(7))})
	case "evenings":
		out = append(out, [2]int{1020 + r.IntN(120), 1200 + r.IntN(180)})
	}
	return out
}

// lose takes stretches out of a day, whole intervals alone, for nobody knows the
// course of use within one.
func (h hourlyHome) lose(lost map[int]float64, day int, out [][2]int) {
	per := 1440 / h.step
	for _, s := range out {
		from := (s[0] + h.step/2) / h.step
		for k := from; k < max(from+1, (s[1]+h.step/2)/h.step) && k < per; k++ {
			lost[day*per+k] = 1
		}
	}
}

// blankHours takes parts of days out of a 30-day period that lies in a piece of
// the home's record. ok is false if a day of it was not whole.
func (h hourlyHome) blankHours(pattern string, history int, r *rand.Rand) (b blanked, ok bool) {
	from := r.IntN(len(h.days) - history + 1)
	start := from + []int{0, history - 30, r.IntN(history - 30 + 1)}[r.IntN(3)]
	lost := map[int]float64{}
	n := []int{1, 3, 10, 30}[r.IntN(4)]
	whole := map[int]bool{}
	for i := from; i < from+history; i++ {
		inside := i >= start && i < start+30
		if inside && h.days[i] == nil {
			return b, false
		}
		// As often outside the period as in it.
		if h.days[i] != nil && r.IntN(30) < n {
			if inside && pattern == "with whole days" && r.IntN(3) == 0 {
				whole[i] = true
				continue
			}
			h.lose(lost, i, stretches(pattern, r))
		}
	}
	b.request.Ledger = h.ledger(from, from+history, lost)
	first := h.first + calendar.Day(start)
	b.request.Span = calendar.Span{First: first, End: first + 30}
	for i := start; i < start+30; i++ {
		day := h.first + calendar.Day(i)
		if whole[i] {
			b.request.Ledger.Put(day, ledger.Entry{})
			b.request.Ledger.Slots = without(b.request.Ledger.Slots, day)
		}
		for _, x := range h.days[i] {
			b.truth += x
		}
		if b.request.Ledger.At(day).State != ledger.Measured {
			b.days++
		}
	}
	return b, b.days > 0
}

func without(slots []ledger.Slot, d calendar.Day) []ledger.Slot {
	var out []ledger.Slot
	for _, s := range slots {
		if s.Day != d {
			out = append(out, s)
		}
	}
	return out
}

// hourScore sums up trials.
type hourScore struct {
	n, held             int
	square, even, bound float64
	both                int
	beside              float64
}

func (s *hourScore) add(o hourScore) {
	s.n, s.held = s.n+o.n, s.held+o.held
	s.square, s.even, s.bound = s.square+o.square, s.even+o.even, s.bound+o.bound
	s.both, s.beside = s.both+o.both, s.beside+o.beside
}

// judgeHours fills one period and tells whether the total's interval of 95 %
// held the truth; unit is what errors are divided by. even is how far the total
// would be off if use were even through the day.
func judgeHours(t *testing.T, b blanked, unit float64) hourScore {
	t.Helper()
	res := fillOK(t, b.request)
	miss := res.Total.KilowattHours() - b.truth
	s := hourScore{n: 1, square: math.Pow(miss/unit, 2), bound: math.Pow(res.Standard/unit, 2)}
	if math.Abs(miss) <= student(res.DoF)*res.Standard+1e-6 {
		s.held = 1
	}
	bare := b.request
	bare.Ledger.Slots = nil
	if res, err := Fill(bare); err == nil {
		s.both, s.beside = 1, s.square
		s.even = math.Pow((res.Total.KilowattHours()-b.truth)/unit, 2)
	}
	return s
}

func coverHours(t *testing.T, homes []hourlyHome, n int, seed uint64) (table map[string]*hourScore, text string) {
	t.Helper()
	table = map[string]*hourScore{}
	var names []string
	add := func(name string, s hourScore) {
		if table[name] == nil {
			table[name] = &hourScore{}
			names = append(names, name)
		}
		table[name].add(s)
	}
	for _, pattern := range patterns {
		for i, h := range homes {
			r := rand.New(rand.NewPCG(seed, uint64(i)))
			unit := spread(h.hourly)
			group := "held out"
			if h.tuned {
				group = "tuned on"
			}
			for done := 0; done < n; {
				history := histories[done%len(histories)]
				b, ok := h.blankHours(pattern, history, r)
				if !ok {
					continue
				}
				s := judgeHours(t, b, unit)
				many := "few days of the period"
				if b.days > 15 {
					many = "most days of the period"
				}
				for _, name := range []string{pattern, h.name, group, many, fmt.Sprintf("%d days of history", history), "all"} {
					add(name, s)
				}
				done++
			}
		}
	}
	var w strings.Builder
	for _, name := range names {
		s := table[name]
		k := float64(s.n)
		fmt.Fprintf(&w, "%-22s %5.1f %% of %5d held; off by %.3f, stated %.3f, where a day can be taken as even %.3f instead of %.3f\n", name, 100*float64(s.held)/k, s.n, math.Sqrt(s.square/k), math.Sqrt(s.bound/k), math.Sqrt(s.beside/float64(s.both)), math.Sqrt(s.even/float64(s.both)))
	}
	return table, w.String()
}

// promiseHours checks that 93 to 97 of 100 intervals hold the truth, and that the
// total is off by clearly less than if use were taken as even through the day.
func promiseHours(t *testing.T, table map[string]*hourScore, names ...string) {
	t.Helper()
	for _, name := range names {
		s := table[name]
		if held := 100 * float64(s.held) / float64(s.n); held < 93 || held > 97 {
			t.Errorf("%s: %.1f %% of %d held", name, held, s.n)
		}
		if s.both > 0 && s.beside > 0.7*s.even {
			t.Errorf("%s: off by %.3f, as even by %.3f", name, math.Sqrt(s.beside/float64(s.both)), math.Sqrt(s.even/float64(s.both)))
		}
	}
}

// The promise for days of which hours were lost, from one interval, 15 minutes to
// an hour, to 20 hours. The model of days was set on the homes called tuned on;
// that of hours mostly so, see shape.go. More trials: -hours 500.
func TestCoverageOfHours(t *testing.T) {
	table, text := coverHours(t, realHours(t), *hourTrials, 20)
	t.Log("\n" + text)
	promiseHours(t, table, append(patterns, "tuned on", "held out", "all")...)
}

// The same without the trial records.
func TestCoverageOfMadeUpHours(t *testing.T) {
	table, text := coverHours(t, madeUpHours(8, 400, 3), max(1, *hourTrials/2), 20)
	t.Log("\n" + text)
	promiseHours(t, table, "all")
}

// madeUpHours gives made-up homes by the half-hour. Each has a course of the day
// of its own, another at weekends, and loads that come by chance and last.
func madeUpHours(n, days int, seed uint64) []hourlyHome {
	var all []hourlyHome
	for i, made := range madeUp(n, days, seed) {
		r := rand.New(rand.NewPCG(seed, uint64(1000+i)))
		h := hourlyHome{name: made.name, step: 30, first: made.daily.First}
		var course [2][48]float64
		evening, morning, night := 1+2*r.Float64(), r.Float64(), 0.3+0.5*r.Float64()
		for k := range 48 {
			at := float64(k) / 2
			for end := range course {
				course[end][k] = night + evening*math.Exp(-math.Pow((at-19)/2.5, 2)) + morning*math.Exp(-math.Pow((at-7.5-float64(end))/1.5, 2))
			}
		}
		fade, swing, load := 0.2+0.6*r.Float64(), 0.3+0.6*r.Float64(), 0.0
		for d, e := range made.daily.Days {
			day := make(intervals, 48)
			sum := 0.0
			end := 0
			if w := int((h.first + calendar.Day(d)).Weekday()); w == 0 || w == 6 {
				end = 1
			}
			for k := range day {
				load = fade*load + math.Sqrt(1-fade*fade)*r.NormFloat64()
				day[k] = course[end][k] * math.Exp(swing*load)
				sum += course[end][k] * math.Exp(swing*swing/2)
			}
			for k := range day {
				day[k] *= e.Energy.KilowattHours() / sum
			}
			h.days = append(h.days, day)
		}
		h.hourly = h.ledger(0, len(h.days), nil)
		all = append(all, h)
	}
	return all
}
