package fill

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
	"splittally/calc/ledger"
)

// home is the daily record of a real or made-up household.
type home struct {
	name  string
	tuned bool // the numbers in likeness.go and choose.go were set on it
	daily ledger.Ledger
}

// source says how to read a file of readings.
type source struct {
	name, file  string
	tuned       bool
	stamp, kWh  int           // columns
	layout      string        // of the stamp
	back        time.Duration // how far the stamp lies after the start of its interval
	perDay      int           // readings of a complete day
	copiedAlike bool          // days equal to the one before were copied by the publisher
}

// sources lists the trial records. Those marked tuned were used to set the
// numbers; the others only to check them.
var sources = []source{
	{name: "Australia B", file: "houses-australia-halfhourly/house_B.csv", tuned: true, kWh: 1, layout: time.DateTime, back: 30 * time.Minute, perDay: 48},
	{name: "Illinois", file: "house-illinois-hourly-daily-billing/il-electricity-cdd-hdd-daily.csv", tuned: true, kWh: 1, layout: time.RFC3339, perDay: 1},
	{name: "France", file: "house-france-hourly-voltage/derived_hourly_kwh_volts.csv", tuned: true, kWh: 1, layout: time.DateTime, perDay: 24, copiedAlike: true},
	{name: "business M5", file: "meter-vs-bill/M5_intervals.csv", tuned: true, kWh: 1, layout: "1/2/2006 3:04:05 PM", back: time.Hour, perDay: 24},
	{name: "Australia C", file: "houses-australia-halfhourly/house_C.csv", kWh: 1, layout: time.DateTime, back: 30 * time.Minute, perDay: 48},
	{name: "London", file: "house-london-halfhourly/MAC002163.csv", stamp: 2, kWh: 3, layout: "2006-01-02 15:04:05.0000000", back: 30 * time.Minute, perDay: 48},
	{name: "UK 1", file: "house-uk-hourly/uk-electricity-sample-1.csv", kWh: 1, layout: time.DateTime, back: 30 * time.Minute, perDay: 48},
	{name: "business M1", file: "meter-vs-bill/M1_intervals.csv", kWh: 1, layout: "1/2/2006 3:04:05 PM", back: 15 * time.Minute, perDay: 96},
}

// trialsFolder gives the folder of trial records, or skips the test.
func trialsFolder(t testing.TB) string {
	t.Helper()
	folder := os.Getenv("SPLITTALLY_TRIALS")
	if folder == "" {
		t.Skip("SPLITTALLY_TRIALS names no folder of trial records; the made-up homes are checked by TestCoverageOnMadeUpHomes")
	}
	return folder
}

func realHomes(t testing.TB) []home {
	t.Helper()
	folder := trialsFolder(t)
	var all []home
	for _, s := range sources {
		all = append(all, home{s.name, s.tuned, s.read(t, folder)})
	}
	return all
}

// read sums the readings to complete days; days that lack more than an hour
// are missing.
func (s source) read(t testing.TB, folder string) ledger.Ledger {
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
	var l ledger.Ledger
	slack := s.perDay / 24
	for d, n := range counts {
		if n >= s.perDay-slack && n <= s.perDay+slack {
			l.Put(d, measured(sums[d]))
		}
	}
	for i := len(l.Days) - 1; s.copiedAlike && i > 0; i-- {
		if l.Days[i].Energy == l.Days[i-1].Energy {
			l.Days[i] = ledger.Entry{}
		}
	}
	return l
}

func measured(kWh float64) ledger.Entry {
	e, err := energy.FromKilowattHours(math.Round(kWh*1000) / 1000)
	if err != nil {
		panic(err)
	}
	return ledger.Entry{State: ledger.Measured, Energy: e, Rounding: energy.WattHour / 2}
}

// seeded gives a random source of its own for each number.
func seeded(n uint64) *rand.Rand { return rand.New(rand.NewPCG(29, n)) }

// madeUp gives n homes of so many days, each with its own base load, season,
// weather, week, days away and loads that come by chance.
func madeUp(n, days int, seed uint64) []home {
	var all []home
	for i := range n {
		r := rand.New(rand.NewPCG(seed, uint64(i)))
		h := home{name: "made-up " + strconv.Itoa(i+1)}
		base, season := 5+20*r.Float64(), 0.3*r.Float64()
		weather, fade := 0.25*r.Float64(), 0.6+0.35*r.Float64()
		week, chance, away := 0.4*r.Float64()*r.Float64(), 0.05+0.3*r.Float64(), 0.01*r.Float64()
		sky, gone, phase := 0.0, 0, 365*r.Float64()
		for d := range days {
			sky = fade*sky + math.Sqrt(1-fade*fade)*r.NormFloat64()
			x := 1 + season*math.Cos(2*math.Pi*(float64(d)-phase)/365) + weather*sky
			if d%7 > 4 {
				x += week
			}
			x *= math.Exp(chance * r.NormFloat64())
			if gone == 0 && r.Float64() < away {
				gone = 2 + r.IntN(10)
			}
			if gone > 0 {
				gone--
				x = 0.25 + 0.02*r.NormFloat64()
			}
			h.daily.Put(calendar.Day(15000+d), measured(base*max(0.05, x)))
		}
		all = append(all, h)
	}
	return all
}
