package view

import (
	"html"
	"maps"
	"math"
	"reflect"
	"slices"
	"strings"
	"testing"

	"github.com/shopspring/decimal"

	"splittally/calc"
	"splittally/calc/account"
	"splittally/calc/billing"
	"splittally/calc/chart/markup"
	"splittally/calc/remark"
	"splittally/calc/tariff"
)

func dec(text string) decimal.Decimal { return decimal.RequireFromString(text) }

// billed is the small case with all that is said of money, made by hand.
func billed() (calc.Case, calc.Findings) {
	c, f := small()
	c.Plans = []tariff.Schedule{
		{Name: "Two <tiers>", Currency: "USD", Inclusive: "6.4", Rows: []tariff.Row{
			{Kind: "tiers", Name: "Energy", Steps: []tariff.Step{{UpTo: "18.5", Price: "0.12"}, {Price: "0.18"}, {}}},
			{Kind: "times", Name: "By the <hour>", Bands: []tariff.Band{{Name: "Night", Price: "0.1"}, {Price: "0.2"}}},
			{Kind: "fixed"},
			{Kind: "tax", Name: "Tax"},
			{Kind: "netting", Name: "Sent out"},
			{},
		}},
		{Rows: []tariff.Row{{Kind: "energy"}}},
	}
	c.Periods[0].Lines = []billing.Line{{Name: "Energy", Amount: "3.51"}}
	usd := tariff.Currency{Code: "USD"}
	f.Plans = []tariff.Built{
		{Tariff: tariff.Tariff{Given: true, Name: "Two <tiers>", Currency: usd}},
		{Tariff: tariff.Tariff{Waits: "a price of “Energy” is missing"}},
	}
	f.Notices = append(f.Notices, remark.Notice{Path: "plans.1.rows.0", Text: "The row is left out."})
	bill := tariff.Priced{
		Bill: tariff.Bill{Currency: usd, Total: dec("9.16"), Lines: []tariff.Line{
			{Name: "Energy, up to 18.5 kWh", Quantity: dec("18.5"), Unit: "kWh", Rate: dec("0.12"), Amount: dec("2.22"), Row: 0},
			{Name: "Energy, over 18.5 kWh", Quantity: dec("10.5"), Unit: "kWh", Rate: dec("0.18"), Amount: dec("1.89"), Row: 0},
			{Name: "Customer charge", Quantity: dec("3"), Unit: "day", Rate: dec("1.5"), Amount: dec("4.50"), Row: 2},
			{Name: "Tax", Quantity: dec("8.61"), Rate: dec("0.064"), Amount: dec("0.55"), Row: 3},
			{Name: "Credit", Quantity: dec("1"), Unit: "period", Rate: dec("-1"), Amount: dec("-1"), Row: 4},
		}},
		Uses:      []tariff.Use{{Row: 0, Name: "up to 18.5 kWh", KWh: dec("18.5")}, {Row: 1, Name: "Night", KWh: dec("9"), Assumed: true}, {Row: 1, Name: "Day", KWh: dec("20"), Assumed: true}},
		IsAssumed: true, Least: dec("8.8"), Most: dec("9.6"), Tax: dec("0.63"), Carry: dec("12.5"),
		Skipped: []remark.Notice{{Text: "The highest power is not known."}},
		Notices: []remark.Notice{{Text: "A total was split by days."}},
	}
	f.Accounts = []account.Account{{
		Priced: bill, HasTotal: true, Total: dec("9.28"), Off: dec("0.12"),
		Pairs: []account.Pair{
			{Name: "Energy", HasPrinted: true, Printed: dec("4.23"), Computed: dec("4.11"), Off: dec("0.12"), Line: 0, Lines: []int{0, 1}, Reason: "The threshold fits 31 days.", IsExplained: true},
			{Name: "Customer charge", HasPrinted: true, Printed: dec("4.5"), Computed: dec("4.5"), Line: 2, IsEqual: true},
			{Name: "Tax", At: -1, Line: 3, Computed: dec("0.55")},
			{Name: "Late fee", Line: -1, Typed: "2,x"},
			{Name: "Credit", Line: 4, HasPrinted: true, Printed: dec("-1.1"), Computed: dec("-1"), Off: dec("-0.1")},
		},
		Solved: account.Solved{Asked: true, Found: true, What: "loss factor", Value: dec("1.034"), Low: dec("1.0335"), High: dec("1.0344"), Words: "Any factor between gives the same amount."},
		Words:  []string{"9.28 USD is printed, 0.12 USD more than comes out."},
	}}
	worth := account.Worth{
		Indicated: bill, Difference: dec("0.09"), Marginal: dec("0.19152"), Energy: dec("0.5"), Value: 0.0958, Expanded: 0.21, PerYear: 11.66, YearDoubt: 25.6, IsAcross: true,
	}
	f.Instruments[0].Results[0].Worth = worth
	f.Instruments[0].Worth, f.Instruments[0].IsWorth = worth, true
	f.IsRunning = true
	first := f.Periods[0].Span.First
	f.Running = account.Running{
		Span: f.Periods[0].Span, Through: first, ToDate: bill, Projected: bill, EnergySoFar: dec("10"), Energy: dec("30"), EnergyDoubt: 2.5,
		Low: dec("8"), High: dec("10.5"), Next: account.Next{Known: true, Name: "over 18.5 kWh", Day: first + 1}, Words: []string{"From one day of readings."},
	}
	f.Choices = []account.Choice{
		{Plan: 1, Name: "Flat", Total: dec("8.2"), PerYear: dec("998.4"), Words: []string{"Reckoned from 3 days."}},
		{Plan: 0, Name: "Two <tiers>", Total: dec("9.16"), PerYear: dec("1115.3"), More: dec("116.9"), IsAssumed: true, Least: dec("1071"), Most: dec("1168"), Words: []string{"Reckoned from 3 days.", "Dearer from 20 kWh a day on."}},
	}
	return c, f
}

