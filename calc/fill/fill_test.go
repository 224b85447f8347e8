package fill

import (
	"errors"
	"testing"

	"splittally/calc/calendar"
	"splittally/calc/energy"
	"splittally/calc/ledger"
)

// days makes a ledger from day 0 on, in kWh; a negative number is a missing day.
func days(kWh ...float64) ledger.Ledger {
	var l ledger.Ledger
	for d, x := range kWh {
		if x < 0 {
			l.Put(calendar.Day(d), ledger.Entry{})
			continue
		}
		e, _ := energy.FromKilowattHours(x)
		l.Put(calendar.Day(d), ledger.Entry{State: ledger.Measured, Energy: e})
	}
	return l
}

func TestFillRefuses(t *testing.T) {
	if _, err := Fill(Request{Ledger: days(1)}); !errors.Is(err, ErrNoPeriod) {
		t.Errorf("empty span: %v", err)
	}
	if _, err := Fill(Request{Ledger: days(-1), Span: calendar.Span{First: 0, End: 3}}); !errors.Is(err, ErrNothingMeasured) {
		t.Errorf("nothing measured: %v", err)
	}
}

func TestFillLine(t *testing.T) {
	got, err := Fill(Request{Ledger: days(5, 1.2, -1, -1, -1, 2, 4), Span: calendar.Span{First: 0, End: 7}, Method: Line})
	if err != nil {
		t.Fatal(err)
	}
	for i, want := range []string{"5", "1.2", "1.4", "1.6", "1.8", "2", "4"} {
		if s := got.Days[i].Energy.Decimal().String(); s != want {
			t.Errorf("day %d = %s, want %s", i, s, want)
		}
	}
	if got.Total.String() != "17 kWh" || got.Filled != 3 || got.Longest != 3 || got.Measured != 4 || got.Method != Line || got.Chosen {
		t.Errorf("%+v", got)
	}
}

func TestCompletePeriod(t *testing.T) {
	got, err := Fill(Request{Ledger: days(1, 2, 3, -1), Span: calendar.Span{First: 0, End: 3}})
	if err != nil || got.Total != 6*energy.KilowattHour || got.Standard != 0 || got.DoF != 0 || got.Method != "" {
		t.Errorf("%+v, %v", got, err)
	}
}
