package ledger

import (
	"fmt"
	"math"
	"slices"

	"splittally/calc/calendar"
	"splittally/calc/energy"
)

// OddKind says in what way a day is implausible. Its text is a stable name.
type OddKind string

// The kinds of implausible days.
const (
	Negative      OddKind = "negative"       // below zero in a record that otherwise is not
	Zero          OddKind = "zero"           // nothing at all among days of use
	ThousandTimes OddKind = "thousand-times" // as if Wh were taken for kWh
	TenTimes      OddKind = "ten-times"      // as if a decimal point were lost
	Tenth         OddKind = "tenth"          // as if a digit were lost
	Thousandth    OddKind = "thousandth"     // as if kWh were taken for Wh
	Spike         OddKind = "spike"          // far above every day around, and no such slip
	Repeat        OddKind = "repeat"         // the same figure day after day
)

// Oddity is one day, or one run of days, that looks implausible. It is pointed
// out and nothing more: the ledger stays as it is.
type Oddity struct {
	Kind   OddKind
	Day    calendar.Day  // the first day
	Days   int           // how many in a row, 1 or more
	Energy energy.Energy // of the first day
	Usual  energy.Energy // the median of the measured days around; 0 where it plays no part
	Line   int           // the line of the text that gave the first day; 0 if none did
	Text   string        // one sentence
}

// Odd points out the implausible among the Measured days of l, in the order of
// days, each at most once. It judges by the days around, so that a home may
// change with its seasons, and it stays silent where there are too few.
func Odd(l Ledger) []Oddity {
	var all []Oddity
	add := func(o Oddity, days int) {
		e := l.Days[o.Day-l.First]
		o.Days, o.Energy, o.Line = days, e.Energy, e.Line
		o.Text = o.sentence()
		all = append(all, o)
	}
	p := newPlaces(l)
	export := p.below > len(p.at)/10
	for i := 0; i < len(p.at); i++ {
		day := l.First + calendar.Day(p.at[i])
		if n := p.same(i); n > 1 && p.entry(i).Energy > 0 && p.stuck(n) {
			add(Oddity{Kind: Repeat, Day: day}, n)
			i += n - 1
			continue
		}
		if p.entry(i).Energy < 0 {
			if !export {
				add(Oddity{Kind: Negative, Day: day}, 1)
			}
			continue
		}
		if kind, usual := p.judge(i); kind != "" {
			n := 1
			if kind == Zero {
				n = p.same(i)
			}
			add(Oddity{Kind: kind, Day: day, Usual: usual}, n)
			i += n - 1
		}
	}
	return all
}

// places are the measured days of a ledger, by their index in it.
type places struct {
	l     Ledger
	at    []int
	below int           // how many are negative
	step  energy.Energy // the usual difference from one day to the next
}

func newPlaces(l Ledger) places {
	p := places{l: l}
	var steps []energy.Energy
	for t, e := range l.Days {
		if e.State != Measured {
			continue
		}
		if e.Energy < 0 {
			p.below++
		}
		if t > 0 && l.Days[t-1].State == Measured && l.Days[t-1].Energy != e.Energy {
			steps = append(steps, (e.Energy - l.Days[t-1].Energy).Abs())
		}
		p.at = append(p.at, t)
	}
	if len(steps) > 0 {
		slices.Sort(steps)
		p.step = steps[len(steps)/2]
	}
	return p
}

func (p places) entry(i int) Entry { return p.l.Days[p.at[i]] }

// same counts the days from i on that directly follow one another with the
// same energy.
func (p places) same(i int) int {
	n := 1
	for i+n < len(p.at) && p.at[i+n] == p.at[i]+n && p.entry(i+n).Energy == p.entry(i).Energy {
		n++
	}
	return n
}

// byChance is how many runs of equal days a whole record may be expected to
// have by chance before a run says nothing.
const byChance = 0.02

// stuck says whether n equal days in a row are too many for chance. Two days
// agree by chance about as often as their rounding fits into their usual
// difference d: w/(√(2π)·1.48·d), as if days were normally distributed. Coarse
// figures repeat easily, figures to the watt-hour hardly ever.
func (p places) stuck(n int) bool {
	if p.step == 0 {
		return n >= enoughAround // never anything else
	}
	width := energy.WattHour
	for i := range p.at {
		width = max(width, 2*p.entry(i).Rounding)
	}
	chance := min(1, float64(width)/(3.7*float64(p.step)))
	return float64(len(p.at))*math.Pow(chance, float64(n-1)) < byChance
}

// How many measured days around a day are looked at, and how many there have
// to be.
const (
	around       = 20
	enoughAround = 6
)

