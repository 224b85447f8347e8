package fit

import (
	"math"
	"math/rand/v2"
	"testing"
)

// Many comes to what York comes to, by another road.
func TestManyIsYork(t *testing.T) {
	random := rand.New(rand.NewPCG(5, 8))
	for range 50 {
		n := 5 + random.IntN(40)
		x, y, ux, uy := make([]float64, n), make([]float64, n), make([]float64, n), make([]float64, n)
		for i := range x {
			ux[i], uy[i] = 0.1+0.3*random.Float64(), 0.1+0.3*random.Float64()
			truth := 5 + 25*random.Float64()
			x[i] = truth + ux[i]*random.NormFloat64()
			y[i] = 0.8 + 1.03*truth + uy[i]*random.NormFloat64()
		}
		want, got := York(x, y, ux, uy, 0.95), Many(x, y, ux, uy, 0.95)
		for _, c := range []struct {
			name      string
			got, want float64
		}{
			{"offset", got.Offset.Value, want.Offset.Value},
			{"gain", got.Gain.Value, want.Gain.Value},
			{"u(offset)", got.Offset.Standard, want.Offset.Standard},
			{"u(gain)", got.Gain.Standard, want.Gain.Standard},
			{"χ²", got.ChiSquared, want.ChiSquared},
			{"P", got.P, want.P},
			{"correlation", got.Correlation, want.Correlation},
		} {
			if !(math.Abs(c.got-c.want) <= 1e-6*math.Abs(c.want)) {
				t.Errorf("%s %v, want %v", c.name, c.got, c.want)
			}
		}
	}
	if l := Many([]float64{1, 1, 1}, []float64{1, 2, 3}, []float64{1, 1, 1}, []float64{1, 1, 1}, 0.95); l.Known || l.Why != Alike {
		t.Errorf("%+v", l)
	}
}
