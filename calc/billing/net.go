package billing

import (
	"splittally/calc/number"
	"splittally/calc/remark"
)

// isNet settles what a bill of 0 kWh is. Where the person gives energy that was
// produced or exported it is net of the credits for that; else it is asked, and
// meanwhile taken for a slip: who types 0.5 types a 0 first.
func (s *sheet) isNet(b *bill) bool {
	b.says.Zero = true
	switch {
	case isPositive(b.typed.Produced) || isPositive(b.typed.Exported):
		b.says.Net = true
		s.notice(b, "kwh", "bill-net", b.capitalName()+" charges 0 kWh. It is taken as net of credits for the energy that was produced or exported, so there is no percentage error.")
	default:
		b.says.Net = s.ask(remark.Question{
			ID:   s.field(b, "net"),
			Path: s.field(b, "kwh"),
			Asks: "Does " + b.name() + " charge 0 kWh because credits for generation were taken off?",
			Why:  "A home that is connected uses more than nothing. A bill may be net of what its panels fed in, or of its share of panels elsewhere.",
			Choices: []remark.Choice{
				{ID: "net", Label: "Yes, it is net of credits", Gives: "0 kWh charged, and no percentage error"},
				{ID: "slip", Label: "No, the figure is mistyped", Gives: "no billed energy"},
			},
		}, "slip") == "net"
	}
	return b.says.Net
}

// isPositive says that a text is an energy above 0, however it may be meant.
func isPositive(text string) bool {
	if number.IsBlank(text) {
		return false
	}
	ways := quantities(text)
	return len(ways) > 0 && ways[0].value.IsPositive()
}
