package billing

import (
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/shopspring/decimal"

	"splittally/calc/calendar"
)

// A real meter's hourly readings against the bills of the same meter: the
// error between the two is zero, so the days taken from the bills are right if
// the sums come out. They do to a kilowatt-hour, the rounding of the bill. (The
// bills after August 2022 are net of generation credits and left out, and so
// are the two of June and July 2022 that share one reading period by days.)
func TestBillsOfARealMeter(t *testing.T) {
	folder := os.Getenv("SPLITTALLY_TRIALS")
	if folder == "" {
		t.Skip("SPLITTALLY_TRIALS names no folder of trial records")
	}
	daily := map[calendar.Day]decimal.Decimal{}
	for _, r := range intervals(t, folder, "M5_intervals.csv") {
		begin := r.end.Add(-time.Hour) // what ends at midnight belongs to the day before
		daily[civil(begin)] = daily[civil(begin)].Add(r.kWh)
	}
	r := Read(bills(t, folder, "M5_bills.csv", ""), Options{})
	for _, q := range r.Questions {
		if !strings.HasSuffix(q.ID, ".net") { // a bill of 0 kWh is asked about
			t.Errorf("question %v: the bills show how they count", q)
		}
	}
	checked := 0
	for i, s := range r.Statements {
		if s.Convention != BothBelong || !s.Dated {
			t.Errorf("bill %d: %s by %s, want both dates to belong", i+1, s.Convention, s.Basis)
		}
		if year, month, _ := s.Span.Last().Date(); year > 2022 || month > 8 && year == 2022 || i == 9 || i == 10 {
			continue
		}
		var sum decimal.Decimal
		for d := s.Span.First; d < s.Span.End; d++ {
			sum = sum.Add(daily[d])
		}
		if difference := sum.Sub(s.Reference.Decimal()); difference.Abs().GreaterThan(decimal.NewFromInt(1)) {
			t.Errorf("bill %d, %s: the readings add up to %s kWh, the bill says %s", i+1, s.Span, sum, s.Reference)
		}
		checked++
	}
	if checked != 10 {
		t.Errorf("%d bills checked, want 10", checked)
	}
}

// Another meter of the same utility was read during the day, at no hour that
// anyone has printed. Its bills say that both dates belong. The quarter hours
// come near the bills only if the reads were taken in the morning of the last
// date: 8 o'clock leaves a tenth of what midnight leaves, and 8 o'clock of the
// day after leaves more than that.
func TestReadHourOfARealMeter(t *testing.T) {
	folder := os.Getenv("SPLITTALLY_TRIALS")
	if folder == "" {
		t.Skip("SPLITTALLY_TRIALS names no folder of trial records")
	}
	quarters := intervals(t, folder, "M1_intervals.csv")
	apart := func(hour string, later float64) float64 {
		sum, n := 0.0, 0
		for _, s := range Read(bills(t, folder, "M1_bills.csv", hour), Options{}).Statements[:8] {
			offset := time.Duration((s.ReadOffset + later) * float64(time.Hour))
			off := between(quarters, midnight(s.Span.First).Add(offset), midnight(s.Span.End).Add(offset)) - s.Reference.KilowattHours()
			sum += off * off
			n++
		}
		return math.Sqrt(sum / float64(n))
	}
	morning, night, dayAfter := apart("8:00", 0), apart("24", 0), apart("8:00", 24)
	t.Logf("read at 8 of the last date %.1f kWh apart, at its end %.1f, at 8 of the day after %.1f", morning, night, dayAfter)
	if morning > night/8 || dayAfter < night {
		t.Error("the reads were not taken in the morning of the last date")
	}
}

// interval is the energy of the time up to its end.
type interval struct {
	end time.Time
	kWh decimal.Decimal
}

func intervals(t *testing.T, folder, name string) (all []interval) {
	t.Helper()
	for _, row := range rows(t, filepath.Join(folder, "meter-vs-bill", name)) {
		end, err := time.Parse("1/2/2006 3:04:05 PM", row[0])
		if err != nil {
			t.Fatal(err)
		}
		all = append(all, interval{end, decimal.RequireFromString(row[1])})
	}
	return all
}

func bills(t *testing.T, folder, name, hour string) (periods []Period) {
	t.Helper()
	for _, row := range rows(t, filepath.Join(folder, "meter-vs-bill", name)) {
		periods = append(periods, Period{From: row[1], To: row[2], KWh: row[3], ReadHour: hour})
	}
	return periods
}

// between adds up what was used after from and up to to, in kWh.
func between(all []interval, from, to time.Time) float64 {
	sum := decimal.Zero
	for _, r := range all {
		if r.end.After(from) && !r.end.After(to) {
			sum = sum.Add(r.kWh)
		}
	}
	return sum.InexactFloat64()
}

func civil(at time.Time) calendar.Day {
	d, _ := calendar.Date(at.Year(), int(at.Month()), at.Day())
	return d
}

func midnight(d calendar.Day) time.Time { return time.Unix(int64(d)*86400, 0).UTC() }

// rows reads a CSV file without its header.
func rows(t *testing.T, name string) [][]string {
	t.Helper()
	f, err := os.Open(name)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	all, err := csv.NewReader(f).ReadAll()
	if err != nil || len(all) < 2 {
		t.Fatalf("%s: %d rows, %v", name, len(all), err)
	}
	return all[1:]
}
