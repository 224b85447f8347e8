package calc_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"splittally/calc"
	"splittally/calc/cause"
	"splittally/calc/gain"
)

// entry is something typed beside the bills that is wrong, or says nothing; the
// instruments are sound.
type entry struct {
	name  string
	tempt []cause.ID // what it could tempt to assert
	put   func(*scene)
}

var entries = []entry{
	{"a circuit that the monitor sees, typed as apart", []cause.ID{cause.Circuits}, func(s *scene) {
		s.chargeCar(false) // it is seen
	}},
	{"volts by a poor voltmeter that says so", []cause.ID{cause.Legs, cause.Gain}, func(s *scene) {
		s.measureVoltsBy(s.between(-4, 4), gain.Accuracy{Percent: "4", Digits: "5"})
	}},
	{"volts by a poor voltmeter that does not say so", []cause.ID{cause.Legs, cause.Gain}, func(s *scene) {
		s.measureVoltsBy(s.aside()*s.between(1.5, 4), gain.Accuracy{Percent: "0.7", Digits: "2"})
	}},
	{"loads by a poor plug meter that does not say so", []cause.ID{cause.Legs, cause.Gain}, func(s *scene) {
		f := 1 + s.aside()*s.between(0.02, 0.05)
		s.measureVolts(1, 1)
		s.switchLoads(f, f)
	}},
	{"the meter's own days", nil, func(s *scene) { s.daily = true }},
}

// measureVoltsBy types volts of a sound monitor, by a voltmeter that reads so
// many percent high.
func (s *scene) measureVoltsBy(high float64, stated gain.Accuracy) {
	s.measureVolts(1, 1)
	s.checks.Voltmeter = stated
	for i := range s.checks.Legs {
		for j := range s.checks.Legs[i].Pairs {
			v := s.between(118, 123)
			s.checks.Legs[i].Pairs[j] = gain.Pair{
				Reference: fmt.Sprintf("%.1f", v*(1+high/100)+0.1*s.NormFloat64()), Monitor: fmt.Sprintf("%.1f", v),
			}
		}
	}
}

// What somebody typed by mistake, or measured badly, accuses no sound monitor.
func TestWrongEntriesAccuseNobody(t *testing.T) {
	var b strings.Builder
	fmt.Fprintf(&b, "%-50s %5s %8s %8s %8s\n", "entry", "cases", "asserted", "tempted", "tempting is first")
	for k, e := range entries {
		all := inParallel(max(60, ofEach()), func(i int) outcome {
			s := draw(madeUp, 20_000_000+1_000_000*uint64(k)+uint64(i)+*causesSeed, 1)
			e.put(s)
			s.variant = e.name
			return s.sound(s.write())
		})
		tempted := func(o outcome) bool { return slices.Contains(e.tempt, o.asserted()) }
		fmt.Fprintf(&b, "%-50s %5d %7.1f%% %7.1f%% %7.1f%%\n", e.name, len(all), rate(all, outcome.wrong), rate(all, tempted),
			rate(all, func(o outcome) bool {
				return len(o.weighed.Causes) > 0 && slices.Contains(e.tempt, o.weighed.Causes[0].ID)
			}))
		for _, o := range first(only(all, outcome.wrong), *causesMissed) {
			t.Log(o.String())
		}
		atMost(t, e.name+": a fault asserted", all, outcome.wrong, 3)
	}
	t.Log("\n" + b.String())
}

// sound works a scene of sound instruments.
func (s *scene) sound(c calc.Case) outcome {
	o := outcome{injection: injection{id: cause.Chance}, seed: s.seed, variant: s.variant, bills: len(s.bills), hourToo: s.hourToo}
	if s.beside != nil {
		o.beside = s.beside.trouble
	}
	if f := calc.Work(c); len(f.Instruments) > 0 {
		o.weighed, o.verdicts = f.Instruments[0].Causes, verdicts(f.Instruments[0])
	}
	return o
}
