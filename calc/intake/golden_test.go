package intake

import (
	"flag"
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"splittally/calc/calendar"
	"splittally/calc/ledger"

	"github.com/google/go-cmp/cmp"
)

var update = flag.Bool("update", false, "rewrite the wanted results; read the difference before you keep it")

// printed writes a result so that a person can check it against the text.
func printed(r Result) string {
	var out strings.Builder
	fmt.Fprintf(&out, "unit: %s\n", r.Unit)
	for _, l := range r.Ledgers {
		fmt.Fprintf(&out, "ledger %q\n", l.Name)
		for i := 0; i < len(l.Days); {
			day, n := l.First+calendar.Day(i), 1
			if e := l.Days[i]; e.State == ledger.Missing || e.State == ledger.Spread {
				for i+n < len(l.Days) && l.Days[i+n].State == e.State && l.Days[i+n].Total == e.Total && l.Days[i+n].Line == e.Line {
					n++
				}
			}
			days := fmt.Sprintf("%s %s", day, day.Weekday().String()[:3])
			if n > 1 {
				days += fmt.Sprintf(" and %d more", n-1)
			}
			fmt.Fprintf(&out, "  %s  %s\n", days, printedEntry(l.Days[i]))
			i += n
		}
		out.WriteString(printedSlots(l.Slots))
	}
	for _, q := range r.Questions {
		fmt.Fprintf(&out, "question %s: %s %s\n", q.ID, q.Asks, q.Why)
		for _, c := range q.Choices {
			mark := " "
			if c.ID == q.Taken {
				mark = "*"
			}
			fmt.Fprintf(&out, "  %s %s: %s -> %s\n", mark, c.ID, c.Label, c.Gives)
		}
	}
	for _, p := range r.Problems {
		fmt.Fprintf(&out, "problem %s\n", p)
	}
	for _, n := range r.Notices {
		fmt.Fprintf(&out, "notice %s: %s\n", n.Code, n.Text)
	}
	for _, l := range r.Lines {
		fmt.Fprintf(&out, "line %d %s %s\n", l.Number, [...]string{"ignored", "used", "wrong"}[l.Use], l.Why)
	}
	return out.String()
}

// printedSlots counts slots, those of a repeated hour apart, and gives their
// lengths in minutes.
func printedSlots(slots []ledger.Slot) string {
	if len(slots) == 0 {
		return ""
	}
	days, lengths, again := map[calendar.Day]bool{}, map[int]bool{}, 0
	for _, s := range slots {
		days[s.Day], lengths[s.To-s.From] = true, true
		if s.Again {
			again++
		}
	}
	text := fmt.Sprintf("  slots: %d on %d days, of %v minutes", len(slots), len(days), slices.Sorted(maps.Keys(lengths)))
	if again > 0 {
		text += fmt.Sprintf(", %d again", again)
	}
	return text + "\n"
}

func printedEntry(e ledger.Entry) string {
	text := fmt.Sprintf("%s ±%s", e.Energy.Decimal(), e.Rounding.Decimal())
	switch e.State {
	case ledger.Missing:
		text = "missing"
	case ledger.Spread:
		text += " share of " + e.Total.String()
	case ledger.Partial:
		text += fmt.Sprintf(" of %g hours", e.Hours)
	}
	if e.Line > 0 {
		text += fmt.Sprintf(" (line %d)", e.Line)
	}
	return text
}

// TestGolden reads every text in testdata/pasted and compares the result with
// the one kept beside it. A first line "#! near=… today=… answer.ID=…" gives
// options; it is no part of the text.
func TestGolden(t *testing.T) {
	const folder = "../../testdata/pasted"
	names, err := filepath.Glob(filepath.Join(folder, "*.txt"))
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range names {
		if strings.HasSuffix(name, ".want.txt") {
			continue
		}
		t.Run(strings.TrimSuffix(filepath.Base(name), ".txt"), func(t *testing.T) {
			raw, err := os.ReadFile(name)
			if err != nil {
				t.Fatal(err)
			}
			text, o := withOptions(t, string(raw))
			got := printed(Read(text, o))
			wanted := strings.TrimSuffix(name, ".txt") + ".want.txt"
			if *update {
				if err := os.WriteFile(wanted, []byte(got), 0o644); err != nil {
					t.Fatal(err)
				}
				return
			}
			want, err := os.ReadFile(wanted)
			if err != nil {
				t.Fatal(err)
			}
			if d := cmp.Diff(string(want), got); d != "" {
				t.Errorf("not as wanted (-want +got):\n%s", d)
			}
		})
	}
}

// withOptions takes the line of options off a text.
func withOptions(t *testing.T, text string) (string, Options) {
	t.Helper()
	o := Options{Path: "monitors.0", Answers: map[string]string{}}
	line, rest, _ := strings.Cut(text, "\n")
	if !strings.HasPrefix(line, "#! ") {
		return text, o
	}
	for field := range strings.FieldsSeq(line[3:]) {
		name, value, _ := strings.Cut(field, "=")
		first, last, isSpan := strings.Cut(value, "..")
		day, ok := calendar.ParseISO(first)
		switch {
		case name == "today" && ok:
			o.Today = day
		case name == "near" && isSpan && ok:
			end, _ := calendar.ParseISO(last)
			o.Near = calendar.Span{First: day, End: end + 1}
		case strings.HasPrefix(name, "answer."):
			o.Answers["monitors.0."+strings.TrimPrefix(name, "answer.")] = value
		default:
			t.Fatalf("option %q is not known", field)
		}
	}
	return rest, o
}
