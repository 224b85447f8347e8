// Package onset finds what may be pulses in a recording: clicks of a light
// probe, taps of a pencil, claps, beeps; in noise, hum and speech.
//
//	samples --Finder--> times, each with how sure it is --> package rhythm
//
// Samples are looked at once, as they come, and only the loudness of some bands
// in each few milliseconds is kept (bands.go, store.go). The search over those
// follows in small steps: the floor of each band (floor.go); where bands rise at
// once (novelty.go, after J. P. Bello et al., "A tutorial on onset detection in
// music signals", IEEE Trans. Speech and Audio Processing 13, 2005); how the
// pulses of this recording sound, learned from those that keep a pace
// (learn.go, choose.go); and their times (found.go).
//
// Which of the pulses count is for package rhythm to say: those that a person
// strikes out or adds, and what a steady load would do, are no matter of sound.
package onset

// Pulse is something that sounds like a pulse.
type Pulse struct {
	At   float64 // seconds from the first sample
	Sure float64 // 0 to 1, by how it sounds and stands out, not by when it comes
}

// Found is what a recording holds.
type Found struct {
	Seconds float64   // that were listened to
	Pulses  []Pulse   // by time, also doubtful ones; rhythm.Judge decides
	Breaks  []float64 // seconds at which some of the recording is lost
	Timing  float64   // standard uncertainty of a pulse's time, in seconds, against the others
	Peak    float64   // the loudest sample, 0 to 1
	Clipped float64   // the part of the pulses that is cut off at full scale
	Above   float64   // how far the pulses stand above the noise, in dB
	Hum     float64   // Hz of a mains hum, 0 if there is none
	Says    []string  // what makes it hard, each a sentence
	// Envelope is the loudness for a picture, one value for each EnvelopeStep
	// seconds: 0 is silence, 255 the loudest.
	Envelope     []uint8
	EnvelopeStep float64
}

// Finder listens to a recording. It is a sound.Sink.
type Finder struct {
	input
	search search
	ended  bool
}

// New makes a finder.
func New() *Finder { return &Finder{} }

// Begin is that of sound.Sink.
func (f *Finder) Begin(rate, channels int) {
	if !f.ended {
		f.begin(rate, channels)
	}
}

// Take is that of sound.Sink.
func (f *Finder) Take(left, right []float32) {
	if !f.ended {
		f.take(left, right)
	}
}

// Gap is that of sound.Sink.
func (f *Finder) Gap(seconds float64) {
	if !f.ended {
		f.gap(seconds)
	}
}

// End says that no more samples come.
func (f *Finder) End() {
	if !f.ended {
		f.flush()
		f.ended = true
	}
}

// Step does a little of the search that follows, some milliseconds in a
// browser, and says whether it is done.
func (f *Finder) Step() bool {
	f.End()
	if f.store.hops == 0 {
		return true
	}
	return f.search.step(&f.input)
}

// Found gives what was found, once Step is done.
func (f *Finder) Found() Found {
	f.End()
	return f.search.found(&f.input)
}
