package correct

import (
	"slices"

	"github.com/shopspring/decimal"

	"splittally/calc/uncertainty"
)

// Legs is what the spot checks found, as plain figures.
type Legs struct {
	Legs    []Leg
	Overall Gain // of the whole home, each leg by its share
	// IsWhole says that the checks saw all that makes the gain: the power of
	// every leg with a share. Volts and amperes are not all, since they do not
	// show a phase displacement. Then the monitor's stated accuracy does not
	// count any more. Else it does, all of it, in what is left of an error and
	// in the days: which part of it is in what the checks did not see is not
	// known.
	IsWhole bool
	// Accuracy is the Source of the monitor's stated accuracy in the budgets of
	// Periods, and Stated its standard uncertainty as a fraction of the reading.
	Accuracy string
	Stated   float64

	Periods    []Period
	Confidence float64   // a fraction, such as 0.95
	Setting    Typed     // the monitor's overall setting
	History    []Reading // see History
}

// Leg is one leg of the home.
type Leg struct {
	Name    string
	Given   bool    // it was checked; else it is left as it is
	Share   float64 // portion of the home's energy, 0 to 1
	Gain    Gain
	Setting Typed
}

// Gain is what to multiply the monitor's energy with.
type Gain struct {
	Factor float64
	Budget uncertainty.Budget // in percent of the monitor's value
}

// fraction gives the budget in the unit of the factor.
func (g Gain) fraction() uncertainty.Budget {
	return uncertainty.Weighted([]float64{0.01}, []uncertainty.Budget{g.Budget})
}

func (g Gain) ratio() ratio {
	return ratio{decimal.NewFromFloat(g.Factor), decimal.NewFromInt(1)}
}

// FromLegs turns the gains of the legs into settings, and judges them on all
// periods, none of which they were found on. ok is false if no leg was checked
// or a factor is outside 0.01 to 100.
func FromLegs(in Legs) (c Correction, ok bool) {
	for _, l := range in.Legs {
		if l.Given && !usable(l.Gain.Factor) {
			return c, false
		}
		ok = ok || l.Given
	}
	if !ok || !usable(in.Overall.Factor) {
		return c, false
	}
	accuracy, unseen := in.Accuracy, 0.0
	if !in.IsWhole {
		accuracy, unseen = "", in.Stated
	}
	groups, err := grouped(in.Periods, accuracy)
	if err != nil {
		return c, false
	}
	c.Basis = FromChecks
	c.finish(in.Overall.ratio(), in.Overall.fraction(), in.Confidence)
	c.setLegs(in)
	for _, g := range groups {
		j := g.judged(c.bySettings(in.Legs))
		j.hold(byFactor(g.totals, c.Factor, c.Budget), g, in.Confidence)
		c.Judged = append(c.Judged, j)
	}
	c.sortJudged()
	c.correctDays(in.History, in.Overall.ratio(), unseen, in.Confidence)
	c.noticeLarge(in.Setting.Path)
	c.Words, c.How = c.wordsOfChecks(in.IsWhole), c.how()
	return c, true
}

// setLegs gives each checked leg its setting, and then the overall one.
func (c *Correction) setLegs(in Legs) {
	for _, l := range in.Legs {
		if l.Given {
			expanded, _ := l.Gain.fraction().Expanded(in.Confidence)
			c.set(l.Name, l.Setting, l.Gain.ratio(), expanded)
		}
	}
	c.set("", in.Setting, in.Overall.ratio(), c.Expanded)
}

// bySettings is what the rounded settings of the legs multiply the home's
// energy with, a leg that was not checked being left as it is. If the legs have
// no shares it is what the overall setting does.
func (c *Correction) bySettings(legs []Leg) float64 {
	settings := slices.Clone(c.Settings)
	factor, shares := 0.0, 0.0
	for _, l := range legs {
		by := 1.0
		if l.Given {
			by, settings = settings[0].Rounded, settings[1:]
		}
		factor += l.Share * by
		shares += l.Share
	}
	if !(shares > 0) {
		return settings[0].Rounded
	}
	return factor / shares
}
