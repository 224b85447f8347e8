package calc_test

import (
	"encoding/csv"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"splittally/calc"
	"splittally/calc/billing"
	"splittally/calc/cause"
	"splittally/calc/energy"
	"splittally/calc/interval"
	"splittally/calc/metered"
	"splittally/calc/record"
)

// ofUtility makes a case of a real meter's intervals, as the record of its file,
// and of its bills, so many of them. The true error between the two is nil.
func ofUtility(t *testing.T, meter string, from, to int) (text string, c calc.Case) {
	t.Helper()
	text = fileOf(t, meter, nil)
	bills, err := os.Open(filepath.Join(os.Getenv("SPLITTALLY_TRIALS"), "meter-vs-bill", meter+"_bills.csv"))
	if err != nil {
		t.Fatal(err)
	}
	defer bills.Close()
	rows, err := csv.NewReader(bills).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	c.Today = "2023-12-01"
	for _, row := range rows[from : to+1] { // row 0 is the heading
		c.Periods = append(c.Periods, billing.Period{From: row[1], To: row[2], KWh: row[3]})
	}
	return text, c
}

// fileOf reads a meter's file of intervals.
func fileOf(t *testing.T, meter string, settings map[string]string) string {
	t.Helper()
	folder := os.Getenv("SPLITTALLY_TRIALS")
	if folder == "" {
		t.Skip("SPLITTALLY_TRIALS names no folder of trial records")
	}
	data, err := os.ReadFile(filepath.Join(folder, "meter-vs-bill", meter+"_intervals.csv"))
	if err != nil {
		t.Fatal(err)
	}
	r := interval.New(interval.Options{File: meter, Settings: settings})
	if err := r.Write(data); err != nil {
		t.Fatal(err)
	}
	f := r.Close()
	if len(f.Records) != 1 || len(f.Problems) > 0 {
		t.Fatalf("%d records, %v", len(f.Records), f.Problems)
	}
	return record.Format(f.Records[0].Record)
}

// Both dates of these bills belong, and 2022-06-10 to 06-30 and 07-01 to 07-12 are
// one reading period; after September 2022 they are net of generation credits.
// Where the hourly meter's bills are of whole periods they must agree with its
// own hours to within a whole kilowatt-hour.
func TestHourlyMeterBesideItsBills(t *testing.T) {
	text, c := ofUtility(t, "M5", 1, 27)
	c.Meter.Record = text
	f := calc.Work(c)
	if !f.IsMetered || f.Metered.Covered != 27 {
		t.Fatalf("%v, %d bills covered", f.IsMetered, f.Metered.Covered)
	}
	for i, b := range f.Metered.Bills {
		want := metered.Agrees
		switch {
		case i == 9 || i == 10:
			want = metered.Split
		case i >= 13:
			want = metered.Net
		}
		if b.Kind != want || b.Missing > 0 {
			t.Errorf("bill %d is %s, %d days missing, want %s", i+1, b.Kind, b.Missing, want)
		}
		if want == metered.Agrees && b.Differs.Abs() > energy.KilowattHour {
			t.Errorf("bill %d differs by %s", i+1, b.Differs)
		}
	}
	if got, _ := f.Metered.Of(9); got.Kind != metered.Split || !got.Sure || !slices.Equal(got.Bills, []int{9, 10}) || (got.Billed-got.Metered).Abs() > energy.KilowattHour {
		t.Errorf("split period: %+v", got)
	}
	if got, _ := f.Metered.Of(20); got.Kind != metered.Net || !got.Sure || len(got.Bills) != 14 {
		t.Errorf("net bills: %+v", got)
	}
	if len(f.Metered.Found) != 2 {
		t.Errorf("findings %+v", f.Metered.Found)
	}
	if total := f.Metered.Bills[0].Metered; total.String() != "569.136 kWh" { // by another program; see the record's notes
		t.Errorf("bill 1: %s", total)
	}
}

