package calc_test

import (
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"splittally/calc"
	"splittally/calc/example"
	"splittally/calc/report"
)

// TestMemoryFindsWhatWorkFinds types into the example at random, a character
// here and there, with backspaces and answers, and wants the findings of a
// fresh start after every key.
func TestMemoryFindsWhatWorkFinds(t *testing.T) {
	random := rand.New(rand.NewPCG(3, 3))
	c := mustOpen(t, example.Text)
	fields := []*string{
		&c.Monitors[0].Readings, &c.Monitors[1].Readings, &c.Monitors[0].Accuracy, &c.Monitors[1].Method,
		&c.Periods[0].From, &c.Periods[1].To, &c.Periods[1].Present, &c.Periods[0].ReadHour, &c.Today,
		&c.Checks.Legs[0].Pairs[0].Monitor, &c.Price.PerKWh, &c.Confidence, &c.Answers[0].Choice,
	}
	var memory calc.Memory
	for range 200 {
		f := fields[random.IntN(len(fields))]
		at := random.IntN(len(*f) + 1)
		if random.IntN(2) == 0 && at > 0 {
			*f = (*f)[:at-1] + (*f)[at:]
		} else {
			*f = (*f)[:at] + string("0123456789.,- \n\t/"[random.IntN(17)]) + (*f)[at:]
		}
		before := calc.Save(c)
		want, got := report.Text(c, calc.Work(c)), report.Text(c, memory.Work(c))
		if got != want {
			t.Fatalf("after an edit of %.40q the findings differ:\n%s", *f, cmp.Diff(strings.Split(want, "\n"), strings.Split(got, "\n")))
		}
		if calc.Save(c) != before {
			t.Fatal("the case was changed")
		}
	}
}
