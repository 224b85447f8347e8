package interval_test

import (
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/shopspring/decimal"

	"splittally/calc/calendar"
	"splittally/calc/interval"
	"splittally/calc/record"
	"splittally/calc/zone"
)

// trialFile reads a file of the trial data, and skips the test without them.
func trialFile(t *testing.T, path string) []byte {
	t.Helper()
	folder := os.Getenv("SPLITTALLY_TRIALS")
	if folder == "" {
		t.Skip("SPLITTALLY_TRIALS names no folder with long household series")
	}
	data, err := os.ReadFile(filepath.Join(folder, path))
	if err != nil {
		t.Fatal(err)
	}
	return data
}

// truth reads the truths of a folder of the trial data into v.
func truth(t *testing.T, folder string, v any) {
	t.Helper()
	if err := json.Unmarshal(trialFile(t, folder+"/truth.json"), v); err != nil {
		t.Fatal(err)
	}
}

// read reads a file in chunks of 64 kB.
func read(t *testing.T, name string, data []byte, o interval.Options) interval.Found {
	t.Helper()
	o.File, o.Bytes = name, int64(len(data))
	r := interval.New(o)
	for rest := data; len(rest) > 0; {
		n := min(64<<10, len(rest))
		if r.Write(rest[:n]) != nil {
			break
		}
		rest = rest[n:]
	}
	if settings, again := r.Again(); again {
		o.Settings = settings
		return read(t, name, data, o)
	}
	return r.Close()
}

// only gives the one record of a file.
func only(t *testing.T, f interval.Found) record.Record {
	t.Helper()
	if len(f.Problems) > 0 || len(f.Records) != 1 || !f.Records[0].Usable {
		t.Fatalf("%d records, problems %v, notices %q", len(f.Records), f.Problems, f.Notices)
	}
	return f.Records[0].Record
}

// all adds up a channel, in kWh, in a way that no sum is too large for.
func all(c record.Channel) decimal.Decimal {
	sum := decimal.Zero
	for _, d := range c.Days {
		for _, h := range append(d.Hours[:], d.Again) {
			sum = sum.Add(h.Energy.Decimal())
		}
	}
	return sum
}

// oddities writes them for a table.
func oddities(r record.Record) string {
	var out []string
	for _, o := range r.Oddities {
		out = append(out, fmt.Sprintf("%s %d", o.Kind, o.Count))
	}
	return strings.Join(out, ", ")
}

// unlike24 lists the days that are not of 24 hours.
func unlike24(c record.Channel) string {
	var out []string
	for i := range c.Days {
		if d := &c.Days[i]; d.Turn != 0 {
			out = append(out, fmt.Sprintf("%s %+d", c.First+calendar.Day(i), d.Turn))
		}
	}
	return strings.Join(out, ", ")
}

// wallText writes a time of the wall clock as the truths have it.
func wallText(ms int64) string {
	day := calendar.Day(ms / record.DayLength)
	rest := ms % record.DayLength / 1000
	return fmt.Sprintf("%s %02d:%02d:%02d", day, rest/3600, rest/60%60, rest%60)
}

// TestFilesOfColumns holds the totals of all files of columns to those that were
// worked out independently, beside the files.
func TestFilesOfColumns(t *testing.T) {
	for _, c := range []struct {
		file     string
		settings map[string]string
		kWh      string // of the first channel
		rows     int
		gaps     string
		turns    string
		odd      string
	}{
		{
			file: "house-uk-hourly/uk-electricity-sample-1.csv", settings: map[string]string{"column.1.unit": "kWh"}, kWh: "5554.8740002", rows: 22536,
			gaps: "2012-10-12 11:00:00–2012-10-12 11:30:00, 2012-11-02 19:30:00–2012-11-02 20:00:00, 2012-11-08 00:30:00–2012-11-09 00:30:00, 2012-12-11 14:30:00–2012-12-11 15:00:00, 2014-01-15 21:00:00–2014-01-15 21:30:00",
			odd:  "duplicate 15",
		},
		{file: "house-london-halfhourly/MAC002163.csv", kWh: "18484.5789945", rows: 29661, odd: "duplicate 20, out-of-order 1, no-figure 1"},
		{file: "houses-australia-halfhourly/house_B.csv", kWh: "6003.154", rows: 29902},
		{file: "houses-australia-halfhourly/house_C.csv", kWh: "5098.303", rows: 30373},
		{
			file: "house-illinois-hourly-daily-billing/il-electricity-cdd-hdd-hourly.csv", settings: map[string]string{"column.1.unit": "kWh"}, kWh: "21927.13", rows: 19417,
			turns: "2016-03-13 -1, 2016-11-06 +1, 2017-03-12 -1, 2017-11-05 +1",
		},
		{file: "house-france-hourly-voltage/derived_hourly_kwh_volts.csv", kWh: "37680.407", rows: 34589},
		{file: "grid-vic-halfhourly-dst/vic_2012_local_with_offset.csv", kWh: "83206359287.664", rows: 17568, turns: "2012-04-01 +1, 2012-10-07 -1"},
		{file: "grid-vic-halfhourly-dst/vic_2012_local_no_offset.csv", kWh: "83206359287.664", rows: 17568, turns: "2012-04-01 +1, 2012-10-07 -1"},
		{file: "grid-pjmw-hourly-dst/pjmw_2010_2012.csv", kWh: "144435397000", rows: 26297},
		{file: "meter-vs-bill/M1_intervals.csv", kWh: "36885.294", rows: 39168, turns: "2021-11-07 +1, 2022-03-13 -1"},
		{file: "meter-vs-bill/M5_intervals.csv", kWh: "26119.058", rows: 26112, turns: "2020-11-01 +1, 2021-03-14 -1, 2021-11-07 +1, 2022-03-13 -1, 2022-11-06 +1, 2023-03-12 -1"},
	} {
		t.Run(filepath.Base(c.file), func(t *testing.T) {
			r := only(t, read(t, filepath.Base(c.file), trialFile(t, c.file), interval.Options{Settings: c.settings}))
			ch := r.Channels[0]
			if got := all(ch); !got.Equal(decimal.RequireFromString(c.kWh)) || r.Source.Rows != c.rows {
				t.Errorf("%s kWh of %d readings, want %s of %d", got, r.Source.Rows, c.kWh, c.rows)
			}
			if got := unlike24(ch); c.turns != "" && got != c.turns {
				t.Errorf("days of 23 and 25 hours: %s, want %s", got, c.turns)
			}
			var gaps []string
			for _, g := range r.Gaps {
				gaps = append(gaps, wallText(g.From)+"–"+wallText(g.To))
			}
			if got := strings.Join(gaps, ", "); c.gaps != "" && got != c.gaps {
				t.Errorf("gaps %s\nwant %s", got, c.gaps)
			}
			if got := oddities(r); c.odd != "" && got != c.odd {
				t.Errorf("odd: %s, want %s", got, c.odd)
			}
			t.Logf("%s; %q; gaps %d; odd %s", r.Source.Zone, r.Source.Said, len(r.Gaps), oddities(r))
		})
	}
}

