package cause

import "fmt"

// Where the instrument has hours, reads are tried at every second hour of the day
// that a bill ends with, and of the day after it: all at like hours, each for
// itself by so much, as standard deviations in hours (a choice). Those so near to
// midnight are left out: there a bill is taken to be read.
const (
	everyHours = 2
	alikeHours = 1
	nextHours  = 4
)

// readsAt gives the forms of reads at one time of day, if the hours of all days at
// the ends of periods are known and the periods were taken at their midnights.
// They know what the day's hours hold, and so leave nothing of the doubt that an
// unknown hour is.
func (f *frame) readsAt() (out []form) {
	if !f.hasHours() {
		return nil
	}
	for at := nextHours; at <= 24-nextHours; at += everyHours {
		out = append(out, f.readAt(-at), f.readAt(at))
	}
	for i := range out {
		out[i].weight = 2 / float64(len(out)) // as much as the two forms without hours
	}
	return out
}

// hasHours says that the hours of all days at the ends of periods are known, and
// that the periods were taken at their midnights.
func (f *frame) hasHours() bool {
	for _, p := range f.Periods {
		if p.ReadOffset != 0 || p.Before.Gone == nil || p.After.Gone == nil || p.Days[0].Gone == nil || p.Days[len(p.Days)-1].Gone == nil {
			return false
		}
	}
	return true
}

// hoursOfReads are the doubts that unknown hours of reads are.
func (f *frame) hoursOfReads() (sources []string) {
	for _, p := range f.Periods {
		sources = append(sources, p.StartRead+hourOfRead, p.EndRead+hourOfRead)
	}
	return sources
}

// atMidnight adds to a form the same with all reads at their midnights, as meters
// are read that report by themselves, where the monitor's hours could show another
// time. Against forms that know the hours it must know them too.
func (f *frame) atMidnight(fo form) []form {
	if !f.hasHours() {
		return []form{fo}
	}
	sharp := fo
	sharp.settled = f.hoursOfReads()
	return []form{fo, sharp}
}

// readAt has all reads so many hours after the midnights that the dates say. Bills
// that show by themselves that they are parts of one period have no reads between
// them; what their outer reads add or take they share by days.
func (f *frame) readAt(at int) form {
	fo := form{less: make([]float64, f.n())}
	all := make([]float64, f.n())
	for _, r := range f.reads() {
		if r.ends >= 0 && r.begins >= 0 && f.pieces(r.ends) == f.pieces(r.begins) {
			continue
		}
		by := make([]float64, f.n())
		if r.ends >= 0 {
			past, power := f.pastMidnight(r.ends, true, at)
			f.shareOut(fo.less, r.ends, past)
			f.shareOut(by, r.ends, -power)
		}
		if r.begins >= 0 {
			past, power := f.pastMidnight(r.begins, false, at)
			f.shareOut(fo.less, r.begins, -past)
			f.shareOut(by, r.begins, power)
		}
		for p := range by {
			all[p] += by[p]
		}
		fo.effects = append(fo.effects, effect{by: by, bill: true, sd: alikeHours})
	}
	for p := range f.n() {
		w := make([]float64, f.n())
		f.shareOut(w, p, f.w[p])
		for q := range w {
			fo.less[q] += w[q]
		}
		fo.less[p] -= f.w[p]
	}
	fo.effects = append(fo.effects, effect{by: all, bill: true, sd: alikeHours})
	fo.settled = f.hoursOfReads()
	fo.reasons = f.tellPieces
	fo.how = func(o outcome) string {
		hour, day := at, "the day after a bill’s last one"
		if at < 0 {
			hour, day = 24+at, "a bill’s last day"
		}
		return fmt.Sprintf("By the hours of the monitor the reads were taken about %.0f o’clock, to an hour or two, on %s.", float64(hour)+o.sizes[len(o.sizes)-1], day)
	}
	return fo
}

// shareOut adds kWh of a period to a row; those of a part of a period are shared
// among all its parts, by days.
func (f *frame) shareOut(row []float64, p int, kWh float64) {
	run := f.pieces(p)
	days := 0.0
	for q := range row {
		if f.pieces(q) == run {
			days += f.days(q)
		}
	}
	for q := range row {
		if f.pieces(q) == run {
			row[q] += kWh * f.days(q) / days
		}
	}
}

// pastMidnight gives the energy from the midnight at the end or the start of a
// period to so many hours after it, below zero before, and the kWh of the hour
// there.
func (f *frame) pastMidnight(p int, end bool, at int) (kWh, power float64) {
	period := f.Periods[p]
	day := period.Before
	switch {
	case end && at > 0:
		day = period.After
	case end:
		day = period.Days[len(period.Days)-1]
	case at > 0:
		day = period.Days[0]
	}
	if at > 0 {
		return day.Gone[at], (day.Gone[at+1] - day.Gone[at-1]) / 2
	}
	h := 24 + at
	return day.Gone[h] - day.Gone[24], (day.Gone[h+1] - day.Gone[h-1]) / 2
}
