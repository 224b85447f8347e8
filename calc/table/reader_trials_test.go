package table

import (
	"os"
	"path/filepath"
	"testing"

	"splittally/calc/calendar"
)

// readTrial finds and reads a file of the trial data.
func readTrial(t *testing.T, name string, settings map[string]string) Table {
	t.Helper()
	dir := os.Getenv("SPLITTALLY_TRIALS")
	if dir == "" {
		t.Skip("SPLITTALLY_TRIALS names no folder with long series of readings")
	}
	data, err := os.ReadFile(filepath.Join(dir, name))
	if err != nil {
		t.Fatal(err)
	}
	return readAll(t, data, settings)
}

func readAll(t *testing.T, data []byte, settings map[string]string) Table {
	t.Helper()
	l, _, err := Find(data, false, settings)
	if err != nil {
		t.Fatal(err)
	}
	t.Logf("%+v", l)
	r := NewReader(l, nil)
	if err := r.Write(data); err != nil {
		t.Fatal(err)
	}
	table, err := r.Close()
	if err != nil {
		t.Fatal(err)
	}
	return table
}

func TestTrialsDump(t *testing.T) {
	for _, name := range []string{
		"circuit-canada-minute-voltage/B1E_week_2014-03-10.csv",
		"grid-pjmw-hourly-dst/pjmw_2010_2012.csv",
		"grid-vic-halfhourly-dst/vic_2012_local_no_offset.csv",
		"grid-vic-halfhourly-dst/vic_2012_local_with_offset.csv",
		"house-france-hourly-voltage/derived_hourly_kwh_volts.csv",
		"house-illinois-hourly-daily-billing/il-electricity-cdd-hdd-hourly.csv",
		"house-london-halfhourly/MAC002163.csv",
		"house-uk-hourly/uk-electricity-sample-1.csv",
		"houses-australia-halfhourly/house_B.csv",
		"houses-australia-halfhourly/house_C.csv",
		"meter-vs-bill/M1_intervals.csv",
		"meter-vs-bill/M5_intervals.csv",
	} {
		t.Run(name, func(t *testing.T) {
			tab := readTrial(t, name, nil)
			for i, days := range tab.Channels {
				total, odd := 0.0, ""
				for k, d := range days {
					cov := 0
					for _, h := range d.Hours {
						total += h.Energy.KilowattHours()
						if h.Covered == 3600000 {
							cov++
						}
					}
					total += d.Again.Energy.KilowattHours()
					if d.Turn != 0 || cov != 24 {
						odd += " " + (tab.First + calendar.Day(k)).String()
						if d.Turn > 0 {
							odd += "+"
						} else if d.Turn < 0 {
							odd += "-"
						}
					}
				}
				if len(odd) > 400 {
					odd = odd[:400]
				}
				t.Logf("channel %d %v: %.6f kWh; %d days; rows %d; odd days%s", i, tab.Made[i], total, len(days), tab.Rows, odd)
			}
			t.Logf("gaps %d+%d first %v", len(tab.Gaps), tab.MoreGaps, tab.Gaps[:min(6, len(tab.Gaps))])
			t.Logf("odd %+v", tab.Oddities)
		})
	}
}