// The register of the quarter-hourly meter was read in the morning of the last
// date. All of its reads must come out at one time of day, though nothing says so
// but the energies.
func TestQuarterHourlyMeterBesideItsBills(t *testing.T) {
	text, c := ofUtility(t, "M1", 1, 14)
	c.Meter.Record = text
	f := calc.Work(c)
	in, _ := f.Metered.Of(0)
	if in.Kind != metered.InDay || !in.Sure || len(in.Reads) != 13 {
		t.Fatalf("%+v", in)
	}
	if in.Early < 7 || in.Late > 9.5 || in.From < 7.5 || in.Till > 9.5 {
		t.Errorf("reads from %.1f to %.1f o'clock, usually at %.2f to %.2f, want the morning of the last date", in.Early, in.Late, in.From, in.Till)
	}
	if split, _ := f.Metered.Of(10); split.Kind != metered.Split || !split.Sure || !slices.Equal(split.Bills, []int{9, 10}) {
		t.Errorf("split period: %+v", split)
	}
	if net, _ := f.Metered.Of(13); net.Kind != metered.Net || !net.Sure {
		t.Errorf("net bill: %+v", net)
	}
}

// The same intervals as those of a monitor: what the bills are is then a cause,
// found from energies that a monitor may have wrong.
func TestMetersOwnIntervalsAsMonitor(t *testing.T) {
	for _, m := range []struct {
		meter    string
		from, to int
		hour     string
		want     cause.ID
		says     string
	}{
		{"M5", 1, 13, "", cause.Split, "Bills 10 and 11"},
		{"M5", 1, 13, "24", cause.Split, "Bills 10 and 11"},
		{"M5", 1, 22, "24", cause.Net, "From bill 19 on"},
		{"M5", 14, 27, "", cause.Net, "From bill 6 on"},
		{"M1", 1, 14, "", cause.Hour, "o’clock, to an hour or two, on a bill’s last day"},
		{"M1", 1, 13, "0", cause.Hour, "o’clock, to an hour or two, on a bill’s last day"},
	} {
		t.Run(fmt.Sprintf("%s, bills %d to %d, read at %q", m.meter, m.from, m.to, m.hour), func(t *testing.T) {
			text, c := ofUtility(t, m.meter, m.from, m.to)
			for i := range c.Periods {
				c.Periods[i].ReadHour = m.hour
				c.Answers = append(c.Answers, calc.Answer{Question: fmt.Sprintf("periods.%d.net", i), Choice: "net"})
			}
			c.Monitors = []calc.Monitor{{Record: text, Accuracy: "0.5"}}
			w := calc.Work(c).Instruments[0].Causes
			if !w.Done || !w.Asserted || w.Causes[0].ID != m.want || !strings.Contains(w.Causes[0].How, m.says) {
				t.Errorf("asserted %v: %s, %q", w.Asserted, w.Causes[0].ID, w.Causes[0].How)
			}
		})
	}
}

// A meter beside itself differs on no day, and by no hour. All intervals are
// 26119.058 kWh; the one of the first day and the 23 of the last, 0.59 and 13.48
// kWh, are of no whole day.
func TestMeterBesideItselfDayByDay(t *testing.T) {
	text, c := ofUtility(t, "M5", 1, 13)
	c.Meter.Record = text
	c.Monitors = []calc.Monitor{{Record: text}}
	inst := calc.Work(c).Instruments[0]
	r := inst.Paired
	if !inst.IsPaired || len(r.Days) != 1087 || len(r.Odd) > 0 || r.Monitor != r.Meter || r.Monitor.String() != "26104.988 kWh" {
		t.Errorf("%v: %d days, %d odd, %s", inst.IsPaired, len(r.Days), len(r.Odd), r.Monitor)
	}
	if r.Lag.Hours != 0 || !r.Lag.Known || r.Percent.Value != 0 {
		t.Errorf("%+v, %+v", r.Lag, r.Percent)
	}
	// The same file read with the ends of its hours as their starts: an hour off.
	c.Monitors[0].Record = fileOf(t, "M5", map[string]string{"stamps": "start"})
	if r = calc.Work(c).Instruments[0].Paired; r.Lag.Hours != -1 {
		t.Errorf("an hour late: %+v", r.Lag)
	}
}
