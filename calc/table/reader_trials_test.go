package table

import (
	"encoding/json"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"splittally/calc/calendar"
	"splittally/calc/energy"
	"splittally/calc/record"
	"splittally/calc/series"
	"splittally/calc/zone"
)

// truth is what the trial data say of a file: numbers by the path of their names.
type truth map[string]any

// at gives what stands at a path.
func (v truth) at(t *testing.T, path ...string) any {
	t.Helper()
	var here any = map[string]any(v)
	for _, name := range path {
		of, ok := here.(map[string]any)
		if here = of[name]; !ok || here == nil {
			t.Fatal("no", path)
		}
	}
	return here
}

// readTrial reads a file of the trial data, and what is true of it.
func readTrial(t *testing.T, folder, name string, change func(*Layout)) (Table, truth) {
	t.Helper()
	dir := os.Getenv("SPLITTALLY_TRIALS")
	if dir == "" {
		t.Skip("SPLITTALLY_TRIALS names no folder with long series of readings")
	}
	data, err := os.ReadFile(filepath.Join(dir, folder, name))
	if err != nil {
		t.Fatal(err)
	}
	l, _, err := Find(data, false, nil)
	if err != nil {
		t.Fatal(err)
	}
	if change != nil {
		change(&l)
	}
	r := NewReader(l, &zone.Rules{Before: -7 * 3600}) // Vancouver in the week of the one file that needs it
	if err := r.Write(data); err != nil {
		t.Fatal(err)
	}
	table, err := r.Close()
	if err != nil {
		t.Fatal(err)
	}
	text, err := os.ReadFile(filepath.Join(dir, folder, "truth.json"))
	if err != nil {
		t.Fatal(err)
	}
	var v truth
	if err := json.Unmarshal(text, &v); err != nil {
		t.Fatal(err)
	}
	return table, v
}

// sums adds the hours of a channel up, in kWh, by the first letters of their days: 10 for
// days, 7 for months, 0 for all.
func (t *Table) sums(channel, letters int) map[string]float64 {
	sums := map[string]float64{}
	for k, d := range t.Channels[channel] {
		name := (t.First + calendar.Day(k)).String()[:letters]
		for _, h := range d.Hours {
			sums[name] += h.Energy.KilowattHours() // a country's year is more than an Energy holds
		}
		sums[name] += d.Again.Energy.KilowattHours()
	}
	return sums
}

// holds compares sums in kWh with a truth in units of so many kWh, to the last
// digit that the truth can have.
func holds(t *testing.T, what string, got map[string]float64, want any, unit, digit float64) {
	t.Helper()
	all, ok := want.(map[string]any)
	if !ok {
		all = map[string]any{"": want}
	}
	for name, v := range all {
		if list, ok := v.([]any); ok {
			v = list[0]
		}
		kWh := got[name]
		if math.Abs(kWh/unit-v.(float64)) > digit*0.51 {
			t.Errorf("%s %s: %v, want %v", what, name, kWh/unit, v)
		}
	}
	for name := range got {
		if _, ok := all[name]; !ok && got[name] != 0 {
			t.Errorf("%s %s: %v, want nothing", what, name, got[name])
		}
	}
}

// turnsOf lists the days of 23 and 25 hours.
func (t *Table) turnsOf() string {
	var out []string
	for k, d := range t.Channels[0] {
		if d.Turn != 0 {
			out = append(out, fmt.Sprintf("%s %+d", t.First+calendar.Day(k), d.Turn))
		}
	}
	return strings.Join(out, ", ")
}

func (t *Table) oddities() string {
	var out []string
	for _, o := range t.Oddities {
		if o.Kind != record.ClockOn && o.Kind != record.ClockBack {
			out = append(out, fmt.Sprint(o.Kind, " ", o.Count))
		}
	}
	return strings.Join(out, ", ")
}

func same(t *testing.T, what, got, want string) {
	t.Helper()
	if got != want {
		t.Errorf("%s: %s, want %s", what, got, want)
	}
}

