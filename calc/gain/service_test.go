package gain

import (
	"strings"
	"testing"
)

// steady makes a leg of three pairs alike.
func steady(name, pair string) Leg { return leg(name, pair, pair, pair) }

func TestService(t *testing.T) {
	a, b, c := steady("A", "121.0/120.0"), steady("B", "120.0/120.0"), steady("C", "121.0/120.0")
	x, y := steady("L1", "230.0/230.0"), steady("L2", "231.0/231.0")
	two := "notice two-of-three gain.service"
	for _, k := range []struct {
		name, typed string
		legs        []Leg
		line        string
		service     Service
		count       int
		from        string
		said        []string
	}{
		{"nothing", "", nil, "", "", 0, "", nil},
		{"typed alone", " Split ", nil, "", Split, 2, "as typed", nil},
		{"nonsense", "delta", nil, "", "", 0, "", []string{"problem gain.service"}},
		{"one leg", "", []Leg{a, {}}, "", Single, 1, "taken from the one leg that is entered", nil},
		{"two legs", "", []Leg{a, b}, "", Split, 2, "taken from two legs of about 120 V", nil},
		{"two legs without volts", "", []Leg{{Name: "A"}, {Name: "B"}}, "", Split, 2, "taken from the two legs that are entered", nil},
		{"two legs of 230 V", "", []Leg{x, y}, "", TwoOfThree, 2, "taken from two legs of about 230 V, which are usually two of three phases", nil},
		{"230 V, line says split", "", []Leg{x, y}, "461.0", Split, 2, "taken from two legs with 2.00 times a leg's volts between them", nil},
		{"208 V between", "", []Leg{a, b}, "208.7", TwoOfThree, 2, "taken from two legs with 1.73 times a leg's volts between them", []string{two}},
		{"208 V, typed split", "split", []Leg{a, b}, "208.7", TwoOfThree, 2, "taken from the volts between the lines, against what was typed", []string{two}},
		{"240 V, typed split", "split", []Leg{a, b}, "241.0", Split, 2, "as typed", nil},
		{"three legs", "", []Leg{a, b, c}, "", Three, 3, "taken from the three legs that are entered", nil},
		{"too many legs", "split", []Leg{a, b, c}, "", Three, 3, "taken from the three legs that are entered", []string{"problem gain.service"}},
		{"one of two entered", "split", []Leg{a}, "", Split, 2, "as typed", []string{"notice legs-missing gain.legs"}},
		{"four legs", "", []Leg{a, b, c, a}, "", "", 4, "no service has 4 legs", nil},
	} {
		t.Run(k.name, func(t *testing.T) {
			checks := Checks{Service: k.typed, Legs: k.legs, Voltmeter: exact}
			if k.line != "" {
				checks.Lines = []Pair{{Reference: k.line}}
			}
			r := Read(checks, Options{})
			if r.Service != k.service || r.LegCount != k.count || r.ServiceFrom != k.from {
				t.Errorf("%q, %d legs, %q; want %q, %d, %q", r.Service, r.LegCount, r.ServiceFrom, k.service, k.count, k.from)
			}
			var heard []string
			for _, s := range said(r) {
				if !strings.Contains(s, "leg-not-measured") {
					heard = append(heard, s)
				}
			}
			if got, want := strings.Join(heard, "\n"), strings.Join(k.said, "\n"); got != want {
				t.Errorf("said %q, want %q", got, want)
			}
		})
	}
}

// A leg that the service has and nobody entered keeps its part, uncorrected.
func TestLegThatIsMissing(t *testing.T) {
	r := Read(Checks{Service: "split", Legs: []Leg{steady("A", "121.2/120.0")}, Voltmeter: exact}, Options{})
	near(t, "share", r.Legs[0].Share, 0.5, 1e-12)
	near(t, "half corrected", r.Overall.Factor, 1.005, 1e-12)
	if r.Volts.Complete || !r.Volts.Given {
		t.Errorf("%+v", r.Volts)
	}
	all := Read(Checks{Legs: []Leg{steady("A", "121.2/120.0")}, Voltmeter: exact}, Options{})
	if !all.Volts.Complete {
		t.Error("a single leg is not complete")
	}
}
