package fill

// Method names a way to estimate missing days.
type Method string

// The methods. Choose is the zero value.
const (
	Choose   Method = ""          // try every method on measured days, take the best
	Near     Method = "near-days" // all measured days around, weighted by how alike days of this record are
	Line     Method = "line"      // a straight line between the measured neighbours of each run
	LikeDays Method = "like-days" // the mean of the same weekday in the nearest weeks
	Mean     Method = "mean"      // the mean of the period's measured days
	Ratio    Method = "ratio"     // another instrument's figure for the day, times the ratio of the two
	// Hours fills a partly covered day whose hours are known. It is no choice:
	// such a day is never left to the others, unless Ratio has all of it.
	Hours Method = "own-hours"
)

// Methods lists the methods that can be chosen, in the order in which Result.Trials has them.
func Methods() []Method { return []Method{Near, Line, LikeDays, Mean, Ratio} }

// Words says in a phrase what the method does, for the owner.
func (m Method) Words() string {
	switch m {
	case Near:
		return "a weighted mean of the measured days around: nearer days and the same weekday count for more, by as much as this record shows them to be alike"
	case Line:
		return "a straight line between the measured days before and after each gap"
	case LikeDays:
		return "the mean of the same weekday in the nearest weeks before and after"
	case Mean:
		return "the mean of the measured days of the period"
	case Hours:
		return "what the day’s own measured hours brought, by the share that these hours have of usual days; the fewer there are, the more the days around count"
	case Ratio:
		return "what another monitor measured that day, times the usual ratio of the two"
	}
	return "whichever method does best on days that were measured"
}

// A simple method estimates days at of a record into kWh from the days that
// the record knows. shift is how far at lies from the gap itself.
type simple func(rec *record, at []int, shift int, kWh []float64)

// simples lists the simple methods in the order of Methods.
var simples = []struct {
	method Method
	fill   simple
}{{Line, line}, {LikeDays, likeDays}, {Mean, mean}}

// atEdge is how many measured days are averaged where a gap has no neighbour
// on one side.
const atEdge = 7

// line draws a straight line between the known neighbours of each run. Where
// one side has none, it holds the mean of the nearest days of the other.
func line(rec *record, at []int, _ int, kWh []float64) {
	for i, t := range at {
		a, b := rec.before(t), rec.after(t)
		if a < 0 || b >= len(rec.kWh) {
			kWh[i] = rec.nearest(t, atEdge)
			continue
		}
		kWh[i] = rec.kWh[a] + (rec.kWh[b]-rec.kWh[a])*float64(t-a)/float64(b-a)
	}
}

// How many like days are taken to each side, and how many weeks away the last
// may be.
const (
	likeEachSide = 2
	likeWeeks    = 4
)

// likeDays takes the mean of the same weekday in the nearest weeks, or of the
// nearest days if no like day is known.
func likeDays(rec *record, at []int, _ int, kWh []float64) {
	for i, t := range at {
		sum, n := 0.0, 0
		for _, step := range [2]int{-7, 7} {
			found := 0
			for w := 1; w <= likeWeeks && found < likeEachSide; w++ {
				if s := t + step*w; s >= 0 && s < len(rec.kWh) && rec.known[s] {
					sum += rec.kWh[s]
					found++
				}
			}
			n += found
		}
		if n == 0 {
			kWh[i] = rec.nearest(t, atEdge)
			continue
		}
		kWh[i] = sum / float64(n)
	}
}

// enoughForMean is how many measured days a period needs for its own mean.
const enoughForMean = 7

// mean takes the mean of the known days of the period, or of the nearest days
// if the period has too few.
func mean(rec *record, at []int, shift int, kWh []float64) {
	sum, n := 0.0, 0
	for t := max(0, rec.start+shift); t < min(len(rec.kWh), rec.end+shift); t++ {
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
