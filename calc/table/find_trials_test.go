package table

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"splittally/calc/record"
	"splittally/calc/series"
)

// trialHead reads a file of the trial data, or skips.
func trialHead(t *testing.T, name string) []byte {
	t.Helper()
	dir := os.Getenv("SPLITTALLY_TRIALS")
	if dir == "" {
		t.Skip("SPLITTALLY_TRIALS is not set: the trial data are too big for the repository")
	}
	data, err := os.ReadFile(filepath.Join(dir, name))
	if err != nil {
		t.Skip("no such trial data:", err)
	}
	return data
}

// TestFindTrials reads files of real readings within days. What they are is told
// in a note beside each of them, by whoever gathered them; where the file itself
// can't tell, open names the setting that must be a question.
func TestFindTrials(t *testing.T) {
	t.Parallel()
	const hour, half, quarter, minute = hourLength, hourLength / 2, hourLength / 4, int64(minuteLength)
	for _, c := range []struct {
		file     string
		form     Form
		zone     Zone
		step     int64
		ends     bool
		column   int
		quantity series.Quantity
		unit     string
		open     string
	}{
		{"circuit-canada-minute-voltage/B1E_week_2014-03-10.csv", Seconds, Instant, minute, false, 6, series.Power, "W", "zone column.6.unit column.7.role"},
		{"grid-pjmw-hourly-dst/pjmw_2010_2012.csv", DayFirst, Local, hour, false, 1, series.Power, "MW", "stamps"},
		{"grid-vic-halfhourly-dst/vic_2012_local_no_offset.csv", DayFirst, Local, half, false, 1, series.Energy, "MWh", "stamps column.1.unit"},
		{"grid-vic-halfhourly-dst/vic_2012_local_with_offset.csv", YearFirst, Offset, half, false, 1, series.Energy, "MWh", "stamps column.1.unit"},
		{"house-france-hourly-voltage/derived_hourly_kwh_volts.csv", YearFirst, Local, hour, false, 1, series.Energy, "kWh", "stamps"},
		{"house-illinois-hourly-daily-billing/il-electricity-cdd-hdd-hourly.csv", YearFirst, Offset, hour, false, 1, series.Energy, "kWh", "column.1.unit column.1.kind"},
		{"house-london-halfhourly/MAC002163.csv", YearFirst, Local, half, false, 3, series.Energy, "kWh", "stamps"},
		{"house-uk-hourly/uk-electricity-sample-1.csv", YearFirst, Local, half, false, 1, series.Energy, "kWh", "column.1.unit column.1.kind"},
		{"houses-australia-halfhourly/house_B.csv", YearFirst, Local, half, true, 1, series.Energy, "kWh", "stamps"},
		{"houses-australia-halfhourly/house_C.csv", YearFirst, Local, half, true, 1, series.Energy, "kWh", "stamps"},
		{"meter-vs-bill/M1_intervals.csv", MonthFirst, Local, quarter, true, 1, series.Energy, "kWh", ""},
		{"meter-vs-bill/M5_intervals.csv", MonthFirst, Local, hour, true, 1, series.Energy, "kWh", ""},
		{"pasted/20_half_hour_kW_averages.csv", YearFirst, Local, half, false, 1, series.Power, "kW", "stamps"},
		{"pasted/22_iso8601_offset_dst_autumn.csv", YearFirst, Offset, hour, false, 1, series.Energy, "kWh", ""},
		{"pasted/24_hour_ending_2400.csv", YearFirst, Local, hour, true, 2, series.Energy, "kWh", ""},
	} {
		t.Run(filepath.Base(c.file), func(t *testing.T) {
			t.Parallel()
			l, settings, err := Find(trialHead(t, c.file), true, nil)
			if err != nil {
				t.Fatal(err)
			}
			if l.Stamp.Form != c.form || l.Stamp.Zone != c.zone || l.Step != c.step || l.Ends != c.ends {
				t.Errorf("form %d zone %d step %d ends %v, want %d %d %d %v", l.Stamp.Form, l.Stamp.Zone, l.Step, l.Ends, c.form, c.zone, c.step, c.ends)
			}
			for i, col := range l.Columns {
				if col.Used != (i == c.column) {
					t.Errorf("column %d: used is %v", i, col.Used)
				}
			}
			if col := l.Columns[c.column]; col.Role != record.Import || col.Quantity != c.quantity || col.Unit != c.unit {
				t.Errorf("column %d is %s, %v, %s, want import, %v, %s", c.column, col.Role, col.Quantity, col.Unit, c.quantity, c.unit)
			}
			for _, id := range strings.Fields(c.open) {
				if s := settingOf(t, settings, id); s.Sure || s.Why == "" {
					t.Errorf("%s is sure or has no reason: %+v", id, s)
				}
			}
		})
	}
}

// settingOf gives the setting with an ID.
func settingOf(t *testing.T, settings []Setting, id string) Setting {
	t.Helper()
	for _, s := range settings {
		if s.ID == id {
			return s
		}
	}
	t.Fatalf("no setting %q", id)
	return Setting{}
}

// TestFindNoIntervals checks that daily totals, bills and pasted prose are left
// to package intake.
func TestFindNoIntervals(t *testing.T) {
	t.Parallel()
	names := []string{
		"house-illinois-hourly-daily-billing/il-electricity-cdd-hdd-daily.csv",
		"house-illinois-hourly-daily-billing/il-electricity-cdd-hdd-billing_monthly.csv",
		"house-illinois-hourly-daily-billing/il-electricity-cdd-hdd-billing_bimonthly.csv",
		"gapfill-real-daily/daily_C_block14.csv", "meter-vs-bill/M1_bills.csv", "meter-vs-bill/M5_bills.csv",
	}
	trialHead(t, names[0])
	pasted, _ := filepath.Glob(filepath.Join(os.Getenv("SPLITTALLY_TRIALS"), "pasted", "*"))
	for _, path := range pasted {
		name := filepath.Base(path)
		within := strings.HasPrefix(name, "20_") || strings.HasPrefix(name, "22_") || strings.HasPrefix(name, "24_")
		if !within && (strings.HasSuffix(name, ".csv") || strings.HasSuffix(name, ".txt")) {
			names = append(names, "pasted/"+name)
		}
	}
	if len(names) < 20 {
		t.Fatalf("only %d files", len(names))
	}
	for _, name := range names {
		if l, _, err := Find(trialHead(t, name), true, nil); err == nil {
			t.Errorf("%s was taken for readings within days: %+v", name, l)
		}
	}
}

// TestFindPastedTexts checks the same on the repository's own pasted texts: what
// Find takes must have readings within days, as the wanted results there tell.
func TestFindPastedTexts(t *testing.T) {
	t.Parallel()
	paths, err := filepath.Glob("../../testdata/pasted/*.txt")
	if err != nil || len(paths) == 0 {
		t.Fatal("no pasted texts", err)
	}
	for _, path := range paths {
		wanted, err := os.ReadFile(strings.TrimSuffix(path, ".txt") + ".want.txt")
		if strings.HasSuffix(path, ".want.txt") || err != nil {
			continue
		}
		text, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		if _, _, err := Find(text, true, nil); err == nil && !strings.Contains(string(wanted), "slots:") {
			t.Errorf("%s was taken for readings within days", filepath.Base(path))
		}
	}
}
