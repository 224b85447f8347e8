package view

import (
	"strings"
	"testing"

	"splittally/calc/changes"
)

func TestChanges(t *testing.T) {
	got := Changes([]changes.Item{
		{Key: "periods.0.kwh", Where: "Bill 1", What: "billed energy", Mine: "412 kWh", Theirs: "421 kWh"},
		{Key: "periods.0.read-hour", Where: "Bill 1", What: "hour of the read", Theirs: "9"},
		{Key: "name", Where: `<b onclick="x()">`, What: `"><script>`, Mine: "</label>", Theirs: "&amp;"},
	})
	for _, want := range []string{
		"3 things differ.", "412 kWh", "421 kWh", "<em class=\"mine\">nothing</em>", `data-change="periods.0.kwh"`,
		"&lt;b onclick=", "&lt;script&gt;", "&lt;/label&gt;", "&amp;amp;",
	} {
		if !strings.Contains(got, want) {
			t.Errorf("no %q in %s", want, got)
		}
	}
	if n := strings.Count(got, "<h2>"); n != 2 {
		t.Errorf("%d headings for two places", n)
	}
	if got := Changes(nil); !strings.Contains(got, "Nothing differs") {
		t.Errorf("no change gives %s", got)
	}
}
