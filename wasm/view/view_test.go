package view

import (
	"flag"
	"maps"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/shopspring/decimal"

	"splittally/calc"
	"splittally/calc/billing"
	"splittally/calc/calendar"
	"splittally/calc/compare"
	"splittally/calc/energy"
	"splittally/calc/fill"
	"splittally/calc/intake"
	"splittally/calc/ledger"
	"splittally/calc/remark"
	"splittally/calc/tariff"
	"splittally/calc/uncertainty"
)

var update = flag.Bool("update", false, "write the golden files anew")

// small is a case of one monitor over three days, with one of everything that
// the page can say. It is made by hand, so that it stays as it is whatever the
// rooms that would find it are taught.
func small() (calc.Case, calc.Findings) {
	first, _ := calendar.Date(2025, 9, 3)
	span := calendar.Span{First: first, End: first + 3}
	kWh := energy.KilowattHour
	c := calc.Case{
		Title: "Three <days>", Today: "2025-09-10",
		Monitors: []calc.Monitor{{Name: "Panel & clamp", Readings: "Day kWh\n3 Sep 10\n5 Sep 😀x\nTotal 30"}},
		Periods:  []billing.Period{{From: "2025-09-03", To: "2025-09-06", KWh: "29"}},
	}
	log := ledger.Ledger{First: first, Days: []ledger.Entry{
		{State: ledger.Measured, Energy: 10 * kWh}, {}, {State: ledger.Measured, Energy: 9 * kWh},
	}}
	indicated := compare.Amount{Energy: 30*kWh - kWh/2}
	indicated.AddOfReading(uncertainty.Part{Source: "accuracy", Name: "Stated accuracy of the monitor", HalfWidth: 2, Distribution: uncertainty.Rectangular, Promise: true, Assumed: true})
	indicated.Add(uncertainty.Part{Name: "Filled days", HalfWidth: 1, Unit: "kWh", DoF: 8, Distribution: uncertainty.Student, Reducible: true, Remedy: "find the figures of the missing days"})
	judged := compare.Judge(indicated, compare.Amount{Energy: 29 * kWh}, 0.95)
	plan := tariff.Plan{Given: true, Price: decimal.RequireFromString("0.15")}
	f := calc.Findings{
		Confidence: 0.95,
		Problems: []remark.Problem{
			{Path: "monitors.0.readings", Line: 3, Column: 7, Found: "😀x", Wanted: "an energy, such as 12.4 kWh"},
			{Path: "periods.0.kwh", Found: "2<9", Wanted: "a number, such as 412"},
			{Path: "checks.legs.0.pairs.1.reference", Wanted: "volts, such as 121.4"},
		},
		Questions: []remark.Question{{
			ID: "periods.0.convention", Path: "periods.0.to", Asks: "Which days belong?", Why: "The dates do not tell.", Taken: "last-excluded",
			Choices: []remark.Choice{{ID: "both-belong", Label: "Both dates belong", Gives: "4 days"}, {ID: "last-excluded", Label: "Not the last", Gives: "3 days"}},
		}},
		Notices:  []remark.Notice{{Code: "x", Path: "periods.0.to", Text: "A <notice>."}, {Code: "y", Path: "monitors.0.readings", Text: "Another."}},
		Readings: []calc.Readings{{Lines: []intake.Line{{Number: 1, Why: "a heading"}, {Number: 2, Use: intake.Used}, {Number: 3, Use: intake.Wrong}, {Number: 4, Why: "a total"}}, Used: 1, Ignored: 2, Wrong: 1, Unit: "kWh", Columns: 1}},
		Periods:  []billing.Statement{{Given: true, Dated: true, Span: span, Convention: billing.LastExcluded, Billed: 29 * kWh, Reference: 29 * kWh, LossFactor: decimal.NewFromInt(1)}},
		Plan:     plan,
	}
	f.Instruments = []calc.Instrument{{Name: "Panel & clamp", Ledger: log, Results: []calc.Result{{
		Filled: fill.Result{
			Days: []fill.Day{
				{Day: first, Energy: 10 * kWh, State: ledger.Measured},
				{Day: first + 1, Energy: 10*kWh + kWh/2, Filled: true, Method: fill.Line},
				{Day: first + 2, Energy: 9 * kWh, State: ledger.Measured},
			},
			Total: 30*kWh - kWh/2, Measured: 2, Filled: 1, Longest: 1, Method: fill.Line, Chosen: true, Standard: 1, DoF: 8,
			Trials: []fill.Trial{{Method: fill.Line, Tries: 9, RMS: 1, Mean: -0.2}, {Method: fill.Mean, Tries: 9, RMS: 1.4, Mean: 0.1}},
		},
		Compared: judged, Best: 0,
		Shifts:   []compare.Shift{{Start: 1, Indicated: 29 * kWh, Percent: decimal.Zero, Vanishes: true}},
		IsPriced: true,
	}}}}
	return c, f
}

