//go:build !js

package pulse_test

import (
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"splittally/calc/sound"
)

// truth is what a trial recording is known to hold.
type truth struct {
	Files  []string  `json:"files"`
	Times  []float64 `json:"pulse_times_s"`
	Pulses int       `json:"n_pulses"`
	Mean   float64   `json:"mean_interval_s"`
}

// trials gives a folder's truths by name, or skips the test.
func trials(t *testing.T, folder string) (string, map[string]truth) {
	t.Helper()
	root := os.Getenv("SPLITTALLY_TRIALS")
	if root == "" {
		t.Skip("SPLITTALLY_TRIALS is not set: make test sets it where the trial recordings are")
	}
	folder = filepath.Join(root, "audio", folder)
	text, err := os.ReadFile(filepath.Join(folder, "truth.json"))
	if err != nil {
		t.Fatal(err)
	}
	all := map[string]truth{}
	if err := json.Unmarshal(text, &all); err != nil {
		t.Fatal(err)
	}
	return folder, all
}

// TestTrialRecordings holds the road against recordings that others made, with
// the same score.
func TestTrialRecordings(t *testing.T) {
	folder, all := trials(t, "synthetic")
	scores := map[string]score{}
	for name, is := range all {
		for _, file := range is.Files {
			t.Run(file, func(t *testing.T) {
				h := listenTo(t, filepath.Join(folder, file))
				switch {
				case strings.HasPrefix(name, "40_"):
					holdBroken(t, h)
				case h.sound.Why == sound.Elsewhere:
					t.Skipf("only a browser decodes it: %s", h.sound.Format)
				case is.Pulses == 0 && h.number():
					t.Errorf("%.5g W of %d pulses, want no number", h.run.Watts.Value, len(h.counted()))
				case is.Pulses > 0:
					one := judge(recordingOf(name, file, is), h)
					s := scores[""]
					s.add(one)
					scores[""] = s
					holdTrial(t, name, one)
				}
			})
		}
	}
	t.Log(heading)
	s := scores[""]
	t.Log(s.row("trials"))
}

// holdTrial asserts of a trial recording that each pulse is found, none is false,
// and the power is right.
func holdTrial(t *testing.T, name string, s score) {
	t.Helper()
	may := 0
	if strings.HasPrefix(name, "18_") {
		may = 1 // a pulse at the very first sample, or the last, may be missed
	}
	if s.refused > 0 || s.sounds-s.found > may || s.false > 0 || s.covered == 0 {
		t.Errorf("%s; found %d of %d, %d false", strings.Join(s.tells, "; "), s.found, s.sounds, s.false)
	}
}

// holdBroken asserts of a broken file that a number, if it gives one, is that of
// the taps 1.4 s apart which all of them hold.
func holdBroken(t *testing.T, h heard) {
	t.Helper()
	if got, want := h.run.Watts.Value, 3600/1.4; h.number() && math.Abs(got-want) > 0.002*want {
		t.Errorf("%.5g W of %d pulses, want %.5g or no number", got, len(h.counted()), want)
	}
	t.Logf("%d pulses, refusal %q %q, %q", len(h.counted()), h.sound.Why, h.run.Rhythm.Why, h.sound.Says)
}

// recordingOf makes a trial's truth one of ours. Hands and clocks that limp have
// times of their own, but no power to be exact about.
func recordingOf(name, file string, is truth) recording {
	rec := recording{form: strings.TrimPrefix(filepath.Ext(file), "."), snr: 40, tells: file}
	rec.scene.hand = strings.HasPrefix(name, "02_") || strings.HasPrefix(name, "20_")
	for _, at := range is.Times {
		rec.beats = append(rec.beats, beat{pulse: at, sound: at, heard: true})
	}
	return rec
}

func listenTo(t *testing.T, name string) heard {
	t.Helper()
	file, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	return listen(t, file, nil)
}

// TestRealRecordings has clocks that tick, and birds that do not.
func TestRealRecordings(t *testing.T) {
	folder, all := trials(t, "real")
	for file, is := range all {
		t.Run(file, func(t *testing.T) {
			h := listenTo(t, filepath.Join(folder, file))
			watts := h.run.Watts
			t.Logf("%d marks, %d intervals, %.6g ± %.2g W, refusal %q", len(h.onset.Pulses),
				h.run.Rhythm.Intervals, watts.Value, watts.Expanded, h.run.Rhythm.Why)
			if is.Pulses == 0 {
				if h.number() {
					t.Error("a number, want none")
				}
				return
			}
			if got, want := h.run.Rhythm.Intervals, is.Pulses-1; got != want {
				t.Errorf("%d intervals, want %d", got, want)
			}
			// The clocks' truths are known to about 0.2 %.
			want := 3600 / is.Mean
			if off := math.Abs(watts.Value - want); !h.number() || off > watts.Expanded+0.002*want {
				t.Errorf("%.6g ± %.2g W, want %.6g", watts.Value, watts.Expanded, want)
			}
		})
	}
}
