package pulse

import (
	"math"

	"splittally/calc/figure"
	"splittally/calc/number"
	"splittally/calc/remark"
	"splittally/calc/uncertainty"
)

// What is assumed of a monitor and of a load where nothing shows it. All of it
// is common practice, no source.
const (
	// delay is how many seconds old the monitor's figure may be.
	delay = 5
	// unsteady is how far a load strays from its mean within a run, in percent,
	// and steady what is left of that where the meter's pulses come quickly
	// enough to show the rest.
	unsteady, steady = 2, 0.5
	quickly          = 10 // seconds between pulses
)

// DelaySource is the monitor's delay, one cause in all runs.
const DelaySource = "delay of the monitor"

const (
	spreadNamed  = "Readings of the monitor, for the whole run"
	spreadRemedy = "note the monitor’s watts more often during the run"
)

// shown is what the monitor showed during a run.
type shown struct {
	readings []Reading
	weights  []float64
	mean     float64
	square   float64 // Σ weights², 1 over how many readings they are worth
	scatter  float64 // standard deviation of the readings
	step     float64 // one count of the last digit
	differ   bool
	timed    bool
}

// monitor reads the monitor's watts and finds their mean over the run.
func (s *sheet) monitor(r *run) {
	if number.IsBlank(r.typed.Watts) {
		return
	}
	all := s.readWatts(r)
	if r.Waits != "" || len(all) == 0 {
		return
	}
	all = s.inWatts(r, all)
	m := shown{readings: s.placed(r, all), step: stepOf(all, r.Watts.Value)}
	if len(m.readings) == 0 {
		return
	}
	m.work(r.whole)
	r.HasMonitor, r.Readings = true, m.readings
	if m.mean <= 0 {
		s.notice(r.path+".watts", "watts-not-above-zero", "The monitor shows "+watts(m.mean)+" where the meter counts "+watts(r.Watts.Value)+
			": a clamp may be turned round or not be on, or energy went out while the lamp blinked for that.")
	}
	value, spread, ends := m.mean, m.spread(r, s.Confidence), m.trend(r)
	if g, u, ok := m.paired(r, s.Confidence); ok {
		value, spread = g, u
		s.notice(r.path+".watts", "paired-readings", "The load changed during "+r.name()+
			", so each of the monitor’s readings is set beside the meter’s own power at its time.")
	} else if m.timed && len(m.readings) > 3 && m.square*float64(len(m.readings)) > 2 {
		s.notice(r.path+".watts", "bunched-readings", "The monitor’s readings of "+r.name()+" lie close together and leave much of it out. Spread over the run they would count for more.")
	}
	if !m.timed && len(m.readings) > 1 && (len(m.readings) < fewestPairs || m.strays(r)) {
		s.notice(r.path+".watts", "readings-spread", "Readings of the monitor without a time are taken as spread evenly over "+r.name()+".")
	}
	r.Monitor = s.figureOf(value, uncertainty.Budget{spread, m.rounding(), uncertainty.Evaluate(uncertainty.Part{
		Source: DelaySource, Name: "Delay of the monitor’s figure", HalfWidth: min(delay, r.whole), Unit: "s",
		Distribution: uncertainty.Rectangular, Sensitivity: ends, Assumed: true, Reducible: true, Remedy: "keep the load steady while you count",
	})})
	if ends == 0 {
		r.Monitor = s.figureOf(value, r.Monitor.Budget[:2])
	}
}

// strays says that the load moved within the run, by its readings or by the
// intervals between marks: then it matters when the readings were taken.
func (m *shown) strays(r *run) bool {
	load, _ := r.load()
	return max(m.scatter, load) > steady/100*math.Abs(m.mean)
}

