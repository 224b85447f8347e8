package view

import (
	"strconv"
	"strings"

	"splittally/calc/calendar"
	"splittally/calc/chart/markup"
	"splittally/calc/interval"
	"splittally/calc/record"
	"splittally/calc/remark"
	"splittally/calc/say"
)

// fileFacts tell the size and span of a record.
func fileFacts(r record.Record) piece {
	list := []fact{{"Readings", readings(r.Source)}}
	if first, last, ok := reaches(r); ok {
		list = append(list, fact{"Days", calendar.Span{First: first, End: last + 1}.String() + ", " + say.Counted(int(last-first)+1, "day", "days")})
	}
	return facts(append(list, fact{"Clock", r.Source.Zone}, fact{"Without readings", lost(r)})...)
}

// readings counts them and tells their spacing.
func readings(s record.Source) string {
	every := "one every " + lasting(int64(s.Step)*1000)
	switch s.Step {
	case 0:
		every = "unevenly spaced"
	case 1:
		every = "one a second"
	case 60:
		every = "one a minute"
	case 3600:
		every = "one an hour"
	case 86400:
		every = "one a day"
	}
	return counted(s.Rows) + ", " + every
}

// lost sums the gaps up.
func lost(r record.Record) string {
	if len(r.Gaps) == 0 {
		return "nothing between the first and the last"
	}
	var all int64
	for _, g := range r.Gaps {
		all += g.Length
	}
	sum := lasting(all) + " together"
	if r.MoreGaps > 0 {
		sum = "more than " + sum
	}
	return say.Counted(len(r.Gaps)+r.MoreGaps, "gap", "gaps") + ", " + sum
}

// reaches gives the first and last day of a record.
func reaches(r record.Record) (first, last calendar.Day, ok bool) {
	for _, c := range r.Channels {
		if len(c.Days) == 0 {
			continue
		}
		end := c.First + calendar.Day(len(c.Days)) - 1
		if !ok {
			first, last, ok = c.First, end, true
		}
		first, last = min(first, c.First), max(last, end)
	}
	return first, last, ok
}

// channels is the table of what each column was taken for. Its roles can be
// changed there once the file itself is gone.
func (f File) channels(k Kept) piece {
	heads := []string{"Column", "Taken as", "Read as", "kWh"}
	rows := each(len(k.Record.Channels), func(i int) piece {
		c := k.Record.Channels[i]
		role := text(roleWords(c.Role))
		if !k.Again {
			role = f.role(i, c.Role)
		}
		role = el("span", role, gives(useWords(k.Record, c.Role)))
		return tr(text(channelName(c, i)), cell{heads[1], role, ""}, word(heads[2], c.Unit), num(heads[3], amount(k.Totals[i])))
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
		options = append(options, el("option", attr("value", string(r)), markup.Is("selected").If(r == taken), text(roleWords(r))))
	}
	return el("select", options...)
}

var roles = [...]record.Role{record.Import, record.Export, record.Production, record.LegA, record.LegB, record.LegC, record.Circuit}

// roleWords says what a role is.
func roleWords(r record.Role) string {
	switch r {
	case record.Import:
		return "taken from the grid"
	case record.Export:
		return "fed into the grid"
	case record.Production:
		return "made in the home"
	case record.LegA:
		return "leg or phase A"
	case record.LegB:
		return "leg or phase B"
	case record.LegC:
		return "leg or phase C"
	case record.Circuit:
		return "a part of the home"
	}
	return string(r)
}

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

func channelName(c record.Channel, i int) string {
	if c.Name == "" {
		return "Column " + strconv.Itoa(i+1)
	}
	return c.Name
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
			said := clockWords(g.From) + " to " + clockWords(g.To) + ": " + lasting(g.Length)
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
	return f.folded("odd", "What was odd: "+counted(n), func() piece {
		return list(len(all), func(i int) string { return oddity(all[i]) })
	})
}

func oddity(o record.Oddity) string {
	said := counted(o.Count) + " × " + oddWords(o.Kind)
	if len(o.Lines) > 0 {
		var lines []string
		for _, l := range o.Lines {
			lines = append(lines, strconv.Itoa(l))
		}
		word := "; line "
		if len(lines) > 1 {
			word = "; lines "
		}
		said += word + strings.Join(lines, ", ")
		if o.Count > len(lines) {
			said += " and more"
		}
	}
	if o.Told != "" {
		said += " (" + o.Told + ")"
	}
	return said
}

// oddWords says what a kind of oddity is and what was done about it.
func oddWords(k record.Kind) string {
	switch k {
	case record.Duplicate:
		return "a reading twice with the same figure: counted once"
	case record.Conflict:
		return "a time again with another figure: the first was kept"
	case record.Overlap:
		return "an interval that reaches into another: left out"
	case record.Disorder:
		return "a reading from before the one above it: put where it belongs"
	case record.Unreadable:
		return "a line without a time that can be read: left out"
	case record.NoFigure:
		return "a cell without a figure: a gap"
	case record.Reset:
		return "a register that began anew at zero"
	case record.RollOver:
		return "a register that passed its highest figure"
	case record.BelowZero:
		return "a figure below zero"
	case record.TooLarge:
		return "a figure that no home can have: left out"
	case record.ClockBack:
		return "an hour that came twice, as the clock was set back"
	case record.ClockOn:
		return "an hour that never was, as the clock was set forward"
	case record.Finer:
		return "digits finer than a millionth of a Wh: rounded"
	case record.Marked:
		return "a reading that the source itself calls estimated"
	}
	return string(k)
}

// kindOf follows a file's name.
func kindOf(found interval.Found) string {
	if found.Kind == "" {
		return ""
	}
	return ": " + found.Kind
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

// counted writes a large number with its thousands apart.
func counted(n int) string {
	digits := strconv.Itoa(n)
	var b strings.Builder
	for i := range len(digits) {
		if i > 0 && (len(digits)-i)%3 == 0 {
			b.WriteString(say.Thin)
		}
		b.WriteByte(digits[i])
	}
	return b.String()
}

// lasting writes a stretch of time by its two largest units, such as 2 h 5 min.
func lasting(ms int64) string {
	units := [...]struct {
		word string
		ms   int64
	}{{"d", 86_400_000}, {"h", 3_600_000}, {"min", 60_000}, {"s", 1000}}
	var parts []string
	for _, u := range units {
		n := ms / u.ms
		ms %= u.ms
		if n > 0 {
			parts = append(parts, strconv.FormatInt(n, 10)+say.Thin+u.word)
		} else if len(parts) > 0 {
			break
		}
		if len(parts) == 2 {
			break
		}
	}
	if len(parts) == 0 {
		return "less than 1" + say.Thin + "s"
	}
	return strings.Join(parts, " ")
}

// clockWords writes a time of the local clock, in milliseconds since 1970.
func clockWords(wall int64) string {
	day := wall / record.DayLength
	if wall%record.DayLength < 0 {
		day--
	}
	rest := (wall - day*record.DayLength) / 1000
	two := func(n int64) string { return string([]byte{byte('0' + n/10), byte('0' + n%10)}) }
	clock := two(rest/3600) + ":" + two(rest/60%60)
	if s := rest % 60; s > 0 {
		clock += ":" + two(s)
	}
	return calendar.Day(day).Long() + " " + clock
}
