// Package sorted sorts lists of any type by one piece of code. The functions of
// package slices are compiled anew for each type, 7 kB of the engine every
// time; what is new here for each type is a compare and a swap.
package sorted

import "sort"

// Stable sorts list by compare, which is negative where a stands before b, and
// leaves in order what is alike.
func Stable[T any](list []T, compare func(a, b T) int) {
	sort.Stable(places{
		n:    len(list),
		less: func(i, j int) bool { return compare(list[i], list[j]) < 0 },
		swap: func(i, j int) { list[i], list[j] = list[j], list[i] },
	})
}

type places struct {
	n    int
	less func(i, j int) bool
	swap func(i, j int)
}

func (p places) Len() int           { return p.n }
func (p places) Less(i, j int) bool { return p.less(i, j) }
func (p places) Swap(i, j int)      { p.swap(i, j) }