func TestTrialFiles(t *testing.T) {
	t.Run("grid, hours lost in autumn", func(t *testing.T) {
		table, v := readTrial(t, "grid-pjmw-hourly-dst", "pjmw_2010_2012.csv", nil)
		holds(t, "month", table.sums(0, 7), v.at(t, "pjmw_2010_2012.csv", "sum_by_month"), 1000, 1)
		holds(t, "sum", table.sums(0, 0), v.at(t, "pjmw_2010_2012.csv", "sum"), 1000, 1)
		same(t, "turns", table.turnsOf(), "2010-03-14 -1, 2011-03-13 -1, 2012-03-11 -1")
		same(t, "gaps", fmt.Sprint(len(table.Gaps)), "4")
	})
	for _, name := range []string{"vic_2012_local_no_offset.csv", "vic_2012_local_with_offset.csv"} {
		t.Run(name, func(t *testing.T) {
			table, v := readTrial(t, "grid-vic-halfhourly-dst", name, nil)
			holds(t, "day", table.sums(0, 10), v.at(t, "2012", "mwh_by_day_local"), 1000, 0.0001)
			holds(t, "month", table.sums(0, 7), v.at(t, "2012", "mwh_by_month_local"), 1000, 0.0001)
			same(t, "turns", table.turnsOf(), "2012-04-01 +1, 2012-10-07 -1")
			same(t, "gaps and oddities", fmt.Sprint(len(table.Gaps), table.oddities()), "0")
			same(t, "rows", fmt.Sprint(table.Rows), "17568")
		})
	}
	t.Run("French home", func(t *testing.T) {
		table, v := readTrial(t, "house-france-hourly-voltage", "derived_hourly_kwh_volts.csv", nil)
		holds(t, "day", table.sums(0, 10), v.at(t, "kwh_by_day"), 1, 0.001)
		holds(t, "sum", table.sums(0, 0), v.at(t, "total_kwh_of_derived_file"), 1, 0.001)
		same(t, "gaps and oddities", fmt.Sprint(len(table.Gaps), table.oddities()), "0")
	})
	t.Run("home in Illinois", func(t *testing.T) {
		table, v := readTrial(t, "house-illinois-hourly-daily-billing", "il-electricity-cdd-hdd-hourly.csv", nil)
		holds(t, "sum", table.sums(0, 0), v.at(t, "il-electricity-cdd-hdd-hourly.csv", "sum_of_numeric_rows"), 1, 0.01)
		same(t, "turns", table.turnsOf(), "2016-03-13 -1, 2016-11-06 +1, 2017-03-12 -1, 2017-11-05 +1")
		same(t, "gaps and oddities", fmt.Sprint(len(table.Gaps), table.oddities()), "0")
	})
	t.Run("home in London", func(t *testing.T) {
		table, v := readTrial(t, "house-london-halfhourly", "MAC002163.csv", nil)
		holds(t, "day", table.sums(0, 10), v.at(t, "kwh_by_day_utc"), 1, 0.001)
		holds(t, "sum", table.sums(0, 0), v.at(t, "total_kwh_deduplicated"), 1, 0.001)
		same(t, "oddities", table.oddities(), "duplicate 20, out-of-order 1, no-figure 1")
		same(t, "gaps", fmt.Sprint(table.Gaps), "[{1385380800000 1385389800000 9000000 0 kWh false}]") // 25 Nov 2013 12:00 to 14:30
		same(t, "turns", table.turnsOf(), "")
	})
	t.Run("British home", func(t *testing.T) {
		table, v := readTrial(t, "house-uk-hourly", "uk-electricity-sample-1.csv", nil)
		holds(t, "month", table.sums(0, 7), v.at(t, "uk-electricity-sample-1.csv", "kwh_by_month_of_stamp"), 1, 0.001)
		holds(t, "sum", table.sums(0, 0), v.at(t, "uk-electricity-sample-1.csv", "sum_first_of_duplicates"), 1, 0.001)
		same(t, "gaps and oddities", fmt.Sprint(len(table.Gaps), " ", table.oddities()), "5 duplicate 15")
	})
	for name, gaps := range map[string]string{
		"house_B.csv": "[{1382400000000 1383004800000 604800000 0 kWh false} {1384214400000 1384473600000 259200000 0 kWh false} {1387202400000 1387814400000 612000000 0 kWh false}]",
		"house_C.csv": "[]",
	} {
		t.Run("Australian "+name, func(t *testing.T) {
			table, v := readTrial(t, "houses-australia-halfhourly", name, nil)
			holds(t, "sum", table.sums(0, 0), v.at(t, name, "sum_kwh_of_rows"), 1, 0.001)
			same(t, "gaps", fmt.Sprint(table.Gaps), gaps)
			same(t, "turns and oddities", table.turnsOf()+table.oddities(), "")
		})
	}
	for name, turns := range map[string]string{
		"M1": "2021-11-07 +1, 2022-03-13 -1",
		"M5": "2020-11-01 +1, 2021-03-14 -1, 2021-11-07 +1, 2022-03-13 -1, 2022-11-06 +1, 2023-03-12 -1",
	} {
		t.Run("meter "+name, func(t *testing.T) {
			table, v := readTrial(t, "meter-vs-bill", name+"_intervals.csv", nil)
			holds(t, "day", table.sums(0, 10), v.at(t, name, "kwh_by_local_day_interval_ending_convention"), 1, 0.001)
			holds(t, "sum", table.sums(0, 0), v.at(t, name, "total_kwh"), 1, 0.001)
			same(t, "turns", table.turnsOf(), turns)
			same(t, "gaps and oddities", fmt.Sprint(len(table.Gaps), table.oddities()), "0")
		})
	}
	t.Run("a circuit's power and register", func(t *testing.T) {
		const name = "B1E_week_2014-03-10.csv"
		table, v := readTrial(t, "circuit-canada-minute-voltage", name, func(l *Layout) {
			for c := range l.Columns {
				col := &l.Columns[c]
				col.Used, col.Sign, col.Scale, col.Apart = col.Name == "P" || col.Name == "Pt", 1, energy.WattHour, false
				col.Quantity = series.Power
				if col.Name == "Pt" {
					col.Quantity = series.Register
				}
			}
		})
		holds(t, "power", table.sums(0, 10), v.at(t, name, "wh_by_local_day_from_power"), 0.001, 0.001)
		holds(t, "power in all", table.sums(0, 0), v.at(t, name, "energy_from_power_wh"), 0.001, 0.001)
		holds(t, "register", table.sums(1, 0), v.at(t, name, "register_energy_wh"), 0.001, 1)
		same(t, "gaps and oddities", fmt.Sprint(len(table.Gaps), table.oddities()), "0")
	})
}
