package tariff

import "testing"

// Printed bills and price examples of other people. The figures were read in
// copies of the sources named and typed by hand. Where a source has lines that
// this tariff has no place for, they are put into the fixed charge as one
// amount, which is said.

func TestPublishedBills(t *testing.T) {
	for _, c := range []struct {
		source string
		flat   Flat
		kWh    string
		lines  []string
		total  string
	}{
		{
			"Jackson County Power Board, residential example: 1110 kWh at $.0951 is 105.56, fee 18.48 (the sum is ours)",
			Flat{PerKWh: "$.0951", Fixed: "18.48"},
			"1110",
			[]string{"105.56", "18.48"},
			"124.04",
		},
		{
			"City of Clintonville, Wisconsin, bill explanation: power cost adjustment .0075 on 689 kWh; energy 71.24 and base 6.50 (here the fixed charge); tax 5.5 %; 88.80 with 1.33 untaxed",
			Flat{PerKWh: "0.0075", Fixed: "77.74", Tax: "5.5"},
			"689",
			[]string{"5.17", "77.74", "4.56"},
			"87.47",
		},
		{
			"City of Seymour, billing calculation examples, winter: power cost .085 on 1200 kWh; blocks 16.00, 22.05, 22.30 and base 7.50 (here the fixed charge); tax 1 %",
			Flat{PerKWh: "0.085", Fixed: "67.85", Tax: "1"},
			"1200",
			[]string{"102.00", "67.85", "1.70"},
			"171.55",
		},
		{
			"Ofgem, price cap October to December 2024: 24.50 p/kWh, 60.99 p/day, VAT included; 2,700 kWh and 365 days (here the fixed charge)",
			Flat{PerKWh: "24.50p", Fixed: "222.6135", Currency: "GBP"},
			"2700",
			[]string{"661.50", "222.61"},
			"884.11",
		},
		{
			"the same for gas: 6.24 p/kWh, 31.66 p/day, 11,500 kWh",
			Flat{PerKWh: "6.24p", Fixed: "115.559", Currency: "GBP"},
			"11500",
			[]string{"717.60", "115.56"},
			"833.16",
		},
		{
			"US Department of Energy, estimating appliance use: 394 kWh at 11 ¢ is $43.34",
			Flat{PerKWh: "11 ¢"},
			"394",
			[]string{"43.34"},
			"43.34",
		},
		{
			"the same without rounding 394.2 kWh first",
			Flat{PerKWh: "11 ¢"},
			"394.2",
			[]string{"43.36"},
			"43.36",
		},
		{
			"Oakville Hydro, sample tiered bill 2022: 600 kWh at $0.098",
			Flat{PerKWh: "0.098"},
			"600",
			[]string{"58.80"},
			"58.80",
		},
		{
			"Oakville Hydro, sample tiered bill 2022: transmission $0.0160 on 726.32 kWh",
			Flat{PerKWh: "0.0160"},
			"726.32",
			[]string{"11.62"},
			"11.62",
		},
	} {
		t.Run(c.source, func(t *testing.T) {
			b := bill(t, c.flat, c.kWh)
			if len(b.Lines) != len(c.lines) {
				t.Fatalf("%d lines, want %d", len(b.Lines), len(c.lines))
			}
			for i, l := range b.Lines {
				equal(t, l.Name, l.Amount, c.lines[i])
			}
			equal(t, "total", b.Total, c.total)
		})
	}
}

// Ofgem, price cap July to September 2023, as quoted in a web article: 30.11
// p/kWh and 52.97 p/day, gas 7.51 p and 29.11 p/day, £2,074 for a typical home,
// which then was 2,900 and 12,000 kWh (from memory).
func TestPublishedPriceCap2023(t *testing.T) {
	electricity := bill(t, Flat{PerKWh: "30.11p", Fixed: "193.3405"}, "2900")
	gas := bill(t, Flat{PerKWh: "7.51p", Fixed: "106.2515"}, "12000")
	total := electricity.Total.Add(gas.Total)
	equal(t, "both", total, "2073.98")
	equal(t, "whole pounds", total.Round(0), "2074")
}

// Ontario Energy Board, news release of May 2019: 65, 17 and 18 % of 700 kWh at
// 6.5, 9.4 and 13.4 ¢. The first product is 29.575, which is printed rounded
// half up; half to even or binary fractions would give a cent less.
func TestPublishedHalfCent(t *testing.T) {
	for _, c := range []struct{ kWh, price, want string }{
		{"455", "6.5 ¢", "29.58"}, {"119", "9.4 ¢", "11.19"}, {"126", "13.4 ¢", "16.88"},
	} {
		b := bill(t, Flat{PerKWh: c.price}, c.kWh)
		equal(t, c.kWh+" kWh at "+c.price, b.Total, c.want)
	}
}

// The price before 5 % VAT of 24.50 p is 23.3333 p (Ofgem, October 2024; the
// result is ours): taxed again it must come to the published price.
func TestPublishedTaxInside(t *testing.T) {
	plan := Read(Flat{PerKWh: "23.3333p", Tax: "5"}, Options{}).Plan
	equal(t, "a kWh with tax", plan.Tariff().Marginal(used(t, "0")).Round(6), "0.245")
}
