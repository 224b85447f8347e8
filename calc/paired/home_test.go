package paired

import (
	"math"
	"math/rand/v2"

	"splittally/calc/calendar"
	"splittally/calc/energy"
	"splittally/calc/ledger"
)

// home is the true use of an invented home by the hour, in kWh.
type home struct {
	first calendar.Day
	hours []float64
}

// invent makes a home: a base, mornings and evenings, weekends, weather that stays
// for days, and chance.
func invent(seed uint64, days int) home {
	rng := rand.New(rand.NewPCG(seed, 11))
	h := home{first: 19000}
	weather := 0.0
	for d := range days {
		weather = 0.7*weather + 0.3*rng.NormFloat64()
		level := math.Exp(0.25*weather) * (1 + 0.3*math.Cos(2*math.Pi*float64(d)/365))
		if w := (h.first + calendar.Day(d)).Weekday(); w == 0 || w == 6 {
			level *= 1.15
		}
		for hour := range 24 {
			x := 0.25 + 0.6*math.Exp(-math.Pow(float64(hour-7)/1.5, 2)) + 1.1*math.Exp(-math.Pow(float64(hour-19)/2.5, 2))
			h.hours = append(h.hours, level*x*math.Exp(0.4*rng.NormFloat64()))
		}
	}
	return h
}

// ledgerOf sums hours up by days, rounded to places; with slots if asked.
func ledgerOf(first calendar.Day, hours []float64, places int, slots bool) (l ledger.Ledger) {
	step := math.Pow(10, -float64(places))
	round := func(x float64) energy.Energy {
		e, _ := energy.FromKilowattHours(math.Round(x/step) * step)
		return e
	}
	half, _ := energy.FromKilowattHours(step / 2)
	for d := range len(hours) / 24 {
		sum, exact := energy.Energy(0), 0.0
		for h, x := range hours[24*d : 24*d+24] {
			exact += x
			if slots {
				e := round(x)
				l.Slots = append(l.Slots, ledger.Slot{Day: first + calendar.Day(d), From: 60 * h, To: 60*h + 60, Energy: e})
				sum += e
			}
		}
		if !slots {
			sum = round(exact)
		}
		l.Put(first+calendar.Day(d), ledger.Entry{State: ledger.Measured, Energy: sum, Rounding: half})
	}
	return l
}

// seen is what a monitor shows of hours: a gain, a steady power in kW, and errors
// of days that are alike from day to day by rho, sd in parts; tails makes them
// those of Student's t of 5.
func seen(hours []float64, gain, kW, sd, rho float64, tails bool, seed uint64) []float64 {
	rng := rand.New(rand.NewPCG(seed, 12))
	out := make([]float64, len(hours))
	e := 0.0
	for i, x := range hours {
		if i%24 == 0 {
			step := rng.NormFloat64()
			if tails {
				v := 0.0
				for range 5 {
					z := rng.NormFloat64()
					v += z * z
				}
				step /= math.Sqrt(v / 5)
			}
			e = rho*e + math.Sqrt(1-rho*rho)*step
			if i == 0 {
				e = step
			}
		}
		out[i] = x*(gain+sd*e) + kW
	}
	return out
}
