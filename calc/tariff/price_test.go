package tariff

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/shopspring/decimal"

	"splittally/calc/energy"
)

// daysOf is a period of whole days, each of so many kWh.
func daysOf(t testing.TB, first string, each ...int) Usage {
	d := day(t, first)
	u := Usage{Span: span(t, first, first)}
	for _, kWh := range each {
		u.Import = append(u.Import, Slot{First: d, Last: d, To: minutesOfDay, Energy: energy.Energy(kWh) * energy.KilowattHour})
		d++
		u.Span.End = d
	}
	return u
}

// A percentage, an amount off, a charge and a demand that hold for some of the
// days are for their portion of the period.
func TestPortions(t *testing.T) {
	u := daysOf(t, "2024-04-29", 10, 10, 10, 10, 10) // two days of April, three of May
	may := func(r Row) Row {
		r.From, r.To = "1 May", "31 May"
		return r
	}
	base := Row{Kind: "energy", Price: "$0.10"}
	for name, c := range map[string]struct{ row, amount string }{
		"tax":      {"tax 10 %", "0.30"}, // 5.00 · 10 % · 3/5
		"discount": {"discount 10 %", "-0.30"},
		"amount":   {"discount $2", "-1.20"},
		"charge":   {"fixed $2", "1.20"},
		"by day":   {"fixed $2 day", "6.00"},
		"by month": {"fixed $31 month", "3.00"}, // 3/31 of May
		"minimum":  {"minimum $10", "1.00"},     // 6.00 against 5.00
		"energy":   {"energy $0.05", "1.50"},
	} {
		words := strings.Fields(c.row)
		r := may(Row{Kind: words[0], Price: strings.Replace(words[1]+" %", " % %", " %", 1)})
		if words[1][0] == '$' {
			r.Price = words[1]
		}
		if last := words[len(words)-1]; last == "day" || last == "month" {
			r.Per = last
		}
		p := build(t, Schedule{Rows: []Row{base, r}}).Price(u)
		if len(p.Lines) != 2 {
			t.Fatalf("%s: %d lines", name, len(p.Lines))
		}
		equal(t, name, p.Lines[1].Amount, c.amount)
	}
	// A row of another season has no line.
	if p := build(t, Schedule{Rows: []Row{base, {Kind: "fixed", Price: "$2", From: "1 Jun", To: "5 Jun"}}}).Price(u); len(p.Lines) != 1 {
		t.Errorf("%d lines", len(p.Lines))
	}
}

// A price that changes inside the period is two rows; the energy of the days is
// known, so it is not split evenly.
func TestPriceThatChanges(t *testing.T) {
	s := Schedule{Rows: []Row{
		{Kind: "energy", Name: "Old", Price: "$0.10", Until: "2024-04-30"},
		{Kind: "energy", Name: "New", Price: "$0.20", Since: "2024-05-01"},
		{Kind: "tax", Price: "10", On: "New"},
	}}
	wantLines(t, build(t, s).Price(daysOf(t, "2024-04-29", 10, 20, 40)), "11.80", "3.00", "8.00", "0.80")
	p := build(t, s).Price(whole(t, "2024-04-29", "2024-05-01", "70"))
	wantLines(t, p, "9.81", "4.67", "4.67", "0.47")
	s.Rows[1].Name = s.Rows[0].Name
	if n := build(t, Schedule{Rows: s.Rows[:2]}).Price(whole(t, "2024-04-29", "2024-05-01", "70")).Notices; len(n) != 1 {
		t.Errorf("two rows of one name: %v", n)
	}
	if len(p.Notices) != 2 || p.Notices[0].Code != "split-by-days" || p.Notices[0].Path != "tariff.rows.0" {
		t.Errorf("notices %v", p.Notices)
	}
}

