package cause

import (
	"fmt"
	"math"
	"strconv"
)

// What credits take off a bill, in parts of what came in: a mean and a standard
// deviation, wide enough for anything from little to all (a choice). Where they
// took less than leastNet of the bill, or than three standard uncertainties of the
// comparison, it is not thought of. Where none is of 0 kWh,
// nor is it where they took more than mostNet of what came in from one bill alone,
// or less than aloneNet: much else is off by as much.
const (
	usualNet = 0.5
	netSD    = 0.3
	leastNet = 0.15
	mostNet  = 0.85
	aloneNet = 0.3
)

// Bills of 0 kWh are what credits make now and then, and nothing else does: they
// speak for it as strongly as one factor Apart. Where there are none, that nobody
// typed anything of generation speaks against it, a little. (Choices.)
var (
	zeroSpeaks  = math.Log(Apart)
	quietSpeaks = -math.Log(3)
)

// net: from some bill on the billed energy is net of credits for generation. No
// one has typed how much went out; where that is known, solar says it.
func net() kind {
	return kind{
		id:     Net,
		name:   "The bill is net of credits for generation",
		remedy: "Hold the monitor against the two register reads, or against the meter’s own figures. The billed energy is no measure of what came in.",
		forms: func(f *frame) []form {
			if f.entered(func(p Period) Amount { return p.Produced }) != nil || f.entered(func(p Period) Amount { return p.Exported }) != nil {
				return nil
			}
			var out []form
			some := false
			for _, p := range f.byTime() {
				fo := f.netFrom(p)
				some = some || !fo.isFar
				out = append(out, fo)
			}
			if !some {
				return nil
			}
			return out
		},
	}
}

// byTime gives the periods, the earliest first.
func (f *frame) byTime() []int {
	out := make([]int, 0, f.n())
	for p := range f.n() {
		at := len(out)
		for at > 0 && f.Periods[out[at-1]].Span.First > f.Periods[p].Span.First {
			at--
		}
		out = append(out[:at:at], append([]int{p}, out[at:]...)...)
	}
	return out
}

// netFrom has all bills net from one on.
func (f *frame) netFrom(first int) form {
	fo := form{weight: 1}
	f.undoPieces(&fo)
	lo, hi, bills, most := math.Inf(1), 0.0, 0, 0.0
	for p := range f.n() {
		if f.Periods[p].Span.First < f.Periods[first].Span.First {
			continue
		}
		off := f.w[p] - f.r[p]
		least := max(leastNet, 3*f.Periods[p].Compared.Standard/100) * f.r[p]
		fo.isFar = fo.isFar || off < least || f.Periods[p].FromReads
		lo, hi, bills, most = min(lo, off), max(hi, off), bills+1, max(most, off/f.w[p])
		fo.effects = append(fo.effects, effect{by: f.alone(p, 1), bill: true, mean: usualNet * f.w[p], sd: netSD * f.w[p]})
	}
	fo.besides = quietSpeaks
	if f.NetBills > 0 {
		fo.besides = zeroSpeaks
	} else if bills == 1 && (most > mostNet || most < aloneNet) {
		fo.isFar = true
	}
	fo.how = func(outcome) string {
		from := "The bill is"
		if f.n() > 1 {
			from = "From bill " + strconv.Itoa(f.Periods[first].Index+1) + " on the bills are"
		}
		if hi-lo < 1 {
			return fmt.Sprintf("%s net of credits, %.0f kWh less than the monitor counted.", from, hi)
		}
		return fmt.Sprintf("%s net of credits, %.0f to %.0f kWh less than the monitor counted.", from, lo, hi)
	}
	fo.reasons = func(o outcome) (pro, con []string) {
		pro, _ = f.tellPieces(o)
		if f.NetBills > 0 {
			pro = append(pro, "Another bill charges 0 kWh, as credits make it and nothing else does.")
		}
		return pro, nil
	}
	return fo
}
