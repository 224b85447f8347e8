package onset

// search is the work after the last sample, in phases that go on in steps.
type search struct {
	phase  int
	hop    int // how far a phase has come
	bands  []band
	scales scales
	cands  []candidate
	order  []int32 // of cands, by how they stand out
	sweep  sweep
	kind   int // how it is tried to stand out: in all bands, or in one octave
	kinds  [octaves + 1]sweep
	model  *model
	set    []int32 // of cands, by time: the pulses
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
}

// step goes on with the present phase.
func (s *search) step(in *input) bool {
	phases := []func(*input) bool{
		s.measureFloors, s.smoothFloors, s.measureRises, s.findRises,
		s.chooseKind, s.measureGap, s.learn, s.score, s.rank,
		s.choose, s.learn, s.score, s.rank,
		s.choose, s.finish,
	}
	if s.phase < len(phases) && phases[s.phase](in) {
		s.phase++
		s.hop = 0
	}
	return s.phase >= len(phases)
}
