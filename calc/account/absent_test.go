package account

import (
	"strings"
	"testing"

	"splittally/calc/tariff"
)

// A row that the bill can't hold is no line that the tariff lacks, and the tax on
// it follows.
func TestAbsent(t *testing.T) {
	s := tariff.Schedule{Rows: []tariff.Row{
		energyRow("0.10"),
		{Kind: "demand", Name: "Demand", Price: "5.75", Per: "15"},
		{Kind: "fixed", Name: "Levy", Price: ""},
		{Kind: "tax", Name: "Tax", Price: "5 %", On: "Energy, Demand, Levy"},
	}}
	a := rebuilt(t, s, whole(t, "2024-03-01", "2024-03-31", "500"), "Energy = 50\nDemand charge = 23\nLevy = 2\nGift = 1\nTax = 3.75", "", "")
	if got, want := reasonOf(t, a, "Demand charge").Reason, "The tariff has “Demand”, but the computed bill has no line of it."; got != want {
		t.Errorf("demand: %q", got)
	}
	if got := reasonOf(t, a, "Tax"); !got.IsExplained || !strings.Contains(got.Reason, "of 75.00, their printed amounts, is 3.75.") {
		t.Errorf("tax: %q", got.Reason)
	}
	got := strings.Join(a.Words, "\n")
	for _, want := range []string{"“Levy” is left out, as something of it is missing or can’t be read.", "1 printed line is not in the tariff."} {
		if !strings.Contains(got, want) {
			t.Errorf("no %q in\n%s", want, got)
		}
	}
}

// Prices of 24.50 and 60.99 with 5 % in them; the bill prints them without:
// 69.09/1.05 = 65.80, 18.9069/1.05 = 18.01 and 5 % of 83.81.
func TestWithoutHeldTax(t *testing.T) {
	s := tariff.Schedule{Currency: "GBP", Inclusive: "5", Rows: []tariff.Row{energyRow("24.50p"), {Kind: "fixed", Name: "Standing charge", Price: "60.99p", Per: "day"}}}
	a := rebuilt(t, s, whole(t, "2024-08-01", "2024-08-31", "282"), "Energy = 65.80\nStanding charge = 18.01\nVAT = 4.19", "88.00", "")
	for _, name := range []string{"Energy", "Standing charge"} {
		if p := reasonOf(t, a, name); !strings.HasSuffix(p.Reason, " comes out, as printed, if the tax that its price holds is left out.") {
			t.Errorf("%s: %q", name, p.Reason)
		}
	}
	if p := reasonOf(t, a, "VAT"); p.Reason != "The prices hold it already: it is the tax in the computed total." {
		t.Errorf("tax: %q", p.Reason)
	}
}

// Printed with 10 % in it, which the tariff has as a row: 70 · 1.1.
func TestWithTax(t *testing.T) {
	s := tariff.Schedule{Rows: []tariff.Row{energyRow("0.10"), {Kind: "tax", Name: "GST", Price: "10 %"}}}
	u := whole(t, "2024-03-01", "2024-03-31", "700")
	if p := reasonOf(t, rebuilt(t, s, u, "Energy = 77.00", "", ""), "Energy"); p.Reason != "77.00 comes out, as printed, if “GST” is in it." {
		t.Errorf("%q", p.Reason)
	}
	if p := reasonOf(t, rebuilt(t, s, u, "Energy = 77.00\nGST = 7.00", "", ""), "Energy"); p.IsExplained {
		t.Errorf("the tax has its own line: %q", p.Reason)
	}
}

// A credit typed without its sign, and a total that shows it.
func TestOtherSign(t *testing.T) {
	s := tariff.Schedule{Rows: []tariff.Row{energyRow("0.31"), {Kind: "export", Name: "Feed-in credit", Price: "0.075"}}}
	u := whole(t, "2024-03-01", "2024-03-31", "300")
	u.Export = whole(t, "2024-03-01", "2024-03-31", "188").Import
	a := rebuilt(t, s, u, "Energy = 93.00\nFeed-in credit = 14.10", "78.90", "")
	if p := reasonOf(t, a, "Feed-in credit"); p.Reason != "It is the same amount with the other sign. A credit is typed with a minus." {
		t.Errorf("%q", p.Reason)
	}
	if got := strings.Join(a.Words, "\n"); !strings.Contains(got, "That is what “Feed-in credit” is apart. Look whether it is typed as printed.") {
		t.Errorf("%q", got)
	}
}

// 120 kWh were carried over, which the bill forgot: 180 kWh in place of 60.
func TestForgottenCarry(t *testing.T) {
	s := tariff.Schedule{Rows: []tariff.Row{{Kind: "netting"}, energyRow("0.165")}}
	u := whole(t, "2024-05-01", "2024-05-31", "480")
	u.Export, u.Carried = whole(t, "2024-05-01", "2024-05-31", "300").Import, dec("120")
	p := reasonOf(t, rebuilt(t, s, u, "Energy = 29.70", "", ""), "Energy")
	if want := "29.70 comes out, as printed, if none of the 120 kWh is taken off that earlier bills carried over."; p.Reason != want {
		t.Errorf("%q", p.Reason)
	}
}