func TestGoldenMoney(t *testing.T) {
	c, f := billed()
	d := all(c, f)
	maps.DeleteFunc(d.Slots, func(slot, _ string) bool {
		return !slices.Contains([]string{"accounts", "worth", "running", "choices", "plans.1.waits", "periods.0.unknowns", "notices"}, slot)
	})
	golden(t, "money.html", Drawing{Slots: d.Slots})
}

// Amounts too long for three columns on a phone make a table of blocks.
func TestLongAmounts(t *testing.T) {
	c, f := billed()
	if got := all(c, f).Slots["accounts"]; !strings.Contains(got, `<table class="tight"`) {
		t.Errorf("short amounts: %s", got)
	}
	f.Accounts[0].Total = dec("123456789.12")
	if got := all(c, f).Slots["accounts"]; strings.Contains(got, `<table class="tight"`) {
		t.Errorf("long amounts: %s", got)
	}
}

// What is not known is not there, and breaks nothing.
func TestMoneyWithLess(t *testing.T) {
	c, f := billed()
	f.Accounts[0].HasTotal, f.Accounts[0].Solved = false, account.Solved{}
	for i := range f.Accounts[0].Pairs {
		f.Accounts[0].Pairs[i].HasPrinted, f.Accounts[0].Pairs[i].At = false, -1
	}
	f.Instruments[0].Results[0].Worth.Expanded, f.Instruments[0].Worth.YearDoubt = math.Inf(1), math.NaN()
	f.Choices = f.Choices[:1]
	f.Plans = nil
	d := all(c, f)
	if got := d.Slots["accounts"]; strings.Contains(got, "Printed") || !strings.Contains(got, "Customer charge") {
		t.Errorf("without a printed line: %s", got)
	}
	if got := d.Slots["worth"]; strings.Count(got, "unknown") != 2 {
		t.Errorf("without an interval: %s", got)
	}
	if got := d.Slots["choices"]; got != "" {
		t.Errorf("one tariff alone: %s", got)
	}
	c, f = small()
	for _, slot := range []string{"accounts", "worth", "running", "choices"} {
		if got := all(c, f).Slots[slot]; got != "" {
			t.Errorf("%s of a case without a tariff: %s", slot, got)
		}
	}
}

func TestHostileMoney(t *testing.T) {
	for _, bad := range hostile {
		c, f := billed()
		poison(reflect.ValueOf(&f).Elem(), bad)
		c.Plans[0].Rows[0].Name = "Row " + bad
		d := all(c, f)
		for _, slot := range []string{"accounts", "worth", "running", "choices", "plans.1.waits", "periods.0.unknowns"} {
			checkMarkup(t, bad+" in "+slot, d.Slots[slot])
			if !strings.Contains(d.Slots[slot], html.EscapeString(markup.Plain(bad))) {
				t.Errorf("%s is not in %s: the test has no grip", bad, slot)
			}
		}
	}
}

// A simple price has rows to find as well.
func TestUnknownsOfASimplePrice(t *testing.T) {
	c, f := small()
	f.Plan.HasTax = true
	want := `<option value="row.0">Energy</option><option value="row.1">Tax</option>`
	if got := all(c, f).Slots["periods.0.unknowns"]; got != want {
		t.Errorf("%s\nwant %s", got, want)
	}
}
