package fill

import "splittally/calc/ledger"

// Method names a way to estimate missing days.
type Method string

// The methods. Choose is the zero value.
const (
	Choose   Method = ""          // try every method on measured days, take the best
	Line     Method = "line"      // a straight line between the measured neighbours of each run
	LikeDays Method = "like-days" // the mean of the same weekday in the nearest weeks
	Mean     Method = "mean"      // the mean of the period's measured days
	Near     Method = "near-days" // the mean of all measured days around, nearer days counting more
	Ratio    Method = "ratio"     // another instrument's figure for the day, times the ratio of the two
)

// Methods lists the methods in the order in which they are tried. Among equals
// the earlier one is taken.
func Methods() []Method { return []Method{Near, Line, LikeDays, Mean, Ratio} }

// Words says in one sentence what the method does, for the owner.
func (m Method) Words() string {
	switch m {
	case Line:
		return "a straight line between the measured days before and after each gap"
	case LikeDays:
		return "the mean of the same weekday in the nearest weeks before and after"
	case Mean:
		return "the mean of the measured days of the period"
	case Near:
		return "the mean of the measured days around, nearer days counting more"
	case Ratio:
		return "what another monitor measured that day, times the usual ratio of the two"
	}
	return "the method that did best on days that were measured"
}

// candidate is a method made ready for one record.
type candidate struct {
	method Method
	other  *ledger.Ledger // for Ratio: the instrument that it leans on
	rest   *candidate     // for Ratio: what fills the days that other lacks too
	have   []bool         // for Ratio: which days of the gap other measured
	trial  Trial
}

// fill estimates the days at, indices into rec in ascending order, from the
// days that rec knows, and writes kWh. shift is how far at lies from the gap
// itself. It gives the method used for each day.
func (c candidate) fill(rec *record, at []int, shift int, kWh []float64) []Method {
	switch c.method {
	case Line:
		rec.line(at, kWh)
	case LikeDays:
		rec.likeDays(at, kWh)
	case Mean:
		rec.mean(at, shift, kWh)
	case Near:
		rec.near(at, kWh)
	case Ratio:
		return c.byRatio(rec, at, shift, kWh)
	}
	used := make([]Method, len(at))
	for i := range used {
		used[i] = c.method
	}
	return used
}

// line draws a straight line between the known neighbours of each run; where
// one side has none, it holds the mean of the nearest days of the other.
func (rec *record) line(at []int, kWh []float64) {
	for i, t := range at {
		a, b := rec.before(t), rec.after(t)
		switch {
		case a >= rec.lo && b < rec.hi:
			kWh[i] = rec.kWh[a] + (rec.kWh[b]-rec.kWh[a])*float64(t-a)/float64(b-a)
		default:
			kWh[i] = rec.nearest(t, 7)
		}
	}
}

// likeWeeks is how far like days may lie from the day they stand for.
const likeWeeks = 4

// likeDays takes the mean of the same weekday, the nearest two before and the
// nearest two after, none more than likeWeeks away.
func (rec *record) likeDays(at []int, kWh []float64) {
	for i, t := range at {
		sum, n := 0.0, 0
		for _, step := range []int{-7, 7} {
			found := 0
			for w := 1; w <= likeWeeks && found < 2; w++ {
				s := t + step*w
				if s >= rec.lo && s < rec.hi && rec.known[s] {
					sum += rec.kWh[s]
					found++
				}
			}
			n += found
		}
		if n == 0 {
			kWh[i] = rec.nearest(t, 7)
			continue
		}
		kWh[i] = sum / float64(n)
	}
}

// enoughForMean is how many measured days a period needs for its own mean.
const enoughForMean = 7

// mean takes the mean of the known days of the period, or of the nearest days
// if the period has too few.
func (rec *record) mean(at []int, shift int, kWh []float64) {
	sum, n := 0.0, 0
	for t := max(rec.lo, rec.start+shift); t < min(rec.hi, rec.end+shift); t++ {
		if rec.known[t] {
			sum += rec.kWh[t]
			n++
		}
	}
	for i, t := range at {
		if n >= enoughForMean {
			kWh[i] = sum / float64(n)
		} else {
			kWh[i] = rec.nearest(t, 30)
		}
	}
}

// fade is the weight of a day relative to that of the day one day nearer.
const fade = 0.8

// near takes the weighted mean of all known days within reach, the weight
// falling by fade for each day of distance.
func (rec *record) near(at []int, kWh []float64) {
	for i, t := range at {
		sum, weight := 0.0, 0.0
		w := 1.0
		for h := 1; h <= 40 || weight == 0; h++ {
			w *= fade
			if a := t - h; a >= rec.lo && rec.known[a] {
				sum += w * rec.kWh[a]
				weight += w
			}
			if b := t + h; b < rec.hi && rec.known[b] {
				sum += w * rec.kWh[b]
				weight += w
			}
		}
		kWh[i] = sum / weight
	}
}
