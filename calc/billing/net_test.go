package billing

import (
	"strings"
	"testing"
)

// A bill of 0 kWh is asked about, and is nothing until it is said to be net.
func TestZeroIsAskedAbout(t *testing.T) {
	periods := []Period{dated(func(p *Period) { p.KWh = "0" })}
	r := Read(periods, Options{})
	s := r.Statements[0]
	if len(r.Questions) != 1 || r.Questions[0].ID != "periods.0.net" || r.Questions[0].Taken != "slip" || r.Questions[0].Answered {
		t.Fatalf("questions %+v", r.Questions)
	}
	if s.Given || s.Net || !s.Zero || !strings.Contains(s.Waits, "net of credits") || len(r.Problems) > 0 {
		t.Errorf("given %v, net %v, zero %v, waits %q, problems %v", s.Given, s.Net, s.Zero, s.Waits, r.Problems)
	}

	for answer, net := range map[string]bool{"net": true, "slip": false} {
		s := Read(periods, Options{Answers: map[string]string{"periods.0.net": answer}}).Statements[0]
		if s.Given != net || s.Net != net || s.Billed != 0 || s.Reference != 0 || s.Waits == "" {
			t.Errorf("answered %s: %+v", answer, s)
		}
	}
}

// Energy that was produced or exported says so by itself, but none of it does not.
func TestZeroBesideGeneration(t *testing.T) {
	for _, c := range []struct {
		produced, exported string
		net                bool
	}{{"120", "", true}, {"", "35.5 kWh", true}, {"0", "0", false}, {"much", "", false}} {
		r := Read([]Period{dated(func(p *Period) { p.KWh, p.Produced, p.Exported = "0 kWh", c.produced, c.exported })}, Options{})
		if s := r.Statements[0]; s.Net != c.net || s.Given != c.net || len(r.Questions) > 0 == c.net {
			t.Errorf("produced %q, exported %q: net %v, given %v, questions %v", c.produced, c.exported, s.Net, s.Given, r.Questions)
		}
	}
}

// What the register counted does not make a net bill's energy.
func TestZeroBesideReads(t *testing.T) {
	p := dated(func(p *Period) { p.KWh, p.Previous, p.Present = "0", "1000", "1412" })
	s := Read([]Period{p}, Options{Answers: map[string]string{"periods.0.net": "net"}}).Statements[0]
	if !s.Net || s.Reference != 0 || s.FromReads {
		t.Errorf("%+v", s)
	}
	if s = Read([]Period{p}, Options{}).Statements[0]; !s.Given || s.Net {
		t.Errorf("the reads alone give no energy: %+v", s)
	}
}
