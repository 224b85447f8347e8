package report

import (
	"math"
	"strconv"
	"strings"

	"splittally/calc/compare"
	"splittally/calc/say"
	"splittally/calc/sorted"
	"splittally/calc/uncertainty"
)

// part is a cause of doubt as the paper lists it: several of one name are one.
type part struct {
	uncertainty.Part
	square float64 // of the standard uncertainty, of all of them
	count  int
}

// sure sets out the uncertainty budget of the leading instrument, and tells
// that of the others in a sentence.
func (w *composer) sure() {
	lead, c := w.leading()
	if lead == nil || len(c.Budget) == 0 {
		return
	}
	over := "over the bill"
	if lead.IsPooled {
		over = "over all bills together"
	}
	all := grouped(c.Budget)
	t := &Table{
		Caption: lead.Name + ", " + over + ", in percent of the meter’s energy",
		Head:    []string{"What could be wrong", "How far", "Distribution", "Adds", "Share"},
		Numbers: []bool{false, true, false, true, true},
	}
	whole := c.Standard * c.Standard
	for n, p := range all {
		if n == w.room[mostParts] && len(all) > n+1 {
			w.left = true
			rest := remains(all[n:])
			rest.Name = say.Counted(rest.count, "smaller part", "smaller parts") + " together"
			t.Rows = append(t.Rows, []string{rest.Name, "", "", adds(rest), share(rest.square, whole)})
			break
		}
		t.Rows = append(t.Rows, p.row(whole))
	}
	said := []string{"Combined standard uncertainty u = " + say.Interval(c.Standard) + say.Thin + "%; times k = " + fixed(c.Coverage, 3) +
		" (" + say.Degrees(c.DoF) + " degrees of freedom) it gives U = ± " + say.Interval(c.Expanded) + say.Thin + "%. What the two instruments promise would alone be ± " + say.Interval(c.Promise) + say.Thin + "%."}
	for _, i := range w.told() {
		if other, ok := total(&i); ok && i.Name != lead.Name {
			said = append(said, i.Name+": U = ± "+say.Interval(other.Expanded)+say.Thin+"%, most of it from: "+largest(other)+".")
		}
	}
	w.section("How sure that is", Block{Table: t}, w.words(said...))
}

// grouped makes one part of those of one name, the largest first: twelve bills
// have twelve roundings. Parts of one source were added up before, so that
// these add in squares.
func grouped(b uncertainty.Budget) []part {
	var out []part
	at := map[string]int{}
	for _, p := range b.Merged() {
		n, seen := at[p.Name]
		if !seen {
			n, at[p.Name] = len(out), len(out)
			out = append(out, part{Part: p})
		}
		out[n].square += p.Standard * p.Standard
		out[n].count++
	}
	sorted.Stable(out, func(a, b part) int { return compareFloats(b.square, a.square) })
	return out
}

func compareFloats(a, b float64) int {
	switch {
	case a < b:
		return -1
	case a > b:
		return 1
	}
	return 0
}

// remains adds up parts that are not told one by one.
func remains(parts []part) (sum part) {
	for _, p := range parts {
		sum.square += p.square
		sum.count++
	}
	return sum
}

func (p part) row(whole float64) []string {
	name, far := p.Name, "± "+say.Interval(p.HalfWidth)+say.Thin+p.Unit
	if p.Assumed {
		name += " (assumed)"
	}
	how := string(p.Distribution)
	if p.Distribution == uncertainty.Student {
		how = "Student’s t"
	}
	if p.count > 1 {
		name += ", in " + strconv.Itoa(p.count) + " parts"
		far, how = "", "together"
	} else if p.Repeats > 1 {
		far += ", " + strconv.Itoa(p.Repeats) + " times"
	}
	return []string{name, strings.TrimSpace(far), how, adds(p), share(p.square, whole)}
}

// adds is what a part adds to the doubt of the percentage error.
func adds(p part) string { return say.Interval(math.Sqrt(p.square)) }

func share(square, whole float64) string {
	if !(whole > 0) || math.IsInf(whole, 0) {
		return "—"
	}
	return strconv.FormatFloat(100*square/whole, 'f', 0, 64) + say.Thin + "%"
}

// largest names the part with the greatest share.
func largest(c compare.Comparison) string {
	parts := grouped(c.Budget)
	if len(parts) == 0 {
		return "nothing"
	}
	name := []rune(parts[0].Name)
	return strings.ToLower(string(name[:1])) + string(name[1:])
}

// fixed writes a number with so many decimals.
func fixed(x float64, places int) string { return strconv.FormatFloat(x, 'f', places, 64) }
