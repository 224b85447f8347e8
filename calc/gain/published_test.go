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
	if r.Lines = Read(Checks{Legs: []Leg{a, b}, Lines: []Pair{{"240.0", ""}}, Voltmeter: exact}, Options{}).Lines; r.Lines[0].Reference.FromLegs != 240 {
		t.Errorf("121 V and 119 V give %v V between the lines", r.Lines[0].Reference.FromLegs)
	}
}

// The same chapter prints two loads of 10 kW, each 83.33 A at 120 V (cut, not
// rounded), 240 V from line to line, and 166.66 A where they are in parallel.
// A clamp that holds one of two parallel loads needs the factor 2; the amperes
// and volts of a leg multiplied are its 10 kW.
func TestPublishedSplitPhase(t *testing.T) {
	a, b := steady("A", "120.0/120.0"), steady("B", "120.0/120.0")
	a.Amps = current("", "166.66/83.33", "166.66/83.33", "166.66/83.33").Amps
	r := Read(Checks{Legs: []Leg{a, b}, Lines: []Pair{{"240.0", "240.0"}}, Voltmeter: exact, Clampmeter: exact}, Options{})
	near(t, "one of two", r.Legs[0].Factor, 2, 1e-9)
	near(t, "10 kW, cut", r.Legs[0].Amps.Monitor*r.Legs[0].Volts.Reference, 10000, 0.01*120)
	for _, side := range []Agreement{r.Lines[0].Reference, r.Lines[0].Monitor} {
		if side.FromLegs != 240 || !side.Agrees {
			t.Errorf("%+v", side)
		}
	}
	if r.Service != Split {
		t.Errorf("service %s", r.Service)
	}
}

// Definition of ratio error, (k·Is − Ip)/Ip · 100 (IEC 61869-2:2012 5.6.201.2,
// as reproduced on a web page): a clamp that is 0.5 % low shows 19.9 A of 20 A,
// and energy is 0.5 % low (algebra, from memory).
func TestPublishedRatioError(t *testing.T) {
	r := Read(Checks{Legs: []Leg{current("A", "20.0/19.9", "20.0/19.9", "20.0/19.9")}, Clampmeter: exact}, Options{})
	near(t, "the energy put right", r.Effect(-0.5).After, 0, 1e-9)
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

// IEC 61869-2, tables 201 and 202, in a transcription on a transformer maker's
// page: ratio error in percent and phase displacement in minutes of arc, at
// percentages of the rated current. Classes 3 and 5 are from memory.
func TestPublishedClasses(t *testing.T) {
	want := map[string]map[float64][2]float64{
		"1":    {5: {3, 180}, 20: {1.5, 90}, 100: {1, 60}, 120: {1, 60}},
		"0.5S": {1: {1.5, 90}, 5: {0.75, 45}, 20: {0.5, 30}, 100: {0.5, 30}, 120: {0.5, 30}},
		"0.2":  {5: {0.75, 30}, 20: {0.35, 15}, 100: {0.2, 10}, 120: {0.2, 10}},
		"3":    {50: {3, 0}},
		"5":    {50: {5, 0}},
	}
	// The classes that 5.6.201.2 of the standard has.
	named := " 0.1 0.2 0.2S 0.5 0.5S 1 3 5 "
	for _, l := range Limits(0.9) {
		if got := [2]float64{l.Ratio, l.Minutes}; got != want[l.Class][l.Load] {
			t.Errorf("class %s at %v %%: %v, want %v", l.Class, l.Load, got, want[l.Class][l.Load])
		}
		if !strings.Contains(named, " "+l.Class+" ") || l.Free != (l.Class == "3" || l.Class == "5") {
			t.Errorf("%+v", l)
		}
		delete(want[l.Class], l.Load)
	}
	for class, left := range want {
		if len(left) > 0 {
			t.Errorf("class %s lacks %v", class, left)
		}
	}
}

// cos(φ ∓ δ)/cos φ − 1, worked to four decimals (trigonometry): a displacement
// of 60 minutes, current leading and lagging, at lagging power factors.
func TestPublishedPhaseError(t *testing.T) {
	for _, c := range []struct{ powerFactor, leads, lags float64 }{
		{0.5, 3.0076, -3.0381},
		{0.8, 1.2937, -1.3242},
		{1, -0.0152, -0.0152},
	} {
		near(t, "leads", PhaseError(c.powerFactor, 60), c.leads, 5e-5)
		near(t, "lags", PhaseError(c.powerFactor, -60), c.lags, 5e-5)
	}
	// The limit is the larger of the two, and a class's 60 minutes are these.
	near(t, "class 1 at the rated current", limitOf(Limits(0.5), "1", 100).Phase, 3.0381, 5e-5)
}
