package tariff_test

import (
	"slices"
	"testing"

	"github.com/shopspring/decimal"

	"splittally/calc/calendar"
	"splittally/calc/energy"
	"splittally/calc/tariff"
)

// Printed bills through the slow calculation, which must be right before it
// can judge another. The figures were typed by hand from copies of the sources
// named; sums that a source doesn't print are ours.

// total is one slot for all of a period, energy in µWh.
func total(span calendar.Span, e energy.Energy) tariff.Usage {
	return tariff.Usage{Span: span, Import: []tariff.Slot{{First: span.First, Last: span.Last(), To: 1440, Energy: e}}}
}

func month(t *testing.T, year, m, days int) calendar.Span {
	t.Helper()
	first, ok := calendar.Date(year, m, 1)
	if !ok {
		t.Fatal("no such month")
	}
	return calendar.Span{First: first, End: first + calendar.Day(days)}
}

func TestSlowPrintedBills(t *testing.T) {
	onPeak := func(e int64) tariff.Usage {
		u := total(month(t, 2019, 5, 31), energy.Energy(e)*energy.KilowattHour)
		u.Shares = map[string]decimal.Decimal{"off": decimal.New(65, -2), "mid": decimal.New(17, -2), "on": decimal.New(18, -2)}
		return u
	}
	may := func(wattHours int64) tariff.Usage {
		return total(month(t, 2022, 5, 31), energy.Energy(wattHours)*energy.WattHour)
	}
	withLosses := may(700_000)
	withLosses.LossFactor = decimal.New(10376, -4)
	// What the losses alone come to: the adjusted energy less the metered.
	losses := may(700_000)
	losses.LossFactor = decimal.New(376, -4)
	hours := []tariff.Band{
		{Name: "off", Price: "0.065", Days: "rest"},
		{Name: "mid", Price: "0.094", Hours: "11-17"},
		{Name: "on", Price: "0.134", Hours: "7-11, 17-19"},
		{Name: "off at night", Price: "0.065"},
	}
	for _, c := range []struct {
		source string
		rows   []tariff.Row
		usage  tariff.Usage
		lines  []string
		total  string
	}{
		{
			"Ontario Energy Board, news release of May 2019: 65, 17 and 18 % of 700 kWh at 6.5, 9.4 and 13.4 ¢; 29.575 is rounded up",
			[]tariff.Row{{Kind: "times", Bands: hours}},
			onPeak(700),
			[]string{"29.58", "11.19", "16.88"},
			"57.65",
		},
		{
			"the same release, tiers: 600 kWh at 7.7 ¢, the rest at 8.9 ¢",
			[]tariff.Row{{Kind: "tiers", Steps: []tariff.Step{{"600", "0.077"}, {"", "0.089"}}}},
			may(700_000),
			[]string{"46.20", "8.90"},
			"55.10",
		},
		{
			"Oakville Hydro, sample tiered bill May to October 2022: 600 kWh at 0.098, 100 kWh at 0.115",
			[]tariff.Row{{Kind: "tiers", Steps: []tariff.Step{{"600", "0.098"}, {"", "0.115"}}}},
			may(700_000),
			[]string{"58.80", "11.50"},
			"70.30",
		},
		{
			"the same bill: transmission and wholesale on kWh with 3.76 % of losses; fixed charges 31.62, 0.70 and 0.25",
			[]tariff.Row{
				{Kind: "energy", Price: "0.0160", Basis: "adjusted"},
				{Kind: "energy", Price: "0.0039", Basis: "adjusted"},
				{Kind: "fixed", Price: "31.62", Per: "period"},
				{Kind: "fixed", Price: "0.70", Per: "period"},
				{Kind: "fixed", Price: "0.25", Per: "period"},
			},
			withLosses,
			[]string{"11.62", "2.83", "31.62", "0.70", "0.25"},
			"47.02",
		},
		{
			"the same bill: losses of 26.32 kWh, not rounded, at 0.115",
			[]tariff.Row{{Kind: "energy", Price: "0.115", Basis: "adjusted"}},
			losses,
			[]string{"3.03"},
			"3.03",
		},
		{
			"City of Seymour, printed billing calculation examples, winter, 1200 kWh",
			[]tariff.Row{
				{Kind: "tiers", Steps: []tariff.Step{{"250", ".064"}, {"700", ".049"}, {"", ".0446"}}},
				{Kind: "energy", Price: ".085"},
				{Kind: "fixed", Price: "7.50"},
				{Kind: "tax", Price: "1 %"},
			},
			may(1_200_000),
			[]string{"16.00", "22.05", "22.30", "102.00", "7.50", "1.70"},
			"171.55",
		},
		{
			"City of Clintonville, Wisconsin, bill explanation: 689 kWh, energy line 71.24 (here as an amount), 1.33 without tax",
			[]tariff.Row{
				{Kind: "fixed", Name: "energy", Price: "71.24"},
				{Kind: "fixed", Name: "base", Price: "6.50"},
				{Kind: "energy", Name: "cost adjustment", Price: "0.0075"},
				{Kind: "fixed", Name: "public benefit", Price: "1.33"},
				{Kind: "tax", Price: "5.5 %", On: "energy, base, cost adjustment"},
			},
			may(689_000),
			[]string{"71.24", "6.50", "5.17", "1.33", "4.56"},
			"88.80",
		},
		{
			"Jackson County Power Board, residential example: 1110 kWh at .0951, fee 18.48",
			[]tariff.Row{{Kind: "energy", Price: ".0951"}, {Kind: "fixed", Price: "18.48"}},
			may(1_110_000),
			[]string{"105.56", "18.48"},
			"124.04",
		},
		{
			"Ofgem, price cap October to December 2024: 24.50 p/kWh, 60.99 p/day, 2,700 kWh, 365 days",
			[]tariff.Row{{Kind: "energy", Price: "0.2450"}, {Kind: "fixed", Price: "0.6099", Per: "day"}},
			total(month(t, 2025, 1, 365), 2700*energy.KilowattHour),
			[]string{"661.50", "222.61"},
			"884.11",
		},
		{
			"the same for gas: 6.24 p/kWh, 31.66 p/day, 11,500 kWh",
			[]tariff.Row{{Kind: "energy", Price: "0.0624"}, {Kind: "fixed", Price: "0.3166", Per: "day"}},
			total(month(t, 2025, 1, 365), 11500*energy.KilowattHour),
			[]string{"717.60", "115.56"},
			"833.16",
		},
		{
			"US Department of Energy, estimating appliance use: 394 kWh at 11 ¢",
			[]tariff.Row{{Kind: "energy", Price: "0.11"}},
			may(394_000),
			[]string{"43.34"},
			"43.34",
		},
		{
			"the same without rounding 394.2 kWh first",
			[]tariff.Row{{Kind: "energy", Price: "0.11"}},
			may(394_200),
			[]string{"43.36"},
			"43.36",
		},
	} {
		t.Run(c.source, func(t *testing.T) {
			checkSlow(t, tariff.Schedule{Rows: c.rows}, c.usage, c.lines, c.total)
		})
	}
}

// checkSlow compares the slow bill's lines that aren't nothing, and its total.
func checkSlow(t *testing.T, s tariff.Schedule, u tariff.Usage, want []string, total string) {
	t.Helper()
	bill := reckon(s, u, 2, assumed).bill
	var lines []string
	for _, l := range bill.lines {
		if l.exact.Sign() != 0 {
			lines = append(lines, l.shown.FloatString(2))
		}
	}
	if !slices.Equal(lines, want) {
		t.Errorf("lines %s, want %s", lines, want)
	}
	if bill.total.Cmp(number(total)) != 0 {
		t.Errorf("total = %s, want %s", bill.total.FloatString(4), total)
	}
}
