package say

import (
	"fmt"
	"math"
	"strconv"

	"splittally/calc/ledger"
	"splittally/calc/load"
)

// Power writes a mean power: "118 W", "1.09 kW".
func Power(watts float64) string {
	switch size := math.Abs(watts); {
	case size >= 999.5:
		return Plain(watts/1000, 2) + Thin + "kW"
	case size < 9.95 && size > 0:
		return Plain(watts, 1) + Thin + "W"
	}
	return Plain(watts, 0) + Thin + "W"
}

// Clock writes a full hour, 0 to 24: "17:00".
func Clock(hour int) string { return strconv.Itoa(hour) + ":00" }

// HourOf names the hour of a peak: "28 Dec 2024, 17:00 to 18:00".
func HourOf(p load.Peak) string {
	said := p.Day.Long() + ", " + Clock(p.Hour) + " to " + Clock(p.Hour+1)
	if p.IsAgain {
		said += ", the second time"
	}
	return said
}

// Base tells the base load and where it was found.
func Base(b load.Base, confidence string) string {
	switch {
	case b.IsKnown:
	case b.Nights < load.MinNights:
		return "No base load yet: it takes a week of nights by the hour."
	default:
		return "No base load shows: in more than one in ten hours of the night nothing was used, or energy was sent out."
	}
	said := "Base load, what never stops: " + Power(b.Watts)
	if b.IsBounded {
		said += ", between " + Power(b.Low) + " and " + Power(b.High) + " (" + confidence + " interval)"
	}
	said += fmt.Sprintf(". One in ten hours from %s to %s is below it, over %d nights.", Clock(b.From), Clock(b.To), b.Nights)
	if !b.IsBounded {
		said += " That is too few nights for an interval."
	}
	return said
}

// BaseHow tells how a base load is found, and on what ground.
func BaseHow(b load.Base) string {
	said := "These are the five hours in a row in which the least is used. "
	if b.IsClocked {
		said = "These are the five hours in a row in which the least is used, sought between 20:00 and 10:00, because by day there are hours in which nothing was taken or energy was sent out. "
	}
	return said + "The tenth percentile is taken, not the least hour, which may be a fault or a plug pulled, nor the middle one, when heating or a charger often runs. That such a low quantile of the night is the base load is common practice; no standard says which. " +
		"The interval counts each night as one draw. It speaks of nights like these, not of other seasons. The reading error of the instrument is not in it."
}

// LoadDays tells in words what a calendar of days shows. part is how many of its
// days are hatched.
func LoadDays(l load.Load, led ledger.Ledger, part int) string {
	missing := 0
	for _, m := range l.Months {
		missing += m.Missing
	}
	said := "A square for each day of " + led.Span().String() + ", the darker and the larger the more was used. "
	if l.IsDaily {
		said += fmt.Sprintf("The most is %s on %s, the least %s on %s. ", dayEnergy(l.LargestDay), l.LargestDay.Day.Long(), dayEnergy(l.LeastDay), l.LeastDay.Day.Long())
	}
	return said + fmt.Sprintf("%s measured in part or filled, %s without figures.", Counted(part, "day is", "days are"), Counted(missing, "day is", "days are"))
}

func dayEnergy(d load.DayTotal) string { return Plain(d.Energy.KilowattHours(), 1) + Thin + "kWh" }

// LoadHours tells in words at what hours power is used.
func LoadHours(l load.Load) string {
	said := ""
	for kind, days := range [2]string{"On weekdays", "At weekends"} {
		most, least := -1, -1
		hours := &l.Typical[kind].Hours
		for h, q := range hours {
			if q.Count == 0 {
				continue
			}
			if most < 0 || q.Median > hours[most].Median {
				most = h
			}
			if least < 0 || q.Median < hours[least].Median {
				least = h
			}
		}
		if most >= 0 {
			said += fmt.Sprintf("%s power is highest from %s to %s, with a median of %s, and lowest from %s to %s, with %s. ", days,
				Clock(most), Clock(most+1), Power(hours[most].Median), Clock(least), Clock(least+1), Power(hours[least].Median))
		}
	}
	return said
}

// LoadDuration tells in words for how long power was how high.
func LoadDuration(l load.Load) string {
	said := fmt.Sprintf("Power was above %s for 1%s%% of the time and above %s for half of it. The hours ranged from %s to %s.",
		Power(l.At(0.01)), Thin, Power(l.At(0.5)), Power(l.At(1)), Power(l.At(0)))
	if l.Below > 0 {
		said += " In " + Counted(l.Below, "hour", "hours") + " more was sent out than used."
	}
	return said
}
