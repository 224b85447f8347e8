package account

import (
	"testing"

	"splittally/calc/billing"
)

// Whatever is printed, nothing is lost: every line is in a pair, what can't be
// read has a problem at its field, and nothing is a reason that is not needed.
func FuzzPrinted(f *testing.F) {
	for _, seed := range [][5]string{
		{"Energy", "64.40", "Fuel adjustment", "7.63", "88.81"},
		{"Energy, over 500 kWh", "$14.40", "", "(5.00)", "1,234"},
		{"State tax", "4.67 CR", "kWh", "−5", ""},
		{"energy charge", "64,40 €", "Gift", "x", "5-"},
		{"", "", "第", "１２．４", "$"},
	} {
		f.Add(seed[0], seed[1], seed[2], seed[3], seed[4], "row.1")
	}
	t := build(f, household())
	usage := whole(f, "2024-03-01", "2024-03-31", "620")
	f.Fuzz(func(test *testing.T, name, amount, name2, amount2, total, solve string) {
		b := Bill{
			Path: "periods.0", Usage: usage, Schedule: household(), Total: total, Solve: solve,
			Printed: []billing.Line{{Name: name, Amount: amount}, {Name: name2, Amount: amount2}},
		}
		a := Rebuild(t, b)
		checkFuzzed(test, b, a)
		for _, p := range a.Problems {
			switch p.Path {
			case "periods.0.lines.0.amount", "periods.0.lines.1.amount", "periods.0.total", "periods.0.solve":
			default:
				test.Fatalf("a problem at %s", p.Path)
			}
		}
		if s := a.Solved; s.Found && (s.Low.GreaterThan(s.Value) || s.High.LessThan(s.Value)) {
			test.Fatalf("%+v", s)
		}
	})
}

// checkFuzzed leaves out blank lines of any kind of blank.
func checkFuzzed(t *testing.T, b Bill, a Account) {
	seen := map[int]bool{}
	var known []billing.Line
	for _, p := range a.Pairs {
		if p.At >= 0 && seen[p.At] {
			t.Fatalf("line %d twice", p.At)
		}
		seen[p.At] = p.At >= 0
		if p.At >= 0 && !p.HasPrinted && p.Typed != "" && !hasProblem(a, p.At) {
			t.Fatalf("line %d, %q, is not read and has no problem", p.At, p.Typed)
		}
	}
	for i, l := range b.Printed {
		if seen[i] {
			known = append(known, l)
		}
	}
	if len(known) == len(b.Printed) {
		checkPairs(t, b, a)
	}
}

func hasProblem(a Account, line int) bool {
	for _, p := range a.Problems {
		if p.Path == "periods.0.lines."+string(rune('0'+line))+".amount" {
			return true
		}
	}
	return false
}
