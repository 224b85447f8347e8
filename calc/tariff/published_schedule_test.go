package tariff

import (
	"testing"

	"github.com/shopspring/decimal"

	"splittally/calc/calendar"
	"splittally/calc/energy"
)

// Printed bills and price examples of other people, as whole schedules. The
// figures were read in copies of the sources named and typed by hand; where the
// result is ours and not printed it is said.

// Ontario Energy Board, news releases of May 2019 (summer hours) and of 18
// October 2024 (winter hours and prices): the prices by the hour of a household.
func ontario(t testing.TB) Tariff {
	return build(t, Schedule{Region: "CA-ON", Currency: "CAD", Rows: []Row{
		{Kind: "times", Name: "Winter", From: "1 Nov", To: "30 Apr", Bands: []Band{
			{Name: "On-peak", Price: "15.8 ¢", Days: "workdays", Hours: "7-11, 17-19"},
			{Name: "Mid-peak", Price: "12.2 ¢", Days: "workdays", Hours: "11-17"},
			{Name: "Off-peak", Price: "7.6 ¢"},
		}},
		{Kind: "times", Name: "Summer", From: "1 May", To: "31 Oct", Bands: []Band{
			{Name: "On-peak", Price: "13.4 ¢", Days: "workdays", Hours: "11-17"},
			{Name: "Mid-peak", Price: "9.4 ¢", Days: "workdays", Hours: "7-11, 17-19"},
			{Name: "Off-peak", Price: "6.5 ¢"},
		}},
	}})
}

// usesOf prices a kilowatt-hour in each hour of a span and gives the kWh by
// period.
func usesOf(t testing.TB, tariff Tariff, s calendar.Span, minutes ...int) map[string]string {
	t.Helper()
	u := Usage{Span: s}
	for d := s.First; d < s.End; d++ {
		for m := range minutesOfDay {
			if len(minutes) == 0 && m%60 == 0 {
				u.Import = append(u.Import, Slot{First: d, Last: d, From: m, To: m + 60, Energy: energy.KilowattHour})
			}
		}
		for _, m := range minutes {
			u.Import = append(u.Import, Slot{First: d, Last: d, From: m, To: m + 1, Energy: energy.KilowattHour})
		}
	}
	uses := map[string]string{}
	for _, use := range tariff.Price(u).Uses {
		if !use.KWh.IsZero() {
			uses[use.Name] = use.KWh.String()
		}
	}
	return uses
}

// The same releases: which period a moment of the clock belongs to. The cases
// are ours.
func TestPublishedPeriods(t *testing.T) {
	ontario := ontario(t)
	for _, c := range []struct {
		day    string
		minute int
		want   string
	}{
		{"2019-07-10", 12 * 60, "On-peak"},
		{"2019-07-10", 8 * 60, "Mid-peak"},
		{"2019-07-10", 18*60 + 59, "Mid-peak"},
		{"2019-07-10", 19 * 60, "Off-peak"},
		{"2019-07-13", 12 * 60, "Off-peak"},
		{"2024-11-06", 8 * 60, "On-peak"},
		{"2024-11-06", 12 * 60, "Mid-peak"},
		{"2024-11-06", 17 * 60, "On-peak"},
		// holidays, by the Ontario Electricity Financial Corporation's calendar
		{"2022-12-26", 8 * 60, "Off-peak"},
		{"2022-12-27", 8 * 60, "Off-peak"},
		{"2025-07-01", 12 * 60, "Off-peak"},
		{"2026-12-28", 8 * 60, "Off-peak"},
	} {
		if got := usesOf(t, ontario, span(t, c.day, c.day), c.minute); len(got) != 1 || got[c.want] != "1" {
			t.Errorf("%s %d:%02d is %v, want %s", c.day, c.minute/60, c.minute%60, got, c.want)
		}
	}
}

// The same releases: the hours of an ordinary week. The sums are ours.
func TestPublishedWeek(t *testing.T) {
	for _, first := range []string{"2024-11-04", "2024-07-08"} {
		week := span(t, first, first)
		week.End += 6
		got := usesOf(t, ontario(t), week)
		if got["Off-peak"] != "108" || got["Mid-peak"] != "30" || got["On-peak"] != "30" {
			t.Errorf("week of %s: %v, want 108, 30 and 30 hours", first, got)
		}
	}
}

