package say

import (
	"strings"
	"testing"

	"splittally/calc/compare"
	"splittally/calc/fit"
	"splittally/calc/pulse"
)

func TestTimed(t *testing.T) {
	for _, c := range []struct {
		shows string
		count float64
		want  string
	}{
		{"", 14, "14 flashes in 0:52.3"}, {"lamp", 1, "1 flash in 0:52.3"}, {"disc", 4.25, "4.25 turns in 0:52.3"}, {"block", 2, "2 steps in 0:52.3"},
	} {
		if got := Timed(c.shows, pulse.Found{Count: c.count, Seconds: 52.34}); got != c.want {
			t.Errorf("%s %g: %s, want %s", c.shows, c.count, got, c.want)
		}
	}
}

func TestLonger(t *testing.T) {
	for _, c := range []struct {
		l    pulse.Longer
		want string
	}{
		{pulse.Longer{Percent: 1, Seconds: 250, Possible: true}, "For ± 1 % count for 4:10 at this load, in all."},
		{pulse.Longer{Percent: 0.5, Seconds: 3600, Possible: true, Readings: 9}, "For ± 0.5 % count for 60:00 at this load and note 9 readings of the monitor, in all."},
		{pulse.Longer{Percent: 0.1}, "± 0.1 % is out of reach: what is left does not shrink with time."},
	} {
		if got := plainBlanks(Longer(c.l)); got != c.want {
			t.Errorf("%+v: %s, want %s", c.l, got, c.want)
		}
	}
}

func TestRunsAgree(t *testing.T) {
	if got := RunsAgree(compare.Test{}); got != "" {
		t.Errorf("of no test: %s", got)
	}
	test := compare.Test{Done: true, ChiSquared: 9.21, DoF: 2, P: 0.01}
	if got, want := RunsAgree(test), "not consistent"; !strings.Contains(got, want) || !strings.Contains(got, "χ² = 9.2 with 2 degrees of freedom, p = 0.010") {
		t.Error(got)
	}
	test.Passes = true
	if got := RunsAgree(test); strings.Contains(got, "not consistent") {
		t.Error(got)
	}
}

func TestLineOfLoads(t *testing.T) {
	l := fit.Line{Known: true, Offset: fit.Value{Value: 14, Expanded: 6}, Gain: fit.Value{Value: 1.005, Expanded: 0.004}}
	want := "Offset +14.0 W ± 6.0 W, the same at all loads; gain 1.0050 ± 0.0040, what the monitor shows for each watt of the meter."
	if got := plainBlanks(LineOfLoads(l)); got != want {
		t.Errorf("%s, want %s", got, want)
	}
	if got := LineOfLoads(fit.Line{Why: fit.Alike}); !strings.HasPrefix(got, "No line can be laid") {
		t.Error(got)
	}
}

func plainBlanks(s string) string { return strings.NewReplacer("\u00a0", " ", Thin, " ").Replace(s) }