func TestTierLines(t *testing.T) {
	s := Schedule{Rows: []Row{{Kind: "tiers", Name: "Energy", Per: "month", Steps: []Step{{"310", "$0.10"}, {"620", "$0.20"}, {"", "$0.30"}}}}}
	tariff := build(t, s)
	for kWh, want := range map[string][]string{
		"0":      {"Energy, up to 100 kWh 0.00"},
		"100":    {"Energy, up to 100 kWh 10.00"},
		"100.01": {"Energy, up to 100 kWh 10.00", "Energy, 100 to 200 kWh 0.00"},
		"250":    {"Energy, up to 100 kWh 10.00", "Energy, 100 to 200 kWh 20.00", "Energy, over 200 kWh 15.00"},
	} {
		var got []string
		for _, l := range tariff.Price(whole(t, "2024-05-05", "2024-05-14", kWh)).Lines {
			got = append(got, l.Name+" "+l.Amount.StringFixed(2))
		}
		if d := cmp.Diff(want, got); d != "" {
			t.Errorf("%s kWh (-want +got):\n%s", kWh, d)
		}
	}
}

// What is sent out is taken off all that is drawn, in proportion.
func TestNetting(t *testing.T) {
	tariff := build(t, Schedule{Rows: []Row{
		{Kind: "netting"},
		{Kind: "times", Name: "E", Bands: []Band{{"Weekend", "$0.10", "Sat, Sun", ""}, {"Week", "$0.20", "", ""}}},
		{Kind: "export", Price: "$0.05"},
		{Kind: "demand", Price: "$1", Per: "60"},
	}})
	u := daysOf(t, "2024-05-03", 10, 30) // Friday and Saturday
	u.Export = daysOf(t, "2024-05-03", 5, 5).Import
	p := tariff.Price(u)
	wantLines(t, p, "3.25", "2.25", "1.50", "-0.50") // three quarters are left
	equal(t, "carry", p.Carry, "0")
	if len(p.Skipped) != 1 || p.Skipped[0].Code != "power-unknown" || p.Skipped[0].Path != "tariff.rows.3" {
		t.Errorf("skipped %v", p.Skipped)
	}
	equal(t, "netted", p.Uses[0].KWh, "-10")
	u.Carried = dec("35")
	p = tariff.Price(u)
	wantLines(t, p, "-0.50", "0.00", "0.00", "-0.50")
	equal(t, "carry", p.Carry, "5")
	equal(t, "nothing more is due for a kWh", tariff.Marginal(u), "0")
}

func TestMarginal(t *testing.T) {
	tiers := Row{Kind: "tiers", Steps: []Step{{"100", "$0.10"}, {"", "$0.30"}}}
	times := Row{Kind: "times", Bands: []Band{{"Weekend", "$0.10", "Sat, Sun", ""}, {"Week", "$0.20", "", ""}}}
	tax := Row{Kind: "tax", Price: "10 %"}
	for name, c := range map[string]struct {
		rows []Row
		u    Usage
		want string
	}{
		"flat with tax":         {[]Row{{Kind: "energy", Price: "$0.14"}, {Kind: "fixed", Price: "$7"}, tax}, daysOf(t, "2024-05-03", 10), "0.154"},
		"below the tier":        {[]Row{tiers}, daysOf(t, "2024-05-03", 10), "0.1"},
		"above the tier":        {[]Row{tiers}, daysOf(t, "2024-05-03", 60, 60), "0.3"},
		"over the tier":         {[]Row{tiers}, whole(t, "2024-05-03", "2024-05-03", "99.75"), "0.25"}, // a quarter at 0.10
		"three of four in week": {[]Row{times}, daysOf(t, "2024-05-03", 30, 10), "0.175"},
		"no energy yet":         {[]Row{times}, daysOf(t, "2024-05-03", 0, 0), "0.15"},
		"losses":                {[]Row{{Kind: "energy", Price: "$0.10", Basis: "adjusted"}}, withLosses(daysOf(t, "2024-05-03", 10), "1.05"), "0.105"},
		"discounted":            {[]Row{{Kind: "energy", Price: "$0.10"}, {Kind: "discount", Price: "20 %"}, tax}, daysOf(t, "2024-05-03", 10), "0.088"},
		"below the minimum":     {[]Row{{Kind: "energy", Price: "$0.10"}, {Kind: "minimum", Price: "$50"}}, daysOf(t, "2024-05-03", 10), "0"},
		"power grows with it":   {[]Row{{Kind: "demand", Price: "$2", Per: "60"}}, oneHour(t), "2"}, // 4 kWh in an hour, then 5
		"only a charge":         {[]Row{{Kind: "fixed", Price: "$7"}}, daysOf(t, "2024-05-03", 10), "0"},
	} {
		equal(t, name, build(t, Schedule{Rows: c.rows}).Marginal(c.u), c.want)
	}
	if got := build(t, Schedule{Rows: []Row{tiers}}).Marginal(Usage{}); !got.IsZero() {
		t.Errorf("without a period: %s", got)
	}
}