// Ontario Energy Board, news release of May 2019: 65, 17 and 18 % of 700 kWh off,
// mid and on peak at 6.5, 9.4 and 13.4 ¢. Rounded line by line the sum is 57.65,
// exactly it is 57.645 (sums are ours).
func TestPublishedShares(t *testing.T) {
	u := whole(t, "2019-06-01", "2019-06-30", "700")
	u.Shares = map[string]decimal.Decimal{"Off-peak": dec("0.65"), "Mid-peak": dec("0.17"), "On-peak": dec("0.18")}
	tariff := ontario(t)
	p := tariff.Price(u)
	wantLines(t, p, "57.65", "16.88", "11.19", "29.58")
	for i, want := range []string{"126", "119", "455"} {
		equal(t, p.Lines[i].Name, p.Lines[i].Quantity, want)
	}
	if !p.IsAssumed {
		t.Error("shares are not marked as assumed")
	}
	equal(t, "all off peak", p.Least, "45.50")
	equal(t, "all on peak", p.Most, "93.80")
	for rule, want := range map[rounding]string{
		{total: true, places: 2}: "57.65", {total: true, half: halfEven, places: 2}: "57.64",
		{total: true, half: cutDown, places: 2}: "57.64", {total: true, places: 3}: "57.645",
		{half: halfEven, places: 2}: "57.65", {half: cutDown, places: 2}: "57.63",
	} {
		tariff.round = rule
		equal(t, "total", tariff.Price(u).Total, want)
	}
}

func TestPublishedSchedules(t *testing.T) {
	jackson := Row{Kind: "fixed", Name: "Fee", Price: "18.48"}
	for _, c := range []struct {
		source string
		s      Schedule
		u      Usage
		total  string
		lines  []string
	}{
		{
			"Ontario Energy Board, news release of May 2019: summer tiers, 600 kWh at 7.7 ¢ and 100 at 8.9 ¢ (sums are ours)",
			Schedule{Rows: []Row{
				{Kind: "tiers", From: "1 May", To: "31 Oct", Steps: []Step{{"600", "7.7 ¢"}, {"", "8.9 ¢"}}},
				{Kind: "tiers", From: "1 Nov", To: "30 Apr", Steps: []Step{{"1000", "11.9 ¢"}, {"", "13.9 ¢"}}},
			}},
			whole(t, "2019-07-01", "2019-07-31", "700"),
			"55.10",
			[]string{"46.20", "8.90"},
		},
		{
			"Oakville Hydro, sample tiered bill, May to October 2022, 700 kWh with 3.76 % of losses; the losses come to 3.03 only from 26.32 kWh unrounded",
			Schedule{Rows: []Row{
				{Kind: "tiers", Steps: []Step{{"600", "$0.098"}, {"", "$0.115"}}},
				{Kind: "energy", Name: "Transmission", Price: "$0.0160", Basis: "adjusted"},
				{Kind: "energy", Name: "Losses", Price: "$0.115", Basis: "losses"},
				{Kind: "energy", Name: "Wholesale", Price: "$0.0039", Basis: "adjusted"},
				{Kind: "fixed", Name: "Distribution", Price: "31.62"},
			}},
			withLosses(whole(t, "2022-06-01", "2022-06-30", "700"), "1.0376"),
			"119.40",
			[]string{"58.80", "11.50", "11.62", "3.03", "2.83", "31.62"},
		},
		{
			"an Ontario distributor's bill guide: losses of 3.79 % at the price of energy; 800 kWh and 10 ¢ are ours",
			Schedule{Rows: []Row{{Kind: "energy", Price: "10 ¢", Basis: "losses"}}},
			withLosses(whole(t, "2022-06-01", "2022-06-30", "800"), "1.0379"),
			"3.03",
			[]string{"3.03"},
		},
		{
			"City of Seymour, billing calculation examples, winter, 1200 kWh",
			Schedule{Rows: []Row{
				{Kind: "tiers", Steps: []Step{{"250", ".064"}, {"700", ".049"}, {"", ".0446"}}},
				{Kind: "energy", Name: "Power cost", Price: ".085"},
				{Kind: "fixed", Name: "Base", Price: "7.50"},
				{Kind: "tax", Price: "1 %"},
			}},
			whole(t, "2024-01-01", "2024-01-31", "1200"),
			"171.55",
			[]string{"16.00", "22.05", "22.30", "102.00", "7.50", "1.70"},
		},
		{
			"City of Clintonville, Wisconsin, bill explanation: reads 40081 and 40770; the energy line of 71.24, whose price is not printed, as a fixed charge; public benefits untaxed",
			Schedule{Rows: []Row{
				{Kind: "fixed", Name: "Energy", Price: "71.24"},
				{Kind: "fixed", Name: "Base", Price: "6.50"},
				{Kind: "energy", Name: "Power cost adjustment", Price: ".0075"},
				{Kind: "fixed", Name: "Public benefits", Price: "1.33"},
				{Kind: "tax", Price: "5.5", On: "Energy, Base, Power cost adjustment"},
			}},
			whole(t, "2024-01-01", "2024-01-31", "689"),
			"88.80",
			[]string{"71.24", "6.50", "5.17", "1.33", "4.56"},
		},
		{
			"Jackson County Power Board, residential example: reads 8865 and 9975 (the sum is ours)",
			Schedule{Rows: []Row{{Kind: "energy", Price: "$.0951"}, jackson}},
			whole(t, "2024-01-01", "2024-01-31", "1110"),
			"124.04",
			[]string{"105.56", "18.48"},
		},
		{
			"Ofgem, price cap October to December 2024: electricity, 2,700 kWh in 365 days",
			Schedule{Currency: "GBP", Rows: []Row{{Kind: "energy", Price: "24.50p"}, {Kind: "fixed", Price: "60.99p", Per: "day"}}},
			whole(t, "2024-10-01", "2025-09-30", "2700"),
			"884.11",
			[]string{"661.50", "222.61"},
		},
		{
			"the same, gas, 11,500 kWh",
			Schedule{Currency: "GBP", Rows: []Row{{Kind: "energy", Price: "6.24p"}, {Kind: "fixed", Price: "31.66p a day"}}},
			whole(t, "2024-10-01", "2025-09-30", "11500"),
			"833.16",
			[]string{"717.60", "115.56"},
		},
		{
			"Ofgem, price cap July to September 2023, as quoted in a web article: electricity; 2,900 kWh from memory",
			Schedule{Currency: "GBP", Rows: []Row{{Kind: "energy", Price: "30.11p"}, {Kind: "fixed", Price: "52.97p", Per: "day"}}},
			whole(t, "2023-07-01", "2024-06-29", "2900"),
			"1066.53",
			[]string{"873.19", "193.34"},
		},
		{
			"US Department of Energy, estimating appliance use: 394 kWh at 11 ¢",
			Schedule{Rows: []Row{{Kind: "energy", Price: "11 ¢"}}},
			whole(t, "2023-01-01", "2023-12-31", "394"),
			"43.34",
			[]string{"43.34"},
		},
		{
			"the same without rounding 394.2 kWh first",
			Schedule{Rows: []Row{{Kind: "energy", Price: "11 ¢"}}},
			whole(t, "2023-01-01", "2023-12-31", "394.2"),
			"43.36",
			[]string{"43.36"},
		},
	} {
		t.Run(c.source, func(t *testing.T) {
			wantLines(t, build(t, c.s).Price(c.u), c.total, c.lines...)
		})
	}
}

