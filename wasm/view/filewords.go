package view

import (
	"strconv"
	"unicode/utf8"

	"splittally/calc/calendar"
	"splittally/calc/chart/markup"
	"splittally/calc/energy"
	"splittally/calc/interval"
	"splittally/calc/record"
	"splittally/calc/remark"
	"splittally/calc/say"
)

// fileFacts tell the size and span of a record.
func fileFacts(r record.Record) piece {
	list := []fact{{"Readings", say.Readings(r.Source)}}
	if first, last, ok := say.Reaches(r); ok {
		list = append(list, fact{"Days", daysOf(first, last)})
	}
	return facts(append(list, fact{"Clock", r.Source.Zone}, fact{"Without readings", say.Lost(r)})...)
}

// daysOf tells from which day to which, and how many that is.
func daysOf(first, last calendar.Day) string {
	if first == last {
		return first.Long() + ", 1 day"
	}
	return calendar.Span{First: first, End: last + 1}.String() + ", " + strconv.Itoa(int(last-first)+1) + " days"
}

// channels is the table of what each column was taken for. Its roles can be
// changed there once the file itself is gone.
func (f File) channels(k Kept) piece {
	heads := []string{"Column", "Taken as", "Read as", "kWh"}
	rows := each(len(k.Record.Channels), func(i int) piece {
		c := k.Record.Channels[i]
		role := text(say.Role(c.Role))
		if !k.Again {
			role = f.role(i, c.Role)
		}
		role = el("span", role, gives(useWords(k.Record, c.Role)))
		return tr(text(say.Column(c, i)), cell{heads[1], role, ""}, word(heads[2], c.Unit), num(heads[3], k.Totals[i]))
	})
	return table("wide", "What it holds", heads, tbody(rows))
}

// role is a select of what a channel measures.
func (f File) role(i int, taken record.Role) piece {
	options := []piece{
		attr("id", f.ID+"-role-"+strconv.Itoa(i)), attr("data-role", strconv.Itoa(i)),
		attr("aria-label", "What column "+strconv.Itoa(i+1)+" measures"),
	}
	for _, r := range roles {
		options = append(options, el("option", attr("value", string(r)), markup.Is("selected").If(r == taken), text(say.Role(r))))
	}
	return el("select", options...)
}

var roles = [...]record.Role{record.Import, record.Export, record.Production, record.LegA, record.LegB, record.LegC, record.Circuit}

// useWords says what is done with a channel.
func useWords(r record.Record, role record.Role) string {
	switch role {
	case record.Import:
		return "compared with the bills"
	case record.Export, record.Production:
		return "for bills whose own figure of it is blank"
	case record.Circuit:
		return "kept, not compared"
	}
	for _, c := range r.Channels {
		if c.Role == record.Import {
			return "as a part of the whole"
		}
	}
	return "added up, and compared with the bills"
}

// gaps lists the stretches without readings.
func (f File) gaps(r record.Record) piece {
	if len(r.Gaps) == 0 {
		return none
	}
	return f.folded("gaps", "The gaps", func() piece {
		shown := r.Gaps[:min(len(r.Gaps), mostLines)]
		return join(list(len(shown), func(i int) string {
			g := shown[i]
			said := say.WallSpan(g.From, g.To) + ": " + say.Lasting(g.Length)
			if g.Known {
				said += ", " + kWh(amount(g.Energy)) + " by the register"
			}
			return said
		}), more(len(r.Gaps)+r.MoreGaps))
	})
}

// oddities lists what was odd, with the first lines of each kind.
func (f File) oddities(all []record.Oddity) piece {
	if len(all) == 0 {
		return none
	}
	n := 0
	for _, o := range all {
		n += o.Count
	}
	return f.folded("odd", "What was odd: "+say.Thousands(n), func() piece {
		return list(len(all), func(i int) string { return say.RecordOddity(all[i]) })
	})
}

// kindOf follows a file's name.
func kindOf(found interval.Found) string {
	if found.Kind == "" {
		return ""
	}
	return ": " + found.Kind + "."
}

// named gives a file's name, or words for one without.
func named(file string) string {
	if file == "" {
		return "A file of readings"
	}
	return file
}

// problems lists what is wrong, in sentences.
func problems(all []remark.Problem) piece {
	shown := all[:min(len(all), mostLines)]
	items := each(len(shown), func(i int) piece {
		return el("li", text(capital(shown[i].String())+"."))
	})
	if len(all) == 0 {
		return none
	}
	return join(el("ul", class("wrong"), items), more(len(all)))
}

// bullets is a list of sentences.
func bullets(all []string) piece { return list(len(all), func(i int) string { return all[i] }) }

// list gives a list of texts, without those that are empty; none if all are.
func list(n int, say func(i int) string) piece {
	items := each(n, func(i int) piece {
		said := say(i)
		if said == "" {
			return none
		}
		return el("li", text(said))
	})
	if isEmpty(items) {
		return none
	}
	return el("ul", items)
}

// folded is sheet.folded for a part of the file's card.
func (f File) folded(part, summary string, inside func() piece) piece {
	s := sheet{open: f.Open}
	return s.folded("more", f.ID+"-"+part, summary, inside)
}

// preview shows the first readings as they were understood.
func (f File) preview(p interval.Preview) piece {
	if len(p.Rows) == 0 || len(p.Heads) == 0 {
		return none
	}
	rows := each(len(p.Rows), func(i int) piece {
		if len(p.Rows[i]) != len(p.Heads) {
			return none
		}
		return row(p.Heads, text(p.Rows[i][0]), p.Rows[i][1:]...)
	})
	return table(previewKind(p), "The first readings, as understood", p.Heads, tbody(rows))
}

// previewKind is tight where the cells fit beside one another on a phone too: a
// line of a file often doesn't.
func previewKind(p interval.Preview) markup.Name {
	const most = 20 // characters
	if len(p.Heads) > 3 {
		return "wide"
	}
	for _, cells := range p.Rows {
		for _, c := range cells[min(1, len(cells)):] {
			if utf8.RuneCountInString(c) > most {
				return "wide"
			}
		}
	}
	return "tight"
}

// total adds up the days of a channel, which may come to more than an Energy
// holds, as the load of a whole grid does.
func total(c *record.Channel) string {
	var sum energy.Energy
	for d := range c.Days {
		e, _ := c.Days[d].Energy() // each day was added up before
		var err error
		if sum, err = sum.Add(e); err != nil {
			return "more than can be counted here"
		}
	}
	return amount(sum)
}
