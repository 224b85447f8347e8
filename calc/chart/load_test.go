package chart

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

// sixWeeks is a calendar that has everything: a Thursday first, a day without a
// figure, two that are no whole ones, bills.
func sixWeeks(days int) Calendar {
	w := Weeks{Label: "2024", First: 3, Marks: []Mark{{0, "Feb"}, {29, "Mar"}}, Edges: []int{4, 34}}
	for i := range days {
		w.Days = append(w.Days, Cell{Energy: 6 + float64(i*7%13), Known: i != 10, IsPart: i == 12 || i == 25})
	}
	return Calendar{ID: "load-0-days", Title: "Days of <Larch>", Words: "Six weeks.", Ink: 1, Shades: ShadesEven(6, 18, "kWh"), Bands: []Weeks{w}}
}

func TestDaysByWeek(t *testing.T) {
	golden(t, "calendar-six-weeks.svg", DaysByWeek(sixWeeks(40)))
	golden(t, "calendar-half-year.svg", DaysByWeek(sixWeeks(180)))
}

// A billing period that begins on a Monday has a straight line before it, any
// other one a step; the days before the step are to its left.
func TestBillingEdges(t *testing.T) {
	g := weekGrid{size: 10}
	for day, want := range map[int]string{
		4:  "M42 10V80",       // Monday of the second week
		0:  "M32 80V40H42V10", // Thursday of the first
		6:  "M42 80V30H52V10", // Wednesday of the second
		-1: "", 99: "",
	} {
		if got := g.edges(Weeks{First: 3, Days: make([]Cell, 40), Edges: []int{day}}, 10); got != want {
			t.Errorf("before day %d: %s, want %s", day, got, want)
		}
	}
}

func TestShades(t *testing.T) {
	for _, c := range []struct {
		got  Shades
		want [shades - 1]float64
	}{
		{ShadesEven(6.2, 17.8, "kWh"), [shades - 1]float64{8, 10, 12, 14, 16}},
		{ShadesEven(0, 60, "kWh"), [shades - 1]float64{10, 20, 30, 40, 50}},
		{ShadesDoubled(1.7, "kW"), [shades - 1]float64{0.1, 0.2, 0.4, 0.8, 1.6}},
		{ShadesDoubled(2.3, "kW"), [shades - 1]float64{0.15, 0.3, 0.6, 1.2, 2.4}},
		{ShadesEven(5, 5, "kWh"), [shades - 1]float64{6, 7, 8, 9, 10}},
	} {
		for i := range c.want {
			if math.Abs(c.got.Edges[i]-c.want[i]) > 1e-9 {
				t.Errorf("got %v, want %v", c.got.Edges, c.want)
				break
			}
		}
	}
	s := ShadesEven(0, 60, "kWh")
	for v, want := range map[float64]int{-1: 0, 0: 0, 9.99: 0, 10: 1, 49: 4, 50: 5, 1e9: 5} {
		if got := s.level(v); got != want {
			t.Errorf("%g has shade %d, want %d", v, got, want)
		}
	}
}

// tenDays have an hour that never was, hours that are not known, and some below
// zero.
func tenDays() Heat {
	h := Heat{ID: "load-0-hours", Title: "Hours", Words: "Ten days.", Shades: ShadesDoubled(1.7, "kW"), Days: make([]HeatDay, 10), Marks: []Mark{{2, "Mar"}}, Edges: []int{3}}
	for i := range h.Days {
		for hour := range h.Days[i] {
			h.Days[i][hour] = 0.13 * float64(1+hour*hour/20+i%3)
		}
	}
	h.Days[5][2] = Never
	for hour := range 4 {
		h.Days[7][9+hour] = Unknown
		h.Days[8][11+hour] = -0.4
	}
	return h
}

func TestHoursByDay(t *testing.T) { golden(t, "heat-ten-days.svg", HoursByDay(tenDays())) }

// A year of hours that are nothing but noise is the most that there can be.
func TestNoiseIsSmall(t *testing.T) {
	chance := rand.New(rand.NewPCG(1, 2))
	h := Heat{ID: "noise", Shades: ShadesDoubled(1.7, "kW"), Days: make([]HeatDay, 366)}
	for i := range h.Days {
		for hour := range h.Days[i] {
			h.Days[i][hour] = 0.05 * math.Pow(2, 6*chance.Float64())
		}
	}
	if n := len(HoursByDay(h).String()); n < 30_000 || n > 60_000 {
		t.Errorf("%d bytes", n)
	} else {
		t.Logf("a year of noise: %d bytes", n)
	}
}

func BenchmarkHoursOfAYear(b *testing.B) {
	h := tenDays()
	for len(h.Days) < 366 {
		h.Days = append(h.Days, h.Days[len(h.Days)-10])
	}
	b.ReportAllocs()
	for b.Loop() {
		_ = HoursByDay(h).String()
	}
}

