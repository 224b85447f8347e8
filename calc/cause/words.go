package cause

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"splittally/calc/compare"
	"splittally/calc/figure"
)

// rare is the chance of remainders below which they speak against a cause.
const rare = 0.05

// evidences says what speaks for and against an outcome.
func (o outcome) evidences(id ID, left []Remaining) (pro, con []string) {
	if o.reasons != nil {
		pro, con = o.reasons(o)
	}
	worst := 0
	for p := range left {
		if beyond(left[p]) > beyond(left[worst]) {
			worst = p
		}
	}
	switch {
	case o.fit < rare:
		con = append(con, fmt.Sprintf("It leaves %s in bill %d; so much is rare if it is the cause (%s).", figure.Error(left[worst].Percent, left[worst].Expanded), left[worst].Period+1, figure.Chance(o.fit)))
	case id == Chance:
		pro = append(pro, fmt.Sprintf("Errors of this size are to be expected of a sound pair (%s).", figure.Chance(o.fit)))
	}
	if id != Chance && id != Other {
		con = append(con, o.stretched()...)
	}
	if d := o.Daily; d.Given && math.Abs(d.High) > o.k()*math.Hypot(d.Standard, o.repeats) && id != Chance && id != Other && !o.inDays() {
		con = append(con, "Beside the meter’s own days it reads "+o.amount(o.Daily.High, o.Daily.Standard, "%", "high", "low")+", which this does not explain.")
	}
	if t := o.Timed; t.Given && id != Chance && id != Other {
		said := "By timing the meter it reads " + o.amount(t.High, t.Standard, "%", "high", "low")
		switch beyond := math.Abs(t.High) > o.k()*math.Hypot(t.Standard, o.repeats); {
		case beyond && !o.inMinutes():
			con = append(con, said+", which this does not explain.")
		case beyond:
			pro = append(pro, said+".")
		case o.inMinutes() && o.missesMinutes():
			con = append(con, said+", where this would show.")
		}
	}
	if o.legChecks > 0 && id != Legs && id != Gain && id != Other {
		pro, con = o.checked(pro, con)
	}
	return pro, con
}

// error is the percentage error of a period as it stands.
func (f *frame) error(p int) float64 { return 100 * (f.w[p] - f.r[p]) / f.r[p] }

// beyond is a remainder in units of its interval.
func beyond(r Remaining) float64 {
	if r.Expanded == 0 {
		return 0
	}
	return math.Abs(r.Percent) / r.Expanded
}

// inDays says that a form does something to the days that the meter gave too.
func (o outcome) inDays() bool {
	for _, e := range o.effects {
		if e.days == inProportion || e.days == inTotals || e.days == evenly {
			return true
		}
	}
	return o.scale != nil || o.steady
}

// inMinutes says that a form does something to the timed minutes.
func (o outcome) inMinutes() bool {
	for _, e := range o.effects {
		if e.days == inProportion || e.days == evenly {
			return true
		}
	}
	return false
}

// missesMinutes says that what the effects do to the timed minutes is not what
// was timed.
func (o outcome) missesMinutes() bool {
	should := 0.0
	minutes := check{by: byPulses}
	for k, e := range o.effects {
		should += o.sizes[k] * e.onDays(o.frame, minutes)
	}
	return math.Abs(should-o.Timed.High) > o.k()*math.Hypot(o.Timed.Standard, o.repeats)
}

// stretched speaks against a cause that would have to be larger than it usually is.
func (o outcome) stretched() (con []string) {
	for k, e := range o.effects {
		if e.sd > 0 && math.Abs(o.sizes[k]-e.mean) > 2.5*e.sd {
			return []string{"It would have to be larger than it usually is."}
		}
	}
	return nil
}

