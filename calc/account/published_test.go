package account

import (
	"testing"

	"splittally/calc/tariff"
)

// oakville is the sample bill for 700 kWh of Oakville Hydro, May to October
// 2022, as printed on its page "Understanding your bill".
func oakville() tariff.Schedule {
	return tariff.Schedule{Rows: []tariff.Row{
		{Kind: "tiers", Name: "Electricity", Steps: []tariff.Step{{UpTo: "600", Price: "0.098"}, {Price: "0.115"}}},
		{Kind: "energy", Name: "Transmission", Price: "0.0160", Basis: "adjusted"},
		{Kind: "energy", Name: "Losses", Price: "0.115", Basis: "losses"},
		{Kind: "energy", Name: "Wholesale", Price: "0.0039", Basis: "adjusted"},
		{Kind: "fixed", Name: "Distribution", Price: "31.62"},
	}}
}

const oakvillePrinted = `
Electricity = 70.30
Transmission = $11.62
Losses = $3.03
Wholesale = 2.83
Distribution = $31.62`

// The printed energy is one line for two tiers, and adds up.
func TestPublishedRebuilt(t *testing.T) {
	u := whole(t, "2022-06-01", "2022-06-30", "700")
	u.LossFactor = dec("1.0376")
	a := rebuilt(t, oakville(), u, oakvillePrinted, "119.40", "")
	if want := "Electricity: 70.30 / 70.30\nTransmission: 11.62 / 11.62\nLosses: 3.03 / 3.03\nWholesale: 2.83 / 2.83\nDistribution: 31.62 / 31.62"; show(a) != want {
		t.Errorf("got\n%s", show(a))
	}
	equal(t, "off", a.Off, "0")
	if len(a.Pairs[0].Lines) != 2 {
		t.Errorf("the energy line stands for %v", a.Pairs[0].Lines)
	}
}

// The loss factor of that bill, 3.76 %, comes out of the lines that it is in:
// the losses of 3.03 leave 1.03758 to 1.03770.
func TestPublishedLossFactor(t *testing.T) {
	a := rebuilt(t, oakville(), whole(t, "2022-06-01", "2022-06-30", "700"), oakvillePrinted, "", "loss-factor")
	s := a.Solved
	if !s.Found {
		t.Fatal(s.Words)
	}
	equal(t, "loss factor", s.Value, "1.0376")
	equal(t, "low", s.Low.Round(7), "1.0375776")
	equal(t, "high", s.High.Round(7), "1.0377019")
}

// An Ontario distributor's bill guide: a factor of 3.79 %, losses at the price
// of energy. The 800 kWh, the 10 ¢ and so the 3.03 are ours.
func TestPublishedLossGuide(t *testing.T) {
	s := tariff.Schedule{Rows: []tariff.Row{
		{Kind: "energy", Name: "Energy", Price: "10 ¢"},
		{Kind: "energy", Name: "Loss adjustment", Price: "10 ¢", Basis: "losses"},
	}}
	a := rebuilt(t, s, whole(t, "2022-06-01", "2022-06-30", "800"), "Energy = 80.00\nLoss adjustment = 3.03", "83.03", "loss-factor")
	equal(t, "loss factor", a.Solved.Value, "1.0379")
}

// City of Clintonville, Wisconsin, bill explanation: reads 40081 and 40770 and
// an energy line of 71.24 whose price is not printed. The price is found; that
// 71.24/689 is 0.1034 is ours.
func TestPublishedRate(t *testing.T) {
	s := tariff.Schedule{Rows: []tariff.Row{
		{Kind: "energy", Name: "Energy"},
		{Kind: "fixed", Name: "Base", Price: "6.50"},
		{Kind: "energy", Name: "Power cost adjustment", Price: ".0075"},
		{Kind: "fixed", Name: "Public benefits", Price: "1.33"},
		{Kind: "tax", Name: "Sales tax", Price: "5.5", On: "Energy, Base, Power cost adjustment"},
	}}
	u := whole(t, "2024-01-01", "2024-01-31", "689")
	printed := "Energy = 71.24\nBase = 6.50\nPower cost adjustment = 5.17\nPublic benefits = 1.33\nSales tax = 4.56"
	got := rebuilt(t, s, u, printed, "88.80", "row.0").Solved
	if !got.Found {
		t.Fatal(got.Words)
	}
	equal(t, "price", got.Value, "0.1034")
	equal(t, "low", got.Low, "0.1033889696")
	equal(t, "high", got.High, "0.1034034833")

	// With that price the whole bill comes out.
	s.Rows[0].Price = "0.1034"
	a := rebuilt(t, s, u, printed, "88.80", "")
	equal(t, "off", a.Off, "0")
	// The total alone gives the price as well, if less closely.
	got = rebuilt(t, s, u, "", "88.80", "row.0").Solved
	if !got.Found || got.Low.GreaterThan(dec("0.1034")) || got.High.LessThan(dec("0.1034")) {
		t.Errorf("from the total: %+v", got)
	}
}
