package report

import (
	"math"
	"os"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/google/go-cmp/cmp"
	"github.com/shopspring/decimal"

	"splittally/calc"
	"splittally/calc/account"
	"splittally/calc/billing"
	"splittally/calc/calendar"
	"splittally/calc/remark"
	"splittally/calc/tariff"
)

func dec(text string) decimal.Decimal { return decimal.RequireFromString(text) }

func priced() tariff.Priced {
	return tariff.Priced{
		Bill: tariff.Bill{Currency: tariff.Currency{Code: "USD"}, Total: dec("96.14"), Lines: []tariff.Line{
			{Name: "Basic charge", Quantity: dec("29"), Unit: "day", Rate: dec("0.35"), Amount: dec("10.15")},
			{Name: "Energy, Night", Quantity: dec("189.5"), Unit: "kWh", Rate: dec("0.09"), Amount: dec("17.06"), Row: 1},
			{Name: "Energy, Day", Quantity: dec("271.5"), Unit: "kWh", Rate: dec("0.21"), Amount: dec("57.02"), Row: 1},
			{Name: "Charge for the lines of the whole county", Quantity: dec("461"), Unit: "kWh", Rate: dec("0.01271234"), Amount: dec("5.86"), Row: 2},
			{Name: "Tax", Quantity: dec("90.09"), Rate: dec("0.0671"), Amount: dec("6.05"), Row: 3},
		}},
		Uses: []tariff.Use{
			{Row: 1, Name: "Night", KWh: dec("189.5"), Assumed: true}, {Row: 1, Name: "Day", KWh: dec("271.5"), Assumed: true}, {Row: 4, Name: "Netting", KWh: dec("-20")},
		},
		IsAssumed: true, Least: dec("80.1"), Most: dec("140.66"), Tax: dec("7.11"), Carry: dec("3.5"),
		Skipped: []remark.Notice{{Text: "The highest power is not known."}},
		Notices: []remark.Notice{{Text: "A total was split by days."}},
	}
}

// billed adds all that is said of money to the findings made by hand.
func billed() calc.Findings {
	f := findings()
	f.Plans = []tariff.Built{{Tariff: tariff.Tariff{Given: true, Currency: tariff.Currency{Code: "USD"}}}, {Tariff: tariff.Tariff{Given: true, Currency: tariff.Currency{Code: "USD"}}}}
	bare := priced()
	bare.IsAssumed, bare.Uses, bare.Carry, bare.Skipped, bare.Notices, bare.Tax = false, nil, decimal.Decimal{}, nil, nil, dec("6.05")
	f.Accounts = []account.Account{
		{
			Priced: priced(), HasTotal: true, Total: dec("96.33"), Off: dec("0.19"),
			Pairs: []account.Pair{
				{Name: "Basic charge", At: 0, HasPrinted: true, Printed: dec("10.15"), Computed: dec("10.15"), IsEqual: true},
				{Name: "Energy", At: 1, HasPrinted: true, Printed: dec("74.27"), Computed: dec("74.08"), Off: dec("0.19"), Line: 1, Lines: []int{1, 2}, Reason: "74.27 USD comes out, as printed, if the period is a day longer."},
				{Name: "Late fee", At: 2, Line: -1, Typed: "2,x"},
				{Name: "Charge for the lines of the whole county", At: -1, Line: 3, Computed: dec("5.86")},
				{Name: "Tax", At: 3, HasPrinted: true, Printed: dec("6.05"), Computed: dec("6.05"), IsEqual: true, Line: 4},
			},
			Solved: account.Solved{Asked: true, Found: true, Words: "With 0.35 as the price of “Basic charge”, the printed 10.15 USD comes out."},
			Words:  []string{"96.33 USD is printed, 0.19 USD more than the 96.14 USD that come out."},
		},
		{Period: 1, Priced: bare, Pairs: []account.Pair{{Name: "Basic charge", At: -1, Computed: dec("10.15")}}},
		{},
	}
	worth := account.Worth{
		Indicated: priced(), Reference: bare, Difference: dec("-4.37"), Marginal: dec("0.19152003"), Energy: dec("-23.1"),
		Value: -4.4241, Expanded: 1.02, PerYear: -55.72, YearDoubt: math.Inf(1), IsAcross: true,
	}
	i := &f.Instruments[0]
	i.Results = []calc.Result{{IsPriced: true, Worth: worth}, {Waits: "no day of this period was measured"}}
	i.Worth, i.IsWorth = worth, true
	f.IsRunning = true
	first := day(2024, 4, 1)
	f.Running = account.Running{
		Span: calendar.Span{First: first, End: first + 30}, Through: first + 11, ToDate: bare, Projected: priced(), EnergySoFar: dec("180.34"), Energy: dec("461"), EnergyDoubt: 32.6,
		Low: dec("88.8"), High: dec("104.1"), Words: []string{"At this pace “Energy, over 300 kWh” is reached on 21 Apr 2024."},
	}
	f.Choices = []account.Choice{
		{Plan: 1, Name: "One price", Total: dec("182.2"), PerYear: dec("1109.4"), Words: []string{"A year is reckoned from 60 days, whatever their season."}},
		{Plan: 0, Name: "By the hour", Total: dec("192.28"), PerYear: dec("1170.6"), More: dec("61.2"), Words: []string{"A year is reckoned from 60 days, whatever their season.", "It costs as much at 900 kWh a year."}},
	}
	return f
}

func TestReportOfMoney(t *testing.T) {
	const path = "testdata/money.txt"
	f := billed()
	got := Text(calc.Case{Title: "Made by hand"}, f)
	_, got, _ = strings.Cut(got, "MONEY\n")
	if *update {
		if err := os.WriteFile(path, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(strings.Split(string(want), "\n"), strings.Split(got, "\n")); diff != "" {
		t.Errorf("the report has changed (-want +got):\n%s", diff)
	}
	for _, line := range strings.Split(got, "\n") {
		if n := utf8.RuneCountInString(line); n > width && !strings.HasPrefix(line, "These findings") {
			t.Errorf("a line of %d characters: %q", n, line)
		}
	}
}

// Before there are five measured days nothing is projected, and nothing is told
// of an end.
func TestRunningWithoutAnEnd(t *testing.T) {
	f := billed()
	f.Running.Projected = tariff.Priced{}
	got := Text(calc.Case{}, f)
	_, got, _ = strings.Cut(got, "THE RUNNING BILL\n")
	if strings.Contains(got, "at the end") || !strings.Contains(got, "so far: 180.3 kWh, 96.14 USD") {
		t.Errorf("a bill of which nothing is projected:\n%s", got)
	}
}

func TestNoMoney(t *testing.T) {
	f := billed()
	f.Accounts, f.Choices, f.IsRunning, f.Instruments[0].IsWorth = []account.Account{{}}, nil, false, false
	f.Periods = []billing.Statement{{}, {}}
	got := Text(calc.Case{}, f)
	for _, title := range []string{"MONEY", "RUNNING", "TARIFFS"} {
		if strings.Contains(got, title) {
			t.Errorf("without a price there is the section %s", title)
		}
	}
}
