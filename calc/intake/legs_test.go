package intake

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"splittally/calc/calendar"
	"splittally/calc/energy"
	"splittally/calc/ledger"
	"splittally/calc/remark"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

func TestIsLeg(t *testing.T) {
	for heading, want := range map[string]bool{
		"Leg A": true, "leg b (kWh)": true, "L1": true, "L3 energy": true, "Phase 2": true, "phase-c": true,
		"Phase 1 meter reading": true, "leg1": true, "Line 2": true, "hot A": true, "Main L2": true, "Fase 3": true,
		"": false, "Total": false, "T1": false, "Rate 1": false, "Tier 1": false, "Day": false, "Peak": false,
		"Import rate 1": false, "HT": false, "Solar": false, "Monitor A": false, "L": false, "Leg": false, "L12": false, "Off-peak": false,
	} {
		if got := IsLeg(heading); got != want {
			t.Errorf("IsLeg(%q) = %v", heading, got)
		}
	}
}

// TestTariffsAddUpLegsDoNot pastes one table under several headings.
func TestTariffsAddUpLegsDoNot(t *testing.T) {
	const two = "\n2025-02-03\t9.31\t5.12\n2025-02-04\t8.47\t4.90\n2025-02-05\t10.02\t5.55\n2025-02-06\t7.75\t4.41\n"
	for heading, want := range map[string]string{
		"Leg A\tLeg B": "Leg A|Leg B", "L1\tL2": "L1|L2", "Leg 1\tLeg 2": "Leg 1|Leg 2", "Phase A\tPhase B": "Phase A|Phase B", "phase-1\tphase-2": "phase-1|phase-2",
		"Peak\tOff-peak": "Peak + Off-peak", "Day\tNight": "Day + Night", "HT\tNT": "HT + NT", "T1\tT2": "T1 + T2", "HP\tHC": "HP + HC",
		"Peak rate\tOff-peak rate": "Peak rate + Off-peak rate",
		"L1\tT2":                   "L1|T2",
	} {
		for _, date := range []string{"Date", "Day", ""} {
			r := Read(date+"\t"+heading+two, Options{Path: "m"})
			if got := namesOf(r.Ledgers); got != want {
				t.Errorf("%s, %s: ledgers %s, want %s", date, heading, got, want)
			}
			asked := slices.ContainsFunc(r.Questions, func(q remark.Question) bool { return q.ID == "m.column-parts" })
			if asked != strings.Contains(want, "+") {
				t.Errorf("%s, %s: column-parts asked: %v", date, heading, asked)
			}
		}
	}
}

func namesOf(ledgers []ledger.Ledger) string {
	var names []string
	for _, l := range ledgers {
		names = append(names, l.Name)
	}
	return strings.Join(names, "|")
}

// TestTotalBesideLegsChangesNothing draws legs, some of them reversed, and reads
// them with and without their total: the days must be the same.
func TestTotalBesideLegsChangesNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		legs, days := rapid.IntRange(2, 3).Draw(t, "legs"), rapid.IntRange(3, 40).Draw(t, "days")
		sign := make([]int64, legs)
		for i := range sign {
			sign[i] = 1
		}
		if reversed := rapid.IntRange(0, legs).Draw(t, "reversed leg"); reversed < legs {
			sign[reversed] = -1
		}
		bare, whole := "Date", "Date"
		for i := range legs {
			bare += fmt.Sprintf(",L%d kWh", i+1)
			whole += fmt.Sprintf(",L%d kWh", i+1)
		}
		whole += ",Total kWh"
		for d := range days {
			line, sum := calendar.Day(20000+d).String(), int64(0)
			for i := range legs {
				hundredths := sign[i] * (rapid.Int64Range(300, 1500).Draw(t, "hundredths of a kWh") + int64(d%2)*1500) // no column only rises
				sum += hundredths
				line += "," + hundredthsText(hundredths)
			}
			bare, whole = bare+"\n"+line, whole+"\n"+line+","+hundredthsText(sum)
		}
		want, got := Read(bare, Options{Path: "m"}), Read(whole, Options{Path: "m"})
		if d := cmp.Diff(want.Ledgers, got.Ledgers); d != "" || len(got.Questions) > 0 {
			t.Fatalf("%v\n%s\nof\n%s", got.Questions, d, whole)
		}
	})
}

func hundredthsText(n int64) string { return (energy.Energy(n) * energy.KilowattHour / 100).Text(2) }
