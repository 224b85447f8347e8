package tariff

// Tariff gives the plan as a tariff of up to three rows, so that all is priced
// in one way. The rows are named as Bill names its lines.
func (p Plan) Tariff() Tariff {
	if !p.Given {
		return Tariff{Waits: p.Waits, Currency: p.Currency}
	}
	s := Schedule{Rows: []Row{{Kind: string(Energy), Name: "Energy", Price: p.Price.String()}}}
	if p.HasFixed {
		s.Rows = append(s.Rows, Row{Kind: string(Fixed), Name: "Fixed charge", Price: p.Fixed.String(), Per: "period"})
	}
	if p.HasTax {
		s.Rows = append(s.Rows, Row{Kind: string(Tax), Name: "Tax", Price: p.Tax.String() + " %"})
	}
	// The price was settled when the plan was read: it is in units of money.
	b := &builder{sheet: sheet{path: "tariff", answers: map[string]string{"tariff.price-unit": "units"}}, in: s}
	b.tariff = Tariff{Currency: p.Currency, path: "tariff"}
	b.frame()
	for i := range s.Rows {
		if r := b.row(i); r != nil {
			b.tariff.rows = append(b.tariff.rows, r)
		}
	}
	b.settleBare()
	b.finish()
	return b.tariff
}