// Each hour is drawn once, as what it is: the strokes are read back.
func TestStrokes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h := Heat{Shades: ShadesDoubled(1.7, "kW"), Days: make([]HeatDay, rapid.IntRange(0, 30).Draw(t, "days"))}
		power := rapid.SampledFrom([]float64{0, 0.05, 0.15, 0.3, 0.5, 1, 2, Unknown, Never, -1})
		for i := range h.Days {
			for hour := range h.Days[i] {
				h.Days[i][hour] = power.Draw(t, "power")
			}
		}
		want, got := map[[2]int]int{}, map[[2]int]int{}
		for i := range h.Days {
			for hour := range 24 {
				if as := h.as(i, hour); as != asNone {
					want[[2]int{i, hour}] = as
				}
			}
		}
		for as, d := range h.paths() {
			x, y := 0, 0
			for _, s := range steps(string(d)) {
				switch s.command {
				case 'M':
					x, y = s.a, s.b
				case 'm':
					x, y = x+s.a, y+s.b
				case 'h':
					for range s.a {
						if _, twice := got[[2]int{x, y}]; twice {
							t.Fatalf("hour %d of day %d is drawn twice", y, x)
						}
						got[[2]int{x, y}] = as
						x++
					}
				}
			}
		}
		if d := cmp.Diff(want, got); d != "" {
			t.Fatal(d)
		}
	})
}

type pathStep struct {
	command byte
	a, b    int
}

// steps reads a path of whole numbers.
func steps(d string) (out []pathStep) {
	for i := 0; i < len(d); {
		s := pathStep{command: d[i]}
		to := []*int{&s.a, &s.b}
		for i++; i < len(d) && (d[i] == ' ' || d[i] >= '0' && d[i] <= '9'); i++ {
			if d[i] == ' ' {
				to = to[1:]
				continue
			}
			*to[0] = *to[0]*10 + int(d[i]-'0')
		}
		out = append(out, s)
	}
	return out
}

func oneDay() Usual {
	u := Usual{ID: "load-0-day", Title: "An average day", Words: "Evenings."}
	for h := range 24 {
		v := 0.1 + 0.05*float64(h)
		u.Weekdays[h] = Spread{v * 0.8, v, v * 1.3, true}
		u.Weekends[h] = Spread{v * 0.5, v * 0.7, v, h < 5 || h > 7}
	}
	return u
}

func TestAverageDay(t *testing.T) { golden(t, "average-day.svg", AverageDay(oneDay())) }

func falling(share float64) float64 { return 2*(1-share)*(1-share) - 0.3 }

func TestDurations(t *testing.T) {
	golden(t, "duration.svg", Durations(Duration{ID: "load-0-duration", Title: "Duration", Words: "Falls.", Ink: 2, Above: falling, Base: 0.2, HasBase: true}))
}

// Whatever the figures, what is drawn stays in the drawing.
func TestLoadStaysInside(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		figure := rapid.OneOf(rapid.Float64Range(-5, 200), rapid.Float64Range(-1e9, 1e9), rapid.Just(0.0))
		u := Usual{ID: "u"}
		w := Weeks{First: rapid.IntRange(0, 6).Draw(t, "first"), Edges: []int{rapid.IntRange(-3, 400).Draw(t, "edge")}, Marks: []Mark{{0, "January 2024"}, {360, "December"}}}
		for h := range 24 {
			q := Spread{figure.Draw(t, "low"), figure.Draw(t, "median"), figure.Draw(t, "high"), rapid.Bool().Draw(t, "known")}
			u.Weekdays[h], u.Weekends[h] = q, q
		}
		for range rapid.IntRange(0, 360).Draw(t, "days") {
			w.Days = append(w.Days, Cell{Energy: figure.Draw(t, "energy"), Known: rapid.Bool().Draw(t, "known"), IsPart: rapid.Bool().Draw(t, "part")})
		}
		low, high := figure.Draw(t, "low"), figure.Draw(t, "high")
		for what, drawn := range map[string]string{
			"day":      AverageDay(u).String(),
			"calendar": DaysByWeek(Calendar{ID: "c", Shades: ShadesEven(low, high, "kWh"), Bands: []Weeks{w}}).String(),
			"duration": Durations(Duration{ID: "d", Above: func(share float64) float64 { return high + share*(low-high) }, Base: low, HasBase: true}).String(),
		} {
			if strings.Contains(drawn, "NaN") || strings.Contains(drawn, "Inf") {
				t.Fatalf("%s: a place that is no number: %s", what, drawn)
			}
			for _, v := range places(drawn) {
				if v < -Width-6 || v > Width+6 { // steps to the left are below zero
					t.Fatalf("%s: a place at %g: %s", what, v, drawn)
				}
			}
		}
	})
}
