package espi

// tellBills tells the billing periods of electricity that summaries have.
func (r *Reader) tellBills(choice string, result *Result) {
	others := 0
	for i := range r.bills {
		s := &r.bills[i]
		if s.start == 0 && !s.last.has && !s.current.has && !s.hasBill {
			continue
		}
		owners := []string{ownerOf(s.up, "UsageSummary", "ElectricPowerUsageSummary"), ownerOf(s.self, "UsageSummary", "ElectricPowerUsageSummary")}
		point := r.pointFor(&s.place, owners...)
		service := serviceOf(s.commodity)
		if point >= 0 && service < 0 {
			service = r.points[point].service
		}
		if service > electricity || s.last.has && s.last.uom != wattHours {
			others++
			continue
		}
		if b := r.billOf(s, r.clockOf(point), choice); b.Words != "" {
			result.Bills = append(result.Bills, b)
		}
	}
	if others > 0 {
		result.Notices = append(result.Notices, counted(others, "usage summary")+" of something else than electricity left out.")
	}
}

// shortestBill is the shortest time that is believed to be a billing period.
const shortestBill = daySeconds

// billOf puts a summary into words. Its energy and its money are those of the
// last complete period, which is what its dates tell (usage.xsd, UsageSummary).
func (r *Reader) billOf(s *summary, l *localTime, choice string) (b Bill) {
	span := &track{first: s.start, end: s.start + s.length}
	makesSense := s.start > earliest && s.start < latest && s.length >= shortestBill && s.length <= 2*longest
	if !makesSense {
		span = &track{}
	}
	c := r.clockFor(choice, l, span)
	if c == nil {
		c = r.clockFor(ownClock, nil, span)
	}
	b.Currency = currencyName(s.currency)
	if s.last.has {
		b.KWh = fixed(s.last.value, 3-s.last.power)
	}
	if s.hasBill {
		b.Total = money(s.bill)
	}
	when := ", for a period whose dates make no sense"
	if makesSense {
		first, last := dayOf(c.wall(span.first)), dayOf(c.wall(span.end)-1)
		b.From, b.To = first.String(), last.String()
		when = " " + days(first, last)
	}
	b.Words = s.words(b, when)
	return b
}

// words puts a bill into one sentence.
func (s *summary) words(b Bill, when string) string {
	text := ""
	switch {
	case b.KWh != "" && b.Total != "":
		text = "The feed bills " + b.KWh + " kWh" + when + " with " + amountText(b.Total, b.Currency)
	case b.KWh != "":
		text = "The feed tells of " + b.KWh + " kWh" + when
	case b.Total != "":
		text = "The feed bills " + amountText(b.Total, b.Currency) + when
	default:
		return s.currentWords("")
	}
	if s.hasAdditional && s.additional != 0 {
		text += ", of which " + amountText(money(s.additional), b.Currency) + " is for other things than the energy"
	}
	for i := range s.items[:min(len(s.items), maxItems)] {
		it := &s.items[i]
		text += "; " + itemName(it.kind)
		if it.note != "" {
			text += " “" + it.note + "”"
		}
		text += " " + amountText(money(it.amount), b.Currency)
	}
	return s.currentWords(text + ".")
}

// currentWords adds what the running period came to so far.
func (s *summary) currentWords(text string) string {
	if !s.current.has || s.current.uom != wattHours || s.current.value == 0 {
		return text
	}
	if text != "" {
		text += " "
	}
	return text + "The running period had " + fixed(s.current.value, 3-s.current.power) + " kWh so far."
}
