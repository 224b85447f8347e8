package calc_test

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
)

// household is the true use of a home by the hour, from the midnight that
// begins a day. The days that its source lacks are those of a week before, so
// that the truth has no gaps.
type household struct {
	name  string
	hours []float64 // kWh; 24 for each day
}

func (h household) days() int { return len(h.hours) / 24 }

// recorded says how to read a file of a real household.
type recorded struct {
	name, file string
	stamp, kWh int // columns
	layout     string
	back       time.Duration // how far the stamp lies after the start of its interval
	perHour    int
}

var recordings = []recorded{
	{"Australia B", "houses-australia-halfhourly/house_B.csv", 0, 1, time.DateTime, 30 * time.Minute, 2},
	{"Australia C", "houses-australia-halfhourly/house_C.csv", 0, 1, time.DateTime, 30 * time.Minute, 2},
	{"London", "house-london-halfhourly/MAC002163.csv", 2, 3, "2006-01-02 15:04:05.0000000", 30 * time.Minute, 2},
	{"UK 1", "house-uk-hourly/uk-electricity-sample-1.csv", 0, 1, time.DateTime, 30 * time.Minute, 2},
	{"Illinois", "house-illinois-hourly-daily-billing/il-electricity-cdd-hdd-hourly.csv", 0, 1, time.RFC3339, 0, 1},
	{"France", "house-france-hourly-voltage/derived_hourly_kwh_volts.csv", 0, 1, time.DateTime, 0, 1},
	{"business M5", "meter-vs-bill/M5_intervals.csv", 0, 1, "1/2/2006 3:04:05 PM", time.Hour, 1},
	{"business M1", "meter-vs-bill/M1_intervals.csv", 0, 1, "1/2/2006 3:04:05 PM", 15 * time.Minute, 4},
}

// recordedHomes reads the trial records, or skips the test.
func recordedHomes(t testing.TB) []household {
	t.Helper()
	folder := os.Getenv("SPLITTALLY_TRIALS")
	if folder == "" {
		t.Skip("SPLITTALLY_TRIALS names no folder of trial records; made-up homes are judged by TestCausesOfMadeUpHomes")
	}
	var all []household
	for _, r := range recordings {
		h := household{r.name, r.read(t, folder)}
		if h.days() < 300 {
			t.Fatalf("%s: only %d days", r.name, h.days())
		}
		all = append(all, h)
	}
	return all
}

// read gives the hours of the record without gaps.
func (r recorded) read(t testing.TB, folder string) []float64 {
	t.Helper()
	f, err := os.Open(filepath.Join(folder, r.file))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	kWh, count, seen := map[int64]float64{}, map[int64]int{}, map[time.Time]bool{}
	first, last := int64(math.MaxInt64), int64(math.MinInt64) // days since 1970
	for lines := bufio.NewScanner(f); lines.Scan(); {
		cells := strings.Split(lines.Text(), ",")
		if len(cells) <= max(r.kWh, r.stamp) {
			continue
		}
		at, err := time.Parse(r.layout, strings.TrimSpace(cells[r.stamp]))
		x, bad := strconv.ParseFloat(strings.TrimSpace(cells[r.kWh]), 64)
		if err != nil || bad != nil || math.IsNaN(x) || x < 0 || seen[at] {
			continue
		}
		seen[at] = true
		at = at.Add(-r.back)
		// The clock as written, whatever its zone.
		wall := time.Date(at.Year(), at.Month(), at.Day(), at.Hour(), 0, 0, 0, time.UTC)
		hour := wall.Unix() / 3600
		kWh[hour] += x
		count[hour]++
		first, last = min(first, hour/24), max(last, hour/24)
	}
	var hours []float64
	for d := first; d <= last; d++ {
		whole, sum := 0, 0.0
		for h := 24 * d; h < 24*d+24; h++ {
			if count[h] >= r.perHour {
				whole++
			}
			sum += kWh[h]
		}
		switch n := len(hours); {
		case whole >= 23 && sum > 0.3: // 23 where summer time begins; a dead record is no home
			for h := 24 * d; h < 24*d+24; h++ {
				hours = append(hours, kWh[h])
			}
		case n >= 7*24:
			hours = append(hours, hours[n-7*24:n-6*24]...)
		}
	}
	return hours
}

// madeUpHomes draws households with a season, weather that lasts, a week, days
// away and a daily round of mealtimes.
func madeUpHomes(n, days int, seed uint64) []household {
	var all []household
	for i := range n {
		r := rand.New(rand.NewPCG(seed, uint64(i)))
		h := household{name: "made-up " + strconv.Itoa(i+1)}
		base, season, weather := 6+24*r.Float64(), 0.3*r.Float64(), 0.25*r.Float64()
		week, chance, phase := 0.3*r.Float64(), 0.05+0.2*r.Float64(), 365*r.Float64()
		sky, away := 0.0, 0
		for d := range days {
			sky = 0.8*sky + 0.6*r.NormFloat64()
			x := 1 + season*math.Cos(2*math.Pi*(float64(d)-phase)/365) + weather*sky
			if d%7 > 4 {
				x += week
			}
			x *= math.Exp(chance * r.NormFloat64())
			if away == 0 && r.Float64() < 0.005 {
				away = 2 + r.IntN(8)
			}
			if away > 0 {
				away--
				x = 0.3
			}
			h.hours = append(h.hours, roundOfHours(r, base*max(0.1, x))...)
		}
		all = append(all, h)
	}
	return all
}

// roundOfHours spreads a day's energy over its hours: low at night, high in
// the morning and the evening.
func roundOfHours(r *rand.Rand, day float64) []float64 {
	hours, sum := make([]float64, 24), 0.0
	for i := range hours {
		at := float64(i)
		usual := 0.4 + math.Exp(-(at-8)*(at-8)/6) + 1.5*math.Exp(-(at-19)*(at-19)/10)
		hours[i] = usual * math.Exp(0.5*r.NormFloat64())
		sum += hours[i]
	}
	for i := range hours {
		hours[i] *= day / sum
	}
	return hours
}

// madeUp are the made-up homes of most trials.
var madeUp = madeUpHomes(20, 500, 3)
