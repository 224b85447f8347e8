package tariff

import (
	"strconv"
	"testing"

	"splittally/calc/energy"
)

// yearOfHours is a leap year of invented hourly readings.
func yearOfHours(t testing.TB) Usage {
	u := Usage{Span: span(t, "2024-01-01", "2024-12-31")}
	for d := u.Span.First; d < u.Span.End; d++ {
		for h := range 24 {
			e := energy.Energy(int(d)*7919%900+200+h*31) * energy.WattHour
			u.Import = append(u.Import, Slot{First: d, Last: d, From: h * 60, To: h*60 + 60, Energy: e})
		}
	}
	return u
}

// fiveTariffs are as households have them, no two alike.
func fiveTariffs(t testing.TB) (list []Tariff) {
	for i := range 5 {
		s := Schedule{Currency: "CAD", Region: "CA-ON", Round: []string{"line", "total"}[i%2], Rows: []Row{
			{Kind: "times", Name: "Winter", From: "1 Nov", To: "30 Apr", Bands: []Band{
				{Name: "On-peak", Price: "15.8 ¢", Days: "workdays", Hours: "7-11, 17-19"},
				{Name: "Mid-peak", Price: "12.2 ¢", Days: "workdays", Hours: "11-17"},
				{Name: "Off-peak", Price: "7.6 ¢"},
			}},
			{Kind: "times", Name: "Summer", From: "1 May", To: "31 Oct", Bands: []Band{
				{Name: "On-peak", Price: "15.8 ¢", Days: "workdays", Hours: "11-17"},
				{Name: "Overnight", Price: "2.8 ¢", Hours: "23-7"},
				{Name: "Off-peak", Price: "7." + strconv.Itoa(i) + " ¢"},
			}},
			{Kind: "tiers", Name: "Network", Per: "month", Basis: "adjusted", Steps: []Step{{"600", "0.011"}, {"", "0.013"}}},
			{Kind: "demand", Name: "Peak", Price: "1.10", Per: "60"},
			{Kind: "fixed", Name: "Service", Price: "31.62", Per: "month"},
			{Kind: "discount", Name: "Rebate", Price: "13.1 %", On: "Winter, Summer"},
			{Kind: "tax", Name: "Tax", Price: "13 %"},
		}}
		list = append(list, build(t, s))
	}
	return list
}

// BenchmarkYear prices 8,784 hours by five tariffs: within one frame, 16 ms.
func BenchmarkYear(b *testing.B) {
	u, tariffs := yearOfHours(b), fiveTariffs(b)
	b.ReportAllocs()
	for b.Loop() {
		for _, t := range tariffs {
			t.Price(u)
		}
	}
}

// BenchmarkBuild is what a key in the tariff costs.
func BenchmarkBuild(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		fiveTariffs(b)
	}
}

// BenchmarkYearOfDays prices 366 daily totals, of which no hours are known.
func BenchmarkYearOfDays(b *testing.B) {
	u, tariffs := yearOfHours(b), fiveTariffs(b)
	days := u
	days.Import = nil
	for d := u.Span.First; d < u.Span.End; d++ {
		days.Import = append(days.Import, Slot{First: d, Last: d, To: minutesOfDay, Energy: energy.Energy(d) * energy.WattHour})
	}
	b.ReportAllocs()
	for b.Loop() {
		for _, t := range tariffs {
			t.Price(days)
		}
	}
}
