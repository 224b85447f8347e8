package fill

import (
	"bufio"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"splittally/calc/calendar"
	"splittally/calc/energy"
	"splittally/calc/ledger"
)

// hourlyHome is a home's record in intervals within the hour.
type hourlyHome struct {
	name   string
	tuned  bool
	step   int // minutes
	first  calendar.Day
	days   []intervals
	hourly ledger.Ledger // of the whole record
}

// intervals are a day's energies in kWh; nil if the day is not whole.
type intervals []float64

// hourSources are those of sources that hold intervals.
var hourSources = []source{
	{name: "Australia B", file: "houses-australia-halfhourly/house_B.csv", tuned: true, kWh: 1, layout: time.DateTime, back: 30 * time.Minute, perDay: 48},
	{name: "Australia C", file: "houses-australia-halfhourly/house_C.csv", kWh: 1, layout: time.DateTime, back: 30 * time.Minute, perDay: 48},
	{name: "London", file: "house-london-halfhourly/MAC002163.csv", stamp: 2, kWh: 3, layout: "2006-01-02 15:04:05.0000000", back: 30 * time.Minute, perDay: 48},
	{name: "UK 1", file: "house-uk-hourly/uk-electricity-sample-1.csv", kWh: 1, layout: time.DateTime, back: 30 * time.Minute, perDay: 48},
	{name: "France", file: "house-france-hourly-voltage/derived_hourly_kwh_volts.csv", tuned: true, kWh: 1, layout: time.DateTime, perDay: 24, copiedAlike: true},
	{name: "Illinois", file: "house-illinois-hourly-daily-billing/il-electricity-cdd-hdd-hourly.csv", kWh: 1, layout: time.RFC3339, perDay: 24},
	{name: "business M1", file: "meter-vs-bill/M1_intervals.csv", kWh: 1, layout: "1/2/2006 3:04:05 PM", back: 15 * time.Minute, perDay: 96},
	{name: "business M5", file: "meter-vs-bill/M5_intervals.csv", tuned: true, kWh: 1, layout: "1/2/2006 3:04:05 PM", back: time.Hour, perDay: 24},
}

func realHours(t testing.TB) []hourlyHome {
	t.Helper()
	folder := trialsFolder(t)
	var all []hourlyHome
	for _, s := range hourSources {
		all = append(all, s.readIntervals(t, folder))
	}
	return all
}

// readIntervals reads whole days of 24 hours.
func (s source) readIntervals(t testing.TB, folder string) hourlyHome {
	t.Helper()
	f, err := os.Open(filepath.Join(folder, s.file))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	step := 1440 / s.perDay
	days := map[calendar.Day]intervals{}
	for lines := bufio.NewScanner(f); lines.Scan(); {
		cells := strings.Split(lines.Text(), ",")
		if len(cells) <= s.kWh {
			continue
		}
		at, err := time.Parse(s.layout, strings.TrimSpace(cells[s.stamp]))
		kWh, bad := strconv.ParseFloat(strings.TrimSpace(cells[s.kWh]), 64)
		if err != nil || bad != nil || math.IsNaN(kWh) {
			continue
		}
		at = at.Add(-s.back)
		d, _ := calendar.Date(at.Year(), int(at.Month()), at.Day())
		if days[d] == nil {
			days[d] = slices.Repeat(intervals{math.NaN()}, s.perDay)
		}
		k := (at.Hour()*60 + at.Minute()) / step
		if math.IsNaN(days[d][k]) {
			days[d][k] = kWh
		}
	}
	h := hourlyHome{name: s.name, tuned: s.tuned, step: step}
	last := calendar.Day(0)
	for d := range days {
		if h.first == 0 || d < h.first {
			h.first = d
		}
		last = max(last, d)
	}
	h.days = make([]intervals, last-h.first+1)
	for d, day := range days {
		if !slices.ContainsFunc(day, math.IsNaN) {
			h.days[d-h.first] = day
		}
	}
	for i := len(h.days) - 1; s.copiedAlike && i > 0; i-- {
		if slices.Equal(h.days[i], h.days[i-1]) {
			h.days[i] = nil
		}
	}
	h.hourly = h.ledger(0, len(h.days), nil)
	return h
}

// ledger makes the ledger of days from up to before to, with an hour's slots.
// lost gives the part of an interval that is taken away.
func (h hourlyHome) ledger(from, to int, lost map[int]float64) ledger.Ledger {
	var l ledger.Ledger
	perHour := 60 / h.step
	for i := from; i < to; i++ {
		day := h.days[i]
		d := h.first + calendar.Day(i)
		if day == nil {
			l.Put(d, ledger.Entry{})
			continue
		}
		var sum energy.Energy
		short := 0.0
		n := len(l.Slots)
		for hr := range 24 {
			kWh, gone := 0.0, 0.0
			for k := range perHour {
				part := lost[i*len(day)+hr*perHour+k]
				kWh += day[hr*perHour+k] * (1 - part)
				gone += part * float64(h.step) / 60
			}
			if gone > 1-1e-9 {
				short++
				continue
			}
			e := measured(kWh).Energy
			sum += e
			short += gone
			l.Slots = append(l.Slots, ledger.Slot{Day: d, From: 60 * hr, To: 60 * (hr + 1), Energy: e, Short: int32(math.Round(gone * 3600000))})
		}
		e := ledger.Entry{State: ledger.Measured, Energy: sum}
		switch {
		case len(l.Slots) == n:
			e = ledger.Entry{}
		case short > 0:
			e.State, e.Hours = ledger.Partial, 24-short
		}
		l.Put(d, e)
	}
	return l
}