// checked says what the checks of the legs say to a cause that is not in them.
func (o outcome) checked(pro, con []string) (p, c []string) {
	for _, c := range o.checks[:o.legChecks] {
		what := "volts"
		if c.by == byPower {
			what = "known loads"
		}
		said := "The " + what + " measured on the legs show a monitor that reads " + o.amount(c.high, c.standard, "%", "high", "low")
		if math.Abs(c.high) > o.k()*c.standard {
			con = append(con, said+", which this does not explain.")
		} else if c.by == byPower {
			pro = append(pro, said+": no gain to speak of.")
		}
	}
	return pro, con
}

// amount gives a size with its standard uncertainty, and which way it is.
func (f *frame) amount(size, standard float64, unit, up, down string) string {
	way := up
	if size < 0 {
		way = down
	}
	text := figure.Between(math.Abs(size), f.k()*standard, unit)
	if way == "" {
		return text
	}
	return text + " " + way
}

// span gives the least and the largest error of all periods.
func span(f *frame) (lo, hi float64) {
	lo, hi = math.Inf(1), math.Inf(-1)
	for p := range f.n() {
		lo, hi = min(lo, f.error(p)), max(hi, f.error(p))
	}
	return lo, hi
}

// sound says that nothing being wrong is among the causes not told apart.
func (w Weighed) sound() bool {
	for _, e := range w.Causes[:w.Open] {
		if e.ID == Chance {
			return true
		}
	}
	return false
}

// agree says that by every verdict, of each period and of all, the two agree.
func (s Seen) agree() bool {
	for _, p := range s.Periods {
		if p.Compared.Verdict != compare.Agree {
			return false
		}
	}
	return s.Verdict == compare.Agree
}

// differs says that a verdict is that the two differ.
func differs(v compare.Verdict) bool { return v == compare.DifferHigh || v == compare.DifferLow }

// words sums up what the weighing came to.
func (w Weighed) words(s Seen) string {
	first := w.Causes[0]
	open := w.Causes[:w.Open]
	names := make([]string, len(open))
	for i, e := range open {
		names[i] = strings.ToLower(e.Name[:1]) + e.Name[1:]
	}
	switch {
	case w.Asserted && first.ID == Chance && !differs(s.Verdict):
		return "Nothing needs explaining: sound instruments differ by as much, and every other cause weighed explains the figures far less well." + s.alone()
	case w.Asserted:
		return "The cause that explains what was seen: " + names[0] + ". Every other cause weighed explains it at least " + figure.Plain(Apart, 0) + " times less well."
	case s.agree() && !w.sound():
		return "Nothing needs explaining: by every bill the two agree. If it is more than chance, this explains it best: " + list(names) + "."
	case first.ID == Other || first.Fit <= unlikely:
		return "None of the causes weighed here explains well what was seen."
	case w.sound() && differs(s.Verdict):
		return "The difference is a little more than sound instruments are likely to show. These data cannot tell apart: " + list(names) + "."
	case w.sound():
		return "Nothing needs explaining: sound instruments may differ by as much. Other causes may be there as well, too small to show." + s.alone()
	}
	return "These data cannot tell apart: " + list(names) + "."
}

// alone names the bills that differ by themselves, where all together do not.
func (s Seen) alone() string {
	var bills []string
	for _, p := range s.Periods {
		if differs(p.Compared.Verdict) {
			bills = append(bills, strconv.Itoa(p.Index+1))
		}
	}
	switch len(bills) {
	case 0:
		return ""
	case 1:
		return " Bill " + bills[0] + " differs by itself; one is left to chance here."
	}
	return " Bills " + figure.Listed(bills) + " differ by themselves; that is left to chance here."
}

// list joins names; those beyond the third are counted.
func list(names []string) string {
	switch n := len(names); {
	case n == 1:
		return names[0]
	case n > 4:
		return strings.Join(names[:3], "; ") + "; and " + figure.Counted(n-3, "other", "others")
	default:
		return strings.Join(names[:n-1], "; ") + "; and " + names[n-1]
	}
}
