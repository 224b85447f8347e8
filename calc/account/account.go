// Package account sets the printed bill beside the one that a tariff gives, and
// says what a disagreement is worth, what the running period will come to, and
// whether another tariff would have been cheaper.
//
// The step before is a tariff that was read and the energy of each period; the
// step after shows the lines. Everything here is money by decimal.Decimal; the
// uncertainties of money are floats, since they begin as such.
package account

import (
	"github.com/shopspring/decimal"

	"splittally/calc/billing"
	"splittally/calc/calendar"
	"splittally/calc/remark"
	"splittally/calc/tariff"
)

// Bill is what is known of one bill for Rebuild.
type Bill struct {
	Path    string // in the case, such as "periods.0"
	Usage   tariff.Usage
	Printed []billing.Line // as typed
	Total   string         // the printed total as typed
	// Solve names what to find, so that the printed amount comes out: "loss-factor",
	// or "row.3" for the price of that row of the schedule; "" nothing.
	Solve     string
	Estimated bool // an end rests on an estimated read
	// Schedule and Options are what the tariff was built from. Reasons and
	// unknowns are tried by changing them; without rows only those are tried
	// that need none.
	Schedule tariff.Schedule
	Options  tariff.Options
}

// Account is one bill, printed and rebuilt.
type Account struct {
	Period int // index in the case
	tariff.Priced
	Pairs []Pair
	// Total is the printed total and Off how much more is printed than comes
	// out, if HasTotal: if it was typed, or every line was.
	Total, Off decimal.Decimal
	HasTotal   bool
	Solved     Solved
	Problems   []remark.Problem
	Questions  []remark.Question
	Words      []string
}

// Pair is a printed line beside the computed one. Either may be missing.
type Pair struct {
	Name                 string
	Printed, Computed    decimal.Decimal
	HasPrinted           bool
	At                   int             // index in Bill.Printed, -1 if none is
	Typed                string          // the printed amount as typed; unreadable if there is no HasPrinted
	Line                 int             // index in Priced.Lines, -1 if none is
	Lines                []int           // all of them, where one printed line stands for several
	Off                  decimal.Decimal // printed less computed, if both are
	Reason               string          // why they differ, where something fits: one sentence
	IsExplained, IsEqual bool
}

// Solved is the value of one unknown that makes the printed amount come out.
type Solved struct {
	Asked, Found bool
	What         string // in words
	Value        decimal.Decimal
	Low, High    decimal.Decimal // all values between give the same printed amount
	Words        string
}

// Worth is what a disagreement costs.
type Worth struct {
	Indicated  tariff.Priced   // the bill by the instrument; of several periods the total alone
	Reference  tariff.Priced   // the bill by the meter
	Difference decimal.Decimal // by the instrument less by the meter, both rounded as bills are
	Marginal   decimal.Decimal // price of one kWh more in that period, with taxes
	Energy     decimal.Decimal // the disagreement in kWh
	Value      float64         // Energy at the marginal price, exact
	Expanded   float64         // of Value, from the uncertainty of the comparison
	PerYear    float64         // Value of all periods, for 365.25 days
	YearDoubt  float64         // expanded
	// IsAcross says that a tier or minimum ends between the two energies, so
	// that Value is the difference of the bills before rounding.
	IsAcross bool
}

// Running is a period that has begun and is not billed yet.
type Running struct {
	Period  int
	Span    calendar.Span // to the day on which it is expected to end
	Through calendar.Day  // the last day with a reading
	ToDate  tariff.Priced
	// Projected is the bill at the end if use goes on as it did; Low and High
	// hold its total with the confidence of the case.
	Projected   tariff.Priced
	EnergySoFar decimal.Decimal
	Energy      decimal.Decimal // projected, kWh
	EnergyDoubt float64         // expanded, kWh
	Low, High   decimal.Decimal
	Next        Next
	Left        int // days still to come
	Like        int // measured days that the projection rests on; below 5 nothing is projected
	Words       []string
}

// Next is the tier that is reached next.
type Next struct {
	Known bool
	Name  string
	Day   calendar.Day
}

// Choice is one tariff priced on the same energy as the others.
type Choice struct {
	Plan      int // index in the case
	Name      string
	Total     decimal.Decimal // over all periods
	PerYear   decimal.Decimal
	More      decimal.Decimal // a year, than the cheapest
	IsAssumed bool
	Least     decimal.Decimal // a year, if IsAssumed: what it may come to
	Most      decimal.Decimal
	// IsPartial says that a row of it was left out or could not be priced.
	IsPartial bool
	// IsApart says that it is in another currency than the first, so that it
	// can't be ranked; More is 0 then.
	IsApart bool
	Words   []string // assumptions, break-even
}
