package cause

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"splittally/calc/figure"
)

// slip is a wrong unit: what multiplies the monitor's figure to mend it.
type slip struct {
	mend  float64
	words string
}

// slips are the factors by which figures come out wrong as a whole.
var slips = []slip{
	{1000, "The figures are megawatt-hours, or were divided by a thousand once too often."},
	{0.001, "The figures are watt-hours, taken for kilowatt-hours."},
	{24, "The figures are mean kilowatts over a day, taken for kilowatt-hours."},
	{1. / 24, "The figures were multiplied with 24 hours once too often."},
	{10, "The figures are a factor of ten too low: a lost digit, or a decimal mark moved."},
	{0.1, "The figures are a factor of ten too high: a decimal mark was lost."},
	{4, "Mean kilowatts of quarters of an hour were not multiplied with their length, or a multiplier of 4 is wrong."},
	{0.25, "Mean kilowatts of quarters of an hour were added up as if each were an hour’s energy."},
	{2, "Mean kilowatts of half-hours, or volts to neutral taken for volts between the legs, make the figures half."},
	{0.5, "Mean kilowatts of half-hours were added up as if each were an hour’s energy, or every figure is counted twice."},
	{1. / 40, "The bill lacks the meter’s multiplier of 40."},
	{1. / 80, "The bill lacks the meter’s multiplier of 80."},
	{1. / 20, "The bill lacks the meter’s multiplier of 20."},
	{20, "The bill’s energy is 20 times too high: its multiplier was used where none belongs, or twice."},
	{40, "The bill’s energy is 40 times too high: its multiplier was used where none belongs, or twice."},
	{80, "The bill’s energy is 80 times too high: its multiplier was used where none belongs, or twice."},
	{60, "The figures are means of minutes, taken for sums."},
}

// unit: kilowatts for kilowatt-hours, watt-hours for kilowatt-hours, a factor of
// ten: in all figures, or in some days.
func unit() kind {
	return kind{
		id:     Unit,
		name:   "A wrong unit or a factor of ten",
		remedy: "Look at the unit in the monitor’s own screen or file, mend the figures, and paste them again.",
		forms: func(f *frame) []form {
			var out []form
			for _, s := range slips {
				out = append(out, form{
					weight: 1. / float64(len(slips)),
					scale:  f.ofPeriods(func(int) float64 { return s.mend }),
					how:    func(outcome) string { return s.words },
					isFar:  f.off(s.mend) > hopeless && s.mend != f.nearest().mend,
				})
			}
			if fo, ok := f.slippedDays(); ok {
				out = append(out, fo)
			}
			return out
		},
	}
}

// slipTells is how much likelier a day ten times those around is as a slip than
// as a day of use, as a logarithm: twenty times (a choice; homes have few of
// them). Further such days count once more.
const slipTells = 3

// off is how far a factor leaves the two apart in the first period, as the
// logarithm of their ratio.
func (f *frame) off(mend float64) float64 { return math.Abs(math.Log(mend * f.w[0] / f.r[0])) }

// nearest gives the slip that leaves the least.
func (f *frame) nearest() slip {
	return slices.MinFunc(slips, func(a, b slip) int { return cmp.Compare(f.off(a.mend), f.off(b.mend)) })
}

// hopeless is how far a factor may leave the two apart for its evidence to be
// worked out: beyond a factor of 4 no budget explains what remains.
const hopeless = 1.4

// slippedDays mends the days that stand a factor of ten or a thousand away from
// those around.
func (f *frame) slippedDays() (form, bool) {
	fo := form{weight: 0.1, add: make([]float64, f.n())}
	days := 0
	for p := range f.n() {
		for _, d := range f.strays(p) {
			for _, factor := range []float64{10, 1000, 0.1, 0.001} {
				if at := d.ratio / factor; at > 0.6 && at < 1.6 {
					fo.add[p] += d.kWh/factor - d.kWh
					days++
				}
			}
		}
	}
	fo.besides = slipTells
	fo.how = func(outcome) string {
		return fmt.Sprintf("The figures of %s stand a factor of ten or a thousand away from those around.", figure.Counted(days, "day", "days"))
	}
	return fo, days > 0
}
