package cause

import (
	"fmt"
	"math"
	"strconv"

	"splittally/calc/figure"
)

// How long the parts of a reading period are that was split, and the whole, in
// days: each shorter than a usual cycle, together one (CalTRACK methods 2.2.3.4
// and 2.2.3.5, with a week to spare).
const (
	shortestCycle = 25
	longestCycle  = 42
	mostPieces    = 3
)

// split: bills that follow one another are one reading period, cut where a rate
// changed. Nobody read the meter at the cut; the whole was shared by days. Joined
// the error is nil.
func split() kind {
	return kind{
		id:     Split,
		name:   "One reading period, split into several bills",
		remedy: "Judge these bills as one: type them in as a single period, from the first date to the last, with their energies added up.",
		forms: func(f *frame) []form {
			var out []form
			for _, pieces := range f.cycles() {
				out = append(out, f.atMidnight(f.splitOf(pieces))...)
			}
			return out
		},
	}
}

// cycles lists the runs of periods that have the lengths of parts of one.
func (f *frame) cycles() (out [][]int) {
	for p := range f.n() {
		pieces := []int{p}
		for len(pieces) < mostPieces {
			next, ok := f.follows(pieces[len(pieces)-1])
			if !ok {
				break
			}
			pieces = append(pieces[:len(pieces):len(pieces)], next)
			if f.isCycle(pieces) {
				out = append(out, pieces)
			}
		}
	}
	return out
}

// shareStep is by how many kWh a bill may miss its share by days: whole
// kilowatt-hours, cut or rounded.
const shareStep = 1.5

// findPieces numbers the periods by the reading period that they are of: each is
// one of its own, but for runs whose bills go by days, which their energies show
// without any monitor.
func (f *frame) findPieces() {
	f.pieceOf = make([]int, f.n())
	for p := range f.pieceOf {
		f.pieceOf[p] = p
	}
	for _, pieces := range f.cycles() {
		whole, days := 0.0, 0.0
		for _, p := range pieces {
			whole += f.r[p]
			days += f.days(p)
		}
		byDays := true
		for _, p := range pieces {
			byDays = byDays && math.Abs(f.r[p]-whole*f.days(p)/days) <= shareStep
		}
		for _, p := range pieces {
			if byDays {
				f.pieceOf[p] = f.pieceOf[pieces[0]]
			}
		}
	}
}

// pieces gives the number of the reading period that a period is of.
func (f *frame) pieces(p int) int { return f.pieceOf[p] }

// follows gives the period that begins with the read that ends another.
func (f *frame) follows(p int) (next int, ok bool) {
	for q := range f.n() {
		if q != p && f.Periods[q].Span.First == f.Periods[p].Span.End && f.Periods[q].StartRead == f.Periods[p].EndRead {
			return q, true
		}
	}
	return 0, false
}

// isCycle says that periods have the lengths of parts of one reading period.
func (f *frame) isCycle(pieces []int) bool {
	days := 0.0
	for _, p := range pieces {
		if f.days(p) >= shortestCycle {
			return false
		}
		days += f.days(p)
	}
	return days <= longestCycle
}

// splitOf undoes a split: what the bills should have, by the monitor's days, in
// place of their shares of the whole by number of days. The hours of the reads
// between them are no doubt any more, since there were none.
func (f *frame) splitOf(pieces []int) form {
	fo := form{weight: 1, less: make([]float64, f.n())}
	whole, days := 0.0, 0.0
	for _, p := range pieces {
		whole += f.w[p]
		days += f.days(p)
	}
	var bills, shares []string
	for i, p := range pieces {
		fo.less[p] = whole*f.days(p)/days - f.w[p]
		bills = append(bills, strconv.Itoa(f.Periods[p].Index+1))
		shares = append(shares, figure.Plain(f.days(p), 0))
		if i > 0 {
			fo.settled = append(fo.settled, f.Periods[p].StartRead+hourOfRead)
		}
	}
	fo.how = func(outcome) string {
		return fmt.Sprintf("Bills %s are one reading period, shared by days (%s): apart they are off by up to %.0f kWh, together they are not.",
			figure.Listed(bills), figure.Listed(shares), largest(fo.less))
	}
	return fo
}

// undoPieces undoes, in a form of another cause, the splits that the bills show by
// themselves.
func (f *frame) undoPieces(fo *form) {
	fo.less = make([]float64, f.n())
	for p := range f.n() {
		f.shareOut(fo.less, p, f.w[p])
	}
	for p := range f.n() {
		fo.less[p] -= f.w[p]
		if next, ok := f.follows(p); ok && f.pieces(next) == f.pieces(p) {
			fo.settled = append(fo.settled, f.Periods[p].EndRead+hourOfRead)
		}
	}
}

// tellPieces tells of splits that a form of another cause undoes.
func (f *frame) tellPieces(outcome) (pro, con []string) {
	var bills []string
	for p := range f.n() {
		for q := range f.n() {
			if p != q && f.pieces(p) == f.pieces(q) {
				bills = append(bills, strconv.Itoa(f.Periods[p].Index+1))
				break
			}
		}
	}
	if len(bills) > 0 {
		pro = append(pro, "Bills "+figure.Listed(bills)+" go by days, and so are taken for parts of one reading period here.")
	}
	return pro, nil
}

// hourOfRead ends the source of the unknown hour of a read in the budgets.
const hourOfRead = ", hour"

func largest(x []float64) float64 {
	most := 0.0
	for _, v := range x {
		most = max(most, math.Abs(v))
	}
	return most
}
