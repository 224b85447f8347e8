package calc_test

import (
	"fmt"
	"math"
	"strconv"

	"splittally/calc/cause"
	"splittally/calc/gain"
)

// injection puts one cause into a scene. It is called for the scene as it is
// and, with on false, for the same scene without the cause: what is typed beside
// it and the random numbers drawn are the same.
type injection struct {
	id      cause.ID
	atLeast int // bills that it needs
	// lasting says that all bills suffer alike, so that its effect is that on
	// the pooled error; the others move energy between bills or hit single ones.
	lasting bool
	put     func(s *scene, on bool)
}

var injections = []injection{
	{cause.Chance, 1, true, (*scene).nothing},
	{cause.Hour, 1, false, (*scene).wrongHour},
	{cause.Fill, 1, false, (*scene).unlikeDays},
	{cause.Dates, 1, false, (*scene).wrongDates},
	{cause.Estimated, 2, false, (*scene).estimate},
	{cause.Losses, 1, true, (*scene).adjustForLosses},
	{cause.Gain, 1, true, (*scene).wrongGain},
	{cause.Legs, 1, true, (*scene).wrongLegs},
	{cause.Offset, 1, true, (*scene).addPower},
	{cause.Circuits, 1, true, (*scene).chargeCar},
	{cause.Clamp, 1, true, (*scene).wrongClamp},
	{cause.Unit, 1, true, (*scene).wrongUnit},
	{cause.PartDays, 1, false, (*scene).loseHours},
	{cause.Doubled, 1, false, (*scene).countTwice},
	{cause.Solar, 1, true, (*scene).wrongSun},
	{cause.Split, 1, false, (*scene).splitBill},
	{cause.Net, 1, false, (*scene).takeCredits},
}

// aside draws a sign.
func (s *scene) aside() float64 { return float64(2*s.IntN(2) - 1) }

// sized draws a size from low to high, each octave alike, so that there are
// effects from below the uncertainty to far above it.
func (s *scene) sized(low, high float64) float64 { return low * math.Pow(high/low, s.Float64()) }

// within draws a day inside the bills, so far from their last one.
func (s *scene) within(from int) int {
	return margin + 1 + s.IntN(s.cuts[len(s.cuts)-1]-margin-1-from)
}

// wrongHour reads the meter by day while the person says midnight or nothing.
func (s *scene) wrongHour(on bool) {
	said := []string{"", "0"}[s.IntN(2)]
	same, at := s.either(0.5), float64(8+s.IntN(13))
	s.variant = "all reads at one hour, said: " + strconv.Quote(said)
	if !same {
		s.variant = "each read at its own hour, said: " + strconv.Quote(said)
	}
	s.say(said)
	for i, c := range s.cuts {
		hour := at + s.between(-0.5, 0.5)
		if !same {
			hour = s.between(8, 9.5) + 10.5*float64(s.IntN(2)) // by day, early or late
		}
		if s.both {
			hour -= 24
		}
		s.reads[i] = float64(24 * c)
		if on {
			s.reads[i] += hour
		}
	}
}

// unlikeDays has the home empty or full while the monitor is out.
func (s *scene) unlikeDays(on bool) {
	for range 1 + s.IntN(2) {
		n, factor := 2+s.IntN(8), s.between(0.15, 0.9)
		s.variant = "nobody at home on missing days"
		if s.either(0.4) {
			s.variant, factor = "guests on missing days", s.between(1.1, 2.5)
		}
		from := s.outage(n)
		for h := 24 * from; on && h < 24*(from+n); h++ {
			s.metered[h] *= factor
		}
	}
}

// wrongDates has a read, or all of them, a day from where the dates put it.
func (s *scene) wrongDates(on bool) {
	by, at, way := 24*s.aside(), s.IntN(len(s.reads)), s.IntN(10)
	for i := range s.reads {
		if on && (i == at || way < 3) {
			s.reads[i] += by
		}
	}
	switch {
	case way < 3:
		s.variant = "all ends a day off"
	case at == 0 || at == len(s.reads)-1:
		s.variant = "an outer end a day off"
	default:
		s.variant = "an inner end a day off"
	}
}

// estimate has an inner read guessed wrong.
func (s *scene) estimate(on bool) {
	at := 1 + s.IntN(len(s.cuts)-2)
	month := s.energy(s.reads[at-1], s.reads[at])
	guess := s.aside() * s.sized(0.01, 0.2) * month
	s.variant = "estimated, not marked"
	if s.either(0.5) {
		s.variant = "estimated, marked"
		s.bills[at-1].Estimated = "yes"
	}
	if on {
		s.guesses[at] = guess
	}
}

