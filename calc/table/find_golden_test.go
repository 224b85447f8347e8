package table

import (
	"fmt"
	"strings"
)

// printed writes a layout so that a person can check it against the head.
func printed(l Layout, settings []Setting) string {
	var out strings.Builder
	fmt.Fprintf(&out, "delimiter %q quoted %v decimal %q group %q skip %d\n", l.Delimiter, l.Quoted, l.Decimal, l.Group, l.Skip)
	fmt.Fprintf(&out, "stamp %+v step %d ms ends %v newest %v\n", l.Stamp, l.Step, l.Ends, l.Newest)
	for i, c := range l.Columns {
		if !c.Used {
			fmt.Fprintf(&out, "column %d %q\n", i, c.Name)
			continue
		}
		fmt.Fprintf(&out, "column %d %q: %s, %s in %s = %d, %d places, sign %d apart %v\n",
			i, c.Name, c.Role, [...]string{"energy", "power", "register"}[c.Quantity], c.Unit, c.Scale, c.Places, c.Sign, c.Apart)
	}
	for _, s := range settings {
		mark := "?"
		if s.Sure {
			mark = "!"
		}
		var ids []string
		for _, c := range s.Choices {
			ids = append(ids, c.ID)
		}
		fmt.Fprintf(&out, "%s %s = %s  [%s] (%s) %s\n", mark, s.ID, s.Taken, s.Label, strings.Join(ids, " "), s.Why)
	}
	return out.String()
}
