package tariff_test

import (
	"fmt"
	"os"
	"runtime"
	"strings"
	"sync"
	"sync/atomic"
	"testing"

	"github.com/shopspring/decimal"

	"splittally/calc/remark"
	"splittally/calc/tariff"
)

// SPLITTALLY_WHOLE_YEARS=1 lets periods be of any length up to a leap year, in
// quarters of an hour too. That takes minutes, not seconds.
func TestSlowAgrees(t *testing.T) {
	seeds, whole := uint64(10_000), os.Getenv("SPLITTALLY_WHOLE_YEARS") != ""
	if testing.Short() {
		seeds = 300
	}
	var next, wrong atomic.Uint64
	var all sync.WaitGroup
	for range runtime.GOMAXPROCS(0) {
		all.Go(func() {
			for seed := next.Add(1); seed <= seeds && wrong.Load() < 10; seed = next.Add(1) {
				s, u := scene(seed, whole)
				if differs := differences(s, u); len(differs) > 0 {
					wrong.Add(1)
					t.Errorf("seed %d: %s\n%s", seed, strings.Join(differs, "\n\t"), told(s, u))
				}
			}
		})
	}
	all.Wait()
}

// A comparison that finds nothing must be able to find something.
func TestSlowFindsDifferences(t *testing.T) {
	s := tariff.Schedule{Currency: "USD", Rows: []tariff.Row{
		{Kind: "times", Name: "use", Bands: []tariff.Band{{Name: "A", Price: "0.30", Hours: "8-18"}, {Name: "B", Price: "0.10"}}},
		{Kind: "tax", Name: "tax", Price: "20 %"},
		{Kind: "netting", Name: "sun"},
	}}
	u := steady("2024-06-05", 2, 1440, 12000)
	if found := differences(s, u); len(found) > 0 {
		t.Fatal(found)
	}
	cent, grain := decimal.New(1, -2), decimal.New(1, -kWhPlaces)
	for what, change := range map[string]func(*tariff.Priced){
		"lines":   func(p *tariff.Priced) { p.Lines[1].Amount = p.Lines[1].Amount.Add(cent) },
		"uses":    func(p *tariff.Priced) { p.Uses[0].KWh = p.Uses[0].KWh.Add(grain) },
		"total":   func(p *tariff.Priced) { p.Total = p.Total.Add(cent) },
		"tax":     func(p *tariff.Priced) { p.Tax = p.Tax.Add(cent) },
		"carry":   func(p *tariff.Priced) { p.Carry = p.Carry.Add(grain) },
		"assumed": func(p *tariff.Priced) { p.IsAssumed = false },
		"least":   func(p *tariff.Priced) { p.Least = p.Least.Sub(cent) },
		"most":    func(p *tariff.Priced) { p.Most = p.Most.Add(cent) },
		"1 rows":  func(p *tariff.Priced) { p.Skipped = append(p.Skipped, remark.Notice{}) },
	} {
		got := tariff.Build(s, tariff.Options{}).Tariff.Price(u)
		change(&got)
		if found := compared(s, u, got, 2); len(found) != 1 || !strings.HasPrefix(found[0], what) {
			t.Errorf("%s changed: found %q", what, found)
		}
	}
}

// told gives a case as far as one needs it to work it out by hand.
func told(s tariff.Schedule, u tariff.Usage) string {
	text := fmt.Sprintf("%s round=%q half=%q places=%q inclusive=%q dates=%q\n", s.Currency, s.Round, s.Half, s.Places, s.Inclusive, s.Dates)
	for i, r := range s.Rows {
		text += fmt.Sprintf("\t%d %+v\n", i, r)
	}
	text += fmt.Sprintf("\t%s, loss factor %s, shares %v, carried %s, %d slots in, %d out", u.Span, u.LossFactor, u.Shares, u.Carried, len(u.Import), len(u.Export))
	for _, slots := range [][]tariff.Slot{u.Import, u.Export} {
		for _, slot := range slots[:min(3, len(slots))] {
			text += fmt.Sprintf("\n\t%+v", slot)
		}
	}
	return text
}
