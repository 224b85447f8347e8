package chart

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"splittally/calc/chart/markup"
)

// tenth is a run of ten pulses a second apart, of which one lacks, with one of
// each kind beside.
func tenth() []Placed {
	return []Placed{
		{0, Counts}, {1, Counts}, {2, Lacks}, {3, Counts}, {3.1, Between}, {4, Set}, {4.5, Unsure}, {5, Counts}, {5.5, Struck}, {6, Counts},
	}
}

func TestPaced(t *testing.T) {
	golden(t, "pace.svg", Paced(Pace{
		ID: "pace-0", Title: "Run 1", Words: "6 intervals", Unit: "watts", Long: 6, Mean: 3590, Doubt: 40, IsKnown: true, Beats: tenth(),
		Holds: []Hold{{0, 1, 3600, false}, {1, 3, 3600, true}, {3, 4, 3580, false}, {4, 5, 3610, false}, {5, 6, 3560, false}},
		Dots:  []At{{0.5, 3620}, {4.2, 3640}, {9, 1}},
		Ink:   0,
	}))
}

// An hour of pulses has a drawing that a page can hold, and loses neither the
// least nor the most.
func TestPacedForAnHour(t *testing.T) {
	c := Pace{ID: "p", Title: "Title", Words: "Words", Long: 3600}
	for i := range 3600 {
		c.Holds = append(c.Holds, Hold{From: float64(i), To: float64(i + 1), Value: 1000 + float64(i%7)})
		c.Beats = append(c.Beats, Placed{At: float64(i)})
	}
	c.Holds[1234].Value, c.Holds[2345].Value = 900, 1200
	drawn := Paced(c).String()
	wellFormed(t, drawn)
	if len(drawn) > 30_000 {
		t.Errorf("%d bytes", len(drawn))
	}
	p := c.scale()
	for _, v := range []float64{900, 1200} {
		if at := markup.Number(p.y(v)); !strings.Contains(drawn, at) {
			t.Errorf("nothing is drawn at %g, which is at %s", v, at)
		}
	}
}

func loudness() Wave {
	w := Wave{
		ID: "sound", Title: "The recording", Words: "Ten pulses.", Step: 0.05, From: 0.9, To: 4.1, Long: 7,
		Beats: tenth(), Breaks: []float64{2.5, 6},
		Touches: []Touch{{At: 1, ID: "sound-mark-1", Label: "Pulse at 0:01.000, counted; strike it out", Do: "mark", Mark: "1", Told: "struck"}, {At: 1.2, ID: "sound-mark-2", Label: "Another", Do: "mark", Mark: "2"}},
	}
	for i := range 140 {
		w.Envelope = append(w.Envelope, uint8(20+200*(1-min(1, i%20))))
	}
	return w
}

func TestLoudness(t *testing.T) { golden(t, "wave.svg", Loudness(loudness())) }

// What is pressed reaches no farther than half way to its neighbour, and as far
// as a finger needs where there is room.
func TestTouchesKeepApart(t *testing.T) {
	w := loudness()
	w.Touches[1].At = 1.05
	drawn := Loudness(w).String()
	if n := strings.Count(drawn, `class="hit"`); n != 2 {
		t.Fatalf("%d areas", n)
	}
	left := func(text string) (at, wide string) {
		_, rest, _ := strings.Cut(text, `class="hit" x="`)
		at, rest, _ = strings.Cut(rest, `"`)
		_, rest, _ = strings.Cut(rest, `width="`)
		wide, _, _ = strings.Cut(rest, `"`)
		return at, wide
	}
	at, wide := left(drawn[strings.Index(drawn, `id="sound-mark-1"`):])
	if at != "-11.38" || wide != "24.66" { // 22 units before, and half of 0.05 s after
		t.Errorf("the first begins at %s and is %s wide", at, wide)
	}
	// With nothing to press it is one picture to readers of the screen.
	w.Touches = nil
	if drawn := Loudness(w).String(); !strings.Contains(drawn, `role="img"`) || strings.Contains(drawn, "tabindex") {
		t.Error(drawn[:200])
	}
}

// The loudest of each column is drawn: a click of one step does not vanish from
// the picture of an hour.
func TestLoudnessOfAnHour(t *testing.T) {
	w := Wave{ID: "w", Title: "Title", Words: "Words", Step: 0.01, To: 3600, Long: 3600, Envelope: make([]uint8, 360_000)}
	w.Envelope[123_456] = 255
	drawn := Loudness(w).String()
	if len(drawn) > 20_000 || !strings.Contains(drawn, "V32H") {
		t.Errorf("%d bytes, %t", len(drawn), strings.Contains(drawn, "V32H"))
	}
}

func TestSecondsStep(t *testing.T) {
	for _, c := range []struct{ span, want float64 }{{0.1, 0.02}, {3.2, 1}, {20, 5}, {49, 10}, {70, 15}, {180, 60}, {840, 300}, {3600, 900}, {0, 1}} {
		if got := secondsStep(c.span, 5); math.Abs(got-c.want) > 1e-12 {
			t.Errorf("secondsStep(%g) = %g, want %g", c.span, got, c.want)
		}
	}
}

// Whatever the figures, no place is no number.
func TestTimingOfAnyFigures(t *testing.T) {
	odd := []float64{0, 1e-9, 1, 3599.5, 1e9, -1, math.Inf(1), math.NaN()}
	rapid.Check(t, func(t *rapid.T) {
		v := func(name string) float64 { return rapid.SampledFrom(odd).Draw(t, name) }
		p := Pace{ID: "p", Long: v("long"), Mean: v("mean"), Doubt: v("doubt"), IsKnown: true}
		w := Wave{ID: "w", Step: v("step"), From: 0, To: rapid.SampledFrom([]float64{0.1, 1, 3600}).Draw(t, "to"), Long: v("all"), Envelope: make([]uint8, 500)}
		for range rapid.IntRange(0, 500).Draw(t, "n") {
			h := Hold{From: v("from"), To: v("till"), Value: v("value"), Lacks: true}
			p.Holds = append(p.Holds, h)
			p.Dots = append(p.Dots, At{h.From, h.Value})
			w.Beats = append(w.Beats, Placed{At: h.From, Beat: Beat(len(w.Beats)) % beats})
			w.Touches = append(w.Touches, Touch{At: h.From})
			w.Breaks = append(w.Breaks, h.To)
		}
		p.Beats = w.Beats
		for _, m := range []markup.Markup{Paced(p), Loudness(w)} {
			if text := m.String(); strings.Contains(text, "NaN") || strings.Contains(text, "Inf") {
				t.Fatalf("a place that is no number: %s", text)
			}
		}
	})
}