// oneHour is a day of which one hour holds 4 kWh.
func oneHour(t testing.TB) Usage {
	u := Usage{Span: span(t, "2024-05-03", "2024-05-03")}
	u.Import = []Slot{{First: u.Span.First, Last: u.Span.First, From: 600, To: 660, Energy: 4 * energy.KilowattHour}}
	return u
}

// The highest power is that of a whole window of the clock.
func TestDemand(t *testing.T) {
	tariff := build(t, Schedule{Rows: []Row{{Kind: "demand", Price: "$10", Per: "30"}}})
	u := Usage{Span: span(t, "2024-05-03", "2024-05-03")}
	slot := func(from, to int, wh energy.Energy) {
		u.Import = append(u.Import, Slot{First: u.Span.First, Last: u.Span.First, From: from, To: to, Energy: wh * energy.WattHour})
	}
	slot(0, 15, 500)
	slot(15, 30, 1003) // 3.006 kW
	slot(30, 45, 4000) // a half window
	slot(50, 70, 4000) // over two windows
	slot(600, 630, 1400)
	p := tariff.Price(u)
	wantLines(t, p, "30.10", "30.10")
	equal(t, "power", p.Lines[0].Quantity, "3.01")
	slot(700, 760, 1)
	if p := tariff.Price(u); len(p.Lines) != 0 || len(p.Skipped) != 1 || !strings.Contains(p.Skipped[0].Text, "30 minutes or less") {
		t.Errorf("lines %v, skipped %v", p.Lines, p.Skipped)
	}
	if p := tariff.Price(Usage{Span: u.Span}); len(p.Skipped) != 1 || !strings.Contains(p.Skipped[0].Text, "there is none") {
		t.Errorf("skipped %v", p.Skipped)
	}
}

// Slots that are not as they should be are taken for what they can mean.
func TestOddSlots(t *testing.T) {
	tariff := build(t, Schedule{Rows: []Row{{Kind: "times", Name: "E", Bands: []Band{{"Night", "$0.10", "", "22-6"}, {"Day", "$0.20", "", ""}}}, {Kind: "demand", Price: "$0", Per: "60"}}})
	d := day(t, "2024-05-03")
	for name, c := range map[string]struct {
		slot Slot
		want string // of 2 kWh
	}{
		"moment":            {Slot{First: d, Last: d, From: 360, To: 360}, "0.40"},
		"moment at the end": {Slot{First: d, Last: d, From: 1440, To: 1440}, "0.20"},
		"turned":            {Slot{First: d, Last: d - 3, From: 100, To: 50}, "0.20"},
		"over midnight":     {Slot{First: d - 1, Last: d, From: 1380, To: 60}, "0.10"}, // half of it is the day before
		"wild clock":        {Slot{First: d, Last: d, From: -500, To: 99999}, "0.34"},
		"the day before":    {Slot{First: d - 1, Last: d - 1, From: 0, To: 60}, "0"},
		"for ever":          {Slot{First: -1 << 31, Last: 1<<31 - 1, From: 0, To: 1440}, "0"},
	} {
		c.slot.Energy = 2 * energy.KilowattHour
		p := tariff.Price(Usage{Span: span(t, "2024-05-03", "2024-05-03"), Import: []Slot{c.slot}})
		equal(t, name, p.Total, c.want)
	}
	for _, u := range []Usage{{}, {Span: whole(t, "2024-01-01", "2024-01-02", "5").Span}, {Import: whole(t, "2024-01-01", "2024-01-02", "5").Import}} {
		if p := tariff.Price(u); !p.Total.IsZero() || p.IsAssumed {
			t.Errorf("%+v costs %s", u, p.Total)
		}
	}
	long := Usage{}
	long.Span.First, long.Span.End = -1<<31, 1<<31-1
	if p := tariff.Price(long); len(p.Lines) > 0 {
		t.Errorf("lines %v", p.Lines)
	}
}

