package say

import (
	"math"
	"slices"
	"strings"
	"testing"

	"splittally/calc/calendar"
	"splittally/calc/energy"
	"splittally/calc/metered"
	"splittally/calc/paired"
)

func TestPaired(t *testing.T) {
	day := calendar.Day(19000) // 8 Jan 2022
	days := make([]paired.Day, 40)
	sound := paired.Result{
		Days: days, Monitor: 412 * energy.KilowattHour, Meter: 400 * energy.KilowattHour,
		Percent: paired.Estimate{Known: true, Value: 3, Standard: 0.2, Expanded: 0.4, DoF: 5},
		PerDay:  paired.Estimate{Known: true, Value: 0.3, Standard: 0.02, Expanded: 0.04, DoF: 5},
		Scatter: 0.031, Rounding: 0.03,
	}
	for _, c := range []struct {
		name   string
		change func(r *paired.Result)
		want   string
		not    string
	}{
		{"usual", func(*paired.Result) {}, "On 40 days that both measured whole, the monitor counted 412.0 kWh and the meter 400.0 kWh. By day, its error is +3.00 % ± 0.40 % of the meter’s energy, +0.300 ± 0.040 kWh a day.", "drift"},
		{"rounding", func(*paired.Result) {}, "A middling day lies 0.031 kWh from what is usual (standard deviation); the last digits explain it.", ""},
		{"one record", func(r *paired.Result) { r.Percent, r.Scatter, r.Rounding = paired.Estimate{Known: true}, 0, 0 }, "They are the same, day for day.", "By day"},
		{"drift", func(r *paired.Result) {
			r.Drift = paired.Estimate{Known: true, Value: -0.5, Standard: 0.1, Expanded: 0.2, DoF: 5}
		}, "The error drifts by −0.50 ± 0.20 percentage points in 30 days.", ""},
		{"none disagree", func(*paired.Result) {}, "No day disagrees", ""},
		{"one disagrees", func(r *paired.Result) { r.Odd = make([]paired.Odd, 1) }, "1 day disagrees", "No day"},
		{"weekends", func(r *paired.Result) {
			r.Weekdays = paired.Weekdays{Known: true, Shows: true, Weeks: 5, P: 0.002, Off: [7]float64{0.4, -0.1}}
		}, "highest on Sundays, by +0.40 kWh a day, and lowest on Mondays, by −0.10", ""},
		{"an hour off", func(r *paired.Result) { r.Lag = paired.Lag{Known: true, Count: 900, Hours: -1, Left: 0.1} }, "if they are moved an hour earlier: 10 % of the difference", ""},
		{"clocks agree", func(r *paired.Result) { r.Lag = paired.Lag{Known: true, Count: 900, Left: 1} }, "the clocks agree", ""},
		{"summer time in one", func(r *paired.Result) {
			r.Lag = paired.Lag{Known: true, Months: []paired.MonthLag{{Month: day}, {Month: day + 31}, {Month: day + 90, Hours: 1}}}
		}, "from January 2022: 0, April 2022: +1.", "February"},
		{"a day off", func(r *paired.Result) {
			r.Cut = paired.Cut{Known: true, Estimate: paired.Estimate{Known: true, Value: -1}}
		}, "those of the meter’s last day: all dates are a day off", ""},
		{"another zone", func(r *paired.Result) {
			r.Cut = paired.Cut{Known: true, Estimate: paired.Estimate{Known: true, Value: 0.31}}
		}, "begin later than the meter’s: about 31 % of a day’s energy is of the meter’s next day", ""},
	} {
		r := sound
		c.change(&r)
		said := strings.NewReplacer(Thin, " ", "\u00a0", " ").Replace(strings.Join(Paired("The monitor", r), "\n"))
		if !strings.Contains(said, c.want) || c.not != "" && strings.Contains(said, c.not) {
			t.Errorf("%s:\n%s\nwant %q, not %q", c.name, said, c.want, c.not)
		}
	}
}

// Every kind of day and of bill has words of its own.
func TestKindsHaveWords(t *testing.T) {
	var seen []string
	for _, k := range []paired.Kind{paired.Nothing, paired.Swapped, paired.Shifted, paired.Moved, paired.Doubled, paired.CatchUp, paired.LacksPart, paired.MeterPart, paired.Above} {
		words := OddDay(paired.Odd{Kind: k, With: 19000, Hours: []int{3, 9, 10, 11}})
		if words == "" || slices.Contains(seen, words) {
			t.Errorf("%s: %q", k, words)
		}
		seen = append(seen, words)
	}
	if !strings.HasSuffix(seen[6], ", from 3 to 4 and 9 to 12 o’clock") {
		t.Errorf("%q", seen[6])
	}
	for _, k := range []metered.Kind{metered.Agrees, metered.Split, metered.Estimated, metered.Net, metered.InDay, metered.DayOff, metered.Losses, metered.Multiplier, metered.Unexplained} {
		words := MeteredBill(metered.Judged{Kind: k})
		if words == "" || slices.Contains(seen, words) {
			t.Errorf("%s: %q", k, words)
		}
		seen = append(seen, words)
	}
	if got := MeteredBill(metered.Judged{Kind: metered.Waits, Missing: 2}); got != "not judged: the record lacks 2 days" {
		t.Error(got)
	}
	if size(0) != "0" || size(0.0312) != "0.031" || size(1.26) != "1.3" || size(12.6) != "13" || size(math.Pi/1000) != "0.003" {
		t.Error(size(0), size(0.0312), size(1.26), size(12.6), size(math.Pi/1000))
	}
}
