package view

import (
	"splittally/calc"
	"splittally/calc/say"
)

// outages tells when each file has no readings, and what that looks like.
func (s *sheet) outages() piece {
	var out []piece
	for i, r := range s.f.Readings {
		name := "Monitor"
		if r.First < len(s.f.Instruments) && r.Columns > 0 {
			name = s.f.Instruments[r.First].Name
		}
		out = append(out, s.silent(r, id("outages", i), name))
	}
	out = append(out, s.silent(s.f.MeterDays, "outages-meter", "The utility’s meter"))
	return join(out...)
}

func (s *sheet) silent(r calc.Readings, at, name string) piece {
	found := r.Outages
	if len(found.Outages) == 0 {
		return none
	}
	heads := []string{"From and to", "Length", "Used meanwhile", "Looks like", "Because"}
	last := ""
	rows := each(len(found.Outages), func(i int) piece {
		o := found.Outages[i]
		why := o.Why // most are short and have the same
		if why != "" && why == last {
			why = "as above"
		}
		last = o.Why
		return tr(text(say.OutageWhen(o)), word(heads[1], say.OutageLength(o)), word(heads[2], tied(say.OutageEnergy(o))),
			word(heads[3], say.OutageKind(o.Kind)), word(heads[4], why))
	})
	return s.folded("more", at, name+": "+say.Outages(found), func() piece {
		left := none
		if found.More > 0 {
			left = prose(say.Counted(found.More, "shorter one is", "shorter ones are") + " not listed, " + say.Lasting(found.MoreLength) + " together.")
		}
		return join(table("wide", "When nothing was read; ± is one standard uncertainty", heads, tbody(rows)), left)
	})
}
