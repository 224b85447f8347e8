package view

import (
	"html"
	"reflect"
	"slices"
	"strings"
	"testing"

	"splittally/calc"
	"splittally/calc/billing"
	"splittally/calc/calendar"
	"splittally/calc/chart/markup"
	"splittally/calc/energy"
	"splittally/calc/interval"
	"splittally/calc/outage"
	"splittally/calc/record"
	"splittally/calc/remark"
	layout "splittally/calc/table"
)

// shed is a record of two columns over two days, with one of everything that a
// card can say.
func shed() record.Record {
	first, _ := calendar.Date(2024, 3, 1)
	var whole, part record.Day
	for h := range whole.Hours {
		whole.Hours[h] = record.Hour{Energy: energy.KilowattHour / 2, Covered: record.Whole}
	}
	part.Hours[7] = record.Hour{Energy: 3 * energy.KilowattHour, Covered: record.Whole / 2, Marks: record.Estimated}
	from := int64(first+1)*record.DayLength + 7*record.Whole
	return record.Record{
		Source: record.Source{File: "shed & barn.csv", Bytes: 12_555_648, Rows: 1_523_152, Step: 60, Zone: "the wall clock, as written", Said: []string{"A time stands at the start of its minute."}},
		Channels: []record.Channel{
			{Name: "Shed <kW>", Role: record.Import, Unit: "kW, mean power", Sums: true, First: first, Days: []record.Day{whole, part}},
			{Role: record.Circuit, Unit: "Wh", First: first, Days: []record.Day{whole}},
		},
		Gaps:     []record.Gap{{From: from, To: from + 1_805_000, Length: 1_805_000}, {From: from + 2*record.Whole, To: from + 26*record.Whole, Length: 24 * record.Whole, Energy: 7 * energy.KilowattHour, Known: true}},
		MoreGaps: 3,
		Oddities: []record.Oddity{
			{Kind: record.Duplicate, Count: 2, Lines: []int{1034, 1082}, Told: "03:00 on 1 Mar 2024"},
			{Kind: record.Disorder, Count: 1},
			{Kind: record.NoFigure, Count: 1200, Lines: []int{7}},
		},
	}
}

// shedFound is what the file of shed came to.
func shedFound() interval.Found {
	return interval.Found{
		Kind: "columns of readings",
		Settings: []layout.Setting{
			{ID: "column.1.unit", Label: "Figures of “Shed”", Why: "The heading has no unit.", Taken: "kW", Choices: []layout.Choice{{ID: "kW", Label: "kW, mean power"}, {ID: "W", Label: "W, mean power"}}},
			{ID: "stamps", Label: "A time stands at", Taken: "start", Sure: true, Choices: []layout.Choice{{ID: "start", Label: "the start"}, {ID: "end", Label: "the end"}}},
		},
		Preview: interval.Preview{Heads: []string{"From", "To", "Shed"}, Rows: [][]string{{"1 Mar 2024 00:00", "00:01", "0.5 kW"}, {"00:01", "00:02", "0.5 kW"}}},
		Records: []interval.Candidate{
			{Name: "Electricity, delivered", Usable: true, Record: shed()},
			{Name: "Electricity, received", Usable: true},
			{Name: "Gas", Why: "no electricity"},
		},
		Bills:    []interval.Bill{{From: "2024-02-01", To: "2024-03-01", KWh: "300", Words: "1 Feb to 1 Mar 2024, 300 kWh."}, {From: "2024-03-01", To: "2024-04-01", KWh: "310", Words: "1 Mar to 1 Apr 2024, 310 kWh."}, {Words: "The running period had 12 kWh so far."}},
		Problems: []remark.Problem{{Line: 3, Column: 7, Found: "x", Wanted: "a figure, such as 0.4"}},
		Notices:  []string{"The file ends in the middle of a line."},
	}
}

// shedFile is a card in one of the states that it can have.
func shedFile(state string) File {
	f := File{ID: "monitors-0-file", Bills: []billing.Period{{From: "2024-02-01", To: "2024-03-01"}}, Open: map[string]bool{}}
	for _, part := range []string{"how", "gaps", "odd"} {
		f.Open[f.ID+"-"+part] = true
	}
	found := shedFound()
	switch state {
	case "read":
		f.Kept = Keep(Kept{Record: shed(), Found: found, Again: true})
	case "chosen":
		found.Settings[0].Sure = true
		f.Kept = Keep(Kept{Record: shed(), Found: found, Again: true, Chosen: true})
	case "reloaded":
		f.Kept = Keep(Kept{Record: shed()})
	case "reading":
		f.Going = &Going{Name: "shed.csv", Early: &found}
	case "waiting":
		f.Going = &Going{Name: "shed.csv", Waits: "barn.csv"}
	case "failed":
		f.Tried = &Tried{Name: "photo.csv", Says: "“photo.csv” gave no readings.", Found: interval.Found{Problems: found.Problems, Records: found.Records[2:]}}
	}
	return f
}

