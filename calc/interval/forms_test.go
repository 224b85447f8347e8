package interval_test

import (
	"fmt"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"

	"splittally/calc/interval"
	"splittally/calc/record"
	"splittally/calc/table"
)

// open reads a file of the generator with a person's answers.
func (f *formsFile) open(answers map[string]string) interval.Found {
	for range 3 {
		r := interval.New(interval.Options{File: "home.csv", Bytes: int64(len(f.text)), Zone: f.h.clock, Settings: answers})
		cut := len(f.text) / 3
		if r.Write(f.text[:cut]) == nil {
			_ = r.Write(f.text[cut:])
		}
		s, again := r.Again()
		if !again {
			return r.Close()
		}
		answers = s
	}
	return interval.Found{}
}

// asked gives the settings that are left open, with what they are about.
func asked(settings []table.Setting) (ids []string) {
	for _, s := range settings {
		if !s.Sure {
			ids = append(ids, s.ID)
		}
	}
	return ids
}

// about is the last part of a setting's ID.
func about(id string) string { return id[strings.LastIndexByte(id, '.')+1:] }

// reply is what a person who knows the file says to a setting.
func (f *formsFile) reply(id string) string {
	if a, ok := f.answers[id]; ok {
		return a
	}
	for _, c := range f.columns {
		if !strings.HasPrefix(id, fmt.Sprintf("column.%d.", c.index)) {
			continue
		}
		return map[string]string{"role": string(c.role), "unit": c.unit, "kind": f.kind, "sign": "as-is", "below": "net"}[about(id)]
	}
	if about(id) == "role" {
		return table.RoleNone
	}
	return ""
}

// fairRole says that a question for the role of a column of figures is fair: no
// unit tells that it is energy, or what is used may have been made at home.
func (f *formsFile) fairRole(id string) bool {
	if about(id) != "role" {
		return false
	}
	for _, c := range f.columns {
		if strings.HasPrefix(id, fmt.Sprintf("column.%d.", c.index)) {
			return len(f.columns) > 1 && (f.doubt["unit"] || c.role == record.Import)
		}
	}
	return false
}

// asksOf names the heading that a setting is about.
func (f *formsFile) asksOf(id string) string {
	column := -1
	_, _ = fmt.Sscanf(id, "column.%d.", &column)
	if column < 0 || !f.form.heads {
		return f.words.tag + " " + f.heads[0]
	}
	return f.words.tag + " " + f.heads[column]
}

// judge holds a file against its truth, and gives what is wrong with it: a kind
// that begins with "silent" for what nothing speaks of, "asked" for what need
// not have been, "refused" for what was not read.
func (f *formsFile) judge() (kinds []string) {
	found := f.open(nil)
	if len(found.Records) == 0 {
		why := "a text"
		if len(found.Problems) > 0 {
			why = found.Problems[0].Wanted
		}
		return []string{"refused: " + why}
	}
	open := asked(found.Settings)
	for _, id := range open {
		if !f.doubt[about(id)] && !f.fairRole(id) {
			kinds = append(kinds, "asked needlessly: "+about(id)+" of "+f.asksOf(id))
		}
	}
	wrong := f.compare(found)
	if len(wrong) == 0 {
		return kinds
	}
	answers := map[string]string{}
	for _, id := range open {
		answers[id] = f.reply(id)
	}
	if f.form.stamped == "end" && f.doubt["stamps"] && f.h.step <= 120 {
		answers["stamps"] = "end" // a matter of a minute, which is not asked about
	}
	before := wrong
	if len(answers) > 0 {
		again := f.open(answers)
		if len(again.Records) > 0 {
			wrong = f.compare(again)
		}
		if len(wrong) == 0 {
			if len(kinds) > 0 {
				kinds = append(kinds, "wrong until answered: "+before[0])
			}
			return kinds
		}
	}
	word := "silent: "
	r := &found.Records[0].Record
	if told(r, record.Conflict) > f.odd[record.Conflict] || told(r, record.Overlap) > 0 {
		word = "told as conflicts: "
	}
	if len(found.Problems)+len(found.Notices) > 0 {
		word = "told: "
	}
	if len(open) > 0 {
		word = "after answers, " + word
	}
	for _, w := range wrong {
		kinds = append(kinds, word+w)
	}
	return kinds
}

