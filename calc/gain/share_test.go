package gain

import (
	"math"
	"testing"
)

func TestSharesFromReadings(t *testing.T) {
	nan := math.NaN()
	for _, c := range []struct {
		name    string
		service string
		typed   []string
		shown   []float64
		want    []float64
		from    []Whence
		said    []string
	}{
		{"both shown", "", []string{"", ""}, []float64{0.7, 0.3}, []float64{0.7, 0.3}, []Whence{ShareReadings, ShareReadings}, nil},
		{"in any unit", "", []string{"", ""}, []float64{210, 90}, []float64{0.7, 0.3}, []Whence{ShareReadings, ShareReadings}, nil},
		{"one typed", "", []string{"60", ""}, []float64{0.7, 0.3}, []float64{0.6, 0.4}, []Whence{ShareTyped, ShareReadings}, nil},
		{"one typed of three", "", []string{"50", "", ""}, []float64{0.2, 0.2, 0.6}, []float64{0.5, 0.125, 0.375}, []Whence{ShareTyped, ShareReadings, ShareReadings}, nil},
		{"one of two entered", "", []string{""}, []float64{0.7, 0.3}, []float64{0.7}, []Whence{ShareReadings}, []string{"notice legs-missing gain.legs"}},
		{"more entered than shown", "", []string{"", "", ""}, []float64{0.7, 0.3}, []float64{1. / 3, 1. / 3, 1. / 3}, []Whence{ShareEqual, ShareEqual, ShareEqual}, []string{"notice shares-unused gain.legs"}},
		{"fewer legs than shown", "split", []string{"", ""}, []float64{0.5, 0.3, 0.2}, []float64{0.5, 0.5}, []Whence{ShareEqual, ShareEqual}, []string{"notice shares-unused gain.legs"}},
		{"nothing on one", "", []string{"", ""}, []float64{1, 0}, []float64{1, 0}, []Whence{ShareReadings, ShareReadings}, nil},
		{"no energy at all", "", []string{"", ""}, []float64{0, 0}, []float64{0.5, 0.5}, []Whence{ShareEqual, ShareEqual}, nil},
		{"no numbers", "", []string{"", ""}, []float64{nan, 0.4}, []float64{0.5, 0.5}, []Whence{ShareEqual, ShareEqual}, nil},
		{"below zero", "", []string{"", ""}, []float64{-0.2, 1.2}, []float64{0.5, 0.5}, []Whence{ShareEqual, ShareEqual}, nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			var legs []Leg
			for _, share := range c.typed {
				l := steady("", "121.0/120.0")
				l.Share = share
				legs = append(legs, l)
			}
			r := Read(Checks{Service: c.service, Legs: legs, Voltmeter: exact}, Options{Shares: c.shown})
			wantSaid(t, r, c.said...)
			for i, l := range r.Legs {
				near(t, l.Name, l.Share, c.want[i], 1e-12)
				if l.ShareFrom != c.from[i] {
					t.Errorf("%s: share from %q, want %q", l.Name, l.ShareFrom, c.from[i])
				}
			}
		})
	}
}

// Legs of 1.01 and 0.99 with shares that nobody knows: 40 % of one half of the
// energy may be on the other leg, 0.2 · 2 % = 0.4 %, over √3 0.2309 %. Once
// somebody says the shares that part is gone.
func TestDoubtOfEqualShares(t *testing.T) {
	a, b := steady("A", "121.2/120.0"), steady("B", "118.8/120.0")
	r := Read(Checks{Legs: []Leg{a, b}, Voltmeter: exact}, Options{})
	p := r.Overall.Budget[len(r.Overall.Budget)-1]
	near(t, "shares", p.Standard, 0.23094, 1e-5)
	if !p.Assumed || p.Remedy == "" {
		t.Errorf("%+v", p)
	}
	a.Share, b.Share = "50", "50"
	known := Read(Checks{Legs: []Leg{a, b}, Voltmeter: exact}, Options{})
	near(t, "without it", math.Hypot(known.Overall.Standard, 0.23094), r.Overall.Standard, 1e-5)
	shown := Read(Checks{Legs: []Leg{steady("A", "121.2/120.0"), steady("B", "118.8/120.0")}, Voltmeter: exact}, Options{Shares: []float64{1, 1}})
	near(t, "by the readings", shown.Overall.Standard, known.Overall.Standard, 1e-12)
}

// Each kind has its own whole; what one leg lacks is left as it is.
func TestWholes(t *testing.T) {
	a, b := steady("A", "121.2/120.0"), steady("B", "118.8/120.0")
	a.Share, b.Share = "75", "25"
	b.Steps = stepped("", "400/1850/1450", "400/1850/1450", "400/1850/1450").Steps
	r := Read(Checks{Legs: []Leg{a, b}, Voltmeter: exact, Plugmeter: exact, Drop: "0"}, Options{})
	near(t, "volts", r.Volts.Factor, 0.75*1.01+0.25*0.99, 1e-12)
	near(t, "power", r.Power.Factor, 1, 1e-12)
	near(t, "best known", r.Overall.Factor, 0.75*1.01+0.25*1, 1e-12)
	if !r.Volts.Complete || r.Power.Complete || !r.Power.Given || r.Amps.Given {
		t.Errorf("%+v %+v %+v", r.Volts.Complete, r.Power, r.Amps)
	}
}
