package account

import (
	"slices"
	"strings"
	"testing"

	"github.com/shopspring/decimal"
	"pgregory.net/rapid"

	"splittally/calc/tariff"
)

// bill prices a household with tiers, times of use, charges and taxes.
func household() tariff.Schedule {
	return tariff.Schedule{Currency: "USD", Rows: []tariff.Row{
		{Kind: "tiers", Name: "Energy", Steps: []tariff.Step{{UpTo: "500", Price: "0.10"}, {Price: "0.12"}}},
		{Kind: "energy", Name: "Fuel adjustment", Price: "0.0123"},
		{Kind: "fixed", Name: "Customer charge", Price: "9.50"},
		{Kind: "fixed", Name: "Meter rent", Price: "0.11", Per: "day"},
		{Kind: "tax", Name: "State tax", Price: "5.5 %"},
	}}
}

func TestPairs(t *testing.T) {
	u := whole(t, "2024-03-01", "2024-03-31", "620") // 50.00 14.40 7.63 9.50 3.41 4.67
	for name, c := range map[string]struct{ printed, want string }{
		"names": {
			"State tax = 4.67\nMeter rent = 3.41\nCustomer charge = 9.50\nFuel adjustment = 7.63\nEnergy, over 500 kWh = 14.40\nEnergy, up to 500 kWh = 50.00",
			"State tax: 4.67 / 4.67\nMeter rent: 3.41 / 3.41\nCustomer charge: 9.50 / 9.50\nFuel adjustment: 7.63 / 7.63\nEnergy, over 500 kWh: 14.40 / 14.40\nEnergy, up to 500 kWh: 50.00 / 50.00",
		},
		"one line for two tiers": {
			"Energy charge = 64.40\nFuel = 7.63",
			"Energy charge: 64.40 / 64.40\nFuel: 7.63 / 7.63\nCustomer charge: - / 9.50\nMeter rent: - / 3.41\nState tax: - / 4.67",
		},
		"the row's name, another amount": {
			"Energy = 64.50\nFuel adjustment = 7.63",
			"Energy: 64.50 / 64.40 off 0.10\nFuel adjustment: 7.63 / 7.63\nCustomer charge: - / 9.50\nMeter rent: - / 3.41\nState tax: - / 4.67",
		},
		"two lines of the row's name": {
			"Energy = 50.00\nEnergy = 14.41",
			"Energy: 50.00 / 50.00\nEnergy: 14.41 / 14.40 off 0.01\nFuel adjustment: - / 7.63\nCustomer charge: - / 9.50\nMeter rent: - / 3.41\nState tax: - / 4.67",
		},
		"words": {
			"First 500 kWh of energy = 50\nEnergy over that = 14.40\nPower cost adjustment (fuel) = 7.63\nSales tax, state = 4.70",
			"First 500 kWh of energy: 50.00 / 50.00\nEnergy over that: 14.40 / 14.40\nPower cost adjustment (fuel): 7.63 / 7.63\nCustomer charge: - / 9.50\nMeter rent: - / 3.41\nSales tax, state: 4.70 / 4.67 off 0.03",
		},
		"amounts": {
			"Alpha = 9.50\nBeta = 50.00\nGamma = 4.67",
			"Alpha: 9.50 / 9.50\nBeta: 50.00 / 50.00\nEnergy, over 500 kWh: - / 14.40\nFuel adjustment: - / 7.63\nMeter rent: - / 3.41\nGamma: 4.67 / 4.67",
		},
		"order": {
			"Energy = 64.40\nPower supply = 7.60\nCustomer = 9.50\nRental = 3.30\nState tax = 4.67",
			"Energy: 64.40 / 64.40\nPower supply: 7.60 / 7.63 off -0.03\nCustomer: 9.50 / 9.50\nRental: 3.30 / 3.41 off -0.11\nState tax: 4.67 / 4.67",
		},
		"order, but far apart": {
			"Energy = 64.40\nDonation = 100.00\nCustomer charge = 9.50\nMeter rent = 3.41\nState tax = 4.67",
			"Energy: 64.40 / 64.40\nDonation: 100.00 / -\nFuel adjustment: - / 7.63\nCustomer charge: 9.50 / 9.50\nMeter rent: 3.41 / 3.41\nState tax: 4.67 / 4.67",
		},
	} {
		t.Run(name, func(t *testing.T) {
			if got := show(rebuilt(t, household(), u, c.printed, "", "")); !sameLinesAnyOrder(got, c.want) {
				t.Errorf("got\n%s\nwant\n%s", got, c.want)
			}
		})
	}
}

