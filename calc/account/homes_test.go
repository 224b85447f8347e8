package account

import (
	"bufio"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"splittally/calc/calendar"
	"splittally/calc/energy"
)

// source says how to read the days of a trial record.
type source struct {
	name, file string
	tuned      bool // the numbers of project.go were set on it
	stamp, kWh int
	layout     string
	back       time.Duration // how far the stamp lies after the start of its interval
	perDay     int
	copied     bool // days equal to the one before were copied by the publisher
}

var sources = []source{
	{name: "Australia B", file: "houses-australia-halfhourly/house_B.csv", tuned: true, kWh: 1, layout: time.DateTime, back: 30 * time.Minute, perDay: 48},
	{name: "Illinois", file: "house-illinois-hourly-daily-billing/il-electricity-cdd-hdd-daily.csv", tuned: true, kWh: 1, layout: time.RFC3339, perDay: 1},
	{name: "France", file: "house-france-hourly-voltage/derived_hourly_kwh_volts.csv", tuned: true, kWh: 1, layout: time.DateTime, perDay: 24, copied: true},
	{name: "business M5", file: "meter-vs-bill/M5_intervals.csv", tuned: true, kWh: 1, layout: "1/2/2006 3:04:05 PM", back: time.Hour, perDay: 24},
	{name: "Australia C", file: "houses-australia-halfhourly/house_C.csv", kWh: 1, layout: time.DateTime, back: 30 * time.Minute, perDay: 48},
	{name: "London", file: "house-london-halfhourly/MAC002163.csv", stamp: 2, kWh: 3, layout: "2006-01-02 15:04:05.0000000", back: 30 * time.Minute, perDay: 48},
	{name: "UK 1", file: "house-uk-hourly/uk-electricity-sample-1.csv", kWh: 1, layout: time.DateTime, back: 30 * time.Minute, perDay: 48},
	{name: "business M1", file: "meter-vs-bill/M1_intervals.csv", kWh: 1, layout: "1/2/2006 3:04:05 PM", back: 15 * time.Minute, perDay: 96},
}

// read sums the readings to whole days.
func (s source) read(t testing.TB, folder string) map[calendar.Day]float64 {
	t.Helper()
	f, err := os.Open(filepath.Join(folder, s.file))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	sums, counts, seen := map[calendar.Day]float64{}, map[calendar.Day]int{}, map[time.Time]bool{}
	for lines := bufio.NewScanner(f); lines.Scan(); {
		cells := strings.Split(lines.Text(), ",")
		if len(cells) <= s.kWh {
			continue
		}
		at, err := time.Parse(s.layout, strings.TrimSpace(cells[s.stamp]))
		kWh, bad := strconv.ParseFloat(strings.TrimSpace(cells[s.kWh]), 64)
		if err != nil || bad != nil || math.IsNaN(kWh) || seen[at] {
			continue
		}
		seen[at] = true
		at = at.Add(-s.back)
		d, _ := calendar.Date(at.Year(), int(at.Month()), at.Day())
		sums[d] += kWh
		counts[d]++
	}
	for d, n := range counts {
		if slack := s.perDay / 24; n < s.perDay-slack || n > s.perDay+slack {
			delete(sums, d)
		}
	}
	if s.copied {
		before := map[calendar.Day]float64{}
		for d, v := range sums {
			before[d] = v
		}
		for d := range sums {
			if v, ok := before[d-1]; ok && v == sums[d] {
				delete(sums, d)
			}
		}
	}
	return sums
}

// held counts how often the interval holds what the days to come used in fact.
type held struct{ in, of int }

func (h held) percent() float64 { return 100 * float64(h.in) / float64(h.of) }