func TestGolden(t *testing.T) {
	c, f := small()
	golden(t, "three-days.html", all(c, f))
}

// golden compares a drawing with the file of that name.
func golden(t *testing.T, name string, d Drawing) {
	t.Helper()
	var b strings.Builder
	for _, name := range slices.Sorted(maps.Keys(d.Slots)) {
		checkMarkup(t, name, d.Slots[name])
		b.WriteString("== " + name + "\n" + strings.ReplaceAll(d.Slots[name], "><", ">\n<") + "\n\n")
	}
	b.WriteString("== short\n" + d.Short + "\n")
	for _, path := range slices.Sorted(maps.Keys(d.Says)) {
		b.WriteString("== says " + path + "\n" + d.Says[path] + "\n")
	}
	file := filepath.Join("testdata", name)
	if *update {
		if err := os.WriteFile(file, []byte(b.String()), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(string(want), b.String()); diff != "" {
		t.Errorf("%s (-update writes it anew):\n%s", file, diff)
	}
}

// An empty page asks for readings and a bill, and scolds nobody.
func TestEmpty(t *testing.T) {
	c := calc.Case{Monitors: []calc.Monitor{{}}, Periods: []billing.Period{{}, {}}}
	d := Render(c, calc.Work(c), nil)
	if d.Short != "Nothing to compare yet" {
		t.Errorf("the bar says %q", d.Short)
	}
	if len(d.Says) > 0 {
		t.Errorf("blank fields are called wrong: %v", d.Says)
	}
	if !strings.Contains(d.Slots["verdict"], "Paste the daily totals") {
		t.Errorf("the verdict says %s", d.Slots["verdict"])
	}
}

// The example shows every part of the page.
func TestExampleShowsEverything(t *testing.T) {
	c := open(t)
	d := Render(c, calc.Work(c), nil)
	for _, slot := range []string{"verdict", "bar", "stick", "totals", "results", "intervals", "together", "legs", "accounts", "worth", "notices", "monitors.0.lines"} {
		if d.Slots[slot] == "" {
			t.Errorf("nothing in %s", slot)
		}
	}
	if len(d.Says) > 0 {
		t.Errorf("the example has problems: %v", d.Says)
	}
}

// What the page draws for ids must be unique in it.
func TestIDsAreUnique(t *testing.T) {
	c := open(t)
	seen := map[string]string{}
	for slot, markup := range all(c, calc.Work(c)).Slots {
		for _, rest := range strings.Split(markup, ` id="`)[1:] {
			id, _, _ := strings.Cut(rest, `"`)
			if other, twice := seen[id]; twice {
				t.Errorf("id %s in %s and in %s", id, slot, other)
			}
			seen[id] = slot
		}
	}
	if len(seen) < 20 {
		t.Errorf("only %d ids", len(seen))
	}
}

func TestBegin(t *testing.T) {
	for name, c := range map[string]struct {
		c    calc.Case
		want string
	}{
		"readings alone": {calc.Case{Monitors: []calc.Monitor{{Readings: "2025-09-03 10 kWh\n2025-09-04 11 kWh"}}, Periods: []billing.Period{{}}}, "Now type the dates of a bill"},
		"bill alone":     {calc.Case{Monitors: []calc.Monitor{{}}, Periods: []billing.Period{{From: "2025-09-03", To: "2025-10-03", Days: "30", KWh: "412"}}}, "Now paste the daily totals"},
		"apart":          {calc.Case{Monitors: []calc.Monitor{{Readings: "2024-09-03 10 kWh\n2024-09-04 11 kWh"}}, Periods: []billing.Period{{From: "2025-09-03", To: "2025-10-03", Days: "30", KWh: "412"}}}, "no day of this period was measured"},
	} {
		if got := Render(c.c, calc.Work(c.c), nil).Slots["verdict"]; !strings.Contains(got, c.want) {
			t.Errorf("%s: %s\nwant %q in it", name, got, c.want)
		}
	}
}

func TestRefused(t *testing.T) {
	_, problems := calc.Open(`{"splittally": "1", "periods": [{"kilowatts": "1"}]}`)
	got := Refused("“<x>.json”", problems)
	if want := "“<x>.json” can’t be opened: at periods.0.kilowatts there is kilowatts. Expected: only fields that this version knows."; got != want {
		t.Errorf("got  %s\nwant %s", got, want)
	}
}

func TestFileName(t *testing.T) {
	for title, want := range map[string]string{
		"":                          "split-tally-2025-09-10.json",
		"The house at Larch Bend":   "split-tally-the-house-at-larch-bend-2025-09-10.json",
		"../../<b>\x00 é":           "split-tally-b-2025-09-10.json",
		strings.Repeat("long ", 30): "split-tally-" + strings.Repeat("long-", 8) + "2025-09-10.json",
	} {
		if got := FileName(calc.Case{Title: title, Today: "2025-09-10"}); got != want {
			t.Errorf("%q: %s, want %s", title, got, want)
		}
	}
}

// Whatever a file says of itself, what is saved of it has a name that no system
// takes for a folder, a device or another kind of file.
func TestFileNamesOfHostileTexts(t *testing.T) {
	plain := regexp.MustCompile(`^(split-tally|tariff)(-[a-z0-9]+)*\.(json|csv)$`)
	for _, bad := range []string{"../../x", `..\..\x`, "/etc/passwd", "CON", "nul.txt", "a\x00.exe", "x.exe\u202egnp.", "a\u200b\u2066b", "a\nb", ".htaccess", "a:b", "%2e%2e%2f", "\u0130", strings.Repeat("a", 500)} {
		c := calc.Case{Title: bad, Today: bad}
		for _, name := range []string{FileName(c), TableName(c, "days"), PlanName(tariff.Schedule{Name: bad})} {
			if !plain.MatchString(name) || len(name) > 120 {
				t.Errorf("%q is saved as %q", bad, name)
			}
		}
	}
}

func TestPlanName(t *testing.T) {
	for name, want := range map[string]string{"": "tariff.json", "Evening & night": "tariff-evening-night.json", "../é": "tariff.json"} {
		if got := PlanName(tariff.Schedule{Name: name}); got != want {
			t.Errorf("%q: %s, want %s", name, got, want)
		}
	}
}

// Every question finds a slot that the page has.
func TestQuestionSlots(t *testing.T) {
	page, err := os.ReadFile(filepath.Join("..", "..", "static", "index.html"))
	if err != nil {
		t.Fatal(err)
	}
	for path, want := range map[string]string{
		"monitors.1.readings": "monitors.1.questions", "periods.0.to": "periods.0.questions", "periods": "questions",
		"plans.1.rows": "plans.1.questions", "plans.0.rows.2.price": "plans.0.questions", "periods.1.lines.0.amount": "periods.1.questions",
		"price.tax": "price.questions", "checks.legs.0.pairs": "checks.questions", "meter.class": "judging.questions", "meter.readings": "judging.questions",
		"timing": "timing.questions", "timing.constant": "timing.questions",
		"checks": "checks.questions", "monitors.0.columns": "monitors.0.questions", "else": "questions",
	} {
		got := questionSlot(remark.Question{Path: path})
		if got != want {
			t.Errorf("a question about %s goes to %s, want %s", path, got, want)
		}
		if last := got[strings.LastIndex(got, ".")+1:]; !strings.Contains(string(page), `data-slot="`+last+`"`) && !strings.Contains(string(page), `data-slot="`+got+`"`) {
			t.Errorf("the page has no slot for %s", got)
		}
	}
}
