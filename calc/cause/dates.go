package cause

import (
	"fmt"
	"math"

	"splittally/calc/ledger"
)

// dates: the bill runs a day longer or shorter than its dates were taken to
// say, at one read or at all of them alike.
func dates() kind {
	return kind{
		id:     Dates,
		name:   "The bill runs a day longer or shorter",
		remedy: "Read the printed number of days and both dates again, and choose in the bill’s details which dates belong.",
		forms: func(f *frame) []form {
			var out []form
			reads := f.reads()
			for _, days := range []int{-1, 1} {
				for _, r := range reads {
					out = append(out, f.moved(days, r.ends, r.begins, 0.5/float64(len(reads))))
				}
				if f.n() > 1 { // all bills are meant otherwise
					out = append(out, f.movedAll(days, false, true), f.movedAll(days, true, false), f.movedAll(days, true, true))
				}
			}
			return out
		},
	}
}

// moved moves the read between two periods by days.
func (f *frame) moved(days, ends, begins int, weight float64) form {
	fo := form{weight: weight, less: make([]float64, f.n())}
	where := ""
	if begins >= 0 {
		f.moveStart(&fo, begins, days)
		where = fmt.Sprintf("Bill %d begins", f.Periods[begins].Index+1)
	}
	if ends >= 0 {
		f.moveEnd(&fo, ends, days)
		where = fmt.Sprintf("Bill %d ends", f.Periods[ends].Index+1)
	}
	fo.how = func(outcome) string {
		return where + " a day " + direction(days) + " than its dates were taken to say."
	}
	return fo
}

// movedAll moves the starts, the ends, or both, of all periods by days.
func (f *frame) movedAll(days int, starts, ends bool) form {
	fo := form{weight: 0.17, less: make([]float64, f.n())}
	for p := range f.n() {
		if starts {
			f.moveStart(&fo, p, days)
		}
		if ends {
			f.moveEnd(&fo, p, days)
		}
	}
	what := "begins"
	switch {
	case starts && ends:
		what = "begins and ends"
	case ends:
		what = "ends"
	}
	fo.how = func(outcome) string {
		return "Every bill " + what + " a day " + direction(days) + " than its dates were taken to say."
	}
	return fo
}

func direction(days int) string {
	if days < 0 {
		return "earlier"
	}
	return "later"
}

func (f *frame) moveEnd(fo *form, p, days int) {
	period := f.Periods[p]
	if days > 0 {
		f.addDay(fo, p, period.After, 1)
	} else {
		f.addDay(fo, p, period.Days[len(period.Days)-1], -1)
	}
}

func (f *frame) moveStart(fo *form, p, days int) {
	period := f.Periods[p]
	if days < 0 {
		f.addDay(fo, p, period.Before, 1)
	} else {
		f.addDay(fo, p, period.Days[0], -1)
	}
}

// addDay adds a day to what the monitor counted of a period, or takes it off,
// by changing the bill instead, which all instruments share. It is the mean day
// if it is not known.
func (f *frame) addDay(fo *form, p int, d Day, sign float64) {
	if d.Known {
		fo.less[p] += sign * d.Energy.KilowattHours()
		return
	}
	fo.less[p] += sign * f.meanDay(p)
	fo.effects = append(fo.effects, effect{by: f.alone(p, 1), bill: true, sd: ledger.DailySpread * math.Abs(f.meanDay(p))})
}