// formsTally counts what was met, and what the files had in common.
type formsTally struct {
	kinds map[string][]uint64
	tags  map[string]map[string]int
	all   map[string]int
}

func (y *formsTally) String() string {
	var lines []string
	for kind, seeds := range y.kinds {
		var common []string
		for tag, n := range y.tags[kind] {
			lift := float64(n) / float64(len(seeds)) / (float64(y.all[tag]) / float64(y.all[""]))
			if n*3 >= len(seeds) && lift > 1.6 {
				common = append(common, fmt.Sprintf("%s %d%% ×%.1f", tag, 100*n/len(seeds), lift))
			}
		}
		slices.Sort(common)
		lines = append(lines, fmt.Sprintf("%5d %s %v\n      %s", len(seeds), kind, seeds[:min(5, len(seeds))], strings.Join(common, "; ")))
	}
	slices.Sort(lines)
	slices.Reverse(lines)
	return strings.Join(lines, "\n")
}

// formsSeed is that of the files that are drawn.
const formsSeed = 5

func TestForms(t *testing.T) {
	files := uint64(400)
	if s := os.Getenv("SPLITTALLY_FORMS"); s != "" {
		files, _ = strconv.ParseUint(s, 10, 64)
	}
	needless, bad := 0, 0
	y := formsTally{map[string][]uint64{}, map[string]map[string]int{}, map[string]int{"": int(files)}}
	for n := range files {
		f := drawFile(formsSeed, n)
		tags := slices.Compact(slices.Sorted(slices.Values(f.tags)))
		for _, tag := range tags {
			y.all[tag]++
		}
		kinds := f.judge()
		slices.Sort(kinds)
		for _, kind := range slices.Compact(kinds) {
			if strings.HasPrefix(kind, "asked") {
				needless++
			} else if l := f.limit(); l != "" {
				kind = "limit, " + l + ": " + strings.SplitN(kind, ":", 2)[0]
			} else {
				bad++
			}
			y.kinds[kind] = append(y.kinds[kind], n)
			if y.tags[kind] == nil {
				y.tags[kind] = map[string]int{}
			}
			for _, tag := range tags {
				y.tags[kind][tag]++
			}
		}
	}
	// A question that a careful person would not ask is a lesser thing.
	if bad > 0 || needless*20 > int(files) {
		t.Errorf("%d files:\n%s", files, &y)
	} else if testing.Verbose() {
		t.Logf("%d files:\n%s", files, &y)
	}
}

// TestFormsOne shows one file, the number of which SPLITTALLY_FORM has.
func TestFormsOne(t *testing.T) {
	n, err := strconv.ParseUint(os.Getenv("SPLITTALLY_FORM"), 10, 64)
	if err != nil {
		t.Skip("SPLITTALLY_FORM has no number of a file to show")
	}
	f := drawFile(formsSeed, n)
	text := string(f.text)
	t.Logf("%v\n%.1200s\n...\n%s", f.tags, text, text[max(0, len(text)-300):])
	found := f.open(nil)
	for _, s := range found.Settings {
		t.Logf("%s: %s (%v) %s", s.ID, s.Taken, s.Sure, s.Why)
	}
	t.Logf("%v %q", found.Problems, found.Notices)
	if len(found.Records) == 0 {
		_, _, err := table.Find(f.text[:min(len(f.text), table.HeadLength)], false, nil)
		t.Logf("Find: %v", err)
	}
	if len(found.Records) > 0 {
		r := found.Records[0].Record
		t.Logf("%+v\n%+v\n%+v\nwant %+v, gaps %v, junk %v", r.Source, r.Oddities, r.Gaps, f.odd, f.gaps, f.junk)
		for _, c := range r.Channels {
			t.Logf("%s %s %s", c.Name, c.Role, c.Unit)
		}
	}
	f.show = true
	t.Logf("%q", f.judge())
	if dir := os.Getenv("SPLITTALLY_FORM_FILE"); dir != "" {
		if err := os.WriteFile(dir, f.text, 0o600); err != nil {
			t.Fatal(err)
		}
	}
}
