package calc_test

import (
	"fmt"
	"math"
	"strconv"
)

// addPower has a constant power counted twice by the monitor, or leave before
// its clamps.
func (s *scene) addPower(on bool) {
	kW := s.sized(5, 200) / 1000
	side := s.seen
	s.variant = "constant power counted twice"
	if s.either(0.5) {
		s.variant, side = "constant power not seen", s.metered
		if s.beside != nil && s.side.Float64() < 0.25 {
			s.variant = "constant power not seen by either"
			if on {
				s.beside.watts -= 1000 * kW
			}
		}
	}
	for h := range side {
		if on {
			side[h] += kW
		}
	}
}

// chargeCar has a car charged at night on a circuit that the monitor does not
// see, whose energy was entered.
func (s *scene) chargeCar(on bool) {
	s.variant = "a car charger apart"
	month := s.sized(10, 300)
	car := make([]float64, len(s.metered))
	for d, level := 0, 0.0; d < len(car)/24; d++ {
		if d%30 == 0 {
			level = s.between(0.6, 1.4) * month / 30
		}
		if s.either(0.4) {
			for h := 1; h < 5; h++ {
				car[24*d+h] = level * s.between(1.5, 3.5) / 4
			}
		}
	}
	for h, x := range car {
		s.metered[h] += x
		if !on {
			s.seen[h] += x
		}
	}
	if s.beside != nil { // two monitors in one panel miss the same circuits
		s.variant += ", seen by the one beside"
		if s.side.Float64() < 0.5 {
			s.variant = "a car charger apart, of both"
			if on {
				s.beside.misses = car
			}
		}
	}
	for p := range s.bills {
		s.bills[p].Apart = fmt.Sprintf("%.1f", sum(car, s.reads[p], s.reads[p+1]))
	}
}

// sum adds up the hours from one read to another.
func sum(hours []float64, from, to float64) float64 {
	all := 0.0
	for h := int(math.Floor(from)); h < int(math.Ceil(to)); h++ {
		all += hours[h] * (min(to, float64(h+1)) - max(from, float64(h)))
	}
	return all
}

// wrongClamp has one of two clamps missing, turned round, or on the other's leg.
func (s *scene) wrongClamp(on bool) {
	if s.either(0.6) {
		s.checks.Service = "split"
	}
	shares := s.shares()
	switch s.IntN(3) {
	case 0:
		s.variant = "a clamp missing"
		s.weigh(on, shares, 1, 0)
		for h := range s.legs[1] {
			if on { // an open clamp picks up a little
				s.legs[1][h] = 0.0005 * s.side.Float64()
			}
		}
	case 1:
		s.variant = "a clamp turned round"
		if average(shares) < 0.5 {
			s.weigh(on, shares, -1, 1)
		} else {
			s.weigh(on, shares, 1, -1)
		}
	case 2:
		s.variant = "both clamps on one leg"
		s.weigh(on, shares, 2, 0)
		if on { // each shows that leg
			s.legs[0], s.legs[1] = half(s.seen), half(s.seen)
		}
	}
}

func half(x []float64) []float64 {
	out := make([]float64, len(x))
	for i := range x {
		out[i] = x[i] / 2
	}
	return out
}

// wrongUnit has figures in another unit than they are read in, or reads without
// their multiplier.
func (s *scene) wrongUnit(on bool) {
	way := s.IntN(7)
	if way < 5 {
		f := []float64{1000, 1.0 / 1000, 10, 1.0 / 10, 1.0 / 24}[way]
		s.variant = "unit: readings times " + strconv.FormatFloat(f, 'g', 3, 64)
		if s.scale(on, f); on {
			s.places = max(0, s.places-int(math.Round(math.Log10(f))))
		}
		if s.places == 3 {
			s.places = 4 // three decimals look like thousands
		}
		return
	}
	s.form = registerReads
	step := []float64{10, 20, 40}[s.IntN(3)]
	s.variant = "unit: multiplier left out"
	typed := strconv.Itoa(int(step))
	if way == 6 {
		s.variant = "unit: multiplier too many"
	} else {
		s.step = step
	}
	for p := range s.bills {
		if on == (way == 6) {
			s.bills[p].Multiplier = typed
		}
	}
}

