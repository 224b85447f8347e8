package load

import (
	"math"
	"os"
	"path/filepath"
	"testing"

	"splittally/calc/energy"
	"splittally/calc/intake"
	"splittally/calc/ledger"
)

// trial reads a household's record; see SPLITTALLY_TRIALS in the Makefile.
func trial(t testing.TB, name string) ledger.Ledger {
	t.Helper()
	folder := os.Getenv("SPLITTALLY_TRIALS")
	if folder == "" {
		t.Skip("SPLITTALLY_TRIALS names no folder of long household series")
	}
	text, err := os.ReadFile(filepath.Join(folder, filepath.FromSlash(name)))
	if err != nil {
		t.Skip(err)
	}
	read := intake.Read(string(text), intake.Options{})
	if len(read.Ledgers) == 0 {
		t.Fatalf("%s: no readings", name)
	}
	return read.Ledgers[0]
}

// A year and a quarter of a household's half-hours, with defects. What is wanted
// was worked out apart from this program, by a script on Python's csv, decimal
// and statistics (quantiles by its method "inclusive").
func TestHouseOfHalfHours(t *testing.T) {
	l := Of(trial(t, "house-uk-hourly/uk-electricity-sample-1.csv"), 0.95)
	near := func(what string, got, want float64) {
		t.Helper()
		if math.Abs(got-want) > 0.01 {
			t.Errorf("%s is %g, want %g", what, got, want)
		}
	}
	if l.Counted != 11264 {
		t.Errorf("%d hours count, want 11264", l.Counted)
	}
	near("the 99th percentile", l.At(0.01), 2268.37)
	near("the 90th", l.At(0.1), 985)
	near("the median", l.At(0.5), 337)
	near("the 10th", l.At(0.9), 201)
	night, evening := l.Typical[Weekdays].Hours[3], l.Typical[Weekends].Hours[19]
	if night.Count != 335 || evening.Count != 134 {
		t.Errorf("%d nights, %d evenings", night.Count, evening.Count)
	}
	near("a quarter of weekdays at 3:00", night.Low, 207)
	near("half of them", night.Median, 220)
	near("three quarters", night.High, 236.5)
	near("a quarter of weekends at 19:00", evening.Low, 562.25)
	near("half of them", evening.Median, 938)
	near("three quarters", evening.High, 1267.75)
	if b := l.Base; b.From != 3 || !b.IsBounded || b.Low > b.Watts || b.Watts > b.High {
		t.Errorf("base load %+v", b)
	}
	near("the base load", l.Base.Watts, 196)
	if p := l.Largest[0]; p.Day != date(t, 2013, 2, 21) || p.Hour != 19 || p.Energy != 4_586_000_100 {
		t.Errorf("largest hour %+v", p)
	}
	var total energy.Energy
	for i := range l.Days {
		for h := range 24 {
			total += l.Days[i].Run(h).Energy
		}
	}
	if total != 5554_874_000_200 {
		t.Errorf("the hours add up to %d µWh", total)
	}
	if m := l.Months[5]; m.Energy != 479_683_999_900 || m.First != date(t, 2013, 3, 1) {
		t.Errorf("March 2013: %+v", m)
	}
}

// On homes that nobody tuned to, what never stops lies between standby and the
// median, and the interval around it.
func TestPlausible(t *testing.T) {
	for _, name := range []string{
		"house-uk-hourly/uk-electricity-sample-1.csv", "house-london-halfhourly/MAC002163.csv", "houses-australia-halfhourly/house_B.csv",
		"house-illinois-hourly-daily-billing/il-electricity-cdd-hdd-hourly.csv", "house-france-hourly-voltage/derived_hourly_kwh_volts.csv",
	} {
		l := Of(trial(t, name), 0.95)
		b := l.Base
		t.Logf("%s: %.0f W (%.0f to %.0f), from %d:00, %.0f %% of all; median %.0f W", name, b.Watts, b.Low, b.High, b.From, 100*b.Share, l.At(0.5))
		if !b.IsKnown || b.Watts < 20 || b.Watts >= l.At(0.5) || b.Low > b.Watts || b.High < b.Watts || b.Share > 0.6 {
			t.Errorf("%s: %+v", name, b)
		}
		if l.LargestDay.Energy < l.Largest[0].Energy || l.LargestDay.Energy < l.LeastDay.Energy {
			t.Errorf("%s: the largest day is %s, the least %s, an hour %s", name, l.LargestDay.Energy, l.LeastDay.Energy, l.Largest[0].Energy)
		}
	}
}
