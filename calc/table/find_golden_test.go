package table

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"splittally/calc/record"
	"splittally/calc/zone"

	"github.com/google/go-cmp/cmp"
)

var update = flag.Bool("update", false, "rewrite the wanted results; read the difference before you keep it")

// TestFindHeads reads invented heads of files, as monitors and utilities write
// them, and compares with what was understood when a person last looked at it.
func TestFindHeads(t *testing.T) {
	t.Parallel()
	heads, err := filepath.Glob("testdata/heads/*.csv")
	if err != nil || len(heads) < 60 {
		t.Fatalf("%d heads found, want 60 or more (%v)", len(heads), err)
	}
	for _, path := range heads {
		t.Run(strings.TrimSuffix(filepath.Base(path), ".csv"), func(t *testing.T) {
			t.Parallel()
			head, err := os.ReadFile(path)
			if err != nil {
				t.Fatal(err)
			}
			got := found(head)
			wanted := strings.TrimSuffix(path, ".csv") + ".want.txt"
			if *update {
				if err := os.WriteFile(wanted, []byte(got), 0o644); err != nil {
					t.Fatal(err)
				}
			}
			want, err := os.ReadFile(wanted)
			if err != nil {
				t.Fatal(err)
			}
			if diff := cmp.Diff(string(want), got); diff != "" {
				t.Errorf("-want +got\n%s", diff)
			}
		})
	}
}

// TestHeadsAreRead hands the heads that Find takes to the Reader: every line from
// the first row on is read, but for headings and totals between.
func TestHeadsAreRead(t *testing.T) {
	t.Parallel()
	heads, _ := filepath.Glob("testdata/heads/*.csv")
	for _, path := range heads {
		head, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		l, _, err := Find(head, true, nil)
		if err != nil {
			continue
		}
		r := NewReader(l, &zone.Rules{})
		if err := r.Write(head); err != nil {
			t.Error(path, err)
		}
		got, err := r.Close()
		odd := 0
		for _, o := range got.Oddities {
			if o.Kind == record.Conflict || o.Kind == record.Unreadable || o.Kind == record.TooLarge || o.Kind == record.Duplicate {
				odd += o.Count
			}
		}
		if err != nil || got.Rows == 0 || odd > 3 {
			t.Errorf("%s: %d readings, %d odd ones, %v", path, got.Rows, odd, err)
		}
	}
}

// found writes what a head came to: its layout, its settings, and a preview.
func found(head []byte) string {
	l, settings, err := Find(head, true, nil)
	if err != nil {
		return "no: " + err.Error() + "\n"
	}
	return printed(l, settings) + previewed(head, l)
}

// printed writes a layout so that a person can check it against the head.
func printed(l Layout, settings []Setting) string {
	var out strings.Builder
	fmt.Fprintf(&out, "delimiter %q", l.Delimiter)
	if l.Quoted {
		out.WriteString(", quoted")
	}
	fmt.Fprintf(&out, ", decimal %q", l.Decimal)
	if l.Group != 0 {
		fmt.Fprintf(&out, ", group %q", l.Group)
	}
	fmt.Fprintf(&out, ", skip %d\n", l.Skip)
	st := l.Stamp
	fmt.Fprintf(&out, "stamp in %d", st.Date)
	if st.Time >= 0 {
		fmt.Fprintf(&out, " and %d", st.Time)
	}
	if st.Hours {
		out.WriteString(" (numbers of hours)")
	}
	fmt.Fprintf(&out, ", %s, %s, step %d ms, %s%s\n",
		[...]string{"year first", "day first", "month first", "Unix seconds", "Unix milliseconds", "serial"}[st.Form],
		[...]string{"local", "with offset", "instant"}[st.Zone], l.Step,
		map[bool]string{false: "start", true: "end"}[l.Ends], map[bool]string{true: ", newest first"}[l.Newest])
	for i, c := range l.Columns {
		fmt.Fprintf(&out, "column %d %q", i, c.Name)
		if c.Used {
			fmt.Fprintf(&out, ": %s, %s in %s, %d places", c.Role, kindID(c.Quantity), c.Unit, c.Places)
			if c.Sign < 0 {
				out.WriteString(", turned")
			}
			if c.Apart {
				out.WriteString(", below zero apart")
			}
		}
		out.WriteString("\n")
	}
	for _, s := range settings {
		mark := "?"
		if s.Sure {
			mark = "!"
		}
		fmt.Fprintf(&out, "%s %s = %s", mark, s.ID, s.Taken)
		if s.Why != "" {
			out.WriteString(" (" + s.Why + ")")
		}
		out.WriteString("\n")
	}
	return out.String()
}

func previewed(head []byte, l Layout) string {
	heads, rows := Preview(head, l, nil, 2)
	text := strings.Join(heads, " | ") + "\n"
	for _, r := range rows {
		text += strings.Join(r, " | ") + "\n"
	}
	return text
}
