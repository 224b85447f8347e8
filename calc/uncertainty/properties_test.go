package uncertainty

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// budgets draws up to eight parts from three sources and from none. Sizes are
// bounded so that squares of squares stay far from the ends of a float.
func budgets() *rapid.Generator[Budget] {
	part := rapid.Custom(func(t *rapid.T) Part {
		return Evaluate(Part{
			Source:       rapid.SampledFrom([]string{"", "a", "b", "c"}).Draw(t, "source"),
			HalfWidth:    rapid.Float64Range(1e-6, 1e6).Draw(t, "half-width"),
			Sensitivity:  rapid.Float64Range(-100, 100).Draw(t, "sensitivity"),
			Distribution: rapid.SampledFrom([]Distribution{Rectangular, Triangular, Arcsine, Normal, Student}).Draw(t, "distribution"),
			DoF:          rapid.Float64Range(1, 1000).Draw(t, "dof"),
		})
	})
	return rapid.Custom(func(t *rapid.T) Budget { return rapid.SliceOfN(part, 1, 8).Draw(t, "parts") })
}

func TestWhatIsTakenFromItselfLeavesNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := budgets().Draw(t, "budget")
		for i := range b {
			b[i].Source = "one" + b[i].Source
		}
		if u, dof := Weighted([]float64{1, -1}, []Budget{b, b}).Combined(); u != 0 || !math.IsInf(dof, 1) {
			t.Fatalf("x − x has u = %g, dof %g", u, dof)
		}
	})
}

func TestMergingChangesNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := budgets().Draw(t, "budget")
		u, dof := b.Combined()
		um, dofm := b.Merged().Combined()
		if u != um || dof != dofm {
			t.Fatalf("u %g → %g, dof %g → %g", u, um, dof, dofm)
		}
	})
}

func TestPartsAddToTheWhole(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := budgets().Draw(t, "budget")
		var sum float64
		for _, s := range b.Shares() {
			sum += s
		}
		u, dof := b.Combined()
		// Where a source nearly cancels, what is left has few digits.
		if u > 1e-6 && math.Abs(sum-1) > 1e-9 {
			t.Fatalf("shares add to %.12f", sum)
		}
		// Between the least well known source and all of them together.
		var all float64
		least := math.Inf(1)
		for _, p := range b {
			all += p.DoF
			least = min(least, p.DoF)
		}
		if u > 0 && !math.IsInf(dof, 1) && dof < least*(1-1e-12) {
			t.Fatalf("dof %g, less than the least, %g", dof, least)
		}
		if !math.IsInf(dof, 1) && dof > all*(1+1e-12) {
			t.Fatalf("dof %g, more than all together, %g", dof, all)
		}
	})
}

func TestScalingAResultScalesItsUncertainty(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := budgets().Draw(t, "budget")
		by := rapid.Float64Range(-50, 50).Draw(t, "factor")
		u, _ := b.Combined()
		scaled, _ := Weighted([]float64{by}, []Budget{b}).Combined()
		if math.Abs(scaled-math.Abs(by)*u) > 1e-9*(1+scaled) {
			t.Fatalf("%g × %g = %g", by, u, scaled)
		}
	})
}

func TestMoreConfidenceIsWider(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := rapid.Float64Range(0.5, 0.999).Draw(t, "confidence")
		dof := rapid.Float64Range(0.5, 1e7).Draw(t, "dof")
		k := Coverage(p, dof)
		if !(Coverage(p+0.0005, dof) > k) || !(Coverage(p, dof*1.5) <= k*(1+1e-9)) {
			t.Fatalf("k(%g, %g) = %g", p, dof, k)
		}
		if back := 1 - TwoSidedT(k, dof); math.Abs(back-p) > 1e-8 {
			t.Fatalf("k(%g, %g) holds %g", p, dof, back)
		}
	})
}
