package pulse

import (
	"strings"
	"testing"

	"splittally/calc/remark/remarktest"
)

// beside works out a run of 1,240 W, 31 flashes of 1 Wh in 90 s, with the
// monitor's watts.
func beside(text, begins string, answers ...string) Result {
	o := Options{Answers: map[string]string{}}
	for i := 0; i+1 < len(answers); i += 2 {
		o.Answers[answers[i]] = answers[i+1]
	}
	return Read(Timing{Constant: "1000", Runs: []Run{{Turns: "31", Seconds: "90.0", Watts: text, Begins: begins}}}, o)
}

func TestWattsAsPeopleTypeThem(t *testing.T) {
	for _, c := range []struct {
		text, begins string
		at           []float64 // -1 is without a time
		watts        []float64
	}{
		{"1240", "", []float64{-1}, []float64{1240}},
		{"1,240", "", []float64{-1}, []float64{1240}},
		{"1 240 W", "", []float64{-1}, []float64{1240}},
		{"1.24 kW", "", []float64{-1}, []float64{1240}},
		{"1,24 kW", "", []float64{-1}, []float64{1240}},
		{"1240.5 watts", "", []float64{-1}, []float64{1240.5}},
		{"1240; 1250;1260", "", []float64{-1, -1, -1}, []float64{1240, 1250, 1260}},
		{"1240\r\n\r\n1250\r\n", "", []float64{-1, -1}, []float64{1240, 1250}},
		{"0:30 1240", "", []float64{30}, []float64{1240}},
		{"0:30  1,240 W", "", []float64{30}, []float64{1240}},
		{"0:30\t1240\n1:00\t1250", "", []float64{30, 60}, []float64{1240, 1250}},
		{"0:30, 1240", "", []float64{30}, []float64{1240}},
		{"0:30,1240", "", []float64{30}, []float64{1240}},
		{"1240 W at 0:30", "", []float64{30}, []float64{1240}},
		{"1240 @ 0:30", "", []float64{30}, []float64{1240}},
		{"30 s 1240 W", "", []float64{30}, []float64{1240}},
		{"30s 1240", "", []float64{30}, []float64{1240}},
		{"1 min 15 s 1.24 kW", "", []float64{75}, []float64{1240}},
		{"0:30 min 1240", "", []float64{30}, []float64{1240}},
		{"30 1240", "", []float64{30}, []float64{1240}},
		{"30 240", "", []float64{30}, []float64{240}},
		{"30.5 1240", "", []float64{30.5}, []float64{1240}},
		{"30,5 1240", "", []float64{30.5}, []float64{1240}},
		{"1:00 1250\n0:30 1240", "", []float64{30, 60}, []float64{1240, 1250}},
		{"0:00 1240\n1:31 1250", "", []float64{0, 90}, []float64{1240, 1250}},
		{"19:04:30 1,240 W", "19:04:00", []float64{30}, []float64{1240}},
		{"7:04:30 pm 1240", "7:04:00 PM", []float64{30}, []float64{1240}},
		{"0:00:30 1240", "23:59:50", []float64{40}, []float64{1240}},
		{"12:00:30 am 1240", "23:59:50", []float64{40}, []float64{1240}},
		{"19:04 1240\n19:05 1250", "19:03:50", []float64{10, 70}, []float64{1240, 1250}},
		{"−1240 W", "", []float64{-1}, []float64{-1240}},
	} {
		r := beside(c.text, c.begins)
		if len(r.Problems)+len(r.Questions) > 0 {
			t.Errorf("%q: %v %v", c.text, r.Problems, r.Questions)
		}
		got := r.Runs[0].Readings
		if len(got) != len(c.watts) {
			t.Errorf("%q gives %v", c.text, got)
			continue
		}
		for i, k := range got {
			at := k.At
			if !k.Timed {
				at = -1
			}
			if at != c.at[i] || k.Watts != c.watts[i] {
				t.Errorf("%q gives %v", c.text, got)
			}
		}
	}
}

// A wrong figure is told with its place and leaves the others alone. The mark
// § stands where it begins.
func TestWattsThatAreNone(t *testing.T) {
	for _, text := range []string{
		"§many", "1240\n §1240 volts\n1250", "1240; §x; 1260", "§0:75 1240", "0:10 1240\n§0:20", "§1240 1250 1260 W", "1230\n§1e9",
		"§nan 1240", "1240\n§inf 1240", "§-inf 1240", "§0x1p3 1240", "§NaN", "§Infinity", "§0x1p3", "§1,250 1240", "§-5 1240", "§1,250 min 1240",
	} {
		lines := strings.Split(text, "\n")
		line, column := 0, 0
		for i, l := range lines {
			if at := strings.Index(l, "§"); at >= 0 {
				line, column = i+1, at+1
			}
		}
		r := beside(strings.ReplaceAll(text, "§", ""), "")
		if len(r.Problems) != 1 || r.Problems[0].Path != "timing.runs.0.watts" || r.Problems[0].Line != line || r.Problems[0].Column != column {
			t.Errorf("%q: %+v, want line %d, column %d", text, r.Problems, line, column)
		}
		if good := strings.Count(text, "\n") + strings.Count(text, ";"); len(r.Runs[0].Readings) != good {
			t.Errorf("%q keeps %v", text, r.Runs[0].Readings)
		}
	}
}