var fileStates = []string{"none", "read", "chosen", "reloaded", "reading", "waiting", "failed"}

func TestFileGolden(t *testing.T) {
	d := Drawing{Slots: map[string]string{}}
	for _, state := range fileStates {
		d.Slots[state] = shedFile(state).Markup()
	}
	if d.Slots["none"] != "" {
		t.Errorf("a card of nothing: %s", d.Slots["none"])
	}
	golden(t, "file.html", d)
}

// Ids of a card are unique in it, and what points at one finds it.
func TestFileIDs(t *testing.T) {
	for _, state := range fileStates {
		markup := shedFile(state).Markup()
		for _, rest := range strings.Split(markup, ` id="`)[1:] {
			id, _, _ := strings.Cut(rest, `"`)
			if n := strings.Count(markup, ` id="`+id+`"`); n != 1 {
				t.Errorf("%s: id %s stands there %d times", state, id, n)
			}
		}
		for _, attr := range []string{"for", "aria-labelledby", "aria-describedby"} {
			for _, rest := range strings.Split(markup, " "+attr+`="`)[1:] {
				id, _, _ := strings.Cut(rest, `"`)
				if !strings.Contains(markup, ` id="`+id+`"`) {
					t.Errorf("%s: %s=%s points at nothing", state, attr, id)
				}
			}
		}
	}
}

// Whatever a file is called and holds, it stays text.
func TestHostileFile(t *testing.T) {
	for _, bad := range hostile {
		for _, state := range fileStates[1:] {
			f := shedFile(state)
			for _, part := range []any{f.Kept, f.Going, f.Tried} {
				if v := reflect.ValueOf(part); !v.IsNil() {
					poison(v.Elem(), bad)
				}
			}
			got := f.Markup()
			checkMarkup(t, bad+" in "+state, got)
			if !strings.Contains(got, html.EscapeString(markup.Plain(bad))) {
				t.Errorf("%s is not in %s: the test has no grip", bad, state)
			}
		}
	}
}

// A grid's year does not fit into an Energy; its total must not wrap round.
func TestFileTotalTooLarge(t *testing.T) {
	first, _ := calendar.Date(2024, 3, 1)
	var day record.Day
	day.Hours[0] = record.Hour{Energy: 5e18, Covered: record.Whole}
	k := Keep(Kept{Record: record.Record{Channels: []record.Channel{
		{First: first, Days: []record.Day{day}},
		{First: first, Days: []record.Day{day, day}},
	}}})
	want := []string{"5000000000", "more than can be counted here"}
	if !slices.Equal(k.Totals, want) {
		t.Errorf("the totals are %q, want %q", k.Totals, want)
	}
}

// A line of a file as long as this one breaks the width of a phone.
func TestFilePreviewKind(t *testing.T) {
	for last, want := range map[string]markup.Name{"1 Mar 2024 00:15": "tight", "2012-01-01T00:00:00+11:00,4382.825174": "wide"} {
		p := interval.Preview{Heads: []string{"Interval", "kWh", "As written"}, Rows: [][]string{{"1 Mar 2024 00:00–00:15 and more", "0.5", last}}}
		if got := previewKind(p); got != want {
			t.Errorf("%s: %s, want %s", last, got, want)
		}
	}
}

// A feed's period without dates is not that of an empty bill.
func TestFileBillWithoutDates(t *testing.T) {
	f := File{ID: "file", Bills: []billing.Period{{}}}
	f.Tried = &Tried{Says: "None.", Found: interval.Found{Bills: []interval.Bill{{KWh: "351.425", Words: "The feed tells of 351.425 kWh."}}}}
	if got := f.Markup(); strings.Contains(got, "among the bills") || !strings.Contains(got, "Use as a bill") {
		t.Error(got)
	}
}

func TestFileOfOneDay(t *testing.T) {
	day, _ := calendar.Date(2024, 3, 1)
	for last, want := range map[calendar.Day]string{day: "1 Mar 2024, 1 day", day + 1: "1 Mar 2024 to 2 Mar 2024, 2 days"} {
		if got := daysOf(day, last); got != want {
			t.Errorf("%s, want %s", got, want)
		}
	}
}

// Most outages have the same reason, which is told once in a row.
func TestSameReasonIsToldOnce(t *testing.T) {
	s := sheet{open: map[string]bool{"at": true}}
	var r calc.Readings
	for _, why := range []string{"A gap.", "A gap.", "A flicker.", "A gap."} {
		r.Outages.Outages = append(r.Outages.Outages, outage.Outage{To: 60_000, Length: 60_000, Gaps: 1, Kind: outage.Untold, Why: why})
	}
	got := s.silent(r, "at", "Attic").(markup.Markup).String()
	if strings.Count(got, "A gap.") != 2 || strings.Count(got, "as above") != 1 || strings.Count(got, "A flicker.") != 1 {
		t.Error(got)
	}
}