// neighbours gives the energy in kWh of up to around measured days nearest in
// order to the i-th, in ascending order of energy.
func (p places) neighbours(i int) []float64 {
	lo := max(0, min(i-around/2, len(p.at)-1-around))
	hi := min(len(p.at), lo+around+1)
	kWh := make([]float64, 0, around)
	for j := lo; j < hi; j++ {
		if j != i {
			kWh = append(kWh, p.entry(j).Energy.KilowattHours())
		}
	}
	slices.Sort(kWh)
	return kWh
}

// far says whether high lies more than 180 % above low: a spike above the third
// highest day, or the third lowest day above one that is far too low. A rule
// for interval data has it: a reading is checked if it lies more than 180 %
// above the third highest of the period (Direct Access Standards for Metering
// and Meter Data in California, attachment VEE; from memory). Whole factors, so
// that 180 % itself is not above.
func far(high, low float64) bool { return 5*high > 14*low }

// farInSpread is how many robust standard deviations, of the logarithm, such a
// day lies away from the median besides, so that a home of wild days is left
// alone.
const farInSpread = 2

// judge compares the i-th measured day, which is not negative, with the days
// around it. kind is empty if it is plausible.
func (p places) judge(i int) (kind OddKind, usual energy.Energy) {
	near := p.neighbours(i)
	if len(near) < enoughAround || near[len(near)/2] <= 0 {
		return "", 0
	}
	median := near[len(near)/2]
	usual, _ = energy.FromKilowattHours(median)
	x := p.entry(i).Energy.KilowattHours()
	if x == 0 {
		return Zero, usual
	}
	times, spread := math.Log(x/median), logSpread(near, median)
	// A slip by ten lands about ten times where the others lie.
	about := func(slip float64) bool { return math.Abs(times-math.Log(slip)) <= max(2*spread, math.Log(1.5)) }
	switch {
	case times > math.Log(250):
		return ThousandTimes, usual
	case times < -math.Log(250):
		return Thousandth, usual
	case times > 0 && far(x, near[len(near)-2]) && times > farInSpread*spread:
		if about(10) {
			return TenTimes, usual
		}
		return Spike, usual
	case times < 0 && far(near[1], x) && times < -farInSpread*spread && about(0.1) && p.alone(i, median):
		return Tenth, usual
	}
	return "", 0
}

// logSpread gives the robust standard deviation of the logarithms of the
// positive ones of kWh around that of median, at least 0.1.
func logSpread(kWh []float64, median float64) float64 {
	apart := make([]float64, 0, len(kWh))
	for _, x := range kWh {
		if x > 0 {
			apart = append(apart, math.Abs(math.Log(x/median)))
		}
	}
	slices.Sort(apart)
	return max(0.1, 1.4826*apart[len(apart)/2])
}

// alone says whether the measured days before and after the i-th are of the
// usual size. Days away from home come in runs and are no slip.
func (p places) alone(i int, median float64) bool {
	for _, j := range [2]int{i - 1, i + 1} {
		if j >= 0 && j < len(p.at) && p.entry(j).Energy.KilowattHours() < median/3 {
			return false
		}
	}
	return true
}

// sentence tells the owner what looks wrong and what may have happened.
func (o Oddity) sentence() string {
	day, got, usual := o.Day.Long(), size(o.Energy), size(o.Usual)
	switch o.Kind {
	case Negative:
		return fmt.Sprintf("%s: %s is below zero, as no other day is; is the sign right, or was more exported than used?", day, got)
	case Zero:
		if o.Days > 1 {
			return fmt.Sprintf("%d days from %s on: 0 kWh, where days around have %s; was the monitor off? Then leave them out as missing.", o.Days, day, usual)
		}
		return fmt.Sprintf("%s: 0 kWh, where days around have %s; was the monitor off? Then leave the day out as missing.", day, usual)
	case ThousandTimes:
		return fmt.Sprintf("%s: %s is about a thousand times the %s of days around; is it in Wh?", day, got, usual)
	case Thousandth:
		return fmt.Sprintf("%s: %s is about a thousandth of the %s of days around; is it in MWh?", day, got, usual)
	case TenTimes:
		return fmt.Sprintf("%s: %s is about ten times the %s of days around; is a decimal point missing?", day, got, usual)
	case Tenth:
		return fmt.Sprintf("%s: %s is about a tenth of the %s of days around; is a digit missing?", day, got, usual)
	case Repeat:
		return fmt.Sprintf("%d days in a row from %s on have the same %s; was one figure copied, or did the display stand still?", o.Days, day, got)
	}
	return fmt.Sprintf("%s: %s is far above the %s of days around; was it so?", day, got, usual)
}

// size gives an energy for reading: to three digits or so.
func size(e energy.Energy) string {
	switch kWh := math.Abs(e.KilowattHours()); {
	case kWh >= 100:
		return e.Text(0) + " kWh"
	case kWh >= 10:
		return e.Text(1) + " kWh"
	case kWh >= 0.1:
		return e.Text(2) + " kWh"
	}
	return e.String()
}
