package link

import (
	"fmt"
	"math"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/shopspring/decimal"

	"splittally/calc"
)

// sameNumbers compares findings but for what tells of the text that readings
// were pasted as: its lines, and what was asked or said about them. It gives the
// places that differ. Without texts no words count.
func sameNumbers(a, b calc.Findings, texts bool) (differ []string) {
	aside := map[string]bool{
		"Findings.Problems": true, "Findings.Questions": true, "Findings.Notices": true, "Findings.Readings": true,
		"Findings.MeterDays": true, "Entry.Line": true, "Oddity.Line": true,
	}
	var compare func(path string, x, y reflect.Value)
	compare = func(path string, x, y reflect.Value) {
		switch {
		case len(differ) > 20:
		case x.Kind() == reflect.String && !texts:
		case x.Kind() == reflect.Slice && x.Len() != y.Len():
			differ = append(differ, fmt.Sprintf("%s: %d items and %d", path, x.Len(), y.Len()))
		case x.Kind() == reflect.Slice && x.Len() > 0 && x.Index(0).Addr().Pointer() == y.Index(0).Addr().Pointer():
		case x.Type() == reflect.TypeFor[decimal.Decimal]():
			if p, q := copied[decimal.Decimal](x), copied[decimal.Decimal](y); !p.Equal(q) {
				differ = append(differ, fmt.Sprintf("%s: %v and %v", path, p, q))
			}
		case x.Kind() == reflect.Struct:
			for i := range x.NumField() {
				if name := x.Type().Name() + "." + x.Type().Field(i).Name; !aside[name] {
					compare(path+"."+x.Type().Field(i).Name, x.Field(i), y.Field(i))
				}
			}
		case x.Kind() == reflect.Slice || x.Kind() == reflect.Array:
			for i := range x.Len() {
				compare(path+"."+strconv.Itoa(i), x.Index(i), y.Index(i))
			}
		case x.Kind() == reflect.Pointer:
			if !x.IsNil() && !y.IsNil() {
				compare(path, x.Elem(), y.Elem())
			} else if x.IsNil() != y.IsNil() {
				differ = append(differ, path+": only one is there")
			}
		case x.Kind() == reflect.Map:
			if x.Len() != y.Len() {
				differ = append(differ, path+": sizes differ")
			}
		case x.Kind() != reflect.Func && !x.Equal(y):
			differ = append(differ, fmt.Sprintf("%s: %v and %v", path, x, y))
		}
	}
	compare("", reflect.ValueOf(&a).Elem(), reflect.ValueOf(&b).Elem())
	return differ
}

// copied reads a value out of a field that is not exported too.
func copied[T any](v reflect.Value) T { return *(*T)(v.Addr().UnsafePointer()) }

func TestWorksOutTheSame(t *testing.T) {
	for name, c := range cases(t) {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			o := Options{Names: true, Hours: true}
			a, b := calc.Work(c), calc.Work(Clean(c, o))
			if hasRecord(c) {
				alike(t, a, b)
			} else if differ := sameNumbers(a, b, true); len(differ) > 0 {
				t.Error(strings.Join(differ, "\n"))
			}
		})
	}
}

func hasRecord(c calc.Case) bool {
	return c.Meter.Record != "" || slices.ContainsFunc(c.Monitors, func(m calc.Monitor) bool { return m.Record != "" })
}

// alike compares findings of hours in watt-hours with those of finer ones: what
// is shown of both has the same digits, or is one off in the last.
func alike(t *testing.T, a, b calc.Findings) {
	t.Helper()
	near := func(what string, x, y, by float64) {
		t.Helper()
		if math.Abs(x-y) > by {
			t.Errorf("%s: %v, from the link %v", what, x, y)
		}
	}
	if len(a.Instruments) != len(b.Instruments) || len(a.Accounts) != len(b.Accounts) {
		t.Fatalf("%d instruments and %d accounts, from the link %d and %d", len(a.Instruments), len(a.Accounts), len(b.Instruments), len(b.Accounts))
	}
	for i, x := range a.Instruments {
		y := b.Instruments[i]
		for p, r := range x.Results {
			s := y.Results[p]
			if r.Waits != s.Waits || r.Compared.Verdict != s.Compared.Verdict {
				t.Errorf("%s, bill %d: %q %q, from the link %q %q", x.Name, p+1, r.Waits, r.Compared.Verdict, s.Waits, s.Compared.Verdict)
			}
			near("total in kWh", r.Filled.Total.KilowattHours(), s.Filled.Total.KilowattHours(), 0.002)
			near("percentage error", r.Compared.Percent.InexactFloat64(), s.Compared.Percent.InexactFloat64(), 0.001)
			near("expanded uncertainty", r.Compared.Expanded, s.Compared.Expanded, 0.002)
		}
		near("pooled error", x.Pooled.Total.Percent.InexactFloat64(), y.Pooled.Total.Percent.InexactFloat64(), 0.001)
		if len(x.Causes.Causes) != len(y.Causes.Causes) {
			t.Fatalf("%s: %d causes, from the link %d", x.Name, len(x.Causes.Causes), len(y.Causes.Causes))
		}
		for k, cause := range x.Causes.Causes {
			if cause.ID != y.Causes.Causes[k].ID {
				t.Errorf("cause %d: %s, from the link %s", k, cause.ID, y.Causes.Causes[k].ID)
			}
			near("probability of "+string(cause.ID), cause.Probability, y.Causes.Causes[k].Probability, 0.01)
		}
	}
}

// Without names the money must be the same: lines of bills are matched with rows
// of tariffs by their names.
func TestWorksOutTheSameWithoutNames(t *testing.T) {
	for name, c := range cases(t) {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			a, b := calc.Work(c), calc.Work(Clean(c, Options{Hours: true}))
			if hasRecord(c) {
				alike(t, a, b)
			} else if differ := sameNumbers(a, b, false); len(differ) > 0 {
				t.Error(strings.Join(differ, "\n"))
			}
		})
	}
}

// Without hours errors and intervals are those of the days alone.
func TestDaysOfFilesComeToTheSame(t *testing.T) {
	for name, c := range cases(t) {
		if hasRecord(c) {
			t.Run(name, func(t *testing.T) {
				t.Parallel()
				a, b := calc.Work(c), calc.Work(Clean(c, Options{}))
				for i, x := range a.Instruments {
					for p, r := range x.Results {
						s := b.Instruments[i].Results[p].Compared
						// Filling knows less of days in part; all else is the same.
						apart := math.Abs(r.Compared.Percent.Sub(s.Percent).InexactFloat64())
						if apart > r.Compared.Expanded/4 || s.Expanded < 0.9*r.Compared.Expanded || s.Expanded > 1.25*r.Compared.Expanded {
							t.Errorf("%s, bill %d: %v ± %v, from the link %v ± %v", x.Name, p+1, r.Compared.Percent, r.Compared.Expanded, s.Percent, s.Expanded)
						}
					}
				}
			})
		}
	}
}
