package view

import (
	"strconv"
	"strings"

	"splittally/calc"
	"splittally/calc/say"
)

// together tells what all bills of an instrument come to, and its line over
// them.
func (s *sheet) together() piece {
	var out []piece
	for i, inst := range s.f.Instruments {
		if inst.IsPooled {
			out = append(out, pooled(i, inst))
		}
		if line := s.lineOver(i, inst); !isEmpty(line) {
			out = append(out, line)
		}
	}
	return headed("All bills together", out)
}

func pooled(i int, inst calc.Instrument) piece {
	list := []fact{
		{"Monitor, all billed days", kWh(amount(inst.Pooled.Total.Indicated.Energy))},
		{"Meter, all bills", kWh(amount(inst.Pooled.Total.Reference.Energy))},
		{"Error of the sums", say.Error(inst.Pooled.Total)},
	}
	if m := inst.Pooled.Mean; m.Known {
		list = append(list, fact{"Mean error, each bill by how well it is known", say.Percentage(m.Value, m.Expanded)})
	}
	parts := []piece{para(inkText(i), inst.Name), facts(list...)}
	for _, said := range []string{say.Consistency(inst.Pooled), say.Drift(inst.Pooled)} {
		if said != "" {
			parts = append(parts, prose(said))
		}
	}
	return join(parts...)
}

// notices lists what was assumed and what stands out. Their numbers stand where
// they belong in the table above.
func (s *sheet) notices() piece {
	if len(s.f.Notices) == 0 {
		return none
	}
	items := each(len(s.f.Notices), func(i int) piece {
		n := s.f.Notices[i]
		said := n.Text
		if where := s.noticeWhere(n.Path); where != "" && !strings.HasPrefix(said, "Bill ") {
			said = where + ": " + said
		}
		return el("li", text(said))
	})
	return join(el("h3", text("Notes on the figures")), el("ol", class("notes"), items))
}

// noticeWhere names the monitor or bill of a notice.
func (s *sheet) noticeWhere(path string) string {
	for i := range s.f.Periods {
		if strings.HasPrefix(path+".", "periods."+strconv.Itoa(i)+".") {
			return capital(s.bill(i))
		}
	}
	for i := range s.f.Plans {
		if strings.HasPrefix(path+".", "plans."+strconv.Itoa(i)+".") {
			return s.planName(i)
		}
	}
	for i := range s.f.Timing.Runs {
		if strings.HasPrefix(path+".", "timing.runs."+strconv.Itoa(i)+".") {
			return "Run " + strconv.Itoa(i+1)
		}
	}
	for i, r := range s.f.Readings {
		if strings.HasPrefix(path, "monitors."+strconv.Itoa(i)+".") && r.First < len(s.f.Instruments) && r.Columns > 0 {
			if r.Columns == 1 {
				return s.f.Instruments[r.First].Name
			}
			return "Monitor " + strconv.Itoa(i+1)
		}
	}
	return ""
}

// footnotes gives the numbers of the notices about something.
func (s *sheet) footnotes(prefix string) piece {
	numbers := ""
	for i, n := range s.f.Notices {
		if strings.HasPrefix(n.Path, prefix) {
			numbers += " " + strconv.Itoa(i+1)
		}
	}
	if numbers == "" {
		return none
	}
	return el("sup", el("span", class("unseen"), text(" see note")), text(numbers))
}
