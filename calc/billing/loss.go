package billing

import (
	"strconv"
	"strings"

	"github.com/shopspring/decimal"

	"splittally/calc/number"
	"splittally/calc/remark"
)

// lossPlaces is how many decimals of a kilowatt-hour the division by a loss
// factor is carried to: finer than an Energy.
const lossPlaces = 12

var (
	one         = decimal.NewFromInt(1)
	mostLoss    = decimal.NewFromInt(25) // percent
	mostFactor  = decimal.New(115, -2)
	mostPortion = decimal.New(2, -1)
)

// readLossFactor reads the loss factor. Distribution losses are some percent,
// so 3.76 is a percentage, 1.0376 (two decimals or more, below 1.15) the factor
// itself and 0.0376 a portion. What is not taken for percent is said; a percent
// sign settles it.
func (s *sheet) readLossFactor(b *bill) {
	text := number.Trim(b.typed.LossFactor)
	if text == "" {
		return
	}
	plain, percent := strings.CutSuffix(text, "%")
	ways := number.Readings(plain)
	if len(ways) == 0 || ways[0].Value.IsNegative() || ways[0].Value.GreaterThan(mostLoss) {
		s.problem(b, "loss-factor", b.typed.LossFactor, "the losses in percent from 0 to 25, such as 3.76, or a factor such as 1.0376")
		return
	}
	v := ways[0].Value
	said := ""
	switch {
	case percent:
		b.says.LossFactor = one.Add(v.Shift(-2))
		return
	case v.GreaterThan(one) && v.LessThan(mostFactor) && ways[0].Places >= 2:
		b.says.LossFactor = v
		said = "a factor, losses of " + v.Sub(one).Shift(2).String() + " %"
	case v.IsPositive() && v.LessThan(mostPortion):
		b.says.LossFactor = one.Add(v)
		said = "a portion, losses of " + v.Shift(2).String() + " %"
	default:
		b.says.LossFactor = one.Add(v.Shift(-2))
		return
	}
	s.notice(b, "loss-factor", "loss-factor-read", "The loss factor “"+text+"” is read as "+said+". Write a percent sign behind it to have it read as percent.")
}

// withoutLosses gives the metered energy in kWh behind the printed one: the
// printed one divided by the loss factor if that is in it. Where the person
// has not said, the reads tell, or else it is asked.
func (s *sheet) withoutLosses(b *bill, printed quantity, r registered) decimal.Decimal {
	said, given := yesNo(b.typed.LossIncluded)
	if !given && !number.IsBlank(b.typed.LossIncluded) {
		s.problem(b, "loss-included", b.typed.LossIncluded, "yes or no")
	}
	if number.IsBlank(b.typed.LossFactor) && said {
		s.notice(b, "loss-factor", "loss-factor-missing", "The billed energy is said to include losses, but no loss factor is given. It is compared as it stands, and so is higher than what the meter registered.")
	}
	if b.says.LossFactor.Equal(one) {
		return printed.value
	}
	without := printed.value.DivRound(b.says.LossFactor, lossPlaces)
	if !given && r.ok {
		t := tolerance(printed, r)
		plain := printed.value.Sub(r.kWh).Abs().LessThanOrEqual(t)
		adjusted := without.Sub(r.kWh).Abs().LessThanOrEqual(t)
		if given = plain != adjusted; given {
			said = adjusted
			s.notice(b, "loss-included", "loss-shown", "The billed energy "+holds(said)+", as the two reads show.")
		}
	}
	if !given {
		said = s.askLosses(b, printed, without)
	}
	if b.says.LossIncluded = said; said {
		return without
	}
	return printed.value
}

func holds(losses bool) string {
	if losses {
		return "includes the losses"
	}
	return "does not include the losses"
}

// askLosses asks whether the printed energy holds the losses. The provisional
// answer is what another bill says, or else no: most bills print the metered
// energy and adjust it further down. (Common practice, no source.)
func (s *sheet) askLosses(b *bill, printed quantity, without decimal.Decimal) bool {
	provisional := "no"
	for i := range s.bills {
		if said, given := yesNo(s.bills[i].typed.LossIncluded); given && said {
			provisional = "yes"
		}
	}
	return s.ask(remark.Question{
		ID:   s.field(b, "loss-included"),
		Path: s.field(b, "loss-included"),
		Asks: "Does the billed energy of " + b.name() + " already include the losses?",
		Why:  "A loss factor is given. A monitor in the home sees the energy without the losses of the lines outside.",
		Choices: []remark.Choice{
			{ID: "no", Label: "No, it is the metered energy", Gives: "metered " + printed.value.String() + " kWh"},
			{ID: "yes", Label: "Yes, it is the adjusted energy", Gives: "metered " + without.Round(printed.places+2).String() + " kWh"},
		},
	}, provisional) == "yes"
}

// yesNo reads a yes-or-no field; given is false if it is neither.
func yesNo(text string) (yes, given bool) {
	switch strings.ToLower(number.Trim(text)) {
	case "yes", "y", "true", "on":
		return true, true
	case "no", "n", "false", "off":
		return false, true
	}
	yes, err := strconv.ParseBool(strings.TrimSpace(text))
	return yes, err == nil
}