func TestSharesByName(t *testing.T) {
	tariff := build(t, Schedule{Rows: []Row{{Kind: "times", Name: "E", Bands: []Band{
		{"Peak", "$1", "workdays", "7-11"}, {"Saturday", "$2", "Sat", ""}, {"peak", "$1", "workdays", "17-19"}, {"Off", "$3", "", ""},
	}}}})
	u := daysOf(t, "2024-05-01", 10) // a Wednesday: peak 6 hours, off 18
	for name, c := range map[string]struct {
		shares string
		want   []string // peak, Saturday, off
	}{
		"none":              {"", []string{"2.5", "0", "7.5"}},
		"one":               {"PEAK 0.4", []string{"4", "0", "6"}},
		"all":               {"Peak 0.2, Saturday 0.5, Off 0.3", []string{"4", "0", "6"}}, // the Saturday is not here
		"only the absent":   {"Saturday 1", []string{"2.5", "0", "7.5"}},
		"more than all":     {"Peak 3", []string{"10", "0", "0"}},
		"less than nothing": {"Peak -1", []string{"2.5", "0", "7.5"}},
		"of nobody":         {"Wind 1", []string{"2.5", "0", "7.5"}},
	} {
		u.Shares = map[string]decimal.Decimal{}
		for _, share := range strings.Split(c.shares, ", ") {
			if band, portion, ok := strings.Cut(share, " "); ok {
				u.Shares[band] = dec(portion)
			}
		}
		p := tariff.Price(u)
		for i, want := range c.want {
			equal(t, name+", "+p.Uses[i].Name, p.Uses[i].KWh, want)
		}
		equal(t, name+", least", p.Least, "10")
		equal(t, name+", most", p.Most, "30")
	}
}

// Shares that a bill prints say nothing of periods with other names, as another
// tariff has them, nor of two that share what is left.
func TestPrintedShares(t *testing.T) {
	band := func(name, price, hours string) Band { return Band{Name: name, Price: price, Hours: hours} }
	day, night, noon := band("Day", "$0.30", "6-22"), band("Night", "$0.10", ""), band("Noon", "$0.20", "11-14")
	u := whole(t, "2024-05-01", "2024-05-31", "100")
	u.Shares, u.IsPrinted = map[string]decimal.Decimal{"day": dec("0.8")}, true
	for name, c := range map[string]struct {
		bands              []Band
		assumed            bool
		total, least, most string
	}{
		"all but one": {[]Band{day, night}, false, "26.00", "26.00", "26.00"},
		"none":        {[]Band{band("Peak", "$0.30", "0-12"), night}, true, "20.00", "10.00", "30.00"},
		"two left":    {[]Band{noon, day, night}, true, "26.54", "10.00", "30.00"}, // 24.00, and 1.09 and 1.45 for 20 kWh by 3 and 8 hours of the clock
	} {
		p := build(t, Schedule{Rows: []Row{{Kind: "times", Bands: c.bands}}}).Price(u)
		if p.IsAssumed != c.assumed {
			t.Errorf("%s: assumed %v", name, p.IsAssumed)
		}
		equal(t, name+", total", p.Total, c.total)
		equal(t, name+", least", p.Least, c.least)
		equal(t, name+", most", p.Most, c.most)
	}
}
