package compare

import (
	"math"

	"github.com/shopspring/decimal"

	"splittally/calc/energy"
	"splittally/calc/uncertainty"
)

// Amount is what one side says of a period: an energy and what could be wrong
// with it.
type Amount struct {
	Energy energy.Energy
	// Missing says that there is no amount at all: no reading, no bill.
	Missing bool
	// Budget has its contributions in kWh. Give a cause the same Source in every
	// amount that it touches: both sides, and all periods. An instrument's own
	// accuracy is one source in every period; a read that ends one period and
	// begins the next is one source, with a sensitivity of +1 and then −1.
	Budget uncertainty.Budget
	// EstimatedReads names the reads at the ends of the period that were
	// estimated and not taken. The read between two periods has one name in
	// both, so that it drops out of their sum.
	EstimatedReads []string
}

// Add puts a cause into the budget. Its sensitivity is kWh of this amount per
// unit of the cause; 0 is read as 1.
func (a *Amount) Add(p uncertainty.Part) {
	a.Budget = append(a.Budget, uncertainty.Evaluate(p))
}

// AddOfReading puts a cause into the budget whose half-width is a percentage of
// the amount, such as a stated accuracy of 1 %. It sets unit and sensitivity.
func (a *Amount) AddOfReading(p uncertainty.Part) {
	p.Unit, p.Sensitivity = "%", a.Energy.KilowattHours()/100
	if a.Energy == 0 {
		p.HalfWidth, p.Sensitivity = 0, 1 // a percentage of nothing
	}
	a.Add(p)
}

// Comparison is the percentage error of one instrument against another, with
// its uncertainty and a verdict. Uncertainties are in percentage points, as the
// error is. If Verdict is Nothing all figures are zero.
type Comparison struct {
	Indicated, Reference Amount // as they were given

	Percent      decimal.Decimal     // 100·(W−R)/R, to Places decimals
	Registration decimal.Decimal     // 100·W/R, to Places decimals
	WrongBase    decimal.NullDecimal // 100·(W−R)/W, to Places decimals; not valid if W is not above zero

	// Budget has one part for each source. An indicated part of x kWh
	// contributes 100/R·x, a reference part −100·W/R²·x.
	Budget     uncertainty.Budget
	Standard   float64 // combined standard uncertainty
	DoF        float64 // its effective degrees of freedom, +Inf if nothing was estimated from data
	Confidence float64 // a fraction, as it was given
	Coverage   float64 // k
	Expanded   float64 // U = k·u; 0 if the budget is empty, +Inf if a part is without limit
	En         float64 // error/U; ±Inf if U is 0 and the error is not
	Promise    float64 // the expanded uncertainty from the instruments' promises alone; 0 if none is stated

	Verdict Verdict
	Why     Reason
	Narrow  Narrow // zero if nothing that can be done would narrow the interval
}

// Narrow is the one thing that would narrow the interval most.
type Narrow struct {
	Part     uncertainty.Part // the merged source in the budget; Remedy says what to do
	Expanded float64          // U without it
	Then     Verdict          // the verdict without it, if the error stayed as it is
}

// Judge compares what was indicated with the reference at the confidence, a
// fraction such as 0.95.
func Judge(indicated, reference Amount, confidence float64) Comparison {
	c := Comparison{Indicated: indicated, Reference: reference, Confidence: confidence}
	if c.Verdict, c.Why = comparable(indicated, reference); c.Verdict == Nothing {
		return c
	}
	// The errors of these three are what comparable has looked for.
	w, r := indicated.Energy, reference.Energy
	c.Percent, _ = PercentError(w, r, Places)
	c.Registration, _ = Registration(w, r, Places)
	wrong, err := WrongBase(w, r, Places)
	c.WrongBase = decimal.NullDecimal{Decimal: wrong, Valid: err == nil}

	c.Budget = percentBudget(indicated, reference)
	c.Standard, c.DoF = c.Budget.Combined()
	c.Expanded, c.Coverage = c.Budget.Expanded(confidence)
	c.En = normalized(c.percentError(), c.Expanded)
	promises := c.Budget.Only(func(p uncertainty.Part) bool { return p.Promise })
	c.Promise, _ = promises.Expanded(confidence)

	c.Verdict, c.Why = c.judge(c.Expanded)
	c.Narrow = c.narrow()
	return c
}

// percentBudget turns the two budgets in kWh into that of the percentage
// error: ∂e/∂W = 100/R and ∂e/∂R = −100·W/R².
func percentBudget(indicated, reference Amount) uncertainty.Budget {
	w, r := indicated.Energy.KilowattHours(), reference.Energy.KilowattHours()
	return uncertainty.Weighted(
		[]float64{100 / r, -100 * w / r / r},
		[]uncertainty.Budget{indicated.Budget, reference.Budget})
}

// percentError leaves the exact world: the error as a float.
func (c *Comparison) percentError() float64 { return c.Percent.InexactFloat64() }

// normalized is E_n = error/U.
func normalized(e, expanded float64) float64 {
	if e == 0 {
		return 0
	}
	return e / expanded
}

// narrow finds the reducible source without which U is smallest.
func (c *Comparison) narrow() Narrow {
	best, found := Narrow{Expanded: c.Expanded}, false
	for i, p := range c.Budget {
		if !p.Reducible {
			continue
		}
		rest := append(append(uncertainty.Budget{}, c.Budget[:i]...), c.Budget[i+1:]...)
		without, _ := rest.Expanded(c.Confidence)
		// A source without limit is worth mending even while another has none.
		if without < best.Expanded || (!found && math.IsInf(p.Standard, 0)) {
			best, found = Narrow{Part: p, Expanded: without}, true
		}
	}
	if found {
		best.Then, _ = c.judge(best.Expanded)
		return best
	}
	return Narrow{}
}