// A stated 95 % must hold what the days to come used in fact 93 to 97 times in
// 100: pooled over homes that nobody tuned to, and over all, from four weeks of
// measured days. From fewer days it must not hold less than 92.
//
// The numbers in project.go were chosen with the tuned homes; the others were in
// sight, so they are no blind test.
func TestProjectionHolds(t *testing.T) {
	folder := os.Getenv("SPLITTALLY_TRIALS")
	if folder == "" {
		t.Skip("SPLITTALLY_TRIALS names no folder of trial records; TestProjectionOnMadeUpHomes checks made-up ones")
	}
	homes := map[string]map[calendar.Day]float64{}
	for _, s := range sources {
		homes[s.name] = s.read(t, folder)
	}
	for _, past := range []int{7, 14, 28} {
		for _, n := range []int{1, 5, 10, 20, 27} {
			var all, others held
			for _, s := range sources {
				h := coverage(homes[s.name], past, n)
				all.add(h)
				if !s.tuned {
					others.add(h)
				}
			}
			t.Logf("%2d days from %2d: all homes %.1f %%, others %.1f %% of %d", n, past, all.percent(), others.percent(), others.of)
			least, most := 93.0, 97.0
			if past < 28 {
				least, most = 92, 98
			}
			if all.percent() < least || all.percent() > most || others.percent() < least || others.percent() > most {
				t.Errorf("%d days from %d: held %.1f %% over all homes, %.1f %% over those not tuned to", n, past, all.percent(), others.percent())
			}
		}
	}
}

func (h *held) add(o held) { h.in, h.of = h.in+o.in, h.of+o.of }

// Made-up homes have a season, weather that lasts for days, a week, chance, and
// spells away.
func TestProjectionOnMadeUpHomes(t *testing.T) {
	var all held
	for i := range 60 {
		r := rand.New(rand.NewPCG(41, uint64(i)))
		home := map[calendar.Day]float64{}
		season, weather, week, chance := 0.3*r.Float64(), 0.25*r.Float64(), 0.3*r.Float64(), 0.05+0.3*r.Float64()
		sky, away := 0.0, 0
		for d := range 730 {
			sky = 0.8*sky + 0.6*r.NormFloat64()
			x := 1 + season*math.Cos(2*math.Pi*float64(d)/365) + weather*sky
			if d%7 > 4 {
				x += week
			}
			if x *= math.Exp(chance * r.NormFloat64()); away == 0 && r.Float64() < 0.01 {
				away = 3 + r.IntN(10)
			}
			if away > 0 {
				away--
				x = 0.25
			}
			home[calendar.Day(17000+d)] = 12 * math.Max(x, 0.05)
		}
		all.add(coverage(home, 28, 1+i%28))
	}
	t.Logf("held %.1f %% of %d", all.percent(), all.of)
	if all.percent() < 93 || all.percent() > 98.5 {
		t.Errorf("held %.1f %%", all.percent())
	}
}

func coverage(home map[calendar.Day]float64, hist, n int) (h held) {
	first, last := calendar.Day(1<<30), calendar.Day(0)
	for d := range home {
		first, last = min(first, d), max(last, d)
	}
	for through := first + 30; through+calendar.Day(n) <= last; through += 5 {
		var days []DayUse
		for d := through - 60; d <= through; d++ {
			if v, ok := home[d]; ok {
				e, _ := energy.FromKilowattHours(v)
				days = append(days, DayUse{d, e, true})
			}
		}
		days = days[max(0, len(days)-hist):]
		if len(days) < hist {
			continue
		}
		var to []calendar.Day
		truth, ok := 0.0, true
		for d := through + 1; d <= through+calendar.Day(n); d++ {
			v, known := home[d]
			ok = ok && known
			truth += v
			to = append(to, d)
		}
		if !ok {
			continue
		}
		p := project(days, through, to)
		sum := 0.0
		for _, e := range p.use {
			sum += e.KilowattHours()
		}
		h.of++
		if math.Abs(sum-truth) <= widen(p.standard, p.standard, p.dof, 0.95) {
			h.in++
		}
	}
	return h
}
