package espi

import (
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"splittally/calc/calendar"
	"splittally/calc/energy"
	"splittally/calc/record"
	"splittally/calc/zone"
)

// truth is what another reader found in a feed of the trial data.
type truth struct {
	Series []struct {
		UsagePoint string             `json:"usage_point"`
		Blocks     int                `json:"blocks"`
		Readings   int                `json:"readings"`
		RawSum     int64              `json:"raw_sum"`
		Total      float64            `json:"total_in_base_unit"`
		First      int64              `json:"first_start_epoch"`
		End        int64              `json:"end_epoch"`
		CostSum    int64              `json:"cost_raw_sum"`
		CostCount  int                `json:"cost_count"`
		Repeated   int                `json:"duplicate_starts"`
		Negative   int                `json:"negative_values"`
		Gaps       int                `json:"gap_count"`
		GapSeconds int64              `json:"gap_seconds_total"`
		Qualities  map[string]int     `json:"reading_quality"`
		Days       map[string]float64 `json:"kwh_by_local_day"`
		Type       struct {
			Uom, Flow int
		} `json:"reading_type"`
	} `json:"series"`
	Summaries []struct {
		Start     string                 `json:"billing_start"`
		Length    int64                  `json:"billing_duration_s"`
		Bill      *int64                 `json:"billLastPeriod"`
		Last      *struct{ Value int64 } `json:"overallConsumptionLastPeriod"`
		Current   *struct{ Value int64 } `json:"currentBillingPeriodOverAllConsumption"`
		Commodity int
	} `json:"usage_summaries"`
	ParseError string `json:"parse_error"`
	Zone       string `json:"time_zone_used_for_daily_sums"`
}

// trials gives the trial data, by the names of files.
func trials(t *testing.T) (files map[string][]byte, truths map[string]truth) {
	t.Helper()
	root := os.Getenv("SPLITTALLY_TRIALS")
	if root == "" {
		t.Skip("SPLITTALLY_TRIALS does not name a folder of trial data")
	}
	files, truths = map[string][]byte{}, map[string]truth{}
	for _, folder := range []string{"espi-standard-samples", "espi-edge", "espi-utility-downloads"} {
		text, err := os.ReadFile(filepath.Join(root, folder, "truth.json"))
		if err != nil {
			t.Fatal(err)
		}
		if err := json.Unmarshal(text, &truths); err != nil {
			t.Fatal(err)
		}
		names, _ := filepath.Glob(filepath.Join(root, folder, "*.xml"))
		for _, name := range names {
			if files[filepath.Base(name)], err = os.ReadFile(name); err != nil {
				t.Fatal(err)
			}
		}
	}
	return files, truths
}

// readWith reads a feed in one piece, or in pieces of n bytes.
func readWith(text []byte, o Options, n int) (Result, *Reader) {
	r := NewReader(o)
	for rest := text; len(rest) > 0; {
		k := len(rest)
		if n > 0 {
			k = min(n, k)
		}
		if r.Write(rest[:k]) != nil {
			break
		}
		rest = rest[k:]
	}
	return r.Close(), r
}

// TestTrials compares each feed of the trial data with what another reader found,
// to the last watt-hour. Times are trusted as they are, as that reader did.
func TestTrials(t *testing.T) {
	files, truths := trials(t)
	if len(files) < 18 {
		t.Fatalf("%d feeds, want 21", len(files))
	}
	for name, text := range files {
		t.Run(name, func(t *testing.T) {
			want := truths[name]
			o := Options{Zone: zone.Rules{Name: "UTC"}}
			if want.Zone != "" {
				o.Settings = map[string]string{zoneSetting: fromFeed}
			}
			result, r := readWith(text, o, 0)
			if want.ParseError != "" {
				if len(result.Problems) == 0 || result.Problems[0].Line != 56 || result.Problems[0].Column != 1 {
					t.Errorf("problems %v, want one in line 56, column 1: %s", result.Problems, want.ParseError)
				}
				return
			}
			if len(result.Problems) > 0 {
				t.Errorf("problems %v", result.Problems)
			}
			checkSeries(t, want, r)
			checkDays(t, want, result)
			checkBills(t, want, result)
		})
	}
}

func checkSeries(t *testing.T, want truth, r *Reader) {
	t.Helper()
	if len(r.tracks) != len(want.Series) {
		t.Fatalf("%d series, want %d", len(r.tracks), len(want.Series))
	}
	for i, w := range want.Series {
		got := r.tracks[i]
		if !strings.HasSuffix(got.key, w.UsagePoint) {
			t.Errorf("series of %s, want %s", got.key, w.UsagePoint)
		}
		if got.readings != w.Readings || got.total != w.RawSum*got.factor || got.first != w.First || got.end != w.End || got.cost != w.CostSum || got.costs != w.CostCount {
			t.Errorf("%d readings, %d, from %d to %d, cost %d of %d; want %+v", got.readings, got.total/got.factor, got.first, got.end, got.cost, got.costs, w)
		}
		p := r.partOf(got)
		if total := fixed(got.total, decimals(got.factor)-got.typed.power); math.Abs(float(total)-w.Total) > 5e-7*w.Total {
			t.Errorf("total %s, want %v", total, w.Total)
		}
		if p.point < 0 || p.meter < 0 {
			t.Errorf("usage point %d, meter reading %d", p.point, p.meter)
		}
		for q, n := range w.Qualities {
			if got.qualities[int(float(q))] != n {
				t.Errorf("%d readings of quality %s, want %d", got.qualities[int(float(q))], q, n)
			}
		}
	}
}

func float(text string) (f float64) {
	_ = json.Unmarshal([]byte(text), &f)
	return f
}

