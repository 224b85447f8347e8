package onset

// search is the work after the last sample, in phases that go on in steps.
type search struct {
	phase  int
	hop    int // how far a phase has come
	bands  []band
	scales scales
	cands  []candidate
	powers *[256]float32 // amplitudes of loudnesses
	sweep  sweep
	kind   int // how it is tried to stand out: in all bands, or in one octave
	kinds  [octaves + 2]sweep
	model  *model
	set    []int32    // of cands, by time: the pulses
	kept   []standing // how candidates stood when the pace was kept best
	best   float64    // and how well that was
	level  float32    // and the level
	heard  heard
	steady float64 // how well they keep a pace
	gap    float64 // how many times the pulses stand out more than the rest
}

// candidate is where bands rise.
type candidate struct {
	hop   int32
	stand float32 // how it stands out: novelty first, then likeness to the pulses
	shift float32 // hops from hop to where it is most like them
	sure  float32
	rises [octaves]uint8 // of each octave, in eighths of its scale
	all   float32        // novelty: the sum over bands
	loud  float32        // how far it surpasses what bands seldom do
}

// step goes on with the present phase.
func (s *search) step(in *input) bool {
	phases := []func(*input) bool{
		s.measureFloors, s.smoothFloors, s.measureRises, s.findRises, s.measure,
		s.chooseKind, s.measureGap, s.keep, s.learn, s.align, s.learn, s.score, s.rank,
		s.choose, s.keep, s.learn, s.score, s.rank,
		s.choose, s.keep, s.finish,
	}
	if s.phase < len(phases) && phases[s.phase](in) {
		s.phase++
		s.hop = 0
	}
	return s.phase >= len(phases)
}

// standing is how one candidate stands.
type standing struct{ stand, shift float32 }

// keep keeps what the present way of telling pulses gives, or goes back to the
// one before if that was clearly better.
func (s *search) keep(*input) bool {
	if s.kept != nil && s.steady < 0.8*s.best-2 {
		for i, k := range s.kept {
			s.cands[i].stand, s.cands[i].shift = k.stand, k.shift
		}
		s.steady, s.sweep.level = s.best, s.level
		s.set = s.reaching(0, len(s.cands), s.level)
		return true
	}
	if s.kept == nil {
		s.kept = make([]standing, len(s.cands))
	}
	for i, c := range s.cands {
		s.kept[i] = standing{c.stand, c.shift}
	}
	s.best, s.level = s.steady, s.sweep.level
	return true
}
