package pulse

import (
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"splittally/calc/rhythm"
)

// The text in the comment above heading, and what it says.
const written = `pulses 1
by sound
file meter.mp3
format MP3, 44100 Hz, mono
read 612.4
promised 620
timing 0.0004
above 24.5
breaks 3012345 4500000
says It is loud around the pulses.
says The recording is cut.
marks 5
12040 36012j7 35988i4x 36020 17990a1+
`

var read = Marks{
	By: "sound", File: "meter.mp3", Format: "MP3, 44100 Hz, mono", Read: 612.4, Promised: 620, Timing: 0.0004, Above: 24.5,
	Breaks: []float64{301.2345, 450}, Says: []string{"It is loud around the pulses.", "The recording is cut."},
	Marks: []rhythm.Mark{
		{At: 1.204, Sure: 1},
		{At: 4.8052, Sure: 0.97},
		{At: 8.404, Sure: 0.84, Told: rhythm.Struck},
		{At: 12.006, Sure: 1},
		{At: 13.805, Sure: 0.01, Told: rhythm.Added},
	},
}

func TestMarksAsText(t *testing.T) {
	if d := cmp.Diff(written, Format(read)); d != "" {
		t.Errorf("Format (-want +got):\n%s", d)
	}
	got, err := Parse(written)
	if err != nil {
		t.Fatal(err)
	}
	if d := cmp.Diff(read, got); d != "" {
		t.Errorf("Parse (-want +got):\n%s", d)
	}
	if _, err := Parse(strings.ReplaceAll(written, "\n", "\r\n")); err != nil {
		t.Errorf("with line ends of another kind: %v", err)
	}
}

// drawnMarks are marks as a text can hold them.
func drawnMarks(t *rapid.T) Marks {
	text := rapid.StringMatching(`[!-~äöüß]([ -~]{0,10}[!-~])?`)
	some := func(name string) string {
		if rapid.Bool().Draw(t, "has "+name) {
			return text.Draw(t, name)
		}
		return ""
	}
	real := rapid.OneOf(rapid.Just(0.0), rapid.Float64Range(1e-9, 1e6), rapid.Float64Range(-99, -1e-9))
	m := Marks{
		By: some("by"), File: some("file"), Format: some("format"),
		Read: real.Draw(t, "read"), Promised: real.Draw(t, "promised"), Lost: real.Draw(t, "lost"), Timing: real.Draw(t, "timing"), Above: real.Draw(t, "above"),
	}
	for _, n := range rapid.SliceOfN(rapid.IntRange(0, MostSeconds*ticks), 0, 4).Draw(t, "breaks") {
		m.Breaks = append(m.Breaks, float64(n)/ticks)
	}
	for i := rapid.IntRange(0, 3).Draw(t, "says"); i > 0; i-- {
		m.Says = append(m.Says, text.Draw(t, "sentence"))
	}
	at := 0
	for i := rapid.IntRange(0, 60).Draw(t, "marks"); i > 0; i-- {
		at += rapid.IntRange(0, 1_000_000).Draw(t, "step")
		m.Marks = append(m.Marks, rhythm.Mark{
			At: float64(at) / ticks, Sure: float64(rapid.IntRange(0, 100).Draw(t, "sure")) / 100,
			Told: rapid.SampledFrom([]rhythm.Told{rhythm.Nothing, rhythm.Struck, rhythm.Added}).Draw(t, "told"),
		})
	}
	return m
}

func TestMarksComeBackAsTheyWere(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := drawnMarks(t)
		got, err := Parse(Format(m))
		if err != nil {
			t.Fatalf("%v of\n%s", err, Format(m))
		}
		if d := cmp.Diff(m, got); d != "" {
			t.Fatalf("(-want +got):\n%s", d)
		}
	})
}

// An hour of twenty pulses a second, the sureness of each another one, fits
// into what a browser keeps without thinking.
func TestMarksAreShort(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	var m Marks
	for i := range 72_000 {
		m.Marks = append(m.Marks, rhythm.Mark{At: float64(i)*0.05 + 0.002*r.Float64(), Sure: r.Float64()})
	}
	if n := len(Format(m)); n > 450_000 {
		t.Errorf("72,000 marks are %d bytes", n)
	}
}

