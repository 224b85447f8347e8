package metered

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"splittally/calc/energy"
	"splittally/calc/figure"
)

// nbsp keeps a number and its unit together.
const nbsp = "\u00a0"

// kWh writes an energy to no more digits than two decimals.
func kWh(e energy.Energy) string {
	text := strings.TrimSuffix(e.Text(2), ".00")
	if rest, below := strings.CutPrefix(text, "-"); below {
		text = figure.Minus + rest
	}
	return text + nbsp + "kWh"
}

// signed writes a difference with its sign.
func signed(e energy.Energy) string { return figure.Fixed(e.KilowattHours(), 2) + nbsp + "kWh" }

// named gives "bill 10", "bills 10 and 11", "bills 14 to 18".
func named(bills []int) string {
	if len(bills) == 1 {
		return "bill " + strconv.Itoa(bills[0]+1)
	}
	var parts []string
	for i := 0; i < len(bills); i++ {
		from := i
		for i+1 < len(bills) && bills[i+1] == bills[i]+1 {
			i++
		}
		switch {
		case i == from:
			parts = append(parts, strconv.Itoa(bills[i]+1))
		case i == from+1:
			parts = append(parts, strconv.Itoa(bills[from]+1), strconv.Itoa(bills[i]+1))
		default:
			parts = append(parts, strconv.Itoa(bills[from]+1)+" to "+strconv.Itoa(bills[i]+1))
		}
	}
	return "bills " + figure.Listed(parts)
}

// capital is named at the start of a sentence.
func capital(words string) string { return strings.ToUpper(words[:1]) + words[1:] }

// indexes gives the bills of rows i to j.
func (s *sheet) indexes(i, j int) (out []int) {
	for _, r := range s.rows[i : j+1] {
		out = append(out, r.Index)
	}
	return out
}

// apart lists by how much each row differs.
func (s *sheet) apart(i, j int) string {
	var out []string
	for _, r := range s.rows[i : j+1] {
		out = append(out, signed(r.differs()))
	}
	return figure.Listed(out)
}

func (s *sheet) splitWords(i, j int, all row, byDays, cancels bool) string {
	words := fmt.Sprintf("%s are one reading period, split in %d. Each by itself differs from the meter’s own days (%s)",
		capital(named(s.indexes(i, j))), j-i+1, s.apart(i, j))
	if cancels {
		words += fmt.Sprintf("; together they bill %s, and those days hold %s.", kWh(all.Billed), kWh(all.metered))
	} else {
		words += fmt.Sprintf("; together they bill %s, and those days hold %s, which the hour of the reads may explain.", kWh(all.Billed), kWh(all.metered))
	}
	if byDays {
		var days []string
		for _, r := range s.rows[i : j+1] {
			days = append(days, strconv.Itoa(r.Span.Days()))
		}
		words += " Each bills its share of the whole by days (" + figure.Listed(days) + "), as is done where a rate changes between two reads; nobody read the meter there."
	}
	return words + " Judge them as one."
}

func (s *sheet) estimatedWords(i, j int, all row) string {
	return fmt.Sprintf("%s differ from the meter’s own days one by one (%s), but not together: %s billed, %s counted. A read between them was estimated, and the next one made up for it. Judge them as one.",
		capital(named(s.indexes(i, j))), s.apart(i, j), kWh(all.Billed), kWh(all.metered))
}

func netWords(r row, sure bool) string {
	words := fmt.Sprintf("%s charges %s of the %s that the meter counted coming in.", capital(named([]int{r.Index})), kWh(r.Billed), kWh(r.metered))
	if r.Exported > 0 && sure && r.Billed > 0 {
		words += fmt.Sprintf(" What went out, %s, was taken off.", kWh(r.Exported))
	}
	return words + netMeans(sure)
}

func netsWords(f Finding) string {
	return fmt.Sprintf("%s charge %s of the %s that the meter counted coming in.", capital(named(f.Bills)), kWh(f.Billed), kWh(f.Metered)) + netMeans(f.Sure)
}

func netMeans(sure bool) string {
	if sure {
		return " That is net of credits: for what panels fed in, or for a share of panels elsewhere. It is no measure of what the meter counted, so hold no monitor against it."
	}
	return " That is what a bill net of credits looks like: for what panels fed in, or for a share of panels elsewhere. Look for the word “credit” or “net” on it; until then it is no measure of what the meter counted."
}

func factorWords(f Finding) string {
	if f.Kind == Losses {
		return fmt.Sprintf("%s charge %s more than the meter counted, all by one factor: the losses of the lines outside are in them. Type the loss factor into the bill’s details.",
			capital(named(f.Bills)), figure.Percent(figure.Plain(100*(f.Factor-1), 2)))
	}
	times := figure.Plain(f.Factor, 0) + " times"
	if f.Factor < 1 {
		times = "1/" + figure.Plain(1/f.Factor, 0) + " of"
	}
	charge := "charge"
	if len(f.Bills) == 1 {
		charge = "charges"
	}
	return fmt.Sprintf("%s %s %s what the record holds: a multiplier is in one of the two and not in the other, or one of them is in another unit.", capital(named(f.Bills)), charge, times)
}

