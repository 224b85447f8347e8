package say

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"splittally/calc/figure"
	"splittally/calc/paired"
)

// Paired tells what the days of an instrument show beside the meter's own, a
// sentence or two each: the usual error, its scatter, drift, the days that
// disagree, the week, and the clocks.
func Paired(name string, p paired.Result) []string {
	out := []string{pairedError(name, p), pairedScatter(p)}
	for _, s := range []string{pairedDrift(p), pairedOdd(p), pairedWeek(p), pairedLag(name, p), pairedCut(name, p)} {
		if s != "" {
			out = append(out, s)
		}
	}
	return out
}

func pairedError(name string, p paired.Result) string {
	said := fmt.Sprintf("On %s that both measured whole, %s counted %s kWh and the meter %s kWh.",
		Counted(len(p.Days), "day", "days"), Within(name), minus(p.Monitor.Text(1)), minus(p.Meter.Text(1)))
	if !p.Percent.Known {
		return said
	}
	if p.Percent.Standard == 0 && p.Percent.Value == 0 {
		return said + " They are the same, day for day."
	}
	usual := "its error is"
	if len(p.Odd) > 0 {
		usual = "without the days that disagree its error is"
	}
	return said + fmt.Sprintf(" By day, %s %s of the meter’s energy, %s kWh a day.", usual,
		figure.Error(p.Percent.Value, p.Percent.Expanded), beside(Signed(p.PerDay.Value, p.PerDay.Expanded), p.PerDay.Expanded, ""))
}

// minus writes a true minus.
func minus(number string) string {
	if rest, below := strings.CutPrefix(number, "-"); below {
		return Minus + rest
	}
	return number
}

func pairedScatter(p paired.Result) string {
	said := fmt.Sprintf("A middling day lies %s kWh from what is usual (standard deviation)", size(p.Scatter))
	switch {
	case p.Scatter <= 1.2*p.Rounding:
		return said + "; the last digits explain it."
	case p.Rounding > 0.3*p.Scatter:
		return said + "; the last digits explain " + size(p.Rounding) + " kWh of that."
	}
	return said + "."
}

// size writes an amount to two figures, and no finer than a watt-hour.
func size(kWh float64) string {
	if kWh < 0.0005 {
		return "0"
	}
	places := int(math.Min(3, math.Max(0, 1-math.Floor(math.Log10(kWh)))))
	return strconv.FormatFloat(kWh, 'f', places, 64)
}

func pairedDrift(p paired.Result) string {
	d := p.Drift
	switch {
	case !d.Known || d.Standard == 0:
		return ""
	case d.Shows():
		return fmt.Sprintf("The error drifts by %s percentage points in 30 days.", beside(Signed(d.Value, d.Expanded), d.Expanded, ""))
	}
	return fmt.Sprintf("No drift shows: %s percentage points in 30 days.", beside(Signed(d.Value, d.Expanded), d.Expanded, ""))
}

func pairedOdd(p paired.Result) string {
	const chance = " Of a sound pair a day would be named here once in 20 such comparisons."
	if len(p.Odd) == 0 {
		return "No day disagrees by more than rounding and the usual scatter explain." + chance
	}
	verb := " disagree"
	if len(p.Odd) == 1 {
		verb = " disagrees"
	}
	return Counted(len(p.Odd), "day", "days") + verb + " by more than rounding and the usual scatter explain." + chance
}

var weekdayNames = [7]string{"Sundays", "Mondays", "Tuesdays", "Wednesdays", "Thursdays", "Fridays", "Saturdays"}

func pairedWeek(p paired.Result) string {
	w := p.Weekdays
	if !w.Shows {
		return ""
	}
	low, high := 0, 0
	for d := range w.Off {
		if w.Off[d] < w.Off[low] {
			low = d
		}
		if w.Off[d] > w.Off[high] {
			high = d
		}
	}
	return fmt.Sprintf("The error goes with the day of the week (%s, %d whole weeks): highest on %s, by %s kWh a day, and lowest on %s, by %s.",
		Chance(w.P), w.Weeks, weekdayNames[high], Fixed(w.Off[high], 2), weekdayNames[low], Fixed(w.Off[low], 2))
}