// loseHours has some days keep only a part of their energy.
func (s *scene) loseHours(on bool) {
	n := 1 + s.IntN(8)
	s.variant = fmt.Sprintf("%d days lost in part", n)
	run := s.either(0.3)
	at := s.within(n)
	for i := range n {
		d := at + i
		if !run {
			d = s.within(0)
		}
		kept := s.between(0.2, 0.8)
		for h := 24 * d; on && h < 24*(d+1); h++ {
			s.seen[h] *= kept
		}
	}
}

// countTwice has days counted twice: once more in their own figure, or in that
// of the day after although they are filled.
func (s *scene) countTwice(on bool) {
	n, way := 1+s.IntN(4), s.IntN(5)
	for range n {
		d := s.within(1)
		delete(s.missing, d)
		switch {
		case way < 2:
			s.variant = fmt.Sprintf("%d days caught up after a gap", n)
			delete(s.missing, d+1)
			s.missing[d] = true
			s.copyDay(on, d, d+1)
		case way < 4:
			s.variant = fmt.Sprintf("%d days counted twice", n)
			s.copyDay(on, d, d)
		default:
			s.variant = fmt.Sprintf("%d days copied from the day before", n)
			for h := 24 * d; on && h < 24*d+24; h++ {
				s.seen[h] = s.seen[h-24]
			}
		}
	}
}

// copyDay adds the energy of one day to another.
func (s *scene) copyDay(on bool, from, to int) {
	for h := range 24 {
		if on {
			s.seen[24*to+h] += s.seen[24*from+h]
		}
	}
}

// panels puts solar panels on the roof, which give this part of what the home
// uses. What passes the meter is then the import.
func (s *scene) panels(part float64) (produced, exported []float64) {
	produced, exported = make([]float64, len(s.use)), make([]float64, len(s.use))
	phase, all := s.between(0, 365), 0.0
	for h := range produced {
		if h%24 == 0 {
			phase++
		}
		up := math.Sin(math.Pi * (float64(h%24) - 6) / 12)
		produced[h] = max(0, up) * (1 + 0.6*math.Cos(2*math.Pi*phase/365)) * s.between(0.3, 1)
		all += produced[h]
	}
	scale := part * sum(s.use, 0, float64(len(s.use))) / all
	for h, use := range s.use {
		produced[h] *= scale
		exported[h] = max(0, produced[h]-use)
		s.metered[h] = use - produced[h] + exported[h]
		s.seen[h] = s.metered[h]
	}
	for p := range s.bills {
		s.bills[p].Produced = fmt.Sprintf("%.0f", (1+s.between(-0.01, 0.01))*sum(produced, s.reads[p], s.reads[p+1]))
		s.bills[p].Exported = fmt.Sprintf("%.0f", s.meterGain*sum(exported, s.reads[p], s.reads[p+1]))
	}
	return produced, exported
}

// wrongSun has the monitor count solar energy another way than the bill.
func (s *scene) wrongSun(on bool) {
	part, way := s.between(0.1, 0.9), s.IntN(6)
	if way >= 4 {
		part = s.between(0.05, 0.5)
	}
	produced, exported := s.panels(part)
	s.variant = "solar: " + []string{
		"all use, bill is import", "export counted as import", "export taken off, bill is import",
		"production added, bill is import", "all use, bill is net", "production added, bill is net",
	}[way]
	for h := range s.seen {
		own, all := produced[h]-exported[h], produced[h]
		if way >= 4 { // the bill nets what went out
			s.metered[h] -= exported[h]
			s.seen[h] -= exported[h]
		}
		if on {
			s.seen[h] += []float64{own, exported[h], -exported[h], all + own, all, 2 * all}[way]
		}
	}
}
