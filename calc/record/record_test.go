package record_test

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"splittally/calc/calendar"
	"splittally/calc/energy"
	"splittally/calc/record"
)

// drawn makes any record.
func drawn(t *rapid.T) record.Record {
	hour := func() record.Hour {
		if rapid.IntRange(0, 3).Draw(t, "none") == 0 {
			return record.Hour{}
		}
		h := record.Hour{Energy: energy.Energy(rapid.Int64Range(-1e12, 1e15).Draw(t, "energy")), Covered: record.Whole}
		h.Marks = record.Marks(rapid.IntRange(0, 7).Draw(t, "marks"))
		if rapid.Bool().Draw(t, "part") {
			h.Covered = rapid.Int32Range(1, record.Whole).Draw(t, "covered")
		}
		return h
	}
	var r record.Record
	r.Source = record.Source{
		File: "shed.csv", Bytes: rapid.Int64Range(0, 1e12).Draw(t, "bytes"), Rows: rapid.IntRange(0, 1e9).Draw(t, "rows"),
		Step: 60, Zone: "the wall clock", Said: []string{"Stamps are starts.", "Unit: kW"},
	}
	for range rapid.IntRange(0, 3).Draw(t, "channels") {
		c := record.Channel{
			Name: "House (kW)", Role: record.Export, Unit: "kW, mean power", Sums: rapid.Bool().Draw(t, "sums"),
			Rounding: energy.Energy(rapid.Int64Range(0, 1e9).Draw(t, "rounding")), First: 19_000,
		}
		for i := range rapid.IntRange(1, 4).Draw(t, "days") {
			var d record.Day
			if i > 0 && rapid.Bool().Draw(t, "turned") {
				d.Turn, d.TurnAt = int8(rapid.SampledFrom([]int{-1, 1}).Draw(t, "turn")), uint8(rapid.IntRange(0, 23).Draw(t, "at"))
			}
			for h := range d.Hours {
				if d.Turn >= 0 || h != int(d.TurnAt) {
					d.Hours[h] = hour()
				}
			}
			if d.Turn > 0 {
				d.Again = hour()
			}
			if d.Covered() == 0 { // of a day without readings nothing is told
				d = record.Day{}
			}
			c.Days = append(c.Days, d)
		}
		r.Channels = append(r.Channels, c)
	}
	for range rapid.IntRange(0, 2).Draw(t, "gaps") {
		from := rapid.Int64Range(0, 3e12).Draw(t, "from")
		g := record.Gap{From: from, To: from + 5000, Length: 5000}
		if rapid.Bool().Draw(t, "known") {
			g.Known, g.Energy = true, 12_345
		}
		r.Gaps = append(r.Gaps, g)
	}
	if rapid.Bool().Draw(t, "odd") {
		r.Oddities = []record.Oddity{{Kind: record.Duplicate, Count: 3, Lines: []int{4, 9, 12}, Told: "03:00 on 12 Mar 2023"}, {Kind: record.Marked, Count: 1}}
		r.MoreGaps = 4
	}
	return r
}

func TestTextRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := drawn(t)
		text := record.Format(r)
		back, problems := record.Parse(text)
		if len(problems) > 0 {
			t.Fatalf("%v in\n%s", problems, text)
		}
		if diff := cmp.Diff(r, back); diff != "" {
			t.Fatalf("came back changed (-was +is):\n%s\n%s", diff, text)
		}
	})
}

func TestParseTellsWhatIsWrong(t *testing.T) {
	good := "hours 1\nstep 3600\nchannel import\nname House\nunit kWh\nrounding 0.0005\n"
	day := "2024-03-01" + strings.Repeat(" 0.5", 24)
	for _, c := range []struct{ name, text, want string }{
		{"a later form", "hours 2\n", "line 1, column 1: found “hours 2”"},
		{"a day before any channel", day, "line 1, column 1: found “2024-03-01”, expected “channel import”"},
		{"no such day", good + "2024-02-30 .", "line 7, column 1: found “2024-02-30”"},
		{"23 figures", good + strings.TrimSuffix(day, " 0.5"), "line 7, column 12: found “23 figures”, expected 24"},
		{"25 figures", good + day + " 0.5", "line 7, column 108: found “0.5”"},
		{"no figure", good + strings.Replace(day, "0.5", "0,5", 1), "line 7, column 12: found “0,5”"},
		{"more than an hour", good + strings.Replace(day, "0.5", "0.5@3601", 1), "line 7, column 12: found “0.5@3601”"},
		{"days out of order", good + day + "\n" + day, "line 8, column 1: found “2024-03-01”, expected days in their order"},
		{"a century away", good + day + "\n2199-01-01 .", "within a hundred years"},
		{"a role that is none", "channel roof", "line 1, column 9: found “roof”"},
		{"a word that is none", "colour red", "line 1, column 1: found “colour”"},
		{"a gap without end", "gap 2024-03-01T00:00:00", "line 1, column 5"},
		{"a count that is none", "rows many", "line 1, column 6: found “many”"},
	} {
		_, problems := record.Parse(c.text)
		if len(problems) != 1 || !strings.Contains(problems[0].String(), c.want) {
			t.Errorf("%s: %v, want one with %q", c.name, problems, c.want)
		}
	}
}

func TestDayOfHours(t *testing.T) {
	r, problems := record.Parse("channel import\nrounding 0\n" +
		"2024-11-03 twice:1" + strings.Repeat(" 0.5", 25) + "\n" +
		"2024-11-04 ." + "\n" +
		"2024-11-05 0.25@1800~" + strings.Repeat(" .", 23))
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	c := r.Channels[0]
	if want, _ := calendar.Date(2024, 11, 3); c.First != want || len(c.Days) != 3 {
		t.Fatalf("first %s, %d days", c.First, len(c.Days))
	}
	for i, want := range []struct {
		kWh             string
		covered, length int64
	}{{"12.5", 25 * record.Whole, 25 * record.Whole}, {"0", 0, record.DayLength}, {"0.25", 1_800_000, record.DayLength}} {
		d := &c.Days[i]
		e, err := d.Energy()
		if err != nil || e.Decimal().String() != want.kWh || d.Covered() != want.covered || d.Length() != want.length {
			t.Errorf("day %d: %s, covered %d of %d ms; want %+v", i, e, d.Covered(), d.Length(), want)
		}
	}
}

func FuzzParse(f *testing.F) {
	f.Add("hours 1\nfile a\nchannel import\nrounding 0.1\n2024-03-10 never:2" + strings.Repeat(" 1@5e", 23))
	f.Add("gap 2024-03-05T13:22:10 2024-03-05T13:40:55.5 1125.5 0.41\nodd reset 1 . x")
	f.Fuzz(func(t *testing.T, text string) {
		r, _ := record.Parse(text)
		again, problems := record.Parse(record.Format(r))
		if len(problems) > 0 {
			t.Fatalf("what was read can't be read again: %v\n%s", problems, record.Format(r))
		}
		if a, b := record.Format(r), record.Format(again); a != b {
			t.Fatalf("changed:\n%s\n%s", a, b)
		}
	})
}
