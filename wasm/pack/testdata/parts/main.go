//go:build js && wasm

// Command parts is parted in two by a test: door, and what it alone leads to,
// comes later than the rest.
package main

import (
	"errors"
	"fmt"
	"runtime"
	"sort"
	"strings"
	"syscall/js"
)

// A shape is known to both parts; circle to the second alone.
type shape interface{ area() int }

type square struct{ side int }

func (s square) area() int { return s.side * s.side }

type circle struct{ radius int }

func (c *circle) area() int { return 3 * c.radius * c.radius }

// total is in the first part and calls methods of either.
//
//go:noinline
func total(shapes []shape) (sum int) {
	for _, s := range shapes {
		sum += s.area()
	}
	return sum
}

// safely is in the first part and takes a panic of the second.
//
//go:noinline
func safely(f func()) (said string) {
	defer func() { said = fmt.Sprint(recover()) }()
	f()
	return "nothing"
}

// doubled is in the first part: a goroutine of it answers one of the second.
func doubled(in, out chan int) {
	for v := range in {
		out <- 2 * v
	}
	close(out)
}

func main() {
	js.Global().Set("early", js.FuncOf(func(js.Value, []js.Value) any { return total([]shape{square{3}}) }))
	js.Global().Set("late", js.FuncOf(func(js.Value, []js.Value) any { return door() }))
	select {}
}

// door is called once the second part is there.
//
//go:noinline
func door() string {
	var says []string
	say := func(words ...any) { says = append(says, strings.TrimSuffix(fmt.Sprintln(words...), "\n")) }
	say("methods", total([]shape{square{2}, &circle{2}}))
	say("panic", safely(func() { panic(errors.New("of the second part")) }))
	say("fault", safely(func() { _ = make([]int, 0)[len(says)] }))
	say("rethrown", safely(rethrow))
	say("goroutines", goroutines())
	say("sorted", sorted())
	say("keys", keys())
	say("deep", deep(3_000, [8]int{}))
	say("kept", churn())
	say("called by", caller())
	say("stringer", fmt.Sprint(name(7)), fmt.Sprintf("%v", []name{1, 2}))
	return strings.Join(says, "\n")
}

func rethrow() {
	defer func() {
		if r := recover(); r != nil {
			panic(fmt.Sprint(r, ", thrown again"))
		}
	}()
	total([]shape{(*circle)(nil)})
}

func goroutines() (sum int) {
	in, out := make(chan int), make(chan int)
	go doubled(in, out)
	go func() {
		for i := range 100 {
			in <- i
			runtime.Gosched()
		}
		close(in)
	}()
	for v := range out {
		sum += v
	}
	return sum
}

func sorted() []int {
	all := []int{3, 1, 2}
	sort.Slice(all, func(i, j int) bool { return all[i] > all[j] })
	return all
}

type key struct {
	word string
	n    int
	any  any
}

func keys() int {
	all := map[key]int{}
	for i := range 1000 {
		all[key{fmt.Sprint(i % 10), i % 3, float64(i % 2)}]++
	}
	return len(all)
}

// deep makes its stack grow, which copies it with all that points into it.
func deep(n int, pad [8]int) int {
	if n == 0 {
		return pad[0]
	}
	at := &pad[n%8]
	*at++
	sum := deep(n-1, pad)
	return sum + *at - pad[n%8]
}

// churn holds things that nothing but its own stack leads to, while what it
// makes besides is collected and memory grows.
func churn() (kept int) {
	words := []*string{}
	for i := range 2000 {
		word := strings.Repeat("x", i)
		words = append(words, &word)
		_ = make([]byte, 100_000)
		if i%500 == 0 {
			runtime.GC()
		}
	}
	for _, w := range words {
		kept += len(*w)
	}
	return kept
}

func caller() string {
	pc, _, _, _ := runtime.Caller(0)
	return runtime.FuncForPC(pc).Name()
}

type name int

func (n name) String() string { return fmt.Sprintf("name %d", int(n)) }
