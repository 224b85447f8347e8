package holiday

import (
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// apart are the days on which the library of the reference and the rules here
// differ, and why the rules are kept: "+" is a day that only the rules have.
var apart = map[string]string{
	"GB-ENG 2022": "+09-19", // state funeral, gov.uk, bank holidays (from memory)
	"NZ 2022":     "+06-24 +09-26",
	"NZ 2023":     "+07-14",
	"DE 2017":     "+10-31", // 500 years of the Reformation, in every state that year (from memory)
}

// TestAgainstALibrary compares every region and year with the calendar library
// github.com/rickar/cal/v2. Family Day of Ontario, Matariki and the other days
// that the library does not have are set apart.
func TestAgainstALibrary(t *testing.T) {
	data, err := os.ReadFile("testdata/cal-v2.1.13.txt")
	if err != nil {
		t.Fatal(err)
	}
	compared := 0
	for line := range strings.Lines(string(data)) {
		parts := strings.Fields(line)
		if parts[0] == "#" {
			continue
		}
		id := parts[0] + " " + parts[1]
		year, err := strconv.Atoi(parts[1])
		if err != nil {
			t.Fatal(err)
		}
		if d := cmp.Diff(parts[2:], ours(parts[0], year, apart[id])); d != "" {
			t.Errorf("%s (-library +ours):\n%s", id, d)
		}
		compared++
	}
	if compared != 8*27 {
		t.Errorf("%d years compared, want %d", compared, 8*27)
	}
}

func ours(region string, year int, apart string) (days []string) {
	for _, h := range Of(region, year) {
		day := h.Day.String()[5:]
		if h.Name == "Family Day" || h.Name == "Matariki" || slices.Contains(strings.Fields(apart), "+"+day) {
			continue
		}
		days = append(days, day)
	}
	slices.Sort(days)
	return days
}
