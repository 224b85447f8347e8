// Package tariff prices energy: prices per kilowatt-hour that may change with the
// energy used, the hour and the season, charges, discounts and taxes, exact to the
// currency's smallest coin.
//
// The step before reads a person's texts; the step after shows what the
// difference between two instruments is worth. A simple tariff of one price is read
// as a Flat; the rules of a whole one stand at the head of schedule.go.
package tariff

import (
	"github.com/shopspring/decimal"

	"splittally/calc/number"
	"splittally/calc/remark"
)

// Flat is a tariff of one price, every field the text as typed; "" is not given.
type Flat struct {
	PerKWh   string // price of a kilowatt-hour: 0.14, $0.14, 14 ¢, 24.5p/kWh
	Fixed    string // charge per billing period, the same forms
	Tax      string // percent on the sum of the other lines
	Currency string // ISO 4217 code such as USD; plain numbers if not given
}

// Options say where the tariff stands in the case, and what was answered.
type Options struct {
	Path    string            // "tariff" if empty
	Answers map[string]string // question ID to choice ID
}

// Plan is a Flat as far as it could be read.
type Plan struct {
	// Given says that a price is known. While it is false, Waits says in words
	// what is missing.
	Given bool
	Waits string

	Price    decimal.Decimal // money per kWh
	Fixed    decimal.Decimal // money per billing period; 0 if none
	Tax      decimal.Decimal // percent; 0 if none
	HasFixed bool
	HasTax   bool
	Currency Currency
}

// Result is a Plan and what is to be said about it.
type Result struct {
	Plan      Plan
	Problems  []remark.Problem
	Questions []remark.Question
	Notices   []remark.Notice
}

// sheet is the reading of one tariff.
type sheet struct {
	path    string
	answers map[string]string
	out     Result
}

// Read reads a tariff.
func Read(f Flat, o Options) Result {
	if o.Path == "" {
		o.Path = "tariff"
	}
	s := &sheet{path: o.Path, answers: o.Answers}
	s.readCurrency(f.Currency, f.PerKWh, f.Fixed)
	plan := &s.out.Plan
	if price, ok := s.money("per-kwh", f.PerKWh, "a price per kWh, such as 0.14 or 14 ¢", "kwh"); ok {
		plan.Price, plan.Given = s.plausiblePrice(f.PerKWh, price), true
	}
	if fixed, ok := s.money("fixed", f.Fixed, "a charge for a whole billing period, such as 7.50", "period", "month"); ok {
		plan.Fixed, plan.HasFixed = fixed.value, true
	}
	if tax, ok := s.percent("tax", f.Tax, "tax"); ok {
		plan.Tax, plan.HasTax = tax, true
	}
	if !plan.Given {
		plan.Waits = "the price per kWh can’t be used"
		if number.IsBlank(f.PerKWh) {
			plan.Waits = "the price per kWh is missing"
		}
	}
	return s.out
}

func (s *sheet) problem(field, found, wanted string) {
	s.out.Problems = append(s.out.Problems, remark.Problem{Path: s.path + "." + field, Found: found, Wanted: wanted})
}

func (s *sheet) notice(field, code, text string) {
	s.out.Notices = append(s.out.Notices, remark.Notice{Code: code, Path: s.path + "." + field, Text: text})
}

// ask puts a question about a field and gives the choice that results rest on.
func (s *sheet) ask(field, id string, q remark.Question, provisional string) string {
	q.Path, q.ID = s.path+"."+field, s.path+"."+id
	taken := q.Settle(s.answers, provisional)
	s.out.Questions = append(s.out.Questions, q)
	return taken
}

// number settles a text that can be two numbers, such as 1,234. If nobody has
// said, a count, of kWh or of coins that have no decimals, has the mark between
// the thousands.
func (s *sheet) number(field, typed string, ways []number.Reading, isCount bool) decimal.Decimal {
	if len(ways) == 1 {
		return ways[0].Value
	}
	q := remark.Question{
		Asks: "Is “" + number.Trim(typed) + "” " + ways[0].Value.String() + " or " + ways[1].Value.String() + "?",
		Why:  "The mark can stand for the decimals or between the thousands.",
	}
	value := ways[0].Value
	for _, w := range ways {
		q.Choices = append(q.Choices, remark.Choice{ID: w.Value.String(), Label: w.Value.String(), Gives: w.Value.String()})
		if isCount && w.Value.GreaterThan(value) {
			value = w.Value
		}
	}
	taken := s.ask(field, field, q, value.String())
	for _, w := range ways {
		if w.Value.String() == taken {
			value = w.Value
		}
	}
	return value
}
