package load

import (
	"math"
	"sort"

	"github.com/shopspring/decimal"
)

// Base is the power that never stops: what refrigerators, clocks, routers and
// standby take while nobody does anything.
//
// It is the tenth percentile of the hours of the night, the night being those
// hours in a row whose medians add up to the least (common practice is a low
// quantile at night; which one, and how long the night is, has no source). Not
// the least hour: that is one where a device was unplugged or a figure is wrong.
// Not the median of the night: heating, a charger or the dishes run in many a
// night. Hours, not minutes, because a compressor that comes and goes belongs
// to it by its mean.
type Base struct {
	IsKnown bool // false with fewer than MinNights nights, and where it would not be above 0
	Watts   float64
	// Low and High are the ends of its interval, in watts, if IsBounded. They are
	// those order statistics between which the tenth percentile lies whatever the
	// distribution. The hours of one night are alike, so that a night counts as
	// one draw. The interval speaks of more nights like those measured: not of
	// other seasons.
	Low, High float64
	IsBounded bool
	From, To  int // the night by the clock: from the start of hour From to that of To
	Nights    int
	// IsClocked says that the night was sought between 20:00 and 10:00 alone,
	// because in some hours nothing was taken or energy was sent out, which would
	// make the least hours those of noon.
	IsClocked bool
	// Share is its part of the energy of all counted hours, 0 to 1; 0 where hours
	// below zero leave no such part.
	Share float64
}

const (
	// baseShare is the quantile that is taken.
	baseShare = 0.1
	// nightHours is the length of the night: short enough to lie within the sleep
	// of a household.
	nightHours = 5
	// MinNights is how many nights a base load takes; a choice of ours.
	MinNights = 7
	// manyBelow is the share of hours at or below zero from which the night is sought
	// by the clock; a choice of ours.
	manyBelow = 0.01
	yearHours = 365.25 * 24
)

// PerYear gives the energy of a year of 365.25 days of a power, in kWh.
func PerYear(watts float64) float64 { return watts * yearHours / 1000 }

// Cost gives what a year of a power costs at a price of one kWh. The energy is
// taken to the kWh, which is finer than it is known.
func Cost(watts float64, price decimal.Decimal) decimal.Decimal {
	return decimal.NewFromInt(int64(math.Round(PerYear(watts)))).Mul(price)
}

// base finds the base load. The hours of l are s, by power.
func base(l Load, s []key, confidence float64) Base {
	none := sort.Search(len(l.Powers), func(i int) bool { return l.Powers[i] > 0 })
	b := Base{IsClocked: float64(none) > manyBelow*float64(l.Counted)}
	if !b.findNight(l.Days, s) {
		return b
	}
	values := make([]float64, 0, len(s)/24*nightHours+1)
	sum := 0.0
	for i, k := range s {
		sum += l.Powers[i]
		if _, hour := k.place(l.Days); b.has(hour) {
			values = append(values, l.Powers[i])
		}
	}
	b.Nights = b.countNights(l.Days)
	if b.Nights < MinNights {
		return b
	}
	if b.Watts = Quantile(values, baseShare); b.Watts <= 0 {
		return b
	}
	b.IsKnown = true
	if sum > 0 && l.Below == 0 {
		b.Share = math.Max(0, math.Min(1, b.Watts*float64(len(s))/sum))
	}
	low, high, ok := ranks(b.Nights, baseShare, confidence)
	if b.IsBounded = ok; ok {
		// Of one hour a night these are x_low and x_high themselves.
		of := float64(b.Nights - 1)
		b.Low, b.High = Quantile(values, float64(low-1)/of), Quantile(values, float64(high-1)/of)
	}
	return b
}

// has says whether an hour by the clock belongs to the night.
func (b Base) has(hour int) bool { return (hour-b.From+24)%24 < nightHours }

// findNight looks for the hours in a row whose medians add up to the least. It
// is false if no hours in a row have a median each.
func (b *Base) findNight(days []Day, s []key) bool {
	medians := hourMedians(days, s)
	least := math.Inf(1)
	for from := range 24 {
		if b.IsClocked && from > 10-nightHours && from < 20 {
			continue
		}
		sum := 0.0
		for h := from; h < from+nightHours; h++ {
			sum += medians[h%24] // an hour without one makes the sum infinite
		}
		if sum < least {
			least, b.From, b.To = sum, from, (from+nightHours)%24
		}
	}
	return !math.IsInf(least, 1)
}

// hourMedians gives the median power of each hour by the clock over all days,
// infinite where there is none. The middle of the sorted hours of each is met on
// the second way through them.
func hourMedians(days []Day, s []key) (out [24]float64) {
	var count, seen [24]int
	for _, k := range s {
		_, hour := k.place(days)
		count[hour]++
	}
	for h := range out {
		out[h] = math.Inf(1)
	}
	for _, k := range s {
		_, hour := k.place(days)
		if seen[hour] == count[hour]/2 {
			out[hour] = k.watts()
		}
		seen[hour]++
	}
	return out
}

// countNights counts the nights that have an hour that counts. One that begins
// before midnight is that of the day after.
func (b Base) countNights(days []Day) int {
	n, last := 0, int64(math.MinInt64)
	for i := range days {
		d := &days[i]
		for h := range d.Hours {
			if !b.has(h) || !d.Hours[h].Counts() {
				continue
			}
			night := int64(d.Day)
			if h >= b.From && b.To < b.From {
				night++
			}
			if night > last {
				n, last = n+1, night
			}
		}
	}
	return n
}
