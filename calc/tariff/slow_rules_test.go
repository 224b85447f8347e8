package tariff_test

import (
	"testing"

	"github.com/shopspring/decimal"

	"splittally/calc/calendar"
	"splittally/calc/energy"
	"splittally/calc/tariff"
)

// steady gives slots of so many minutes and watt-hours each on some days, the
// clock changed as in Europe.
func steady(first string, days, length int, each energy.Energy) tariff.Usage {
	d, ok := calendar.ParseISO(first)
	if !ok {
		panic("no such day: " + first)
	}
	u := tariff.Usage{Span: calendar.Span{First: d, End: d + calendar.Day(days)}}
	for ; d < u.Span.End; d++ {
		if length == 1440 {
			u.Import = append(u.Import, tariff.Slot{First: d, Last: d, To: 1440})
		} else {
			u.Import = append(u.Import, dayOf(changes[0], d, length)...)
		}
	}
	for i := range u.Import {
		u.Import[i].Energy = each * energy.WattHour
	}
	return u
}

// Each rule once, worked out by hand.
func TestSlowRules(t *testing.T) {
	step := func(upTo, below, above string) []tariff.Step {
		return []tariff.Step{{UpTo: upTo, Price: below}, {Price: above}}
	}
	band := func(days, hours, in, out string) []tariff.Band {
		return []tariff.Band{{Name: "A", Price: in, Days: days, Hours: hours}, {Name: "B", Price: out}}
	}
	sun := func(u tariff.Usage, sent energy.Energy, carried int64) tariff.Usage {
		u.Export = []tariff.Slot{{First: u.Span.First, Last: u.Span.Last(), To: 1440, Energy: sent * energy.WattHour}}
		u.Carried = decimal.NewFromInt(carried)
		return u
	}
	shares := steady("2024-06-03", 5, 1440, 2000)
	shares.Shares = map[string]decimal.Decimal{"A": decimal.New(3, -1)}
	peaks := steady("2024-06-05", 1, 15, 100)
	peaks.Import[1].Energy, peaks.Import[2].Energy = 500*energy.WattHour, 307*energy.WattHour
	for name, c := range map[string]struct {
		s     tariff.Schedule
		u     tariff.Usage
		lines []string
		total string
	}{
		// Friday and Saturday: six hours of Thursday's night, eight of Friday's.
		"the night of a workday": {
			tariff.Schedule{Rows: []tariff.Row{{Kind: "times", Bands: band("workdays", "22-6", "0.10", "0.20")}}},
			steady("2024-06-07", 2, 60, 1000),
			[]string{"1.40", "6.80"},
			"8.20",
		},
		"no work on a holiday": { // Wednesday, of every year
			tariff.Schedule{Dates: "06-05", Rows: []tariff.Row{{Kind: "times", Bands: band("workdays", "22-6", "0.10", "0.20")}}},
			steady("2024-06-05", 1, 60, 1000),
			[]string{"0.60", "3.60"},
			"4.20",
		},
		"an hour twice": {
			tariff.Schedule{Rows: []tariff.Row{{Kind: "times", Bands: band("", "2-3", "0.30", "0.10")}}},
			steady("2024-10-27", 1, 60, 1000),
			[]string{"0.60", "2.30"},
			"2.90",
		},
		"an hour missing": {
			tariff.Schedule{Rows: []tariff.Row{{Kind: "times", Bands: band("", "2-3", "0.30", "0.10")}}},
			steady("2024-03-31", 1, 60, 1000),
			[]string{"2.30"},
			"2.30",
		},
		"40 of 60 minutes": {
			tariff.Schedule{Rows: []tariff.Row{{Kind: "times", Bands: band("", "6:20-7", "0.30", "0.10")}}},
			steady("2024-06-05", 1, 60, 900),
			[]string{"0.18", "2.10"},
			"2.28",
		},
		"a day by its minutes": { // 10 hours of 24
			tariff.Schedule{Rows: []tariff.Row{{Kind: "times", Bands: band("", "8-18", "0.30", "0.10")}}},
			steady("2024-03-31", 1, 1440, 24000),
			[]string{"3.00", "1.40"},
			"4.40",
		},
		"a share given": {
			tariff.Schedule{Rows: []tariff.Row{{Kind: "times", Bands: band("", "8-18", "0.30", "0.10")}}},
			shares,
			[]string{"0.90", "0.70"},
			"1.60",
		},
		"winter over the new year": {
			tariff.Schedule{Rows: []tariff.Row{{Kind: "fixed", Price: "0.50", Per: "day", From: "1 Nov", To: "31 Mar"}}},
			steady("2024-03-30", 4, 1440, 1000),
			[]string{"1.00"},
			"1.00",
		},
		// 899 · 16/31 + 899 · 14/29 = 464 + 434 kWh
		"a threshold by months": {
			tariff.Schedule{Rows: []tariff.Row{{Kind: "tiers", Per: "month", Steps: step("899", "0.10", "0.20")}}},
			steady("2024-01-16", 30, 1440, 33000),
			[]string{"89.80", "18.40"},
			"108.20",
		},
		"a threshold by days": {
			tariff.Schedule{Rows: []tariff.Row{{Kind: "tiers", Per: "day", Steps: step("9", "0.10", "0.20")}}},
			steady("2024-01-16", 10, 1440, 10000),
			[]string{"9.00", "2.00"},
			"11.00",
		},
		"a price of half the period": {
			tariff.Schedule{Rows: []tariff.Row{{Kind: "tiers", Since: "2024-04-16", Per: "period", Steps: step("200", "0.10", "0.20")}}},
			total(calendar.Span{First: 19814, End: 19844}, 600*energy.KilowattHour), // April 2024
			[]string{"10.00", "40.00"},
			"50.00",
		},
		"netting": {
			tariff.Schedule{Rows: []tariff.Row{{Kind: "energy", Price: "0.20"}, {Kind: "netting"}}},
			sun(steady("2024-06-05", 1, 60, 500), 4000, 1),
			[]string{"1.40"},
			"1.40",
		},
		// 0.1 and 0.5 kWh are 1.2 kW in the first half hour; the first hour has
		// 1.007 kWh.
		"demand": {
			tariff.Schedule{Rows: []tariff.Row{{Kind: "demand", Price: "10.00", Per: "30"}, {Kind: "demand", Price: "10.00", Per: "60"}}},
			peaks,
			[]string{"12.00", "10.10"},
			"22.10",
		},
		"discount, minimum, tax": {
			tariff.Schedule{Rows: []tariff.Row{
				{Kind: "energy", Name: "use", Price: "0.50"},
				{Kind: "discount", Price: "10 %", On: "use"},
				{Kind: "minimum", Price: "12", Per: "period"},
				{Kind: "tax", Price: "20 %"},
			}},
			steady("2024-06-05", 1, 1440, 20000),
			[]string{"10.00", "-1.00", "3.00", "2.40"},
			"14.40",
		},
		"a half goes up": {
			tariff.Schedule{Rows: []tariff.Row{{Kind: "energy", Price: "0.125"}, {Kind: "export", Price: "0.125"}}},
			sun(steady("2024-06-05", 1, 1440, 1000), 3000, 0),
			[]string{"0.13", "-0.38"},
			"-0.25",
		},
		"a half to even": {
			tariff.Schedule{Half: "even", Rows: []tariff.Row{{Kind: "energy", Price: "0.125"}, {Kind: "export", Price: "0.125"}}},
			sun(steady("2024-06-05", 1, 1440, 1000), 3000, 0),
			[]string{"0.12", "-0.38"},
			"-0.26",
		},
		"digits cut": {
			tariff.Schedule{Half: "down", Rows: []tariff.Row{{Kind: "energy", Price: "0.129"}, {Kind: "export", Price: "0.125"}}},
			sun(steady("2024-06-05", 1, 1440, 1000), 3000, 0),
			[]string{"0.12", "-0.37"},
			"-0.25",
		},
		"the total alone": {
			tariff.Schedule{Round: "total", Rows: []tariff.Row{{Kind: "energy", Price: "0.004"}, {Kind: "energy", Price: "0.004"}}},
			steady("2024-06-05", 1, 1440, 1000),
			[]string{"0.00", "0.00"},
			"0.01",
		},
	} {
		t.Run(name, func(t *testing.T) { checkSlow(t, c.s, c.u, c.lines, c.total) })
	}
}
