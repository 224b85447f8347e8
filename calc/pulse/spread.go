package pulse

import (
	"math"

	"splittally/calc/uncertainty"
)

// spread is how well a few readings stand for the mean of the run: the load's
// standard deviation about its mean, times the root of Σ weights², which is
// 1/√k for k readings evenly spread and more for ones that are not.
//
// The readings show that deviation, and so do the intervals between marks. Both
// are taken together with their degrees of freedom, unless the readings scatter
// by more than the intervals show: what moves them may be quicker than a pulse,
// or the monitor's own, and they speak alone. One or two readings by a watch
// show too little, and no less is taken than is assumed.
func (m *shown) spread(r *run, confidence float64) uncertainty.Part {
	p := uncertainty.Part{
		Name: spreadNamed, Unit: "W", Sensitivity: 1, Distribution: uncertainty.Student,
		Reducible: true, Remedy: spreadRemedy,
	}
	dof := float64(len(m.readings) - 1)
	load, loadDoF := r.load()
	deviation := m.scatter
	if slow, slowDoF, ok := m.drifting(); ok && loadDoF == 0 {
		deviation, dof = slow, slowDoF
	}
	if loadDoF > 0 && deviation <= load {
		deviation = math.Sqrt((dof*deviation*deviation + loadDoF*load*load) / (dof + loadDoF))
		dof += loadDoF
	}
	p.HalfWidth, p.DoF = math.Sqrt(m.square)*deviation, dof
	if len(m.readings) > 2 {
		return uncertainty.Evaluate(widened(p, confidence))
	}
	assumed := p
	assumed.Distribution, assumed.DoF, assumed.Assumed = uncertainty.Rectangular, 0, true
	assumed.HalfWidth = m.assumed(r, loadDoF) * math.Sqrt(m.square)
	if known := uncertainty.Evaluate(p); dof > 0 && known.Standard > uncertainty.Evaluate(assumed).Standard {
		return uncertainty.Evaluate(widened(p, confidence))
	}
	return uncertainty.Evaluate(assumed)
}

// leastRuling is how many degrees of freedom let an estimate rule a budget:
// beside others the Welch-Satterthwaite formula makes too little of one with
// fewer (package uncertainty has the trials).
const leastRuling = 5

// widened makes an estimate from few readings one from enough, as much wider as
// leaves its own interval what it was.
func widened(p uncertainty.Part, confidence float64) uncertainty.Part {
	if p.DoF > 0 && p.DoF < leastRuling {
		p.HalfWidth *= uncertainty.Coverage(confidence, p.DoF) / uncertainty.Coverage(confidence, leastRuling)
		p.DoF = leastRuling
	}
	return p
}

// fewestDrifting is how many readings can show a drift.
const fewestDrifting = 5

// drifting gives the deviation by which neighbours differ, where they are more
// alike than chance lets them be (von Neumann's ratio, at 5 % by its normal
// approximation): then each reading stands for the time around it better than
// all of them scatter. With k readings
//
//	δ² = Σ (m(i+1) − m(i))² / 2(k−1),  ν = 2·(k−1)² / (3k−4)
//
// the degrees of freedom being those of independent readings.
func (m *shown) drifting() (deviation, dof float64, ok bool) {
	k := float64(len(m.readings))
	if !m.timed || k < fewestDrifting || m.square*k > 1.5 || m.scatter == 0 {
		return 0, 0, false
	}
	sum := 0.0
	for i := 1; i < len(m.readings); i++ {
		d := m.readings[i].Watts - m.readings[i-1].Watts
		sum += d * d / 2 / (k - 1)
	}
	if sum/m.scatter/m.scatter > 1-1.645*math.Sqrt((k-2)/(k*k-1)) {
		return 0, 0, false
	}
	return math.Sqrt(sum), 2 * (k - 1) * (k - 1) / (3*k - 4), true
}

// assumed is how far the load may stray within the run where next to nothing
// shows it, in W.
func (m *shown) assumed(r *run, loadDoF float64) float64 {
	percent := float64(unsteady)
	if loadDoF > 0 && r.Seconds/r.Count <= quickly {
		percent = steady
	}
	return percent / 100 * math.Abs(m.mean)
}

// load is the standard deviation of the load within the run as the intervals
// show it, in W. Loads stay as they are for a while, so that neighbouring
// intervals are not as many looks at it: a quarter of them is taken.
func (r *run) load() (deviation, dof float64) {
	if r.watched() || r.heard || r.Rhythm.Intervals < fewTaps {
		return 0, 0
	}
	return r.Rhythm.Wander * r.Watts.Value, math.Max(2, float64(r.Rhythm.Intervals)/4)
}

// fewestPairs is how many readings are set beside the meter's own power: with
// fewer they could not show how well that is done.
const fewestPairs = 3

// paired sets each reading m beside the meter's power p at its time, as the
// intervals between marks show it:
//
//	g = Σ m / Σ p,  d_i = m_i − g·p_i,  mean = g · P,  u = s(d)/√k
//
// with P the mean power of the run, so that it does not matter when the
// readings were taken. It is done where the load moved by more than the
// scatter of the marks lets an interval seem to.
func (m *shown) paired(r *run, confidence float64) (mean float64, spread uncertainty.Part, ok bool) {
	k := len(m.readings)
	pace := r.Seconds / r.Count
	half := max(pace, delay/2.0)
	if !m.timed || k < fewestPairs || !r.curve.known() || r.Rhythm.Wander <= math.Sqrt2*r.jitter/(2*half) {
		return 0, spread, false
	}
	var sum, meter float64
	p := make([]float64, k)
	for i, reading := range m.readings {
		p[i] = r.Watts.Value * r.curve.around(reading.At, half)
		sum, meter = sum+reading.Watts, meter+p[i]
	}
	if !(meter > 0) {
		return 0, spread, false
	}
	g, square := sum/meter, 0.0
	for i, reading := range m.readings {
		d := reading.Watts - g*p[i]
		square += d * d / float64(k-1)
	}
	return g * r.Watts.Value, uncertainty.Evaluate(widened(uncertainty.Part{
		Name: spreadNamed, HalfWidth: math.Sqrt(square / float64(k)), Unit: "W", Distribution: uncertainty.Student, Sensitivity: 1,
		DoF: float64(k - 1), Reducible: true, Remedy: spreadRemedy,
	}, confidence)), true
}
