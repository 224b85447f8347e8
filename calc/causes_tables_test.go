package calc_test

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"splittally/calc/cause"
)

// confusion lays the true causes by rows against what was said of them: only
// cases whose effect is at least twice the uncertainty, and Chance.
func confusion(all []outcome) string {
	var b strings.Builder
	ids := []cause.ID{}
	for _, in := range injections {
		ids = append(ids, in.id)
	}
	ids = append(ids, cause.Other)
	fmt.Fprintf(&b, "%-10s %5s %6s %6s %6s %6s | asserted:", "true cause", "cases", "found", "first", "alone", "wrong")
	for _, id := range ids {
		fmt.Fprintf(&b, " %5.5s", id)
	}
	b.WriteString("\n")
	row := func(name string, rows []outcome) {
		fmt.Fprintf(&b, "%-10s %5d %5.1f%% %5.1f%% %5.1f%% %5.1f%% |          ", name, len(rows), rate(rows, outcome.open),
			rate(rows, func(o outcome) bool { return len(o.weighed.Causes) > 0 && o.weighed.Causes[0].ID == o.id }),
			rate(rows, outcome.right), rate(rows, outcome.wrong))
		for _, id := range ids {
			fmt.Fprintf(&b, " %5d", count(rows, func(o outcome) bool { return o.asserted() == id }))
		}
		b.WriteString("\n")
	}
	clear := only(all, func(o outcome) bool { return o.clear() || o.id == cause.Chance })
	for _, in := range injections {
		row(string(in.id), only(clear, func(o outcome) bool { return o.id == in.id }))
	}
	row("all clear", only(clear, outcome.clear))
	row("all", all)
	return b.String()
}

// opened lays the true causes by rows against the causes that are not told
// from the best, which are more than one in most cases.
func opened(all []outcome) string {
	var b strings.Builder
	fmt.Fprintf(&b, "%-10s of 100 clear cases, how many have it in the open set\n%-10s", "", "true cause")
	for _, in := range injections {
		fmt.Fprintf(&b, " %5.5s", in.id)
	}
	b.WriteString("\n")
	for _, in := range injections {
		rows := only(all, func(o outcome) bool { return o.id == in.id && (o.clear() || o.id == cause.Chance) })
		fmt.Fprintf(&b, "%-10s", in.id)
		for _, other := range injections {
			fmt.Fprintf(&b, " %5.0f", rate(rows, func(o outcome) bool { return slices.Contains(o.set(), other.id) }))
		}
		b.WriteString("\n")
	}
	return b.String()
}

// band is a class of outcomes.
type band struct {
	name string
	in   func(outcome) bool
}

// bands sort by the size of the effect, by the number of bills and by the size
// of the open set.
func bands() [][]band {
	var effects, bills, sets []band
	edges := []float64{0, 0.5, 1, 2, 3, 5, 10, math.Inf(1)}
	for i, low := range edges[:len(edges)-1] {
		high := edges[i+1]
		effects = append(effects, band{fmt.Sprintf("effect %g to %g u", low, high), func(o outcome) bool {
			return o.id != cause.Chance && o.effect >= low && o.effect < high
		}})
	}
	for n := 1; n <= 8; n++ {
		bills = append(bills, band{fmt.Sprintf("%d bills, clear", n), func(o outcome) bool { return o.clear() && o.bills == n }})
	}
	for _, n := range [][2]int{{1, 1}, {2, 2}, {3, 3}, {4, 5}, {6, 8}, {9, 99}} {
		sets = append(sets, band{fmt.Sprintf("%d to %d open, clear", n[0], n[1]), func(o outcome) bool {
			return o.clear() && o.weighed.Open >= n[0] && o.weighed.Open <= n[1]
		}})
	}
	return [][]band{effects, bills, sets}
}

// byBands tells that “cannot be told apart” is no cheap way out.
func byBands(all []outcome) string {
	var b strings.Builder
	for _, group := range bands() {
		fmt.Fprintf(&b, "%-22s %5s %6s %6s %6s %10s\n", "", "cases", "found", "alone", "wrong", "mean open")
		for _, c := range group {
			rows, open := only(all, c.in), 0
			for _, o := range rows {
				open += o.weighed.Open
			}
			fmt.Fprintf(&b, "%-22s %5d %5.1f%% %5.1f%% %5.1f%% %10.1f\n", c.name, len(rows), rate(rows, outcome.open),
				rate(rows, outcome.right), rate(rows, outcome.wrong), float64(open)/float64(max(1, len(rows))))
		}
	}
	return b.String()
}

// byVariant tells which form of a cause is missed.
func byVariant(all []outcome) string {
	var b strings.Builder
	names := map[string][]outcome{}
	for _, o := range all {
		if o.clear() {
			// The number of days is no form of its own.
			name := strings.TrimLeft(o.variant, "0123456789 ")
			names[name] = append(names[name], o)
		}
	}
	order := []string{}
	for name := range names {
		order = append(order, name)
	}
	slices.Sort(order)
	for _, name := range order {
		rows := names[name]
		fmt.Fprintf(&b, "%-45s %5d clear, found %5.1f%%, alone %5.1f%%, wrong %5.1f%%\n", name, len(rows),
			rate(rows, outcome.open), rate(rows, outcome.right), rate(rows, outcome.wrong))
	}
	return b.String()
}

// reliability holds the stated probabilities against how often they were right.
func reliability(all []outcome) string {
	var b strings.Builder
	edges := []float64{0, 0.01, 0.05, 0.1, 0.2, 0.3, 0.5, 0.7, 0.9, 0.95, 0.99, 1.0001}
	fmt.Fprintf(&b, "%-14s %7s %7s %7s\n", "probability", "stated", "n", "true")
	for i, low := range edges[:len(edges)-1] {
		n, right, stated := 0, 0, 0.0
		for _, o := range all {
			for _, e := range o.weighed.Causes {
				if e.Probability >= low && e.Probability < edges[i+1] {
					n++
					stated += e.Probability
					if e.ID == o.id {
						right++
					}
				}
			}
		}
		fmt.Fprintf(&b, "%4g to %-6.4g %6.1f%% %7d %6.1f%%\n", low, edges[i+1], 100*stated/float64(max(1, n)), n, 100*float64(right)/float64(max(1, n)))
	}
	return b.String()
}
