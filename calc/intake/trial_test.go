package intake

import (
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"splittally/calc/calendar"
	"splittally/calc/energy"
	"splittally/calc/ledger"

	"github.com/shopspring/decimal"
)

// truth is what a trial text holds, worked out apart from this program.
type truth struct {
	File     string
	Expect   string
	Question string
	Days     []truthDay
	Readings map[string][]truthDay
	Periods  []struct {
		From        string
		ToInclusive string           `json:"to_inclusive"`
		KWh         *decimal.Decimal `json:"kWh"`
	}
	Total  *decimal.Decimal  `json:"total_kWh"`
	Values []decimal.Decimal `json:"values_in_order"`
	Error  string
	Zeros  []string `json:"suspicious_zero_days"`
}

type truthDay struct {
	Day string
	KWh *decimal.Decimal `json:"kWh"`
}

// TestTrialTexts reads texts written for trials and compares days, totals,
// questions and problems with what each is known to hold.
func TestTrialTexts(t *testing.T) {
	folder := os.Getenv("SPLITTALLY_TRIALS")
	if folder == "" {
		t.Skip("SPLITTALLY_TRIALS names no folder of trial data")
	}
	names, err := filepath.Glob(filepath.Join(folder, "pasted", "*.truth.json"))
	if err != nil || len(names) == 0 {
		t.Fatalf("no trial texts in %s: %v", folder, err)
	}
	for _, name := range names {
		t.Run(filepath.Base(name), func(t *testing.T) {
			raw, err := os.ReadFile(name)
			if err != nil {
				t.Fatal(err)
			}
			var want truth
			if err := json.Unmarshal(raw, &want); err != nil {
				t.Fatal(err)
			}
			text, err := os.ReadFile(filepath.Join(folder, "pasted", want.File))
			if err != nil {
				t.Fatal(err)
			}
			checkTrial(t, string(text), want)
		})
	}
}

func checkTrial(t *testing.T, text string, want truth) {
	t.Helper()
	r := Read(text, Options{Path: "monitors.0"})
	show := printed(r)
	switch {
	case want.Expect == "error":
		if len(r.Problems) == 0 || len(r.Ledgers) > 0 || !strings.Contains(r.Problems[0].String(), want.Error) {
			t.Errorf("want the problem %q, got\n%s", want.Error, show)
		}
		return
	case len(r.Problems) > 0:
		t.Errorf("problems where none are\n%s", show)
	case strings.HasPrefix(want.Expect, "question") && len(r.Questions)+len(r.Notices) == 0:
		t.Errorf("nothing asked or told\n%s", show)
	case want.Expect == "parse" && len(r.Questions) > 0:
		t.Errorf("asks where the text decides\n%s", show)
	case want.Expect == "parse_with_notice" && len(r.Questions)+len(r.Notices) == 0:
		t.Errorf("no notice\n%s", show)
	}
	for order, days := range want.Readings {
		id := map[string]string{"d/m/y": "day-first", "m/d/y": "month-first"}[order]
		answered := Read(text, Options{Path: "monitors.0", Answers: map[string]string{"monitors.0.day-order": id}})
		checkDays(t, answered, days, 0)
	}
	switch {
	case want.Values != nil:
		first := Read(text, Options{Path: "monitors.0", Answers: map[string]string{"monitors.0.first-day": "2024-01-01"}})
		if len(first.Ledgers) != 1 || len(first.Ledgers[0].Days) != len(want.Values) {
			t.Fatalf("want %d days\n%s", len(want.Values), printed(first))
		}
		for i, v := range want.Values {
			if got := first.Ledgers[0].Days[i].Energy.Decimal(); !got.Equal(v) {
				t.Errorf("day %d: %s kWh, want %s", i+1, got, v)
			}
		}
	case want.Periods != nil:
		checkPeriods(t, r, want)
	case want.Days != nil:
		year := 0
		if strings.HasPrefix(want.Days[0].Day, "--") {
			year, _, _ = r.Ledgers[0].First.Date()
		}
		checkDays(t, r, want.Days, year)
		checkTotal(t, r, want)
	}
	if want.Zeros != nil && !strings.Contains(show, "zeros") {
		t.Errorf("zeros pass unremarked\n%s", show)
	}
}

func checkDays(t *testing.T, r Result, days []truthDay, year int) {
	t.Helper()
	if len(r.Ledgers) != 1 {
		t.Fatalf("%d ledgers, want 1\n%s", len(r.Ledgers), printed(r))
	}
	l := r.Ledgers[0]
	known := 0
	for _, d := range days {
		text := d.Day
		if year > 0 {
			text = l.First.String()[:4] + strings.TrimPrefix(text, "-")
		}
		day, ok := calendar.ParseISO(text)
		if !ok {
			t.Fatalf("bad day %q in the truth", text)
		}
		e := l.At(day)
		switch {
		case d.KWh == nil && e.State != ledger.Missing:
			t.Errorf("%s: %s, want missing", day, e.Energy)
		case d.KWh != nil && (e.State != ledger.Measured || !e.Energy.Decimal().Equal(*d.KWh)):
			t.Errorf("%s: %s (state %d), want %s", day, e.Energy, e.State, d.KWh)
		}
		if d.KWh != nil {
			known++
		}
	}
	if got := l.Count(l.Span(), ledger.Measured); got != known {
		t.Errorf("%d measured days, want %d\n%s", got, known, printed(r))
	}
}

func checkPeriods(t *testing.T, r Result, want truth) {
	t.Helper()
	for _, p := range want.Periods {
		from, _ := calendar.ParseISO(p.From)
		to, _ := calendar.ParseISO(p.ToInclusive)
		span := calendar.Span{First: from, End: to + 1}
		var sum energy.Energy
		for d := span.First; d < span.End; d++ {
			e := r.Ledgers[0].At(d)
			if e.State != ledger.Spread || e.Total != span {
				t.Errorf("%s is no share of %s\n%s", d, span, printed(r))
			}
			sum += e.Energy
		}
		if !sum.Decimal().Equal(*p.KWh) {
			t.Errorf("%s: %s, want %s", span, sum, p.KWh)
		}
	}
	checkTotal(t, r, want)
}

func checkTotal(t *testing.T, r Result, want truth) {
	t.Helper()
	var sum energy.Energy
	for _, e := range r.Ledgers[0].Days {
		sum += e.Energy
	}
	if want.Total != nil && !sum.Decimal().Equal(*want.Total) {
		t.Errorf("total %s, want %s", sum, want.Total)
	}
}
