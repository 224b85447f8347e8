package view

import (
	"cmp"
	"strconv"
	"strings"

	"splittally/calc/tariff"
)

// unknowns offers at each bill which price of the household's tariff can be
// found: the options of a select, whose values are those of billing.Period.Solve.
func (s *sheet) unknowns() {
	var rows []tariff.Row
	if len(s.c.Plans) > 0 {
		rows = s.c.Plans[0].Rows
	}
	if s.f.Plan.Given && (len(s.f.Plans) == 0 || !s.f.Plans[0].Tariff.Given) {
		simple, _ := s.f.Plan.Schedule()
		rows = simple.Rows
	}
	options := join()
	for i, r := range rows {
		options = join(options, pricesOf("row."+strconv.Itoa(i), i, r))
	}
	for i := range s.c.Periods {
		s.put("periods."+strconv.Itoa(i)+".unknowns", options)
	}
}

// pricesOf gives the options of a row: one, or one for each of its tiers or
// times of use.
func pricesOf(value string, i int, r tariff.Row) piece {
	name := cmp.Or(strings.TrimSpace(r.Name), "row "+strconv.Itoa(i+1))
	var list []piece
	offer := func(k int, label string) {
		list = append(list, el("option", attr("value", value+"."+strconv.Itoa(k)), text(name+", "+label)))
	}
	switch tariff.Kind(r.Kind) {
	case "", tariff.Netting:
	case tariff.Tiers:
		for k, tier := range r.Steps {
			if tier != (tariff.Step{}) {
				offer(k, "tier "+strconv.Itoa(k+1))
			}
		}
	case tariff.Times:
		for k, b := range r.Bands {
			if b != (tariff.Band{}) {
				offer(k, cmp.Or(strings.TrimSpace(b.Name), "period "+strconv.Itoa(k+1)))
			}
		}
	default:
		return el("option", attr("value", value), text(name))
	}
	return join(list...)
}