// work fills in what follows from the readings.
func (m *shown) work(whole float64) {
	m.weights = weights(m.readings, whole)
	m.timed = true
	plainMean := 0.0
	for i, k := range m.readings {
		m.mean += m.weights[i] * k.Watts
		m.square += m.weights[i] * m.weights[i]
		plainMean += k.Watts / float64(len(m.readings))
		m.timed = m.timed && k.Timed
		m.differ = m.differ || k.Watts != m.readings[0].Watts
	}
	if n := len(m.readings); n > 1 {
		for _, k := range m.readings {
			m.scatter += (k.Watts - plainMean) * (k.Watts - plainMean) / float64(n-1)
		}
		m.scatter = math.Sqrt(m.scatter)
	}
}

// stepOf gives one count of the last digit: people leave zeros off, so that the
// most decimals count; and four figures that differ and all end in 0 are of a
// display in tens.
func stepOf(all []noted, meter float64) float64 {
	step, differ := math.Inf(1), false
	first := all[0].settle(meter).watts
	for _, n := range all {
		w := n.settle(meter)
		step = min(step, w.step)
		differ = differ || w.watts != first
	}
	for differ && len(all) >= 4 && step >= 1 && step < 1000 {
		for _, n := range all {
			if math.Mod(n.settle(meter).watts, 10*step) != 0 {
				return step
			}
		}
		step *= 10
	}
	return step
}

// rounding is what the last digit of the display hides. Readings that move by
// more than a step are rounded each for itself; of a steady one all are alike.
func (m *shown) rounding() uncertainty.Part {
	p := uncertainty.Part{Name: "Rounding of the monitor’s watts", HalfWidth: m.step / 2, Unit: "W", Distribution: uncertainty.Rectangular, Sensitivity: 1}
	if m.scatter > m.step/2 {
		p.Sensitivity = math.Sqrt(m.square)
	}
	return uncertainty.Evaluate(p)
}

// trend is how the mean changes with the monitor's delay, in W per second: the
// slope of the load, found by least squares, with its sign turned. A load that
// goes up and down moves the readings too, but that is in their scatter.
func (m *shown) trend(r *run) float64 {
	n := float64(len(m.readings))
	if n < 2 || r.whole <= 0 {
		return 0
	}
	at := func(i int) float64 {
		if m.timed {
			return m.readings[i].At
		}
		return (float64(i) + 0.5) / n * r.whole
	}
	var middle, across, along float64
	for i := range m.readings {
		middle += at(i) / n
	}
	for i, k := range m.readings {
		along += (at(i) - middle) * (k.Watts - m.mean)
		across += (at(i) - middle) * (at(i) - middle)
	}
	if across <= 0 {
		return 0
	}
	// Readings close together show no slope of the whole run.
	return -along / max(across, n*r.whole*r.whole/48)
}

// inWatts asks whether bare figures are kilowatts, where as watts they would be
// a thousandth of the meter's.
func (s *sheet) inWatts(r *run, all []noted) []noted {
	mean := 0.0
	for _, n := range all {
		w := n.settle(r.Watts.Value)
		if w.unit {
			return all
		}
		mean += w.watts / float64(len(all))
	}
	if !(mean > 0) || math.Abs(math.Log(1000*mean/r.Watts.Value)) > math.Ln2 {
		return all
	}
	taken := s.asked(remark.Question{
		ID: r.path + ".watts-unit", Path: r.path + ".watts", Asks: "In which unit are the monitor’s figures of " + r.name() + "?",
		Why: "As watts they would be a thousandth of the meter’s " + watts(r.Watts.Value) + ".",
		Choices: []remark.Choice{
			{ID: "kw", Label: "kilowatts", Gives: "a mean of " + watts(1000*mean)},
			{ID: "w", Label: "watts", Gives: "a mean of " + figure.Plain(mean, 2) + figure.Thin + "W"},
		},
	}, "kw")
	if taken == "w" {
		return all
	}
	for i := range all {
		ways := append([]wattsWay(nil), all[i].ways...)
		for k := range ways {
			ways[k].watts *= 1000
			ways[k].step *= 1000
		}
		all[i].ways = ways
	}
	return all
}