// The mark § stands where the text is wrong.
func TestMarksThatCannotBeRead(t *testing.T) {
	for _, text := range []string{
		"§", "§pulses 2\nmarks 0\n", "pulses 1\n§", "pulses 1\nby taps\n§", "pulses 1\n§colour red\nmarks 0\n",
		"pulses 1\nread §soon\nmarks 0\n", "pulses 1\nread §NaN\nmarks 0\n", "pulses 1\nread §Inf\nmarks 0\n", "pulses 1\nread §0x1p3\nmarks 0\n", "pulses 1\nread §1e3\nmarks 0\n",
		"pulses 1\nbreaks 10 §ten\nmarks 0\n", "pulses 1\nbreaks 10 §8640000000\nmarks 0\n",
		"pulses 1\nmarks §many\n", "pulses 1\nmarks §200001\n", "pulses 1\nmarks §-1\n", "pulses 1\nmarks §01\n",
		"pulses 1\nmarks 2\n10 20 §30\n", "pulses 1\nmarks 3\n10 20\n§", "pulses 1\nmarks 2\n10 §-20\n", "pulses 1\nmarks 2\n10 §020\n",
		"pulses 1\nmarks 2\n10 §20k1\n", "pulses 1\nmarks 2\n10 §20a\n", "pulses 1\nmarks 2\n10 §20y\n", "pulses 1\nmarks 2\n10 §20x+\n",
		"pulses 1\nmarks 2\n10 § 20\n", "pulses 1\nmarks 2\n§10 \n20\n", "pulses 1\nmarks 2\n864000000 §1\n", "pulses 1\nmarks 2\n10 §9999999999999\n",
	} {
		at := strings.Index(text, "§")
		line, column := 1+strings.Count(text[:at], "\n"), at-strings.LastIndex(text[:at], "\n")
		_, err := Parse(strings.Replace(text, "§", "", 1))
		m, ok := err.(*Misread)
		if !ok {
			t.Errorf("%q is read", text)
			continue
		}
		if m.Line != line || m.Column != column || m.Wanted == "" {
			t.Errorf("%q: %v, want line %d, column %d", text, m, line, column)
		}
	}
}

func TestADamagedTextIsAProblemOfItsRun(t *testing.T) {
	r := Read(Timing{Constant: "1000", Runs: []Run{{}, {How: "taps", Marks: "pulses 1\nmarks 2\n10 ten\n"}}}, Options{})
	if len(r.Problems) != 1 || r.Problems[0].Path != "timing.runs.1.marks" || r.Problems[0].Line != 3 || r.Problems[0].Found != "ten" {
		t.Errorf("%+v", r.Problems)
	}
	if r.Runs[1].Waits == "" {
		t.Error("the run waits for nothing")
	}
}

func TestMarksByHand(t *testing.T) {
	var m Marks
	for _, at := range []float64{0, 2, 4, 4, 3, 6} { // two of them are not later than the last
		m = m.Tap(at)
	}
	at := func(m Marks) (out []float64) {
		for _, k := range m.Marks {
			out = append(out, k.At)
		}
		return out
	}
	for _, c := range []struct {
		name string
		got  Marks
		want []float64
	}{
		{"taps", m, []float64{0, 2, 4, 6}},
		{"undo", m.Undo(), []float64{0, 2, 4}},
		{"undo of nothing", Marks{}.Undo(), nil},
		{"insert", m.Insert(3), []float64{0, 2, 3, 4, 6}},
		{"insert at the end", m.Insert(7), []float64{0, 2, 4, 6, 7}},
		{"tap after undo", m.Undo().Tap(5), []float64{0, 2, 4, 5}},
		{"as they were", m, []float64{0, 2, 4, 6}},
	} {
		if d := cmp.Diff(c.want, at(c.got)); d != "" {
			t.Errorf("%s (-want +got):\n%s", c.name, d)
		}
	}
	if m.By != "taps" || m.Insert(3).Marks[2].Told != rhythm.Added {
		t.Errorf("%+v", m)
	}
	struck := m.With(rhythm.Struck, 1)
	if struck.Marks[1].Told != rhythm.Struck || m.Marks[1].Told != rhythm.Nothing || struck.With(rhythm.Nothing, 1).Marks[1].Told != rhythm.Nothing {
		t.Error("what is told of a mark is not kept where it belongs")
	}
	if d := cmp.Diff(m, m.With(rhythm.Struck, 9)); d != "" {
		t.Error(d)
	}
}
