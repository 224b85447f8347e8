package intake

import (
	"fmt"
	"strings"
	"testing"

	"splittally/calc/calendar"
	"splittally/calc/energy"
	"splittally/calc/ledger"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

// manner is one way to write days and figures down.
type manner struct {
	name string
	line func(d calendar.Day, kWh string) string
}

var manners = []manner{
	{"iso and blanks", func(d calendar.Day, kWh string) string { return d.String() + "  " + kWh + " kWh" }},
	{"tabs", func(d calendar.Day, kWh string) string { return d.String() + "\t" + kWh }},
	{"commas", func(d calendar.Day, kWh string) string { return d.String() + "," + kWh }},
	{"semicolons and decimal comma", func(d calendar.Day, kWh string) string {
		y, m, dd := d.Date()
		return fmt.Sprintf("%02d.%02d.%d;%s", dd, m, y, strings.Replace(kWh, ".", ",", 1))
	}},
	{"words", func(d calendar.Day, kWh string) string {
		return d.Weekday().String() + " " + d.Long() + ": " + kWh + " kWh"
	}},
	{"bars", func(d calendar.Day, kWh string) string { return "| " + d.String() + " | " + kWh + " |" }},
	{"value first", func(d calendar.Day, kWh string) string { return kWh + " kWh on " + d.Long() }},
}

// drawDays draws the daily energies of a run of days, none of them suspicious.
func drawDays(t *rapid.T) ledger.Ledger {
	l := ledger.Ledger{}
	first := calendar.Day(rapid.IntRange(11000, 25000).Draw(t, "first day"))
	n := rapid.IntRange(3, 70).Draw(t, "days")
	for i := range n {
		tenths := rapid.Int64Range(50, 600).Draw(t, "tenths of a kWh")
		if i%2 == 1 {
			tenths += 600 // no run of days only rises
		}
		l.Put(first+calendar.Day(i), ledger.Entry{
			State: ledger.Measured, Energy: energy.Energy(tenths) * energy.KilowattHour / 10, Rounding: energy.KilowattHour / 20,
		})
	}
	return l
}

// written writes a ledger down, one line a day.
func written(l ledger.Ledger, m manner) []string {
	var lines []string
	for i, e := range l.Days {
		lines = append(lines, m.line(l.First+calendar.Day(i), e.Energy.Text(1)))
	}
	return lines
}

// withoutLines takes the numbers of lines off, which depend on the order.
func withoutLines(ls []ledger.Ledger) []ledger.Ledger {
	for _, l := range ls {
		for i := range l.Days {
			l.Days[i].Line = 0
		}
	}
	return ls
}

func TestWrittenThenRead(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		want, m := drawDays(t), rapid.SampledFrom(manners).Draw(t, "manner")
		text := strings.Join(written(want, manner{m.name, m.line}), "\n")
		got := Read(text, Options{})
		if len(got.Problems) > 0 || len(got.Questions) > 0 {
			t.Fatalf("%s: %v %v in\n%s", m.name, got.Problems, got.Questions, text)
		}
		if d := cmp.Diff([]ledger.Ledger{want}, withoutLines(got.Ledgers)); d != "" {
			t.Fatalf("%s: %s\n%s", m.name, d, text)
		}
	})
}

func TestOrderOfLinesDoesNotMatter(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		lines := written(drawDays(t), rapid.SampledFrom(manners).Draw(t, "manner"))
		want := withoutLines(Read(strings.Join(lines, "\n"), Options{}).Ledgers)
		got := withoutLines(Read(strings.Join(rapid.Permutation(lines).Draw(t, "order"), "\n"), Options{}).Ledgers)
		if d := cmp.Diff(want, got); d != "" {
			t.Fatal(d)
		}
	})
}

// TestAnswerGivesWhatWasSaid takes each choice of each question of the kept
// texts and sees that the result is what the choice was said to give.
func TestAnswerGivesWhatWasSaid(t *testing.T) {
	for _, text := range []string{
		"03/04/2023 11.9\n04/05/2023 14.7\n05/06/2023 22.3", "12.4\n9.8\n10.1", "Jan 3 12.4\nJan 4 9.8",
		"2023-10-03\t1,234\n2023-10-04\t2,345", "2023-10-03 12.4\n2023-10-03 11.1", "2023-10-03 0\n2023-10-04 9.8\n2023-10-05 9.9\n2023-10-06 9.7",
		"Day,L1 kWh,L2 kWh,Total kWh\n2023-10-03,9.3,5.1,4.2\n2023-10-04,8.5,4.9,3.6\n2023-10-05,10.1,5.6,4.5",
	} {
		o := Options{Path: "m", Near: calendar.Span{First: 19600, End: 19660}}
		questions := Read(text, o).Questions
		if len(questions) == 0 {
			t.Errorf("nothing asked of %q", text)
		}
		for _, q := range questions {
			for _, c := range q.Choices {
				o.Answers = map[string]string{q.ID: c.ID}
				r := Read(text, o)
				if got := gives(r.Ledgers); got != c.Gives {
					t.Errorf("%q: %s=%s gives %q, said was %q", text, q.ID, c.ID, got, c.Gives)
				}
				for _, again := range r.Questions {
					if again.ID == q.ID && (!again.Answered || again.Taken != c.ID) {
						t.Errorf("%q: the answer %s=%s was not taken: %+v", text, q.ID, c.ID, again)
					}
				}
			}
		}
	}
}

func benchmarkText(days int, line func(i int, d calendar.Day) string) string {
	var out strings.Builder
	for i := range days {
		out.WriteString(line(i, calendar.Day(19000+i)))
	}
	return out.String()
}

func BenchmarkTwoMonths(b *testing.B) {
	text := benchmarkText(62, func(i int, d calendar.Day) string { return fmt.Sprintf("%s  %d.%d kWh\n", d.Short(), 10+i%7, i%10) })
	for b.Loop() {
		Read(text, Options{Path: "monitors.0", Near: calendar.Span{First: 19000, End: 19062}})
	}
}

func BenchmarkTenThousandLines(b *testing.B) {
	text := benchmarkText(10000, func(i int, _ calendar.Day) string {
		d := calendar.Day(19000 + i/96)
		return fmt.Sprintf("%s %02d:%02d,0.%03d\n", d, i%96/4, i%4*15, i*7%1000)
	})
	for b.Loop() {
		Read(text, Options{Path: "monitors.0"})
	}
}

func BenchmarkTenThousandDays(b *testing.B) {
	text := benchmarkText(10000, func(i int, d calendar.Day) string { return fmt.Sprintf("%s\t%d.%d\n", d-9000, 10+i%7, i%10) })
	for b.Loop() {
		Read(text, Options{Path: "monitors.0"})
	}
}
