package gain

import (
	"math"
	"strconv"
	"strings"

	"splittally/calc/number"
	"splittally/calc/uncertainty"
)

// sample is a pair or step that could be read.
type sample struct {
	at                 int // index as typed
	reference, monitor float64
	// One count of the last digit of each.
	referenceCount, monitorCount float64
}

// readLegs reads what was typed of every leg. A pair or step of which only some
// is there is waited for.
func (s *sheet) readLegs(legs []Leg) {
	for i, l := range legs {
		r := LegResult{Name: number.Trim(l.Name)}
		if r.Name == "" {
			r.Name = "Leg " + strconv.Itoa(i+1)
		}
		var read [kindCount][]sample
		var half []string
		some := false
		for k, rows := range l.typed() {
			samples, waits := s.readRows(kinds[k], s.field(i, kinds[k].list), rows)
			read[k] = samples
			half = append(half, waits...)
			some = some || len(samples) > 0
		}
		if !some && len(half) == 0 {
			half = []string{"a pair of multimeter and monitor volts is missing"}
		}
		r.Waits = strings.Join(half, "; ")
		s.samples = append(s.samples, read)
		s.out.Legs = append(s.out.Legs, r)
	}
}

// typed gives the texts of all kinds, each in the order of its kind's fields.
func (l Leg) typed() (rows [kindCount][][]string) {
	for _, p := range l.Pairs {
		rows[volts] = append(rows[volts], []string{p.Reference, p.Monitor})
	}
	for _, p := range l.Amps {
		rows[amps] = append(rows[amps], []string{p.Reference, p.Monitor})
	}
	for _, p := range l.Steps {
		rows[steps] = append(rows[steps], []string{p.Before, p.After, p.Load})
	}
	return rows
}

func (l Leg) empty() bool {
	for _, rows := range l.typed() {
		for _, row := range rows {
			if !allBlank(row) {
				return false
			}
		}
	}
	return allBlank([]string{l.Name, l.Share, l.Setting})
}

func allBlank(texts []string) bool {
	for _, t := range texts {
		if !number.IsBlank(t) {
			return false
		}
	}
	return true
}

// row is a pair or step as read, each field in every way that it can be.
type row struct {
	at   int
	ways [][]quantity
}

// readRows reads the pairs of one kind; path is their list's.
func (s *sheet) readRows(k kind, path string, typed [][]string) (samples []sample, waits []string) {
	var rows []row
	for at, texts := range typed {
		if allBlank(texts) {
			continue
		}
		r := row{at: at}
		var missing []string
		for i, f := range k.fields {
			if number.IsBlank(texts[i]) {
				missing = append(missing, f.words)
				continue
			}
			ways := f.read(texts[i])
			if len(ways) == 0 {
				s.problem(path+"."+strconv.Itoa(at)+"."+f.name, texts[i], f.wanted)
				continue
			}
			r.ways = append(r.ways, ways)
		}
		if len(missing) > 0 {
			waits = append(waits, strings.Join(missing, " and ")+" of "+k.noun+" "+strconv.Itoa(at+1)+" are missing")
		}
		if len(r.ways) == len(k.fields) {
			rows = append(rows, r)
		}
	}
	if k.list == kinds[steps].list {
		return s.stepSamples(path, typed, rows), waits
	}
	return pairSamples(rows), waits
}

// pairSamples takes the first way of either side.
func pairSamples(rows []row) (samples []sample) {
	var references, monitors []quantity
	for _, r := range rows {
		references = append(references, r.ways[0][0])
		monitors = append(monitors, r.ways[1][0])
	}
	for i, r := range rows {
		samples = append(samples, sample{
			at: r.at, reference: references[i].value, monitor: monitors[i].value,
			referenceCount: countOf(references[i], references), monitorCount: countOf(monitors[i], monitors),
		})
	}
	return samples
}

// oddBeyond is how far a gain must be from the median to be pointed out: this
// many standard deviations, as the median of all distances estimates one.
const oddBeyond = 3.5

// oddOnes gives the indexes as typed of pairs whose gain stands apart from the
// median by more than oddBeyond, than the kind's floor, and than what the last
// digits and the kind's slack, in the unit of the monitor, can do. Fewer than
// three have no majority to stand apart from.
func oddOnes(k kind, samples []sample) (odd []int) {
	if len(samples) < 3 {
		return nil
	}
	var gains, distances []float64
	for _, p := range samples {
		gains = append(gains, p.reference/p.monitor)
	}
	middle := uncertainty.Median(gains)
	for _, g := range gains {
		distances = append(distances, math.Abs(g-middle))
	}
	limit := max(k.oddFloor, oddBeyond*uncertainty.MedianDeviation*uncertainty.Median(distances))
	for i, p := range samples {
		if distances[i] > max(limit, (k.oddSlack+p.referenceCount+p.monitorCount)/p.monitor) {
			odd = append(odd, p.at)
		}
	}
	return odd
}