// adjustForLosses prints energy with the losses of the lines outside.
func (s *scene) adjustForLosses(on bool) {
	percent := s.between(1, 8)
	factor, included := fmt.Sprintf("%.2f %%", percent), ""
	switch s.IntN(3) {
	case 0:
		s.variant = "losses, factor typed"
	case 1:
		s.variant, included = "losses, factor typed, said not to be in", "no"
	case 2:
		s.variant, factor = "losses, nothing typed", ""
	}
	for p := range s.bills {
		s.bills[p].LossFactor, s.bills[p].LossIncluded = factor, included
	}
	if s.form == registerReads {
		s.form = wholeKWh
	}
	if on {
		s.loss = 1 + percent/100
	}
}

func (s *scene) wrongGain(on bool) {
	by := 1 + s.aside()*s.sized(0.01, 0.12)
	s.variant = "gain"
	s.scale(on, by)
}

func (s *scene) scale(on bool, by float64) {
	for h := range s.seen {
		if on {
			s.seen[h] *= by
		}
	}
}

// shares draws the part of the first of two legs in each day's energy: 35 to
// 65 % in a month, and changing from day to day.
func (s *scene) shares() []float64 {
	var out []float64
	usual, month := s.between(0.4, 0.6), 0.0
	for d := range len(s.seen) / 24 {
		if d%30 == 0 {
			month = min(0.65, max(0.35, usual+0.05*s.NormFloat64()))
		}
		out = append(out, min(0.8, max(0.2, month+0.05*s.NormFloat64())))
	}
	return out
}

// nothing is wrong; some monitors give a column for each leg.
func (s *scene) nothing(bool) { s.weigh(false, s.shares(), 1, 1) }

// weigh makes the monitor see the legs by these factors.
func (s *scene) weigh(on bool, shares []float64, one, other float64) {
	if !on {
		one, other = 1, 1
	}
	s.legs = [2][]float64{make([]float64, len(s.seen)), make([]float64, len(s.seen))}
	for h, use := range s.seen {
		s.legs[0][h], s.legs[1][h] = one*shares[h/24]*use, other*(1-shares[h/24])*use
		if on {
			s.seen[h] = s.legs[0][h] + s.legs[1][h]
		}
	}
	if s.inColumns {
		s.variant += ", in columns"
	}
}

// wrongLegs has one or both legs shown by a wrong factor, which was measured:
// by volts, or by a known load switched on.
func (s *scene) wrongLegs(on bool) {
	one, other := 1+s.aside()*s.sized(0.01, 0.1), 1.0
	s.variant = "one leg"
	if s.either(0.5) {
		s.variant, other = "both legs", 1+s.aside()*s.sized(0.01, 0.1)
	}
	shares := s.shares()
	s.weigh(on, shares, one, other)
	if !on {
		one, other = 1, 1
	}
	if s.either(0.7) {
		s.variant += ", by volts"
		s.measureVolts(one, other)
	} else {
		s.variant += ", by power steps"
		s.measureVolts(1, 1)
		s.switchLoads(one, other)
	}
	if mean := 100 * average(shares); s.either(0.5) {
		s.variant += ", shares typed"
		s.checks.Legs[0].Share = fmt.Sprintf("%.0f", mean)
		s.checks.Legs[1].Share = fmt.Sprintf("%.0f", 100-math.RoundToEven(mean))
	}
}

func average(x []float64) float64 {
	sum := 0.0
	for _, v := range x {
		sum += v
	}
	return sum / float64(len(x))
}

// switchLoads types steps of a load whose watts the monitor shows by these
// factors.
func (s *scene) switchLoads(shown ...float64) {
	s.checks.Plugmeter = gain.Accuracy{Percent: "1", Digits: "1"}
	honest := s.between(-0.01, 0.01)
	for i, f := range shown {
		for range 3 + s.IntN(3) {
			load, base := s.between(1300, 1500), s.between(150, 400)
			s.checks.Legs[i].Steps = append(s.checks.Legs[i].Steps, gain.Step{
				Before: fmt.Sprintf("%.0f", base*f), After: fmt.Sprintf("%.0f", (base+load+3*s.NormFloat64())*f),
				Load: fmt.Sprintf("%.0f", load*(1+honest)),
			})
		}
	}
}
