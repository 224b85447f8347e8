package table

import (
	"os"
	"path/filepath"
	"testing"
)

// FuzzFind checks on any bytes that nothing panics, that a layout stays within
// its own columns and the head, and that every setting has its choice.
func FuzzFind(f *testing.F) {
	heads, _ := filepath.Glob("testdata/heads/*.csv")
	for i, path := range heads {
		if b, err := os.ReadFile(path); err == nil {
			f.Add(b[:min(len(b), 2000)], i%2 == 0, "column.1.role", "import")
		}
	}
	f.Add([]byte("2024-01-01 00:00 1\n2024-01-01 01:00 2\n2024-01-01 02:00 \"3"), true, "order", "day-first")
	f.Fuzz(func(t *testing.T, head []byte, whole bool, id, choice string) {
		l, settings, err := Find(head, whole, map[string]string{id: choice})
		if err != nil {
			if err.Error() == "" || len(settings) > 0 {
				t.Errorf("error %q with %d settings", err, len(settings))
			}
			return
		}
		n := len(l.Columns)
		if l.Stamp.Date < 0 || l.Stamp.Date >= n || l.Stamp.Time < -1 || l.Stamp.Time >= n || n > maxColumns {
			t.Errorf("stamp %+v of %d columns", l.Stamp, n)
		}
		if l.Skip < 0 || l.Skip > len(head) || l.Step < 0 {
			t.Errorf("skip %d, step %d", l.Skip, l.Step)
		}
		imports := 0
		for c, col := range l.Columns {
			if !col.Used {
				continue
			}
			if c == l.Stamp.Date || c == l.Stamp.Time || col.Scale <= 0 || col.Unit == "" || col.Role == "" || col.Sign*col.Sign != 1 {
				t.Errorf("column %d is %+v", c, col)
			}
			if col.Role == "import" {
				imports++
			}
		}
		if imports > 1 {
			t.Errorf("%d columns are the import", imports)
		}
		for _, s := range settings {
			if !offers(s) {
				t.Errorf("setting %+v has not its own choice", s)
			}
		}
		Preview(head, l, nil, 3)
	})
}

// offers says whether the choice taken is among the choices.
func offers(s Setting) bool {
	for _, c := range s.Choices {
		if c.ID == s.Taken {
			return true
		}
	}
	return false
}
