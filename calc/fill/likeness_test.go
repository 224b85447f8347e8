package fill

import (
	"math"
	"slices"
	"testing"

	"gonum.org/v1/gonum/mat"
	"splittally/calc/matrix"
)

// kriging predicts the sum of days gap from days at by the textbook: weights
// from the covariance matrix bordered by the condition that they sum to the
// number of days (ordinary kriging, as in Cressie, Statistics for Spatial
// Data, 3.2). It gives the sum and the variance of its error in units of the
// variance of a day, by another library and another way than the model's.
func kriging(t *testing.T, l likeness, at []int, y []float64, gap []int) (sum, variance float64) {
	t.Helper()
	n := len(at)
	c := l.covariance(200)
	k, right := mat.NewDense(n+1, n+1, nil), mat.NewVecDense(n+1, nil)
	for i := range at {
		for j := range at {
			k.Set(i, j, c[apart(at[i], at[j])])
		}
		k.Set(i, n, 1)
		k.Set(n, i, 1)
		for _, g := range gap {
			right.SetVec(i, right.AtVec(i)+c[apart(at[i], g)])
		}
	}
	right.SetVec(n, float64(len(gap)))
	var w mat.VecDense
	if err := w.SolveVec(k, right); err != nil {
		t.Fatal(err)
	}
	for i := range at {
		sum += w.AtVec(i) * y[i]
	}
	for _, g := range gap {
		for _, h := range gap {
			variance += c[apart(g, h)]
		}
	}
	return sum, variance - mat.Dot(&w, right)
}

// one gives a model that knows a single temperament.
func one(t *testing.T, l likeness, at []int, y []float64) *model {
	t.Helper()
	f := fit{cov: l.covariance(200), weight: 1}
	if _, ok := f.learn(at, y, nil, 1); !ok {
		t.Fatal("not positive definite")
	}
	return &model{at: at, y: y, fits: []fit{f}}
}

func TestModelAgainstKriging(t *testing.T) {
	h := madeUp(1, 60, 2)[0].daily
	var at []int
	var y []float64
	for d := range 60 {
		if d%11 != 3 && d/4 != 7 {
			at, y = append(at, d), append(y, h.Days[d].Energy.KilowattHours())
		}
	}
	whole := []float64{1, 1, 1, 1, 1}
	for i, l := range temperaments {
		if total := l.chance + l.near + l.slow + l.week; math.Abs(total-1) > 1e-12 {
			t.Errorf("temperament %d sums to %g", i, total)
		}
		m := one(t, l, at, y)
		gap := []int{3, 28, 29, 30, 47}
		kWh := make([]float64, len(gap))
		got := m.estimate(gap, whole, kWh) / m.fits[0].variance
		sum, variance := kriging(t, l, at, y, gap)
		if math.Abs(matrix.Dot(whole, kWh)-sum) > 1e-9*sum || math.Abs(got-variance) > 1e-9*variance {
			t.Errorf("temperament %d: %g with variance %g, kriging gives %g with %g", i, matrix.Dot(whole, kWh), got, sum, variance)
		}

		// What the model would have missed by without some days is what
		// kriging from the others misses by.
		out := []int{5, 6, 7, 20, 40}
		var rest []int
		var restY []float64
		truth := 0.0
		for j, d := range at {
			if slices.Contains(out, d) {
				truth += y[j]
			} else {
				rest, restY = append(rest, d), append(restY, y[j])
			}
		}
		r := m.rehearse(60)
		miss, missVariance := r.blank(out, whole, nil)
		sum, variance = kriging(t, l, rest, restY, out)
		if math.Abs(miss-(sum-truth)) > 1e-9 || math.Abs(missVariance/r.variance-variance) > 1e-9*variance {
			t.Errorf("temperament %d blanked: %g with variance %g, kriging gives %g with %g", i, miss, missVariance/r.variance, sum-truth, variance)
		}
	}
}

// A home that lives by the week is told from one whose days follow each other.
func TestTemperaments(t *testing.T) {
	at := indices(70)
	week, walk := repeat(70, 10, 12, 22, 24, 11, 9, 10), make([]float64, 70)
	for i := range week {
		week[i] += math.Sin(float64(i * i))
		walk[i] = 20 + 6*math.Sin(float64(i)/4) + 0.8*math.Sin(float64(i*i))
	}
	for _, c := range []struct {
		name string
		y    []float64
		want likeness
	}{{"by the week", week, temperaments[3]}, {"by the weather", walk, temperaments[1]}} {
		m := newModel(at, c.y, nil, 100)
		likeliest := slices.MaxFunc(m.fits, func(a, b fit) int {
			if a.weight < b.weight {
				return -1
			}
			return 1
		})
		if likeliest.weight < 0.9 || !slices.Equal(likeliest.cov, c.want.covariance(100)) {
			t.Errorf("%s: likeliest has weight %g", c.name, likeliest.weight)
		}
	}
}
