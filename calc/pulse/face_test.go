package pulse

import (
	"testing"

	"splittally/calc/uncertainty"
)

// TestFaces has what people copy from a meter's face, whole.
func TestFaces(t *testing.T) {
	for text, want := range map[string]float64{
		"CL200 240V 3W Kh 7.2":         7.2,
		"CL200 240V 3W Kh:7.2 TA30":    7.2,
		"Kh7.2 CL200":                  7.2,
		"1000 imp/kWh 10000 imp/kvarh": 1,
		"RA 1000 imp/kWh":              1,
		"230 V 5(60) A 3200imp/kWh":    0.3125,
		"1000 imp/kW·h":                1,
		"7.2 watt-hours":               7.2,
		"1 pulse = 1 Wh":               1,
		"1 flash = 0.5 Wh":             0.5,
	} {
		r := Read(Timing{Constant: text, Runs: []Run{{Turns: "10", Seconds: "36"}}}, Options{})
		if r.PerPulse != want {
			t.Errorf("%q is %g Wh, want %g: %v", text, r.PerPulse, want, r.Problems)
		}
	}
}

// TestTablesOfWatts has marks between a time and its watts, and watts below zero.
func TestTablesOfWatts(t *testing.T) {
	for _, text := range []string{"0:10;1000\n0:20;1002", "0:10 = 1000\n0:20 = 1002", "0:10 - 1000\n0:20 - 1002"} {
		r := Read(Timing{Constant: "1 Wh", Runs: []Run{{Turns: "10", Seconds: "36", Watts: text}}}, Options{Class: uncertainty.Part{HalfWidth: 1}, Accuracy: uncertainty.Part{HalfWidth: 2}})
		run := r.Runs[0]
		if len(run.Readings) != 2 || !run.Readings[0].Timed || run.Readings[0].At != 10 || run.Readings[1].Watts != 1002 {
			t.Errorf("%q: %+v, %v", text, run.Readings, r.Problems)
		}
	}
	r := Read(Timing{Constant: "1 Wh", Runs: []Run{{Turns: "10", Seconds: "36", Watts: "0:10 -1240"}}}, Options{})
	told := false
	for _, n := range r.Notices {
		told = told || n.Code == "watts-not-above-zero"
	}
	if !told || r.Runs[0].Readings[0].Watts != -1240 {
		t.Errorf("−1240 W: %+v, %+v", r.Runs[0].Readings, r.Notices)
	}
}