func withLosses(u Usage, factor string) Usage {
	u.LossFactor = dec(factor)
	return u
}

// The two fuels of the price cap come to the whole pounds that are published.
func TestPublishedCaps(t *testing.T) {
	for _, c := range []struct{ electricity, gas, el, day, gasPrice, gasDay, want string }{
		{"2700", "11500", "24.50p", "60.99p", "6.24p", "31.66p", "1717"}, // Ofgem, October to December 2024
		{"2900", "12000", "30.11p", "52.97p", "7.51p", "29.11p", "2074"}, // July to September 2023
	} {
		year := func(price, day, kWh string) decimal.Decimal {
			s := Schedule{Currency: "GBP", Rows: []Row{{Kind: "energy", Price: price}, {Kind: "fixed", Price: day, Per: "day"}}}
			return build(t, s).Price(whole(t, "2022-01-01", "2022-12-31", kWh)).Total
		}
		equal(t, "both fuels", year(c.el, c.day, c.electricity).Add(year(c.gasPrice, c.gasDay, c.gas)).Round(0), c.want)
	}
}

// VAT of 5 % is inside the cap's 24.50 p (Ofgem, October 2024): 23.3333 p without
// it (the result is ours).
func TestPublishedTaxWithin(t *testing.T) {
	s := Schedule{Currency: "GBP", Inclusive: "5", Places: "6", Rows: []Row{{Kind: "energy", Price: "24.50p"}}}
	p := build(t, s).Price(whole(t, "2024-10-01", "2024-10-01", "1"))
	equal(t, "without tax", p.Total.Sub(p.Tax), "0.233333")
}

// Ontario Energy Board, news releases: the rebate of 13.1 % from November 2024
// on the tiers of that winter. What it comes to on 1,200 kWh is ours: 93.00 and
// 22.00, less 15.07 (15.065).
func TestPublishedRebate(t *testing.T) {
	s := Schedule{Rows: []Row{
		{Kind: "tiers", Steps: []Step{{"1000", "9.3 ¢"}, {"", "11.0 ¢"}}},
		{Kind: "discount", Name: "Rebate", Price: "13.1 %"},
	}}
	wantLines(t, build(t, s).Price(whole(t, "2025-01-01", "2025-01-31", "1200")), "99.93", "93.00", "22.00", "-15.07")
}
