package energy

import (
	"math"
	"testing"

	"github.com/shopspring/decimal"
	"pgregory.net/rapid"
)

func TestFromDecimal(t *testing.T) {
	for _, c := range []struct {
		text  string
		unit  Energy
		want  Energy
		exact bool
		err   error
	}{
		{"12.4", KilowattHour, 12_400_000_000, true, nil},
		{"12345.6", WattHour, 12_345_600_000, true, nil},
		{"0.0124", MegawattHour, 12_400_000_000, true, nil},
		{"-3.5", KilowattHour, -3_500_000_000, true, nil},
		{"0.0000000005", KilowattHour, 0, false, nil},
		{"0.0000000015", KilowattHour, 2, false, nil},
		{"9223372036.854775807", KilowattHour, math.MaxInt64, true, nil},
		{"9223372036.854775808", KilowattHour, 0, false, ErrRange},
		{"-9223372036.854775808", KilowattHour, 0, false, ErrRange},
		{"1e9000", KilowattHour, 0, false, ErrRange},
		{"1e-9000", KilowattHour, 0, false, ErrRange},
		{"1e-100", KilowattHour, 0, false, nil},
	} {
		got, exact, err := FromDecimal(decimal.RequireFromString(c.text), c.unit)
		if got != c.want || exact != c.exact || err != c.err {
			t.Errorf("FromDecimal(%s, %d) = %d, %v, %v; want %d, %v, %v", c.text, c.unit, got, exact, err, c.want, c.exact, c.err)
		}
	}
}

func TestFromKilowattHours(t *testing.T) {
	if e, err := FromKilowattHours(12.4); e != 12_400_000_000 || err != nil {
		t.Errorf("12.4 kWh = %d, %v", e, err)
	}
	for _, bad := range []float64{math.NaN(), math.Inf(1), math.Inf(-1), 1e10, -1e10, 9223372036.854775807} {
		if e, err := FromKilowattHours(bad); err != ErrRange {
			t.Errorf("FromKilowattHours(%g) = %d, %v; want ErrRange", bad, e, err)
		}
	}
}

func TestAddRefusesToWrap(t *testing.T) {
	if _, err := Energy(math.MaxInt64).Add(1); err != ErrRange {
		t.Errorf("a sum past the top: %v, want ErrRange", err)
	}
	if _, err := Energy(-math.MaxInt64).Add(-2); err != ErrRange {
		t.Errorf("a sum past the bottom: %v, want ErrRange", err)
	}
}

func TestText(t *testing.T) {
	e := Energy(12_345_000_000)
	if got := e.Text(2); got != "12.35" {
		t.Errorf("Text(2) = %s, want 12.35 (half away from zero)", got)
	}
	if got := e.String(); got != "12.345 kWh" {
		t.Errorf("String = %s", got)
	}
}

func TestShareSumsToTheWhole(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		e := Energy(rapid.Int64Range(-1e15, 1e15).Draw(t, "energy"))
		parts := e.Share(rapid.IntRange(1, 400).Draw(t, "parts"))
		var sum Energy
		for _, p := range parts {
			sum += p
			if d := p - parts[0]; d < -1 || d > 1 {
				t.Fatalf("parts of %d differ by %d", e, d)
			}
		}
		if sum != e {
			t.Fatalf("parts of %d sum to %d", e, sum)
		}
	})
}

func TestDecimalRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		e := Energy(rapid.Int64Range(-math.MaxInt64, math.MaxInt64).Draw(t, "energy"))
		back, exact, err := FromDecimal(e.Decimal(), KilowattHour)
		if back != e || !exact || err != nil {
			t.Fatalf("%d came back as %d, %v, %v", e, back, exact, err)
		}
	})
}
