package link

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"splittally/calc"
	"splittally/calc/document"
	"splittally/calc/ledger"
	"splittally/calc/pulse"

	"splittally/calc/calendar"
	"splittally/calc/intake"
)

// pasted gives the texts of testdata/pasted with what else is known of them.
func pasted(t testing.TB) (names []string, texts []string, options []intake.Options) {
	t.Helper()
	files, _ := filepath.Glob("../../testdata/pasted/*.txt")
	for _, file := range files {
		if strings.HasSuffix(file, ".want.txt") {
			continue
		}
		b, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		o, text := intake.Options{Path: "monitors.0", Answers: map[string]string{}}, string(b)
		if head, rest, ok := strings.Cut(text, "\n"); ok && strings.HasPrefix(head, "#!") {
			text = rest
			for _, word := range strings.Fields(head)[1:] {
				key, value, _ := strings.Cut(word, "=")
				switch {
				case key == "near":
					from, to, _ := strings.Cut(value, "..")
					first, _ := calendar.ParseISO(from)
					last, _ := calendar.ParseISO(to)
					o.Near = calendar.Span{First: first, End: last + 1}
				case key == "today":
					o.Today, _ = calendar.ParseISO(value)
				case strings.HasPrefix(key, "answer."):
					o.Answers["monitors.0."+strings.TrimPrefix(key, "answer.")] = value
				}
			}
		}
		names, texts, options = append(names, filepath.Base(file)), append(texts, text), append(options, o)
	}
	return names, texts, options
}

// Every text that is known comes back as it was read, day by day. What can't is
// the rounding of sums and differences, which comes back as the nearest half
// digit, and days known in part by stretches longer than two hours.
func TestPastedTextsComeBack(t *testing.T) {
	names, texts, options := pasted(t)
	for i, text := range texts {
		want := intake.Read(text, options[i])
		clean, answers := readings(text, options[i], Options{Names: true, Hours: true})
		o := options[i]
		o.Answers = answers
		got := intake.Read(clean, o)
		if len(want.Ledgers) != len(got.Ledgers) {
			t.Errorf("%s: %d columns, from the sheet %d\n%s", names[i], len(want.Ledgers), len(got.Ledgers), clean)
			continue
		}
		for _, q := range got.Questions {
			if answers[q.ID] == "" {
				t.Errorf("%s: the sheet leaves %s open", names[i], q.ID)
			}
		}
		for c, l := range want.Ledgers {
			for d := l.First; d < l.Span().End; d++ {
				x, y := l.At(d), got.Ledgers[c].At(d)
				if x.State == ledger.Partial && len(l.On(d)) == 0 {
					x = ledger.Entry{}
				}
				finer := float64(y.Rounding) / float64(x.Rounding)
				if x.State != y.State || x.Energy != y.Energy || x.Hours != y.Hours || x.State != ledger.Missing && (finer < 0.4 || finer > 1.001) {
					t.Errorf("%s, column %d, %s: %+v, from the sheet %+v", names[i], c+1, d, x, y)
				}
			}
			if diff := cmp.Diff(l.Slots, got.Ledgers[c].Slots); diff != "" && len(l.Slots) > 0 {
				t.Errorf("%s, column %d: %s", names[i], c+1, diff)
			}
		}
	}
}

// What was pasted stays at home: no line of it but a plain row of figures is in
// what a link holds.
func TestNoPastedTextGoesAlong(t *testing.T) {
	c := calc.Case{
		Monitors: []calc.Monitor{{Readings: "meter of J. Somebody, 12 Some Lane\n2024-03-01 12.4 kWh was away\n2024-03-02 9.1 kWh\nsecret 77.7"}},
		Meter:    calc.Meter{Readings: "secret only"},
		Timing:   pulse.Timing{Runs: []pulse.Run{{Watts: "0:20 524\nsecret 7", Marks: "secret"}}},
	}
	for _, o := range options4() {
		back, err := Read(Write(c, o))
		if err != nil {
			t.Fatal(err)
		}
		saved := calc.Save(back)
		for _, word := range []string{"Somebody", "Lane", "away", "secret", "77.7"} {
			if strings.Contains(saved, word) {
				t.Errorf("%+v: %q went along:\n%s", o, word, saved)
			}
		}
		if want := "Day\tkWh\n2024-03-01\t12.4\n2024-03-02\t9.1"; back.Monitors[0].Readings != want {
			t.Errorf("readings %q, want %q", back.Monitors[0].Readings, want)
		}
		if want := "0:20 524"; back.Timing.Runs[0].Watts != want {
			t.Errorf("watts %q, want %q", back.Timing.Runs[0].Watts, want)
		}
	}
}

// Without names no word of a person's own goes along, whatever field it stands in.
func TestNoNamesGoAlong(t *testing.T) {
	var c calc.Case
	n := document.Flat{Texts: map[string]string{}}
	for _, path := range allFields() {
		n.Texts[strings.ReplaceAll(path, "*", "0")] = "Zebulon Quux 12"
	}
	n.Texts["monitors.0.readings"] = "Day\tZebulon kWh\tQuux kWh\n2024-03-01\t12.4\t1.5\n2024-03-02\t9.1\t2.5\n2024-03-03\t9.5\t2.1"
	n.Texts["monitors.0.record"] = strings.NewReplacer("hours.csv", "zebulon.csv", "name House", "name Zebulon", "zone the", "zone Quux").Replace(drawnRecord(2))
	n.Texts["timing.runs.0.marks"] = "pulses 1\nby taps\nfile Zebulon.wav\nformat Quux\nsays Zebulon.\nmarks 2\n0 21925\n"
	if problems := document.Read(n.Node(), c.Fields); len(problems) > 0 {
		t.Fatal(problems)
	}
	for _, o := range []Options{{}, {Hours: true}} {
		back, err := Read(Write(c, o))
		if err != nil {
			t.Fatal(err)
		}
		saved := calc.Save(back)
		for _, word := range []string{"zebulon", "quux"} {
			if strings.Contains(strings.ToLower(saved), word) {
				t.Errorf("%+v: %q went along:\n%s", o, word, saved)
			}
		}
		if back.Monitors[0].Readings == "" || back.Monitors[0].Record == "" || back.Timing.Runs[0].Marks == "" {
			t.Errorf("%+v: figures are lost:\n%s", o, saved)
		}
		if got := back.Periods[0].Lines[0].Name; got != "N1 N2 12" {
			t.Errorf("the line of a bill is called %q", got)
		}
	}
	full, err := Read(Write(c, Options{Names: true}))
	if err != nil || full.Title != c.Title || full.Periods[0].Lines[0].Name != "Zebulon Quux 12" {
		t.Errorf("with names: %+v %v", full.Periods, err)
	}
}