// vancouver has the clock of the file below, which lies between two changes.
var vancouver = zone.Rules{Name: "UTC−7", Before: -7 * 3600}

// TestPowerAndRegister reads both from one file: a circuit's watts, whose sum
// over minutes is its energy, and the register beside them.
func TestPowerAndRegister(t *testing.T) {
	var want struct {
		File struct {
			Power  float64            `json:"energy_from_power_wh"`
			First  int                `json:"register_first_wh"`
			Last   int                `json:"register_last_wh"`
			ByDay  map[string]float64 `json:"wh_by_local_day_from_power"`
			Energy int                `json:"register_energy_wh"`
		} `json:"B1E_week_2014-03-10.csv"`
	}
	truth(t, "circuit-canada-minute-voltage", &want)
	data := trialFile(t, "circuit-canada-minute-voltage/B1E_week_2014-03-10.csv")
	settings := map[string]string{
		"column.6.role": "import", "column.6.unit": "W", "column.6.kind": "power",
		"column.7.role": "circuit", "column.7.unit": "Wh", "column.7.kind": "register", "zone": "own",
	}
	r := only(t, read(t, "week.csv", data, interval.Options{Zone: vancouver, Settings: settings}))
	if len(r.Channels) != 2 {
		t.Fatalf("%d channels", len(r.Channels))
	}
	power, register := r.Channels[0], r.Channels[1]
	if got := all(power).Mul(decimal.NewFromInt(1000)).StringFixed(3); got != fmt.Sprintf("%.3f", want.File.Power) {
		t.Errorf("power came to %s Wh, want %.3f", got, want.File.Power)
	}
	if got := all(register).Mul(decimal.NewFromInt(1000)).String(); got != fmt.Sprint(want.File.Energy) {
		t.Errorf("the register advanced by %s Wh, want %d", got, want.File.Energy)
	}
	for i := range power.Days {
		day := (power.First + calendar.Day(i)).String()
		e, err := power.Days[i].Energy()
		if got := e.Decimal().Mul(decimal.NewFromInt(1000)).StringFixed(3); err != nil || got != fmt.Sprintf("%.3f", want.File.ByDay[day]) {
			t.Errorf("%s: %s Wh, want %.3f", day, got, want.File.ByDay[day])
		}
	}
}

// TestDailyTotalsArePasted: files of daily totals are texts to be pasted.
func TestDailyTotalsArePasted(t *testing.T) {
	for _, file := range []string{
		"gapfill-real-daily/daily_C_random10.csv", "gapfill-real-daily/daily_C_block3.csv", "pasted/15_bom_crlf.csv",
		"pasted/28_german_semicolon_sum_row.csv", "house-illinois-hourly-daily-billing/il-electricity-cdd-hdd-daily.csv",
	} {
		f := read(t, filepath.Base(file), trialFile(t, file), interval.Options{})
		if f.Text == "" || len(f.Records) > 0 || len(f.Problems) > 0 || strings.HasPrefix(f.Text, "\ufeff") {
			t.Errorf("%s: text of %d bytes, %d records, problems %v", file, len(f.Text), len(f.Records), f.Problems)
		}
	}
}
