package calc_test

import (
	"fmt"
	"math/rand/v2"
	"strconv"
	"strings"

	"splittally/calc"
	"splittally/calc/billing"
	"splittally/calc/calendar"
	"splittally/calc/gain"
)

// mostBills is how many bills a scene has at most, if no cause needs more.
const mostBills = 8

// margin is how many days of readings lie before the first bill and after the
// last one.
const margin = 4

// scene is a home, its two instruments and its bills. Between draw and write a
// cause may be put into it; the same seed draws the same scene.
type scene struct {
	*rand.Rand
	seed    uint64
	home    string
	variant string // what was injected, in words
	first   calendar.Day
	use     []float64 // true use by the hour
	metered []float64 // what passes the meter, before its own gain
	seen    []float64 // what the monitor makes of it, before its own gain
	missing map[int]bool

	monitorGain     []float64 // of each day, within what is promised
	meterGain       float64   // within what is promised
	accuracy, class float64   // what is promised, percent
	places          int       // of the pasted days
	heading         string

	cuts    []int     // day on which each bill begins, as dated; one more for the last end
	reads   []float64 // hours since the first day's midnight of the true reads
	guesses []float64 // kWh by which each read was estimated too high
	credits []float64 // kWh that each bill takes off; nil for none
	hourToo bool      // the reads are at another hour, which nobody said
	both    bool      // both dates of a bill belong
	form    billForm
	loss    float64 // factor in the printed energy
	step    float64 // multiplier of the register, 1 or more
	bills   []billing.Period
	checks  gain.Checks

	// What is beside the monitor draws from numbers of its own, so that a seed
	// gives the same home and bills with it and without.
	side      *rand.Rand
	beside    *beside      // a second monitor, nil if there is none
	legs      [2][]float64 // what the monitor makes of each leg by the hour, if a cause says so
	inColumns bool         // the readings have a column for each leg
	daily     bool         // the utility shows the meter's own days
}

type billForm int

const (
	wholeKWh billForm = iota
	tenthsOfKWh
	registerReads
)

// between draws from low to high.
func (s *scene) between(low, high float64) float64 { return low + (high-low)*s.Float64() }

// either is true with this probability.
func (s *scene) either(p float64) bool { return s.Float64() < p }

// draw makes a scene in which both instruments keep what they promise and
// everything typed is true. atLeast is how many bills it must have.
func draw(homes []household, seed uint64, atLeast int) *scene {
	return drawOf(homes, seed, atLeast, mostBills)
}

// drawOf makes such a scene of 1 to most bills, and at least so many.
func drawOf(homes []household, seed uint64, atLeast, most int) *scene {
	s := &scene{Rand: rand.New(rand.NewPCG(seed, 11)), seed: seed, missing: map[int]bool{}, loss: 1, step: 1}
	s.drawBills(atLeast, most)
	h := homes[s.IntN(len(homes))]
	s.home = h.name
	days := s.cuts[len(s.cuts)-1] + margin
	from := 24 * s.IntN(h.days()-days)
	s.use = h.hours[from : from+24*days]
	s.metered = append([]float64(nil), s.use...)
	s.seen = append([]float64(nil), s.use...)
	s.accuracy, s.class = float64(1+s.IntN(2)), []float64{0.5, 1}[s.IntN(2)]
	s.drawGain(days)
	s.meterGain = 1 + s.between(-1, 1)*s.class/100
	s.places = 1 + s.IntN(2)
	s.heading = []string{"Day\tkWh", "Date\tEnergy (kWh)", "day,kWh"}[s.IntN(3)]
	if s.either(0.5) {
		s.outage(1 + s.IntN(6))
	}
	s.besides()
	s.drawSide(days)
	return s
}

// drawGain draws the monitor's gain. In half of the scenes it moves from month
// to month, as temperature, load and power factor do, and stays in its promise.
func (s *scene) drawGain(days int) {
	usual, moves, now := s.between(-1, 1), 0.0, 0.0
	if s.either(0.5) {
		moves = s.between(0, 0.2)
	}
	for d := range days {
		if d%30 == 0 {
			now = min(1, max(-1, usual+moves*s.NormFloat64()))
		}
		s.monitorGain = append(s.monitorGain, 1+now*s.accuracy/100)
	}
}

// drawBills lays the bills and types their dates.
func (s *scene) drawBills(atLeast, most int) {
	n := max(atLeast, 1+s.IntN(most))
	s.first = 16000 + calendar.Day(s.IntN(3000))
	s.cuts = []int{margin}
	for range n {
		s.cuts = append(s.cuts, s.cuts[len(s.cuts)-1]+28+s.IntN(6))
	}
	s.form = billForm(s.IntN(3))
	s.guesses = make([]float64, n+1)
	s.bills = make([]billing.Period, n)
	printed := s.either(0.5)
	s.both = s.either(0.4)
	for p := range s.bills {
		b := &s.bills[p]
		from, to := s.cuts[p], s.cuts[p+1]
		b.From, b.To = s.date(from), s.date(to)
		if s.both {
			b.To = s.date(to - 1)
		}
		switch {
		case printed:
			b.Days = strconv.Itoa(to - from)
		case n == 1 && s.both: // nothing else would tell
			b.Convention = string(billing.BothBelong)
		case n == 1:
			b.Convention = string(billing.LastExcluded)
		}
	}
	s.drawHour()
}

