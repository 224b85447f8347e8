package intake

import "sort"

// ranks sorts places by keys; equal keys keep their order. One sort for every
// type, by way of whole numbers, keeps the program small.
type ranks struct{ keys, at []int }

func (r ranks) Len() int           { return len(r.keys) }
func (r ranks) Less(i, j int) bool { return r.keys[i] < r.keys[j] }
func (r ranks) Swap(i, j int) {
	r.keys[i], r.keys[j] = r.keys[j], r.keys[i]
	r.at[i], r.at[j] = r.at[j], r.at[i]
}

// sort gives the places in order of their keys.
func (r ranks) sort() []int {
	r.at = make([]int, len(r.keys))
	for i := range r.at {
		r.at[i] = i
	}
	if !sort.IsSorted(r) {
		sort.Stable(r)
	}
	return r.at
}

// arrange sorts s by key; equals keep their order.
func arrange[T any](s []T, key func(*T) int) {
	r := ranks{keys: make([]int, len(s))}
	for i := range s {
		r.keys[i] = key(&s[i])
	}
	at := r.sort()
	old := make([]T, len(s))
	copy(old, s)
	for i, from := range at {
		s[i] = old[from]
	}
}

// middle gives the middle one of some numbers, the later of the two middle ones
// if they are even in number, and leaves them sorted. There must be one.
func middle(numbers []int) int {
	ranks{keys: numbers}.sort()
	return numbers[len(numbers)/2]
}