func TestTimesOfTheMonitorsWatts(t *testing.T) {
	for _, c := range []struct {
		name, text, begins string
		want               []string
		readings           int
	}{
		{"outside", "0:30 1240\n2:00 1300", "", []string{"notice reading-outside timing.runs.0.watts"}, 1},
		{"all outside", "2:30 1240\n2:00 1300", "19:00", []string{"notice reading-outside timing.runs.0.watts"}, 0},
		{"of the clock, without a beginning", "19:04:30 1240\n19:05:00 1250", "", []string{"notice times-unplaced timing.runs.0.begins", "notice readings-spread timing.runs.0.watts"}, 2},
		{"a wrong beginning", "0:30 1240", "noon", []string{"problem timing.runs.0.begins"}, 1},
		{"without times", "1240\n1250", "", []string{"notice readings-spread timing.runs.0.watts"}, 2},
		{"without times, steady", "1240\n1242\n1241\n1240", "", nil, 4},
		{"without times, a load that moves", "1240\n1290\n1200\n1240", "", []string{"notice readings-spread timing.runs.0.watts"}, 4},
		{"bunched", "0:30 1240\n0:31 1240\n0:32 1241\n0:33 1240", "", []string{"notice bunched-readings timing.runs.0.watts"}, 4},
		// A run that begins at one minute past midnight: 1:10 is both.
		{"both", "1:10 1240", "1:09:30", []string{"question timing.runs.0.times = elapsed"}, 1},
	} {
		r := beside(c.text, c.begins)
		t.Run(c.name, func(t *testing.T) {
			remarktest.Want(t, remarktest.Said(r.Problems, r.Questions, r.Notices), c.want...)
			if len(r.Runs[0].Readings) != c.readings || r.Runs[0].HasMonitor != (c.readings > 0) {
				t.Errorf("%v", r.Runs[0].Readings)
			}
		})
	}
	if at := beside("1:10 1240", "1:09:30", "timing.runs.0.times", "clock").Runs[0].Readings[0].At; at != 30 {
		t.Errorf("by the clock it is at %v s, want 30", at)
	}
	r := beside("0:30 1240", "1:09:30").Questions
	if len(r) > 0 {
		t.Errorf("%+v is asked though only one fits", r)
	}
}

func TestBareKilowattsAreAskedAbout(t *testing.T) {
	r := beside("0:20 1.24\n0:40 1.3", "")
	remarktest.Want(t, remarktest.Said(r.Problems, r.Questions, r.Notices), "question timing.runs.0.watts-unit = kw")
	near(t, "the mean", r.Runs[0].Monitor.Value, 1240+60*(90-30)/90., 1e-9)
	r = beside("0:20 1.24\n0:40 1.3", "", "timing.runs.0.watts-unit", "w")
	near(t, "the mean in watts", r.Runs[0].Monitor.Value, 1.24+0.06*(90-30)/90, 1e-9)
}

// By trapezoids over the run, held at its ends; without times the plain mean.
func TestMeanOfReadings(t *testing.T) {
	near(t, "timed", beside("0:10 1000\n0:30 1200\n1:10 1400", "").Runs[0].Monitor.Value, (20*1000+30*1200+40*1400)/90., 1e-9)
	near(t, "timed in part", beside("0:10 1000\n1200\n1:10 1400", "").Runs[0].Monitor.Value, 1200, 1e-9)
	near(t, "untimed", beside("1000\n1200\n1400", "").Runs[0].Monitor.Value, 1200, 1e-9)
}

func TestRoundingOfTheDisplay(t *testing.T) {
	for text, step := range map[string]float64{
		"1240": 1, "1240.5": 0.1, "1.24 kW": 10, "1.2 kW\n1.24 kW": 10, "1240\n1250\n1270\n1260": 10, "1200\n1300\n1200\n1500": 100,
		"1240\n1240\n1240\n1240": 1, "1240\n1250\n1270": 1,
	} {
		p := beside(text, "").Runs[0].Monitor.Budget[1]
		if p.HalfWidth != step/2 {
			t.Errorf("%q is taken as rounded to %v, want %v", text, 2*p.HalfWidth, step)
		}
	}
}