// drawHour says when the meter is read: at midnight or another hour, and known
// or not. Another hour that is not known is a cause of its own; few scenes have
// it beside theirs.
func (s *scene) drawHour() {
	at, said := 0.0, "0"
	switch {
	case s.either(0.2):
		at = float64(8 + s.IntN(9))
		said = strconv.Itoa(int(at))
	case s.either(0.4):
		said = ""
		if s.either(0.2) {
			at = float64(1 + s.IntN(23))
			s.hourToo = true
		}
	}
	if s.both && at > 0 { // the last date belongs, and the read was on it
		at -= 24
	}
	for _, c := range s.cuts {
		s.reads = append(s.reads, float64(24*c)+at)
	}
	s.say(said)
}

// say types the hour of the reads.
func (s *scene) say(hour string) {
	for p := range s.bills {
		s.bills[p].ReadHour = hour
	}
}

func (s *scene) date(d int) string { return (s.first + calendar.Day(d)).String() }

// outage takes n days in a row from the readings, inside the bills.
func (s *scene) outage(n int) (from int) {
	from = margin + 1 + s.IntN(s.cuts[len(s.cuts)-1]-margin-n-2)
	for d := range n {
		s.missing[from+d] = true
	}
	return from
}

// besides fills in fields that are true but have nothing to do with any error:
// volts that agree, losses that the bill leaves out, solar panels.
func (s *scene) besides() {
	if s.either(0.25) {
		s.measureVolts(1+s.between(-0.3, 0.3)*s.accuracy/100, 1+s.between(-0.3, 0.3)*s.accuracy/100)
	}
	if s.either(0.15) {
		factor := fmt.Sprintf("%.2f %%", s.between(2, 8))
		for p := range s.bills {
			s.bills[p].LossFactor, s.bills[p].LossIncluded = factor, "no"
		}
	}
	if s.either(0.4) {
		s.checks.Service = "split"
	}
	if s.either(0.1) {
		s.panels(s.between(0.1, 0.8))
	}
}

// measureVolts types pairs of volts of two legs whose volts the monitor shows
// by these factors of the truth.
func (s *scene) measureVolts(shown ...float64) {
	s.checks.Service = "split"
	s.checks.Voltmeter = gain.Accuracy{Percent: "0.7", Digits: "2"}
	s.checks.Legs = nil
	honest := s.between(-1, 1)
	for i, f := range shown {
		leg := gain.Leg{Name: fmt.Sprintf("L%d", i+1)}
		for range 3 + s.IntN(4) {
			v := s.between(118, 123)
			meter := v + honest*(0.007*v+0.2) + 0.1*s.NormFloat64()
			leg.Pairs = append(leg.Pairs, gain.Pair{Reference: fmt.Sprintf("%.1f", meter), Monitor: fmt.Sprintf("%.1f", v*f)})
		}
		s.checks.Legs = append(s.checks.Legs, leg)
	}
}

// energy is the true energy that passed the meter between two reads, with the
// hours that are cut taken as evenly used.
func (s *scene) energy(from, to float64) float64 { return sum(s.metered, from, to) }

// write makes the case of the texts alone.
func (s *scene) write() calc.Case {
	c := calc.Case{Title: s.home, Checks: s.checks, Periods: append([]billing.Period(nil), s.bills...)}
	c.Monitors = []calc.Monitor{{Accuracy: fmt.Sprint(s.accuracy), Readings: s.readings()}}
	if s.beside != nil {
		c.Monitors = append(c.Monitors, s.writeBeside())
	}
	c.Meter.Class = fmt.Sprint(s.class)
	if s.daily {
		c.Meter.Readings = s.meterDays()
	}
	register := 1000 + float64(s.cuts[1]*37%5000) + s.guesses[0]
	for p := range c.Periods {
		b := &c.Periods[p]
		kWh := s.meterGain * s.energy(s.reads[p], s.reads[p+1])
		next := register + kWh + s.guesses[p+1] - s.guesses[p]
		switch s.form {
		case registerReads:
			b.Previous, b.Present = strconv.Itoa(int(register/s.step)), strconv.Itoa(int(next/s.step))
		default:
			billed := (next - register) * s.loss
			if s.credits != nil {
				billed -= s.credits[p]
			}
			b.KWh = strconv.FormatFloat(billed, 'f', int(s.form), 64)
		}
		register = next
	}
	return c
}

// readings writes the monitor's days; a missing one has no line.
func (s *scene) readings() string {
	if s.inColumns && s.legs[0] != nil {
		return s.days("Date\tLeg A\tLeg B", s.places, s.missing, s.monitorGain, s.legs[:]...)
	}
	return s.days(s.heading, s.places, s.missing, s.monitorGain, s.seen)
}

// days writes a line for each day, with a column for each series of hours.
func (s *scene) days(heading string, places int, missing map[int]bool, gain []float64, columns ...[]float64) string {
	var b strings.Builder
	b.WriteString(heading + "\n")
	mark := "\t"
	if strings.Contains(heading, ",") {
		mark = ","
	}
	for d := range len(columns[0]) / 24 {
		if missing[d] {
			continue
		}
		b.WriteString(s.date(d))
		for _, hours := range columns {
			sum := 0.0
			for _, x := range hours[24*d : 24*d+24] {
				sum += x
			}
			fmt.Fprintf(&b, "%s%.*f", mark, places, gain[d]*sum)
		}
		b.WriteString("\n")
	}
	return b.String()
}
