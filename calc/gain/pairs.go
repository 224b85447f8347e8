package gain

import (
	"math"
	"sort"
	"strconv"
	"strings"

	"github.com/shopspring/decimal"

	"splittally/calc/number"
)

// Limits of volts that can be meant. They hold every low-voltage service to
// neutral and between lines.
var (
	leastVolts = decimal.NewFromInt(50)
	mostVolts  = decimal.NewFromInt(500)
)

const voltsWanted = "volts from 50 to 500, such as 121.3"

// pair is a Pair that could be read.
type pair struct {
	at                 int // index as typed
	reference, monitor float64
	// Decimals as written; the most of a leg tell what the instrument shows.
	referencePlaces, monitorPlaces int32
}

func (p pair) gain() float64 { return p.reference / p.monitor }

// readLegs reads the pairs of every leg. A pair of which only one side is
// there is waited for.
func (s *sheet) readLegs(legs []Leg) {
	for i, l := range legs {
		r := LegResult{Name: number.Trim(l.Name)}
		if r.Name == "" {
			r.Name = "Leg " + strconv.Itoa(i+1)
		}
		var pairs []pair
		var half []string
		for j, typed := range l.Pairs {
			p, ok := s.readPair(s.field(i, "pairs."+strconv.Itoa(j)), typed)
			switch {
			case ok:
				p.at = j
				pairs = append(pairs, p)
			case number.IsBlank(typed.Reference) != number.IsBlank(typed.Monitor):
				half = append(half, missingSide(j, typed))
			}
		}
		if len(pairs) == 0 && len(half) == 0 {
			half = []string{"a pair of multimeter and monitor volts is missing"}
		}
		r.Waits = strings.Join(half, "; ")
		s.pairs = append(s.pairs, pairs)
		s.out.Legs = append(s.out.Legs, r)
	}
}

func missingSide(at int, p Pair) string {
	side := "the monitor's volts of pair "
	if number.IsBlank(p.Reference) {
		side = "the multimeter's volts of pair "
	}
	return side + strconv.Itoa(at+1) + " are missing"
}

func (s *sheet) readPair(path string, typed Pair) (p pair, ok bool) {
	reference, rp, okR := s.volts(path+".reference", typed.Reference)
	monitor, mp, okM := s.volts(path+".monitor", typed.Monitor)
	return pair{reference: reference, monitor: monitor, referencePlaces: rp, monitorPlaces: mp}, okR && okM
}

// volts reads one field of volts. A number that could be two is the one that
// volts can be: 120,125 is never 120 thousand.
func (s *sheet) volts(path, typed string) (volts float64, places int32, ok bool) {
	text := number.Trim(typed)
	if text == "" {
		return 0, 0, false
	}
	text = strings.TrimRight(strings.TrimRight(text, "vV"), " ")
	for _, r := range number.Readings(text) {
		if r.Value.GreaterThanOrEqual(leastVolts) && r.Value.LessThanOrEqual(mostVolts) {
			return r.Value.InexactFloat64(), max(0, r.Places), true
		}
	}
	s.problem(path, typed, voltsWanted)
	return 0, 0, false
}

// means gives the mean volts, the mean gain and the standard deviation of the
// gains, which is 0 for one pair.
func means(pairs []pair) (reference, monitor, gain, deviation float64) {
	n := float64(len(pairs))
	for _, p := range pairs {
		reference += p.reference / n
		monitor += p.monitor / n
		gain += p.gain() / n
	}
	if len(pairs) < 2 {
		return reference, monitor, gain, 0
	}
	for _, p := range pairs {
		deviation += (p.gain() - gain) * (p.gain() - gain) / (n - 1)
	}
	return reference, monitor, gain, math.Sqrt(deviation)
}

// oddBeyond is how far a gain must be from the median to be pointed out: this
// many standard deviations, as the median of all distances estimates one (for
// a normal distribution it is 0.6745 of one), and at least oddFloor.
const (
	oddBeyond = 3.5
	oddFloor  = 0.003
)

// oddPairs gives the indexes as typed of pairs whose gain stands apart. Fewer
// than three pairs have no majority to stand apart from.
func oddPairs(pairs []pair) (odd []int) {
	if len(pairs) < 3 {
		return nil
	}
	var gains, distances []float64
	for _, p := range pairs {
		gains = append(gains, p.gain())
	}
	middle := median(gains)
	for _, p := range pairs {
		distances = append(distances, math.Abs(p.gain()-middle))
	}
	limit := max(oddFloor, oddBeyond*median(distances)/0.6745)
	for _, p := range pairs {
		if math.Abs(p.gain()-middle) > limit {
			odd = append(odd, p.at)
		}
	}
	return odd
}

func median(v []float64) float64 {
	v = append([]float64(nil), v...)
	sort.Float64s(v)
	n := len(v)
	return (v[(n-1)/2] + v[n/2]) / 2
}