// clock writes an hour from the midnight that begins the last date of a bill, to
// five minutes.
func clock(hour float64) string {
	minutes := int(hour*12+0.5) * 5
	return fmt.Sprintf("%d:%02d", minutes/60%24, minutes%60)
}

func clockDay(hour float64) string {
	if hour >= 24 {
		return "the day after the last date"
	}
	return "the last date"
}

func inDayWords(f Finding, c chain) string {
	n := len(c.links)
	if n == 1 {
		l := c.links[0]
		return fmt.Sprintf("%s differs by %s, less than its first and last days hold. A register read during the day and not at midnight would do that; one bill alone can’t show it.",
			capital(named([]int{l.Index})), signed(l.differs()))
	}
	words := fmt.Sprintf("The differences change sign and nearly cancel over %d bills, as they do where the register is read during the day and not at midnight.", n)
	if !f.Sure {
		return words + " So few bills, or hours so unlike, don’t settle it; a read that was estimated would show in much the same way."
	}
	how := "by the meter’s own hours"
	if slices.ContainsFunc(f.Reads, func(r Read) bool { return !r.Sharp }) {
		how = "with each day taken as evenly used"
	}
	words += fmt.Sprintf(" All %d reads fit one time of day, %s: about %s on %s of a bill, the earliest %s, the latest %s.",
		len(f.Reads), how, clock(f.Hour), clockDay(f.Hour), clock(f.Early), clock(f.Late))
	if f.Till-f.From > 1 {
		words += fmt.Sprintf(" As little is used then, the hour may be anything from %s to %s.", clock(f.From), clock(f.Till))
	}
	return words + " Type that hour into the bills’ details."
}

func allOffWords(f Finding) string {
	which := "a day earlier"
	if f.Hour > 24 {
		which = "a day later"
	}
	return fmt.Sprintf("%s fit the meter’s own days exactly if every read lies %s than the dates were taken to say. Choose in the bills’ details which dates belong.", capital(named(f.Bills)), which)
}

func singleWords(f Finding, outer bool) string {
	r := f.Reads[0]
	if f.Kind == DayOff {
		way, day := "earlier", r.Day
		if r.Apart > 0 {
			way, day = "later", r.Day+1
		}
		return fmt.Sprintf("The read after %s lies a day %s than its dates say: %s differ by just what %s holds.", r.Day.Long(), way, named(f.Bills), day.Long())
	}
	words := fmt.Sprintf("The read after %s is %s from its midnight, where the others are at theirs: taken about %s on %s, or estimated.", r.Day.Long(), signed(r.Apart), clock(r.Hour), hourDay(r))
	if outer {
		return words + " It is at the end of the bills given, so that nothing shows whether the next one made up for it."
	}
	return words + " What one bill has too much the next has too little."
}

func hourDay(r Read) string {
	if r.Hour >= 24 {
		return (r.Day + 1).Long()
	}
	return r.Day.Long()
}

func unexplainedWords(r row) string {
	return fmt.Sprintf("%s charges %s, the meter’s own days hold %s: %s, which nothing known here explains. Ask the utility how it came about.",
		capital(named([]int{r.Index})), kWh(r.Billed), kWh(r.metered), signed(r.differs()))
}

// summary counts what the bills came to.
func summary(r Result) string {
	counts := map[Kind]int{}
	for _, b := range r.Bills {
		counts[b.Kind]++
	}
	words := fmt.Sprintf("The meter’s own days cover %s.", figure.Counted(r.Covered, "bill", "bills"))
	if r.Agree == r.Covered {
		if r.Covered == 1 {
			return words + " It agrees with them to within its rounding."
		}
		return words + " All agree with them to within their rounding."
	}
	var parts []string
	for _, k := range []struct {
		kind      Kind
		one, many string
	}{
		{Agrees, "agrees to within its rounding", "agree to within their rounding"},
		{Split, "", "are parts of a reading period that was split"},
		{Estimated, "rests on an estimated read", "rest on an estimated read"},
		{Net, "is net of credits", "are net of credits"},
		{InDay, "was read during the day", "were read during the day"},
		{DayOff, "is a day off", "are a day off"},
		{Losses, "holds losses", "hold losses"},
		{Multiplier, "is off by a multiplier", "are off by a multiplier"},
		{Unexplained, "is not explained", "are not explained"},
	} {
		switch n := counts[k.kind]; {
		case n == 1:
			parts = append(parts, "1 "+k.one)
		case n > 1:
			parts = append(parts, strconv.Itoa(n)+" "+k.many)
		}
	}
	return words + " Of these " + figure.Listed(parts) + "."
}
