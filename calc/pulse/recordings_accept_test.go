//go:build !js

package pulse_test

import (
	"fmt"
	"math/rand/v2"
	"os"
	"strconv"
	"strings"
	"sync"
	"testing"
)

// What is promised over all recordings.
const (
	foundLeast    = 0.99
	falseMost     = 0.005
	rmsMost       = 0.002 // seconds, of a pulse's time against the others
	coverageLeast = 0.93
	cleanMost     = 0.002 // of the power, on clean recordings
	mustTell      = 12.0  // dB from which a number must be given
)

// TestRecordings has recordings made of which the truth is known, and holds what
// the whole road makes of them against it. SPLITTALLY_RECORDINGS says how many
// (from 200 on), SPLITTALLY_SEED which.
func TestRecordings(t *testing.T) {
	if testing.Short() {
		t.Skip("takes half a minute")
	}
	many, seed := number("SPLITTALLY_RECORDINGS", 8*len(scenes)), number("SPLITTALLY_SEED", 1)
	scores := make([]score, len(scenes))
	var lock sync.Mutex
	t.Run("each", func(t *testing.T) {
		for i := range many {
			k := i % len(scenes)
			if only := os.Getenv("SPLITTALLY_SCENE"); only != "" && only != scenes[k].name {
				continue
			}
			t.Run(fmt.Sprintf("%s %d", scenes[k].name, seed*100_000+i), func(t *testing.T) {
				t.Parallel()
				rec := scenes[k].make(uint64(seed*100_000 + i))
				h := listen(t, rec.file(t), nil)
				one := judge(rec, h)
				rec.hold(t, one)
				lock.Lock()
				defer lock.Unlock()
				scores[k].add(one)
			})
		}
	})
	total(t, scores)
}

// hold asserts what is promised of each single recording, and tells the rest.
func (rec recording) hold(t *testing.T, s score) {
	t.Helper()
	if len(s.tells) > 0 {
		t.Logf("%s: %s", rec.tells, strings.Join(s.tells, "; "))
	}
	if rec.scene.open {
		return
	}
	if s.refused > 0 && rec.snr >= mustTell {
		t.Errorf("no number at %.0f dB: %s", rec.snr, rec.tells)
	}
	if rec.clean() && s.worst > cleanMost {
		t.Errorf("power off by %.2f %%, want %.1f %% at most, as it is clean: %s", 100*s.worst, 100*cleanMost, rec.tells)
	}
}

// total prints the table of scenes and asserts what is promised of all.
func total(t *testing.T, scores []score) {
	t.Helper()
	var all score
	t.Log(heading)
	for k, s := range scores {
		if s.recordings == 0 {
			continue
		}
		name := scenes[k].name
		if scenes[k].open {
			name += "*"
		} else {
			all.add(s)
		}
		t.Log(s.row(name))
	}
	t.Log(all.row("all"))
	if all.recordings == 0 {
		return
	}
	if got := all.foundShare(); got < foundLeast {
		t.Errorf("found %.2f %% of the pulses, want %.0f %% at least", 100*got, 100*foundLeast)
	}
	if got := all.falseShare(); got > falseMost {
		t.Errorf("%.2f %% false, want %.1f %% at most", 100*got, 100*falseMost)
	}
	if got := all.rms(); got > rmsMost {
		t.Errorf("times are off by %.2f ms (rms), want %.0f ms at most", 1000*got, 1000*rmsMost)
	}
	if got := all.coverage(); got < coverageLeast {
		t.Errorf("the true power lies in %.1f %% of the stated intervals, want %.0f %% at least", 100*got, 100*coverageLeast)
	}
}

const heading = "scene              n  refused  pulses   found %  false %  rms ms  covered %  worst %   wide %"

func (s score) row(name string) string {
	return fmt.Sprintf("%-16s %3d  %7d  %6d  %8.2f  %7.2f  %6.2f  %9.1f  %7.2f  %7.3f", name, s.recordings, s.refused, s.sounds,
		100*s.foundShare(), 100*s.falseShare(), 1000*s.rms(), 100*s.coverage(), 100*s.worst, 100*median(s.wide))
}

// TestRecordingsWithoutPulses has recordings in which no meter is: there must be
// no number.
func TestRecordingsWithoutPulses(t *testing.T) {
	if testing.Short() {
		t.Skip("takes some seconds")
	}
	seed := number("SPLITTALLY_SEED", 1)
	for i := range max(3*len(empties), number("SPLITTALLY_RECORDINGS", 0)/5) {
		kind := empties[i%len(empties)]
		t.Run(fmt.Sprintf("%s %d", kind, seed*100_000+i), func(t *testing.T) {
			t.Parallel()
			r := rand.New(rand.NewPCG(uint64(seed*100_000+i), 7))
			rate := pick(r, anyRate)
			long := between(r, 10, 60)
			x := withoutPulses(kind, int(long*float64(rate)), rate, r)
			peak := 1e-9
			for _, v := range x {
				peak = max(peak, v, -v)
			}
			rec := recording{rate: rate, channels: [][]float64{scaled(x, between(r, 0.05, 0.9)/peak)}, form: "wav"}
			if rate > 8000 && r.IntN(3) == 0 {
				rec.form = "mp3-32"
			}
			if h := listen(t, rec.file(t), nil); h.number() {
				t.Errorf("%s of %.0f s at %d Hz, %s: %.5g ± %.2g W of %d pulses, want no number",
					kind, long, rate, rec.form, h.run.Watts.Value, h.run.Watts.Expanded, len(h.counted()))
			}
		})
	}
}

// number is a whole number from the environment.
func number(name string, otherwise int) int {
	if n, err := strconv.Atoi(os.Getenv(name)); err == nil {
		return n
	}
	return otherwise
}