func pairedLag(name string, p paired.Result) string {
	l := p.Lag
	switch {
	case !l.Known:
		return ""
	case len(l.Months) > 0:
		return fmt.Sprintf("The clocks of the two part during the year: the hours of %s fit the meter’s best if they are moved by so many hours, from %s. One of them is not changed in spring and autumn.",
			Within(name), strings.Join(turns(l), ", "))
	case l.Hours == 0:
		return fmt.Sprintf("Hour by hour the clocks agree: no move of the hours fits better (%d hours).", l.Count)
	}
	way := "later"
	if l.Hours < 0 {
		way = "earlier"
	}
	return fmt.Sprintf("The hours of %s fit the meter’s best if they are moved %s %s: %s of the difference hour by hour then remains. Its clock is off, or one of the two is in another zone, or one stamps the start of its intervals and the other the end.",
		Within(name), hours(math.Abs(l.Hours)), way, figure.Percent(Plain(100*l.Left, 0)))
}

// turns names the months from which another move fits.
func turns(l paired.Lag) (out []string) {
	for i, m := range l.Months {
		if i > 0 && m.Hours == l.Months[i-1].Hours {
			continue
		}
		year, month, _ := m.Month.Date()
		out = append(out, fmt.Sprintf("%s %d: %s", monthNames[month-1], year, Fixed(m.Hours, places(m.Hours))))
	}
	return out
}

var monthNames = [12]string{"January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November", "December"}

func places(hours float64) int {
	if hours == math.Trunc(hours) {
		return 0
	}
	return 1
}

func hours(n float64) string {
	switch n {
	case 0.5:
		return "half an hour"
	case 1:
		return "an hour"
	}
	return Plain(n, places(n)) + " hours"
}

func pairedCut(name string, p paired.Result) string {
	c := p.Cut
	if !c.Known || p.Lag.Known {
		return ""
	}
	part, way, neighbour := math.Abs(c.Value), "later", "next"
	if c.Value < 0 {
		way, neighbour = "earlier", "last"
	}
	if part > 0.9 {
		return fmt.Sprintf("The days of %s are those of the meter’s %s day: all dates are a day off.", Within(name), neighbour)
	}
	return fmt.Sprintf("The days of %s begin %s than the meter’s: about %s of a day’s energy is of the meter’s %s day. Its clock is off, or it is in another zone.",
		Within(name), way, figure.Percent(Plain(100*part, 0)), neighbour)
}

// OddDay says what a day that disagrees looks like.
func OddDay(o paired.Odd) string {
	switch o.Kind {
	case paired.Nothing:
		return "next to nothing was counted"
	case paired.Swapped:
		return "has the figure of " + o.With.Short() + ", and that day this one’s: swapped"
	case paired.Shifted:
		return "has the figure of " + o.With.Short() + ", as days beside it do: dates a day off"
	case paired.Moved:
		return "what is apart here is apart the other way on " + o.With.Short() + ": a part went to the wrong day"
	case paired.Doubled:
		return "twice what is usual: counted twice"
	case paired.CatchUp:
		return "holds what " + o.With.Short() + " lacks as well"
	case paired.LacksPart:
		return "the monitor lacks a part of the day" + inHours(o.Hours)
	case paired.MeterPart:
		return "the meter’s record lacks a part of the day" + inHours(o.Hours)
	}
	return "more than usual; the meter’s record may lack a part of the day"
}

// inHours gives hours in runs: ", from 9 to 15 o’clock".
func inHours(hours []int) string {
	var out []string
	for i := 0; i < len(hours); i++ {
		from := i
		for i+1 < len(hours) && hours[i+1] == hours[i]+1 {
			i++
		}
		out = append(out, fmt.Sprintf("%d to %d", hours[from], hours[i]+1))
	}
	if len(out) == 0 {
		return ""
	}
	return ", from " + figure.Listed(out) + " o’clock"
}
