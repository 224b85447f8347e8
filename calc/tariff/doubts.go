package tariff

import (
	"strconv"

	"splittally/calc/calendar"
	"splittally/calc/remark"
)

// prices says whether a row is for energy drawn, by the kWh.
func (r *row) prices() bool { return r.kind == Energy || r.kind == Tiers || r.kind == Times }

// doubts tells of rows that can be read but hardly say what was meant.
func (b *builder) doubts() {
	for i, r := range b.tariff.rows {
		if r.on != nil && len(r.on) == 0 {
			b.notice(field(r.index, "on"), "counts-nothing", "“"+r.name+"” counts rows above it, and there is none that it could count.")
		}
		b.hidden(r)
		for k, s := range b.tariff.rows {
			if k != i && r.prices() && s.prices() {
				b.overlap(r, s)
			}
		}
	}
}

// hidden tells of time-of-use periods that never come.
func (b *builder) hidden(r *row) {
	seen := make([]bool, len(r.bands))
	for _, f := range r.clocks {
		for line, n := range f.minutes {
			seen[line] = seen[line] || n > 0
		}
	}
	for i, band := range r.bands {
		if band.line == i && !seen[i] {
			b.notice(field(r.index, "bands"), "never-comes", "The time-of-use period “"+band.name+"” never comes: those before it have all its hours. The first that holds an hour has it.")
		}
	}
}

// overlap tells of a day on which one price ends and another begins.
func (b *builder) overlap(r, s *row) {
	text := ""
	switch {
	case r.until == s.since:
		text = r.until.Long()
	case r.season.to != 0 && r.season.to == s.season.from:
		day, _ := calendar.Date(2000, int(r.season.to)/100, int(r.season.to)%100)
		text = day.Short()
	default:
		return
	}
	b.notice("rows."+strconv.Itoa(s.index), "both-hold", "On "+text+" both “"+r.name+"” and “"+s.name+"” hold, so energy of that day is priced by both.")
}

// unpriced tells of days on which energy was drawn and no row has a price for it.
func (p *pricing) unpriced(drawn []sum) (list []remark.Notice) {
	days, first := 0, calendar.Day(0)
	for i := range drawn {
		if p.isPriced(i) || drawn[i].kWh().Sign() == 0 {
			continue
		}
		if days++; days == 1 {
			first = p.u.Span.First + calendar.Day(i)
		}
	}
	if days == 0 {
		return nil
	}
	text := "No row has a price for the energy of " + first.Long() + "."
	if days > 1 {
		text = "No row has a price for the energy of " + strconv.Itoa(days) + " days, the first of them " + first.Long() + "."
	}
	return []remark.Notice{{Code: "unpriced-days", Path: p.t.path + ".rows", Text: text}}
}

func (p *pricing) isPriced(day int) bool {
	for i, r := range p.t.rows {
		if r.prices() && p.rows[i].on[day] {
			return true
		}
	}
	return false
}