// checkDays compares the days of channels, less readings that come twice.
func checkDays(t *testing.T, want truth, result Result) {
	t.Helper()
	var channels []record.Channel
	repeated, gaps, gapSeconds := 0, 0, int64(0)
	for _, m := range result.Meters {
		channels = append(channels, m.Record.Channels...)
		for _, o := range m.Record.Oddities {
			if o.Kind == record.Duplicate {
				repeated += o.Count
			}
		}
		for _, g := range m.Record.Gaps {
			gaps++
			gapSeconds += g.Length / 1000
		}
	}
	n := 0
	for _, w := range want.Series {
		if w.Type.Uom != wattHours {
			continue
		}
		if n >= len(channels) {
			t.Fatalf("%d channels, want more", len(channels))
		}
		c := channels[n]
		n++
		var sum energy.Energy
		for i := range c.Days {
			e, err := c.Days[i].Energy()
			if err != nil {
				t.Fatal(err)
			}
			sum += e
			if w.Days == nil || w.Repeated > 0 {
				continue
			}
			day := (c.First + calendar.Day(i)).String()
			if kWh := w.Days[day]; e != energy.Energy(math.Round(kWh*1000))*energy.WattHour {
				t.Errorf("%s: %v, want %v kWh", day, e, kWh)
			}
		}
		if w.Days != nil && w.Repeated == 0 && len(c.Days) != len(w.Days) {
			t.Errorf("%d days, want %d", len(c.Days), len(w.Days))
		}
		lost := energy.Energy(0)
		if w.Repeated > 0 { // its one repeated reading has 2745 Wh
			lost = 2745 * energy.WattHour
		}
		if sum+lost != energy.Energy(w.RawSum)*energy.WattHour {
			t.Errorf("hours sum to %v, want %d Wh", sum, w.RawSum)
		}
		if repeated != w.Repeated || len(want.Series) == 1 && (gaps != w.Gaps || gapSeconds != w.GapSeconds) {
			t.Errorf("%d repeated, %d gaps of %d s; want %d, %d of %d", repeated, gaps, gapSeconds, w.Repeated, w.Gaps, w.GapSeconds)
		}
	}
}

func checkBills(t *testing.T, want truth, result Result) {
	t.Helper()
	n := 0
	for _, w := range want.Summaries {
		if w.Commodity == 7 || w.Last == nil && w.Current == nil {
			continue
		}
		if len(want.Series) > 0 && want.Series[0].Type.Uom != wattHours {
			continue
		}
		if n >= len(result.Bills) {
			t.Fatalf("%d bills, want more", len(result.Bills))
		}
		b := result.Bills[n]
		n++
		if w.Last != nil && b.KWh != fixed(w.Last.Value, 3) {
			t.Errorf("bill of %s kWh, want %d Wh", b.KWh, w.Last.Value)
		}
		if w.Bill != nil && b.Total != money(*w.Bill) {
			t.Errorf("bill of %s, want %d", b.Total, *w.Bill)
		}
		place, err := time.LoadLocation(want.Zone)
		begin, _ := time.Parse(time.RFC3339, w.Start)
		if err != nil || w.Length < shortestBill {
			continue
		}
		end := begin.Add(time.Duration(w.Length-1) * time.Second)
		if from, to := begin.In(place).Format("2006-01-02"), end.In(place).Format("2006-01-02"); b.From != from || b.To != to {
			t.Errorf("bill from %s to %s, want %s to %s", b.From, b.To, from, to)
		}
	}
	if n != len(result.Bills) {
		t.Errorf("%d bills, want %d", len(result.Bills), n)
	}
}

// TestClocks: some feeds do not say whose clock their days are by, or say it
// wrongly. Of the first two the owner asked for whole local days, in summer time
// and in winter.
func TestClocks(t *testing.T) {
	files, _ := trials(t)
	for _, c := range []struct {
		name, set, taken, first, end string
		sure                         bool
	}{
		{"us-midwest_15min_month.xml", "", fromStandard, "2023-09-15 00:00", "2023-10-16 00:00", false},
		{"us-midwest_15min_month.xml", fromFeed, fromFeed, "2023-09-14 18:00", "2023-10-15 18:00", true},
		{"us-midwest_15min_oneday.xml", "", fromStandard, "2023-12-04 00:00", "2023-12-05 00:00", false},
		{"us_hourly_23days_2019.xml", "", asWritten, "2019-10-01 00:00", "2019-10-24 00:00", false},
		{"us_hourly_23days_2019.xml", ownClock, ownClock, "2019-09-30 20:00", "2019-10-23 20:00", true},
		{"us_hourly_23days_2019.xml", fromFeed, asWritten, "2019-10-01 00:00", "2019-10-24 00:00", false}, // it has none
		{"hourlyForMonthMar.xml", "", fromFeed, "2011-03-01 00:00", "2011-04-01 00:00", true},
	} {
		result, r := readWith(files[c.name], Options{Zone: ownZone, Settings: map[string]string{zoneSetting: c.set}}, 0)
		s := result.Settings[0]
		if s.Taken != c.taken || s.Sure != c.sure || !s.Sure && s.Why == "" {
			t.Errorf("%s set to %q: %q, sure %v %q; want %q, %v", c.name, c.set, s.Taken, s.Sure, s.Why, c.taken, c.sure)
		}
		track := r.tracks[0]
		clock := r.clockFor(s.Taken, r.clockOf(0), track)
		if first, end := wallText(clock.wall(track.first)), wallText(clock.wall(track.end)); first != c.first || end != c.end {
			t.Errorf("%s set to %q: from %s to %s, want %s to %s", c.name, c.set, first, end, c.first, c.end)
		}
		if first := result.Meters[0].Rows[0][0]; first != c.first {
			t.Errorf("%s set to %q: the first reading is at %s, want %s", c.name, c.set, first, c.first)
		}
	}
}
