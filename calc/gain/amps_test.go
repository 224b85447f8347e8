package gain

import (
	"math"
	"strings"
	"testing"
)

// current makes a leg of current pairs written as "clamp meter/monitor".
func current(name string, pairs ...string) Leg {
	l := leg(name, pairs...)
	l.Pairs, l.Amps = nil, l.Pairs
	return l
}

// Worked by hand: Σ reference 45.2 A over Σ monitor 44.3 A is 1.020316. The
// differences from it are 0.10384, −0.00316 and −0.10068 A, s = 0.10229 A, over
// √3 and 14.767 A 0.4000 %. The clamp meter: 2 % of 15.067 A and 5 counts of
// 0.1 A are 0.8013 A, over √3 3.1331 %. The roundings 0.1995 and 0.1955 %.
func TestAmpsByHand(t *testing.T) {
	r := Read(Checks{Legs: []Leg{current("A", "20.0/19.5", "10.2/10.0", "15.0/14.8")}, Clampmeter: Accuracy{"2", "5"}}, Options{})
	wantSaid(t, r)
	f := r.Legs[0].Amps
	near(t, "factor", f.Factor, 1.020316, 1e-6)
	for i, want := range []float64{3.1331, 0.4000, 0.1995, 0.1955} {
		near(t, f.Budget[i].Name, math.Abs(f.Budget[i].Standard), want, 6e-5)
	}
	near(t, "standard", f.Standard, 3.1708, 5e-5)
	if l := r.Legs[0]; l.Basis != ByAmps || l.Factor != f.Factor || r.Volts.Given || !r.Amps.Complete {
		t.Errorf("basis %s, %+v", l.Basis, r.Amps)
	}
}

func TestAmpsThatCantBeUsed(t *testing.T) {
	at := "gain.legs.0.amps.1."
	one := "notice one-current-pair gain.legs.0.amps"
	for _, c := range []struct {
		pair, waits string
		said        []string
	}{
		{"0.05/0.1", "", []string{"problem " + at + "reference", one}},
		{"12/1001", "", []string{"problem " + at + "monitor", one}},
		{"-3/3", "", []string{"problem " + at + "reference", one}},
		{"12.1/", "the monitor's amperes of current pair 2 are missing", []string{one}},
		{"/12.1", "the clamp meter's amperes of current pair 2 are missing", []string{one}},
		{"0.1 A/1000 amps", "", []string{"notice gain-implausible gain.legs.0.amps"}},
	} {
		r := Read(Checks{Legs: []Leg{current("A", "12.1/12.0", c.pair)}, Clampmeter: exact}, Options{})
		wantSaid(t, r, c.said...)
		if r.Legs[0].Waits != c.waits {
			t.Errorf("%s waits %q, want %q", c.pair, r.Legs[0].Waits, c.waits)
		}
	}
}

func TestClampMeterAssumed(t *testing.T) {
	l := current("A", "12.1/12.0", "12.2/12.1", "12.3/12.1")
	wantSaid(t, Read(Checks{Legs: []Leg{l}}, Options{}), "notice clampmeter-assumed gain.clampmeter.percent")
	wantSaid(t, Read(Checks{Legs: []Leg{l}, Clampmeter: Accuracy{Percent: "x"}}, Options{}),
		"notice clampmeter-assumed gain.clampmeter.percent", "problem gain.clampmeter.percent")
}

// A clamp meter that shows 41.2 and 5.23 A has two ranges, and its 5 counts are
// worth 0.5 A on one and 0.05 A on the other; zeros that were left off are not
// another range.
func TestCountsOfEachRange(t *testing.T) {
	r := Read(Checks{Legs: []Leg{current("A", "41.2/41.0", "5.23/5.2", "40/40.1")}, Clampmeter: Accuracy{"0", "5"}}, Options{})
	f := r.Legs[0].Amps
	near(t, "half-width", f.Budget[0].HalfWidth, 5*(0.1+0.01+0.1)/3, 1e-12)
	near(t, "resolution", f.Resolution, 0.1, 1e-12)
}

// Volts and amperes multiplied: 1.01 · 1.02, each weighed by the other's gain.
func TestVoltsTimesAmps(t *testing.T) {
	l := leg("A", "121.2/120.0", "121.2/120.0", "121.2/120.0")
	l.Amps = current("", "20.4/20.0", "20.4/20.0", "20.4/20.0").Amps
	r := Read(Checks{Legs: []Leg{l}, Voltmeter: Accuracy{"1", "0"}, Clampmeter: Accuracy{"2", "0"}}, Options{})
	wantSaid(t, r)
	got := r.Legs[0]
	near(t, "factor", got.Factor, 1.0302, 1e-12)
	near(t, "standard", got.Standard, math.Hypot(1.02*got.Volts.Standard, 1.01*got.Amps.Standard), 1e-12)
	if got.Basis != ByVoltsAndAmp || r.Overall.Factor != got.Factor {
		t.Errorf("basis %s, overall %v", got.Basis, r.Overall.Factor)
	}
	near(t, "volts alone", r.Volts.Factor, 1.01, 1e-12)
	near(t, "amps alone", r.Amps.Factor, 1.02, 1e-12)
	if w := r.Effect(-3).Words; !strings.HasPrefix(w, "Correcting the gains would make the agreement better: −3.00 % would become −0.07 %.") {
		t.Error(w)
	}
}
