package sorted

import (
	"cmp"
	"slices"
	"testing"

	gocmp "github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

type item struct{ Key, Place int }

func byKey(a, b item) int { return cmp.Compare(a.Key, b.Key) }

// Any list comes out as package slices sorts it.
func TestStable(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var got []item
		for i, key := range rapid.SliceOfN(rapid.IntRange(0, 9), 0, 60).Draw(t, "keys") {
			got = append(got, item{key, i})
		}
		want := slices.Clone(got)
		slices.SortStableFunc(want, byKey)
		Stable(got, byKey)
		if diff := gocmp.Diff(want, got); diff != "" {
			t.Fatal(diff)
		}
	})
}
