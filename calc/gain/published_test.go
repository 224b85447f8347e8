package gain

import (
	"strings"
	"testing"
)

// Values that other people have printed, and identities that follow from a
// definition. The source stands with each; figures were read in copies of the
// sources and typed by hand unless "from memory" is said.

// A monitor that reads 2.5 % high needs the factor 1/1.025 (follows from the
// definition of percentage error; from memory). A transformer or a voltage that
// reads 0.5 % low shows 19.9 for 20 (definition of ratio error; from memory).
func TestPublishedFactors(t *testing.T) {
	for _, c := range []struct {
		pair   string
		factor float64
	}{{"120/123", 0.97560976}, {"200/199", 200. / 199}} {
		r := Read(Checks{Legs: []Leg{leg("A", c.pair, c.pair)}, Voltmeter: exact}, Options{})
		near(t, c.pair, r.Overall.Factor, c.factor, 1e-8)
	}
	r := Read(Checks{Legs: []Leg{leg("A", "120/123", "120/123")}, Voltmeter: exact}, Options{})
	near(t, "2.5 % high, corrected", r.Effect(2.5).After, 0, 1e-9)
}

// T. Kuphaldt, Lessons in Electric Circuits, volume II, single-phase power
// systems: the powers of the two legs of a 120/240 V service add, also where
// the legs are not alike. The rule is printed; 60 A at 121 V and 35 A at 119 V,
// 11425 W, are ours. A monitor that takes both legs for 120 V sees 7200 W and
// 4200 W, and its correction must lead from 11400 to 11425 W.
func TestPublishedLegsAdd(t *testing.T) {
	a, b := leg("A", "121/120", "121/120"), leg("B", "119/120", "119/120")
	a.Share, b.Share = "63.15789474", "36.84210526"
	r := Read(Checks{Legs: []Leg{a, b}, Voltmeter: exact}, Options{})
	near(t, "corrected watts", 11400*r.Overall.Factor, 11425, 1e-6)
}

// JCGM 100:2008 4.4.3, table 1 (from memory): 20 temperatures with a mean of
// 100.14 °C, s = 1.49 °C and a standard uncertainty of the mean of 0.33 °C.
// Against a steady 100 they are gains in percent.
func TestPublishedSpread(t *testing.T) {
	var pairs []string
	for _, v := range strings.Fields(`96.90 98.18 98.25 98.61 99.03 99.49 99.56 99.74 99.89 100.07
		100.33 100.42 100.68 100.95 101.11 101.20 101.57 101.84 102.36 102.72`) {
		pairs = append(pairs, v+"/100.00")
	}
	r := Read(Checks{Legs: []Leg{leg("A", pairs...)}, Voltmeter: exact}, Options{})
	spread := r.Legs[0].Budget[1]
	near(t, "mean", r.Legs[0].Factor*100, 100.14, 0.006) // 100.145
	near(t, "standard uncertainty", spread.Standard, 0.33, 0.005)
	near(t, "degrees of freedom", spread.DoF, 19, 0)
}

// Service volts. COMAR 20.50.07.02 A (Maryland): 114 to 126 V at 120 V. IEC
// 60038, as in a German grid service's answers on it: 230 V ±10 % is 207 to
// 253 V. The ends belong.
func TestPublishedServiceBands(t *testing.T) {
	outside := "notice volts-outside-band gain.legs.0.pairs"
	for _, c := range []struct {
		volts string
		said  []string
	}{
		{"113.9", []string{outside}},
		{"114.0", nil},
		{"126.0", nil},
		{"126.1", []string{outside}},
		{"206.9", []string{outside}},
		{"207.0", nil},
		{"228.0", nil}, // 120/240 V between lines: 228 to 252 V, COMAR 20.50.07.02 A
		{"252.0", nil},
		{"253.0", nil},
		{"253.1", []string{outside}},
	} {
		pair := c.volts + "/" + c.volts
		wantSaid(t, Read(Checks{Legs: []Leg{leg("A", pair, pair)}, Voltmeter: exact}, Options{}), c.said...)
	}
	// Other published bands at 120 V: Canada 110 to 125 V (Hydro-Québec page on
	// CSA CAN3-C235-83), Illinois 113 to 127 V (83 Ill. Adm. Code 410.300(b) as
	// quoted in a trade forum). The middle belongs to every one of them.
	for _, volts := range []string{"114.0", "120.0", "125.0"} {
		pair := volts + "/" + volts
		wantSaid(t, Read(Checks{Legs: []Leg{leg("A", pair, pair)}, Voltmeter: exact}, Options{}))
	}
}
