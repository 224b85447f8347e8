package table

import (
	"testing"

	"splittally/calc/record"
	"splittally/calc/series"
	"splittally/calc/zone"

	"github.com/google/go-cmp/cmp"
)

func TestPreview(t *testing.T) {
	t.Parallel()
	column := func(name string, q series.Quantity, unit string, sign int, apart bool) Column {
		return Column{Name: name, Used: true, Role: record.Import, Quantity: q, Unit: unit, Sign: sign, Apart: apart}
	}
	for _, c := range []struct {
		name, head string
		layout     Layout
		rules      *zone.Rules
		want       [][]string
	}{
		{
			"a start, a figure below zero that is fed in", "Time;kW\n2024-03-01 23:45;-1,4\n",
			Layout{Delimiter: ';', Decimal: ',', Skip: 1, Stamp: Stamp{Time: -1}, Step: 15 * minuteLength, Columns: []Column{{}, column("kW", series.Power, "kW", 1, true)}},
			nil,
			[][]string{{"Interval", "kW", "As written"}, {"1 Mar 2024 23:45–24:00", "1.4 kW (0.350 kWh) fed into the grid", "2024-03-01 23:45;-1,4"}},
		},
		{
			"an end in the next day, turned, a figure missing", "1/3/2024 00:00,-0.5,n/a\n",
			Layout{
				Delimiter: ',', Decimal: '.', Stamp: Stamp{Time: -1, Form: DayFirst}, Step: hourLength, Ends: true,
				Columns: []Column{{}, column("Out", series.Energy, "kWh", -1, false), column("", series.Energy, "kWh", 1, false)},
			},
			nil,
			[][]string{{"Interval", "Out", "Column 3", "As written"}, {"29 Feb 2024 23:00–24:00", "0.5 kWh (0.500 kW)", "no figure", "1/3/2024 00:00,-0.5,n/a"}},
		},
		{
			"a point of time by the person's clock, over midnight by seconds", "1709247599,600\n",
			Layout{Delimiter: ',', Decimal: '.', Stamp: Stamp{Time: -1, Form: Seconds, Zone: Instant}, Step: 10_000, Columns: []Column{{}, column("W", series.Power, "W", 1, false)}},
			&zone.Rules{Before: 3600},
			[][]string{{"Interval", "W", "As written"}, {"29 Feb 2024 23:59:59–1 Mar 2024 00:00:09", "600 W (1.67 Wh)", "1709247599,600"}},
		},
		{
			"a register and hours by number", "2024-03-01\t24\t10452.31\n",
			Layout{Delimiter: '\t', Decimal: '.', Stamp: Stamp{Time: 1, Hours: true}, Step: hourLength, Columns: []Column{{}, {}, column("kWh", series.Register, "kWh", 1, false)}},
			nil,
			[][]string{{"Interval", "kWh", "As written"}, {"2 Mar 2024 00:00", "10452.31 kWh on the register", "2024-03-01\t24\t10452.31"}},
		},
	} {
		heads, rows := Preview([]byte(c.head), c.layout, c.rules, 3)
		if diff := cmp.Diff(c.want, append([][]string{heads}, rows...)); diff != "" {
			t.Errorf("%s: -want +got\n%s", c.name, diff)
		}
	}
}
