package interval_test

import (
	"fmt"
	"math"
	"slices"

	"splittally/calc/calendar"
	"splittally/calc/interval"
	"splittally/calc/record"
)

// compare holds what was found against the truth.
func (f *formsFile) compare(found interval.Found) (wrong []string) {
	r := found.Records[0].Record
	if len(r.Channels) != len(f.columns) {
		f.leaveIdle()
	}
	if len(r.Channels) != len(f.columns) {
		return []string{fmt.Sprintf("columns read (%d of %d)", len(r.Channels), len(f.columns))}
	}
	for i, c := range r.Channels {
		if c.Role != f.columns[i].role {
			wrong = append(wrong, fmt.Sprintf("%s read as %s", f.columns[i].role, c.Role))
		}
		if w := f.compareHours(&r, c, f.truth[i]); w != "" {
			wrong = append(wrong, w)
		}
	}
	if len(wrong) > 0 {
		return wrong
	}
	return append(f.compareGaps(r), f.compareOdd(r)...)
}

// leaveIdle forgets columns that are zero throughout: they need not be read.
func (f *formsFile) leaveIdle() {
	columns, truth := f.columns, f.truth
	f.columns, f.truth = nil, nil
	for i, c := range columns {
		if slices.Max(c.figures) > 0 {
			f.columns, f.truth = append(f.columns, c), append(f.truth, truth[i])
		}
	}
}

func told(r *record.Record, kind record.Kind) int {
	for _, o := range r.Oddities {
		if o.Kind == kind {
			return o.Count
		}
	}
	return 0
}

// compareHours goes over all hours of a channel and says what differs first.
func (f *formsFile) compareHours(r *record.Record, c record.Channel, truth map[int64]*formsHour) string {
	left := len(truth)
	var sum, want int64
	ugly := ""
	see := func(key int64, h record.Hour) {
		x := truth[key]
		f.print(c.Name, key, h, x)
		if x == nil {
			sum += int64(h.Energy)
			if h.Covered > f.slack() || f.slack() == 0 && h.Energy != 0 {
				ugly = "hours: one that has no reading"
			}
			return
		}
		left--
		if x.loose {
			return
		}
		sum, want = sum+int64(h.Energy), want+x.num/3600
		off := math.Abs(float64(h.Energy) - float64(x.num)/3600)
		tolerance := 2.0
		if x.shared {
			tolerance = 2 + float64(x.num)/3600/1e9
		}
		covers := int64(h.Covered) - x.covered*1000
		if f.slack() > 0 {
			tolerance += 0.3 * float64(f.most(c, key))
			if covers > -int64(f.slack()) && covers < int64(f.slack()) {
				covers = 0
			}
		}
		switch {
		case covers != 0 && ugly == "":
			ugly = "hours: coverage"
		case off > tolerance && ugly == "":
			ugly = "hours: energy"
		}
	}
	for d := range c.Days {
		day := &c.Days[d]
		for h, hour := range day.Hours {
			key := ((int64(c.First)+int64(d))*24 + int64(h)) * 2
			see(key, hour)
			if day.Turn > 0 && int(day.TurnAt) == h {
				see(key+1, day.Again)
			}
		}
	}
	if left > 0 && ugly == "" {
		ugly = "hours: some lack"
	}
	if ugly == "" && f.slack() > 0 && f.kind == "energy" && (sum-want > 2 || want-sum > 2) {
		ugly = "hours: total"
	}
	if ugly != "" && told(r, record.Reset) > 0 && f.modulus > 0 {
		return "roll-over told as a reset"
	}
	if ugly != "" && math.Abs(float64(sum-want)) > 1e-6*math.Abs(float64(want))+2+float64(f.slack())*1e3 {
		ugly += fmt.Sprintf(", total ×%.3g", float64(sum)/float64(want))
		if x := float64(sum) / float64(want); x > 0.5 && x < 1.9 {
			ugly = ugly[:len(ugly)-len(fmt.Sprintf("×%.3g", x))] + "a little"
		}
	}
	return ugly
}

// slack is how far, in milliseconds, the bounds of an hour's readings may be from
// the truth: their stamps are that uneven.
func (f *formsFile) slack() int32 {
	if f.has("jitter") {
		return 60_000
	}
	return 0
}

// most is the largest energy of an hour and those beside it.
func (f *formsFile) most(c record.Channel, key int64) (most int64) {
	for d, day := range c.Days {
		for h, hour := range day.Hours {
			if at := (int64(c.First)+int64(d))*24 + int64(h); at >= key/2-1 && at <= key/2+1 {
				most = max(most, int64(hour.Energy), int64(day.Again.Energy))
			}
		}
	}
	return most
}

// print shows an hour that differs, if that was asked for.
func (f *formsFile) print(name string, key int64, h record.Hour, x *formsHour) {
	if f.show && (x == nil && h.Covered != 0 || x != nil && (int64(h.Covered) != x.covered*1000 || math.Abs(float64(h.Energy)-float64(x.num)/3600) > 2)) {
		fmt.Printf("  %s %s %02d/%d: got %d %ds; want %+v\n", name, calendar.Day(key/48), key/2%24, key&1, h.Energy, h.Covered/1000, x)
	}
}