// sameLinesAnyOrder leaves the order to TestOrder, and an added line's place.
func sameLinesAnyOrder(a, b string) bool {
	x, y := strings.Split(a, "\n"), strings.Split(b, "\n")
	slices.Sort(x)
	slices.Sort(y)
	return slices.Equal(x, y)
}

// What is not printed stands where the tariff has it.
func TestOrder(t *testing.T) {
	u := whole(t, "2024-03-01", "2024-03-31", "620")
	want := "Energy: 64.40 / 64.40\nFuel adjustment: - / 7.63\nCustomer charge: 9.50 / 9.50\nMeter rent: - / 3.41\nGift: 1.00 / -\nState tax: 4.67 / 4.67"
	got := show(rebuilt(t, household(), u, "Energy = 64.40\nCustomer charge = 9.50\nGift = 1.00\nState tax = 4.67", "", ""))
	if !sameLinesAnyOrder(got, want) || !strings.HasPrefix(got, "Energy") || !strings.HasSuffix(got, "4.67 / 4.67") {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}

// Whatever is printed, each printed line is in one pair, each computed line in
// one, and one printed line stands for several only if they are all of a row of
// its name or add up to it. The same bill gives the same pairs.
func TestPairsHold(t *testing.T) {
	u := whole(t, "2024-03-01", "2024-03-31", "620")
	names := []string{"Energy", "energy charge", "Energy, over 500 kWh", "Fuel", "Tax", "State tax", "Customer charge", "Meter", "", "Gift", "kWh"}
	amounts := []string{"64.40", "50.00", "14.40", "7.63", "9.50", "3.41", "4.67", "1.00", "", "x", "-5.00", "1,234", "85.00"}
	tariffs := build(t, household())
	rapid.Check(t, func(rt *rapid.T) {
		var printed []string
		for range rapid.IntRange(0, 9).Draw(rt, "lines") {
			printed = append(printed, rapid.SampledFrom(names).Draw(rt, "name")+"="+rapid.SampledFrom(amounts).Draw(rt, "amount"))
		}
		b := Bill{Path: "periods.0", Usage: u, Schedule: household(), Printed: lines(strings.Join(printed, "\n"))}
		a := Rebuild(tariffs, b)
		checkPairs(rt, b, a)
		if again := Rebuild(tariffs, b); show(again) != show(a) {
			rt.Fatalf("once\n%s\nthen\n%s", show(a), show(again))
		}
	})
}

type failer interface{ Fatalf(string, ...any) }

func checkPairs(t failer, b Bill, a Account) {
	printed, computed := map[int]int{}, map[int]int{}
	for _, p := range a.Pairs {
		if p.At >= 0 {
			printed[p.At]++
		}
		for _, l := range p.linesOf() {
			computed[l]++
		}
		if len(p.Lines) > 0 {
			checkGroup(t, a, p)
		}
		if p.HasPrinted && p.Line >= 0 && !p.Off.Equal(p.Printed.Sub(p.Computed)) {
			t.Fatalf("%s: off %s", p.Name, p.Off)
		}
		if p.IsEqual && p.Reason != "" {
			t.Fatalf("%s is right and has a reason: %s", p.Name, p.Reason)
		}
	}
	for i, l := range b.Printed {
		if blank := strings.TrimSpace(l.Name+l.Amount) == ""; !blank && printed[i] != 1 {
			t.Fatalf("printed line %d is in %d pairs", i, printed[i])
		}
	}
	for l := range a.Lines {
		if computed[l] != 1 {
			t.Fatalf("line %d is in %d pairs", l, computed[l])
		}
	}
}

func checkGroup(t failer, a Account, p Pair) {
	var sum decimal.Decimal
	rows := map[int]bool{}
	for _, l := range p.Lines {
		sum = sum.Add(a.Lines[l].Amount)
		rows[a.Lines[l].Row] = true
	}
	if !sum.Equal(p.Computed) || len(rows) != 1 {
		t.Fatalf("%s stands for %v", p.Name, p.Lines)
	}
	row, _ := parts(a.Lines[p.Line], a.Uses)
	if !p.IsEqual && p.HasPrinted && !sameWords(p.Name, row) {
		t.Fatalf("%s stands for lines that don't add up to it", p.Name)
	}
}

func TestPrintedAmounts(t *testing.T) {
	u := whole(t, "2024-03-01", "2024-03-31", "620")
	for typed, want := range map[string]string{
		"7.63": "7.63", "$7.63": "7.63", "7,63": "7.63", "USD 7.63": "7.63", "763 ¢": "7.63", "1,234": "1234", "1,350": "1350", "2.500": "2500", "0.350": "0.35", "1.234,50": "1234.5", "1,234.50": "1234.5",
		"-5.00": "-5", "−5.00": "-5", "5.00-": "-5", "(5.00)": "-5", "$-5.00": "-5", "-$5.00": "-5", "5.00 CR": "-5", "5 cr": "-5", "0": "0",
	} {
		p := reasonOf(t, rebuilt(t, household(), u, "Fuel adjustment ="+typed, "", ""), "Fuel adjustment")
		if !p.HasPrinted || !p.Printed.Equal(dec(want)) {
			t.Errorf("%q is read as %v %s", typed, p.HasPrinted, p.Printed)
		}
	}
	for _, typed := range []string{"x", "5-5", "--5", "- -5", "7.63 or so", "1.2.3", "(5", "−"} {
		a := rebuilt(t, household(), u, "Fuel adjustment ="+typed, "", "")
		p := reasonOf(t, a, "Fuel adjustment")
		if p.HasPrinted || p.Line < 0 || p.Typed != typed || len(a.Problems) != 1 || a.Problems[0].Path != "periods.0.lines.0.amount" || a.Problems[0].Found != typed || a.HasTotal {
			t.Errorf("%q: %+v, problems %v", typed, p, a.Problems)
		}
	}
	a := rebuilt(t, household(), u, "", "about 80", "")
	if a.HasTotal || len(a.Problems) != 1 || a.Problems[0].Path != "periods.0.total" {
		t.Errorf("total: %v %v", a.HasTotal, a.Problems)
	}
}

// Where the currency has three decimals nothing decides, so it is asked.
func TestAsked(t *testing.T) {
	s := tariff.Schedule{Currency: "KWD", Rows: []tariff.Row{{Kind: "fixed", Name: "Service", Price: "1.234"}}}
	s.Rows[0].Price = "1.2340"
	b := Bill{Path: "periods.2", Usage: whole(t, "2024-03-01", "2024-03-31", "620"), Schedule: s, Printed: lines("Service = 1,234")}
	a := Rebuild(build(t, s), b)
	if len(a.Questions) != 1 || a.Questions[0].ID != "periods.2.lines.0.amount" || !a.Pairs[0].Printed.Equal(dec("1.234")) {
		t.Fatalf("%+v", a.Questions)
	}
	b.Options.Answers = map[string]string{"periods.2.lines.0.amount": "1234"}
	if a = Rebuild(build(t, s), b); !a.Pairs[0].Printed.Equal(dec("1234")) || !a.Questions[0].Answered {
		t.Errorf("answered: %+v", a.Pairs[0])
	}
}
