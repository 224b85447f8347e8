package tariff

// Schedule gives the plan as a schedule of up to three rows, and the options to
// build it with: the price was settled when the plan was read, and is in units of
// money.
func (p Plan) Schedule() (Schedule, Options) {
	s := Schedule{Rows: []Row{{Kind: string(Energy), Name: "Energy", Price: p.Price.String()}}}
	if p.HasFixed {
		s.Rows = append(s.Rows, Row{Kind: string(Fixed), Name: "Fixed charge", Price: p.Fixed.String(), Per: "period"})
	}
	if p.HasTax {
		s.Rows = append(s.Rows, Row{Kind: string(Tax), Name: "Tax", Price: p.Tax.String() + " %"})
	}
	return s, Options{Path: "price", Answers: map[string]string{"price.price-unit": "units"}}
}

// Tariff gives the plan as a tariff, so that all is priced in one way.
func (p Plan) Tariff() Tariff {
	if !p.Given {
		return Tariff{Waits: p.Waits, Currency: p.Currency}
	}
	t := Build(p.Schedule()).Tariff
	t.Currency = p.Currency
	t.round.places = p.Currency.Places()
	return t
}
