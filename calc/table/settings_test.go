package table

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	"splittally/calc/record"
	"splittally/calc/series"
)

// hours writes rows of hours from 1 March 2024 on, each with the cells that a
// function gives.
func hours(n int, form string, cells func(i int) string) string {
	var text strings.Builder
	for i := range n {
		day, hour := 1+i/24, i%24
		switch form {
		case "iso":
			fmt.Fprintf(&text, "2024-03-%02d %02d:00", day, hour)
		case "slash":
			fmt.Fprintf(&text, "%02d/03/2024 %02d:00", day, hour)
		}
		text.WriteString("," + cells(i) + "\n")
	}
	return text.String()
}

// use is an invented home's kWh of an hour.
func use(i int) string { return fmt.Sprintf("0.%d%d3", 2+i%5, i*7%10) }

func mustFind(t *testing.T, head string, given map[string]string) (Layout, []Setting) {
	t.Helper()
	l, settings, err := Find([]byte(head), true, given)
	if err != nil {
		t.Fatal(err)
	}
	return l, settings
}

func TestGivenSettingsAreTaken(t *testing.T) {
	t.Parallel()
	plain := "Time,kWh\n" + hours(30, "iso", use)
	two := "Time,Grid (kWh),Pump (kWh)\n" + hours(30, "iso", func(i int) string { return use(i) + ",0.1" + fmt.Sprint(i%7) })
	bare := hours(30, "iso", use)
	for _, c := range []struct {
		name, head, id, choice string
		check                  func(l Layout) bool
	}{
		{"end", plain, "stamps", "end", func(l Layout) bool { return l.Ends }},
		{"start", strings.Replace(plain, "Time", "Hour ending", 1), "stamps", "start", func(l Layout) bool { return !l.Ends }},
		{"UTC", plain, "zone", ZoneOwn, func(l Layout) bool { return l.Stamp.Zone == Instant }},
		{"unit", plain, "column.1.unit", "Wh", func(l Layout) bool { return l.Columns[1].Unit == "Wh" && l.Columns[1].Scale == 1e6 }},
		{"a unit of power makes powers", bare, "column.1.unit", "W", func(l Layout) bool {
			return l.Columns[1].Unit == "W" && l.Columns[1].Quantity == series.Power
		}},
		{"kind", plain, "column.1.kind", "register", func(l Layout) bool { return l.Columns[1].Quantity == series.Register && l.Columns[1].Unit == "kWh" }},
		{"kWh that were kW", plain, "column.1.kind", "power", func(l Layout) bool { return l.Columns[1].Quantity == series.Power && l.Columns[1].Unit == "kW" }},
		{"not used", two, "column.2.role", RoleNone, func(l Layout) bool { return !l.Columns[2].Used && l.Columns[1].Used }},
		{"another import", two, "column.2.role", "import", func(l Layout) bool { return l.Columns[2].Role == record.Import && !l.Columns[1].Used }},
		{"a leg beside an import", two, "column.2.role", "leg-b", func(l Layout) bool { return l.Columns[2].Role == record.LegB && !l.Columns[1].Used }},
		{"turned", two, "column.1.sign", "turned", func(l Layout) bool { return l.Columns[1].Sign == -1 }},
		{"apart", two, "column.1.below", "apart", func(l Layout) bool { return l.Columns[1].Apart }},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			l, settings := mustFind(t, c.head, map[string]string{c.id: c.choice})
			if s := settingOf(t, settings, c.id); s.Taken != c.choice || !s.Sure {
				t.Errorf("%s is %s, sure %v, want %s, sure", c.id, s.Taken, s.Sure, c.choice)
			}
			if !c.check(l) {
				t.Errorf("%s = %s gives %+v", c.id, c.choice, l)
			}
		})
	}
}

// TestGivenOrder gives an order of day and month that the head leaves open, and
// one that it rules out: dates that do not exist are no choice.
func TestGivenOrder(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name, head, choice string
		want               Form
	}{
		{"open", "Time,kWh\n" + hours(20, "slash", use), "month-first", MonthFirst},
		{"even from day to day, which can be chance", "Time,kWh\n" + hours(60, "slash", use), "month-first", MonthFirst},
		{"ruled out", "Time,kWh\n" + hours(24*14, "slash", use), "month-first", DayFirst},
		{"no such choice", "Time,kWh\n" + hours(60, "slash", use), "year-first", DayFirst},
	} {
		l, _ := mustFind(t, c.head, map[string]string{"order": c.choice})
		if l.Stamp.Form != c.want {
			t.Errorf("%s: form %d, want %d", c.name, l.Stamp.Form, c.want)
		}
	}
}

func TestSettingsOffered(t *testing.T) {
	t.Parallel()
	for _, path := range []string{"Time,Grid (kWh),Volts (V)\n" + hours(30, "iso", func(i int) string { return use(i) + ",23" + fmt.Sprint(i%10) })} {
		_, settings := mustFind(t, path, nil)
		seen := map[string]bool{}
		for _, s := range settings {
			if seen[s.ID] {
				t.Errorf("%s is there twice", s.ID)
			}
			seen[s.ID] = true
			found := false
			for _, c := range s.Choices {
				found = found || c.ID == s.Taken
				if c.ID == "" || c.Label == "" {
					t.Errorf("%s has a choice without a name: %+v", s.ID, c)
				}
			}
			if !found {
				t.Errorf("%s: %q is none of its choices", s.ID, s.Taken)
			}
			if !s.Sure && s.Why == "" {
				t.Errorf("%s is a question without a reason", s.ID)
			}
		}
		if !seen["column.2.role"] || seen["column.2.unit"] {
			t.Error("a column that is left out must be offered by its role alone")
		}
	}
}

// TestLeftOutColumnTaken takes a column that its heading leaves out: a person
// may know better.
func TestLeftOutColumnTaken(t *testing.T) {
	t.Parallel()
	head := "Time,Battery (W)\n" + hours(30, "iso", func(i int) string { return fmt.Sprint(300 + i%7) })
	var none *NoReadings
	if _, _, err := Find([]byte(head), true, nil); !errors.As(err, &none) || none.Why == "" {
		t.Errorf("error %v, want a reason why there are no readings", err)
	}
	l, _ := mustFind(t, head, map[string]string{"column.1.role": "circuit"})
	if col := l.Columns[1]; !col.Used || col.Role != record.Circuit || col.Unit != "W" {
		t.Errorf("column %+v, want a circuit in W", col)
	}
}
