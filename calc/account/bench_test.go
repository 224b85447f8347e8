package account

import (
	"strconv"
	"testing"

	"splittally/calc/energy"
	"splittally/calc/tariff"
)

// hourly is a leap year of invented hourly readings, by months.
func hourly(t testing.TB) []tariff.Usage {
	list := year(t, "1")[36:]
	for i := range list {
		list[i].Import = nil
		for d := list[i].Span.First; d < list[i].Span.End; d++ {
			for h := range 24 {
				list[i].Import = append(list[i].Import, hour(d, h, energy.Energy(int(d)*7919%900+200+h*31)*energy.WattHour))
			}
		}
	}
	return list
}

func fivePlans(t testing.TB) []tariff.Tariff {
	var list []tariff.Schedule
	for i := range 5 {
		list = append(list, tariff.Schedule{Currency: "CAD", Region: "CA-ON", Rows: []tariff.Row{
			{Kind: "times", Name: "Winter", From: "1 Nov", To: "30 Apr", Bands: []tariff.Band{
				{Name: "On-peak", Price: "15.8 ¢", Days: "workdays", Hours: "7-11, 17-19"}, {Name: "Off-peak", Price: "7.6 ¢"},
			}},
			{Kind: "times", Name: "Summer", From: "1 May", To: "31 Oct", Bands: []tariff.Band{
				{Name: "On-peak", Price: "15.8 ¢", Days: "workdays", Hours: "11-17"}, {Name: "Off-peak", Price: "7." + strconv.Itoa(i) + " ¢"},
			}},
			{Kind: "tiers", Name: "Network", Per: "month", Steps: []tariff.Step{{UpTo: "600", Price: "0.011"}, {Price: "0.01" + strconv.Itoa(3+i)}}},
			{Kind: "fixed", Name: "Service", Price: strconv.Itoa(30-2*i) + ".62", Per: "month"},
			{Kind: "tax", Price: "13 %"},
		}})
	}
	return plans(t, list...)
}

// BenchmarkChoose ranks five tariffs by 8,784 hours, break-even included.
func BenchmarkChoose(b *testing.B) {
	periods, five := hourly(b), fivePlans(b)
	b.ReportAllocs()
	for b.Loop() {
		Choose(five, periods)
	}
}

// BenchmarkPrice is the part of it that is the pricing alone.
func BenchmarkPrice(b *testing.B) {
	periods, five := hourly(b), fivePlans(b)
	for b.Loop() {
		for _, t := range five {
			for _, u := range periods {
				t.Price(u)
			}
		}
	}
}

// BenchmarkRebuild is a bill of which every line differs, the dearest case.
func BenchmarkRebuild(b *testing.B) {
	s := household()
	bill := Bill{
		Path: "periods.0", Usage: whole(b, "2024-03-01", "2024-03-31", "620"), Schedule: s,
		Printed: lines("Energy = 64.50\nFuel adjustment = 7.99\nCustomer charge = 9.99\nMeter rent = 3.99\nState tax = 4.99"),
	}
	t := build(b, s)
	for b.Loop() {
		Rebuild(t, bill)
	}
}

func BenchmarkSolve(b *testing.B) {
	s := household()
	bill := Bill{Path: "periods.0", Usage: whole(b, "2024-03-01", "2024-03-31", "620"), Schedule: s, Printed: lines("Fuel adjustment = 7.99"), Solve: "row.1"}
	t := build(b, s)
	for b.Loop() {
		Rebuild(t, bill)
	}
}

func BenchmarkRunTo(b *testing.B) {
	t, in := build(b, household()), RunningInput{Span: june(b), Days: usual(b, "2024-05-01", "2024-06-10")}
	for b.Loop() {
		RunTo(t, in)
	}
}

// BenchmarkRebuildHours is a month of hours with times of use, all lines wrong.
func BenchmarkRebuildHours(b *testing.B) {
	u := hourly(b)[4]
	s := tariff.Schedule{Region: "CA-ON", Rows: []tariff.Row{
		{Kind: "times", Name: "Use", Bands: []tariff.Band{{Name: "On-peak", Price: "15.8 ¢", Days: "workdays", Hours: "11-17"}, {Name: "Off-peak", Price: "7.6 ¢"}}},
		{Kind: "fixed", Name: "Service", Price: "31.62"},
		{Kind: "tax", Price: "13 %"},
	}}
	bill := Bill{Path: "periods.0", Usage: u, Schedule: s, Printed: lines("On-peak = 20\nOff-peak = 40\nService = 30\nTax = 9"), Solve: "row.0.0"}
	t := build(b, s)
	for b.Loop() {
		Rebuild(t, bill)
	}
}
