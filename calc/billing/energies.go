package billing

import (
	"github.com/shopspring/decimal"

	"splittally/calc/energy"
	"splittally/calc/number"
)

// readEnergies finds the billed and the metered energy of every period.
func (s *sheet) readEnergies() {
	for i := range s.bills {
		b := &s.bills[i]
		s.readLossFactor(b)
		printed, given := s.printedEnergy(b)
		var billed *decimal.Decimal
		if given {
			billed = &printed.value
		}
		reads := s.registerReads(b, billed)
		switch {
		case given:
			s.fromPrinted(b, printed, reads)
		case reads.ok:
			s.fromReads(b, reads)
		default:
			b.lacksEnergy()
		}
		if b.metered {
			s.judgeUse(b)
		}
	}
}

// printedEnergy reads the billed energy in kWh.
func (s *sheet) printedEnergy(b *bill) (quantity, bool) {
	if number.IsBlank(b.typed.KWh) {
		return quantity{}, false
	}
	ways := quantities(b.typed.KWh)
	if len(ways) == 0 {
		s.problem(b, "kwh", b.typed.KWh, "an energy, such as 412 or 412.5 kWh")
		return quantity{}, false
	}
	q := s.choose(b, doubt{
		field: "kwh", what: "billed energy", typed: b.typed.KWh, ways: ways,
		odd: func(q quantity) float64 { return oddness(b.perDay(q.value)) },
		gives: func(q quantity) string {
			return q.value.String() + " kWh, " + decimal.NewFromFloat(b.perDay(q.value)).StringFixed(2) + " kWh a day"
		},
	})
	if q.value.IsZero() {
		return q, s.isNet(b)
	}
	_, ok := s.toEnergy(b, "kwh", b.typed.KWh, q.value)
	return q, ok
}

// fromReads rests the statement on the two reads alone. A register counts what
// went through the meter, so no losses are in it.
func (s *sheet) fromReads(b *bill, r registered) {
	e, ok := s.toEnergy(b, "present", b.typed.Present, r.kWh)
	if !ok {
		b.lacks("a present read above the previous one")
		return
	}
	b.says.FromReads, b.says.Resolution = true, roundedEnergy(r.step)
	s.setEnergies(b, e, e)
}

// fromPrinted rests the statement on the printed energy. Reads beside it check
// it, show whether it holds the losses, and take its place as the metered
// energy if they agree with it and show as many decimals.
func (s *sheet) fromPrinted(b *bill, printed quantity, r registered) {
	billed := roundedEnergy(printed.value)
	b.says.Resolution = roundedEnergy(printed.step)
	if b.says.Net { // whatever the register counted
		s.setEnergies(b, 0, 0)
		return
	}
	metered := s.withoutLosses(b, printed, r)
	if r.ok {
		if difference := metered.Sub(r.kWh).Abs(); difference.GreaterThan(tolerance(printed, r)) {
			s.notice(b, "present", "reads-differ", "The two reads give "+r.kWh.String()+" kWh, the bill "+metered.Round(printed.places+1).String()+
				" kWh of metered energy: "+difference.Round(printed.places+1).String()+" kWh apart. The results rest on the billed energy.")
		} else if r.step.LessThanOrEqual(printed.step) {
			b.says.FromReads, b.says.Resolution = true, roundedEnergy(r.step)
			metered = r.kWh
		}
	}
	reference, ok := s.toEnergy(b, "kwh", b.typed.KWh, metered)
	if !ok {
		b.lacks("an energy above 0")
		return
	}
	s.setEnergies(b, billed, reference)
}

// tolerance is how far the printed energy and the difference of the reads may
// be apart by their last digits alone: the register cuts both reads off within
// a step, the bill rounds.
func tolerance(printed quantity, r registered) decimal.Decimal {
	return r.step.Add(printed.step.Mul(decimal.New(5, -1)))
}

func (s *sheet) setEnergies(b *bill, billed, reference energy.Energy) {
	b.metered = true
	b.says.Billed, b.says.Reference = billed, reference
	b.says.Adjusted = roundedEnergy(reference.Decimal().Mul(b.says.LossFactor))
}

func (b *bill) lacksEnergy() {
	switch {
	case b.says.Zero:
		b.lacks("it is not said whether the 0 kWh are net of credits")
	case !number.IsBlank(b.typed.KWh):
		b.lacks("the billed energy can't be used")
	case number.IsBlank(b.typed.Previous) && number.IsBlank(b.typed.Present):
		b.lacks("the billed kWh, or both register reads, are missing")
	case number.IsBlank(b.typed.Previous):
		b.lacks("the previous read is missing")
	case number.IsBlank(b.typed.Present):
		b.lacks("the present read is missing")
	default:
		b.lacks("the register reads can't be used")
	}
}

// judgeUse points out what no home is likely to use.
func (s *sheet) judgeUse(b *bill) {
	if !b.says.Dated {
		return
	}
	if perDay := b.perDay(b.says.Reference.Decimal()); perDay > mostPerDay {
		field := "kwh"
		if number.IsBlank(b.typed.KWh) {
			field = "present"
		}
		s.notice(b, field, "use-implausible", "That is "+decimal.NewFromFloat(perDay).StringFixed(0)+
			" kWh a day, more than a home is likely to use. Is it in kWh, and is the multiplier right?")
	}
}
