package onset_test

import (
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"splittally/calc/onset"
	"splittally/calc/sound"
)

var _ sound.Sink = (*onset.Finder)(nil)

// truth is what is known of a trial recording.
type truth struct {
	Files  []string  `json:"files"`
	Times  []float64 `json:"pulse_times_s"`
	Pulses int       `json:"n_pulses"`
	Mean   float64   `json:"mean_interval_s"`
}

// TestTrials listens to the trial recordings, synthetic and real. Their truths
// were made with them, or found by an independent count.
func TestTrials(t *testing.T) {
	root := os.Getenv("SPLITTALLY_TRIALS")
	if root == "" {
		t.Skip("SPLITTALLY_TRIALS is not set: no trial recordings (make test sets it)")
	}
	for _, folder := range []string{"synthetic", "real"} {
		dir := filepath.Join(root, "audio", folder)
		b, err := os.ReadFile(filepath.Join(dir, "truth.json"))
		if err != nil {
			t.Fatal(err)
		}
		var truths map[string]truth
		if err := json.Unmarshal(b, &truths); err != nil {
			t.Fatal(err)
		}
		for name, known := range truths {
			if len(known.Files) == 0 {
				known.Files = []string{name}
			}
			if strings.HasPrefix(name, "40") {
				continue // broken files: a matter of package sound
			}
			for _, file := range known.Files {
				t.Run(file, func(t *testing.T) { tryFile(t, filepath.Join(dir, file), known) })
			}
		}
	}
}

// tryFile listens to one recording and sets what is found beside its truth.
func tryFile(t *testing.T, path string, known truth) {
	b, err := os.ReadFile(path)
	if err != nil {
		t.Skip(err)
	}
	finder := onset.New()
	r := sound.New(finder, sound.Options{Bytes: int64(len(b))})
	for len(b) > 0 {
		n := min(r.Portion(), len(b))
		if !r.Write(b[:n]) {
			break
		}
		b = b[n:]
	}
	if found := r.Close(); found.Why == sound.Elsewhere {
		t.Skip("only a browser decodes it")
	}
	h := conclude(finder, known.Times)
	if known.Pulses == 0 {
		if h.result.Why == "" {
			t.Errorf("there are no pulses, but %d intervals were counted", h.result.Intervals)
		}
		return
	}
	if h.result.Why != "" || h.counted != known.Pulses || h.result.Intervals != known.Pulses-1 {
		t.Fatalf("counted %d pulses, %d intervals, %q; want %d pulses", h.counted, h.result.Intervals, h.result.Why, known.Pulses)
	}
	if known.Times != nil && (h.hits != known.Pulses || h.rms > 0.002) {
		t.Errorf("%d of %d pulses at their times, %.2f ms rms", h.hits, known.Pulses, 1000*h.rms)
	}
	if mean := h.result.Seconds / float64(h.result.Intervals); known.Mean > 0 && (mean > 1.003*known.Mean || mean < 0.997*known.Mean) {
		t.Errorf("mean interval %.5f s, want %.5f", mean, known.Mean)
	}
}
