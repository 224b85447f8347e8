package billing

import (
	"splittally/calc/energy"
	"splittally/calc/number"
)

// Beside is an energy that the bill's own comparison leaves alone but that may
// explain it. It may be 0.
type Beside struct {
	Given      bool
	Energy     energy.Energy
	Resolution energy.Energy // one step of the last digit as typed
}

// readBeside reads the energies that are typed beside a bill.
func (s *sheet) readBeside() {
	for i := range s.bills {
		b := &s.bills[i]
		b.says.Apart = s.beside(b, "apart", b.typed.Apart)
		b.says.Produced = s.beside(b, "produced", b.typed.Produced)
		b.says.Exported = s.beside(b, "exported", b.typed.Exported)
	}
}

func (s *sheet) beside(b *bill, field, typed string) Beside {
	if number.IsBlank(typed) {
		return Beside{}
	}
	ways := quantities(typed)
	if len(ways) == 0 || ways[0].value.IsNegative() {
		s.problem(b, field, typed, "an energy of 0 or more, such as 38.5 kWh")
		return Beside{}
	}
	q := s.choose(b, doubt{
		field: field, what: "energy", typed: typed, ways: ways,
		odd:   func(q quantity) float64 { return oddness(b.perDay(q.value)) },
		gives: func(q quantity) string { return q.value.String() + " kWh" },
	})
	return Beside{Given: true, Energy: roundedEnergy(q.value), Resolution: roundedEnergy(q.step)}
}
