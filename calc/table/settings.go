package table

// take settles a setting of the whole file: by the person's choice if it is one
// of those offered, else provisionally as given.
func (f *finder) take(s Setting, provisional string) string {
	s.Taken = provisional
	f.asked = append(f.asked, chosen(s, f.given))
	return f.asked[len(f.asked)-1].Taken
}

// chosen gives a setting as the person chose, if they did.
func chosen(s Setting, given map[string]string) Setting {
	for _, c := range s.Choices {
		if c.ID == given[s.ID] {
			s.Taken, s.Sure = c.ID, true
		}
	}
	return s
}

var delimiterIDs = [...]struct {
	mark      byte
	id, label string
}{
	{';', "semicolon", "Semicolons"}, {'\t', "tab", "Tabs"}, {'|', "bar", "Upright bars"}, {',', "comma", "Commas"}, {' ', "blank", "Blanks"},
}

func (f *finder) askDelimiter(is, other byte) byte {
	s := Setting{ID: "delimiter", Label: "Columns are parted by", Why: "The rows can be read with either."}
	taken := ""
	for _, d := range delimiterIDs {
		if d.mark == is || d.mark == other {
			s.Choices = append(s.Choices, Choice{d.id, d.label})
		}
		if d.mark == is {
			taken = d.id
		}
	}
	taken = f.take(s, taken)
	for _, d := range delimiterIDs {
		if d.id == taken {
			is = d.mark
		}
	}
	return is
}

func (f *finder) askDecimal(why string) {
	taken := "point"
	if f.decimal == ',' {
		taken = "comma"
	}
	taken = f.take(Setting{
		ID: "decimal", Label: "The decimal mark is", Why: why,
		Choices: []Choice{{"point", "A point: 1.234 is a little over one"}, {"comma", "A comma: 1,234 is a little over one"}},
	}, taken)
	f.decimal = '.'
	if taken == "comma" {
		f.decimal = ','
	}
}

func (f *finder) askOrder() {
	o := &f.order
	s := Setting{ID: "order", Label: "Dates are written", Why: o.why, Sure: o.sure, Choices: []Choice{
		{"day-first", "Day first: " + f.example(DayFirst)}, {"month-first", "Month first: " + f.example(MonthFirst)},
	}}
	taken := "day-first"
	if o.form == MonthFirst {
		taken = "month-first"
	}
	if o.fixed {
		s.Taken = taken
		f.asked = append(f.asked, s)
		return
	}
	if o.form = DayFirst; f.take(s, taken) == "month-first" {
		o.form = MonthFirst
	}
}

// example shows what an order makes of the first date.
func (f *finder) example(form Form) string {
	for i := range f.rows {
		if r := &f.rows[i]; r.shape == numbers {
			text := string(f.bytes(r.line, f.stamps.date))
			if day, ok := r.day(form); ok {
				return text + " is " + day.Long()
			}
			return text + " is no date"
		}
	}
	return ""
}

func (f *finder) askEnds(end, sure bool, why string) {
	taken := "start"
	if end {
		taken = "end"
	}
	f.ends = f.take(Setting{
		ID: "stamps", Label: "A time is", Why: why, Sure: sure,
		Choices: []Choice{{"start", "The start of its interval"}, {"end", "The end of its interval"}},
	}, taken) == "end"
}

// The choices of the setting "zone".
const (
	ZoneWritten = "written"
	ZoneOwn     = "own"
)

// settleZone decides whose clock the stamps show.
func (f *finder) settleZone() {
	offsets, zero := 0, 0
	for i := range f.rows {
		if f.rows[i].zoned {
			offsets++
			if f.rows[i].offset == 0 {
				zero++
			}
		}
	}
	utc := f.columns[f.stamps.date].has(ofUTC) || f.stamps.time >= 0 && f.columns[f.stamps.time].has(ofUTC)
	s := Setting{ID: "zone", Label: "Times are by", Choices: []Choice{{ZoneWritten, "The home’s clock, as written"}, {ZoneOwn, "UTC, to be turned into the home’s clock"}}}
	taken := ZoneOwn
	switch {
	case f.stamps.source == unixTime:
		s.Why = "The times are counted from 1970 and name no clock; the home is taken to be in this computer’s zone."
		s.Choices[0].Label = "UTC, left as it is"
	case 2*offsets > len(f.rows) && zero < offsets:
		taken, s.Sure = ZoneWritten, true
		s.Choices[0].Label, s.Choices[1].Label = "The clock whose offset is written", "This computer’s clock"
	case 2*offsets > len(f.rows):
		s.Why = "The times are in UTC; the home is taken to be in this computer’s zone."
		s.Choices[0].Label = "UTC, left as it is"
	case utc:
		s.Why = "The heading of the times speaks of UTC; the home is taken to be in this computer’s zone."
	default:
		taken, s.Sure, s.Why = ZoneWritten, true, "No zone is written, so the times are taken to be the home’s own."
	}
	if taken = f.take(s, taken); taken == ZoneOwn {
		f.zone = Instant
	} else if offsets > 0 {
		f.zone = Offset
	}
}

// layout gives what was found.
func (f *finder) layout() Layout {
	l := Layout{
		Delimiter: f.delimiter, Quoted: f.quoted, Decimal: f.decimal, Group: f.group, Skip: f.numbers[f.skip],
		Stamp: Stamp{Date: f.stamps.date, Time: f.stamps.time, Hours: f.stamps.source == hourNumber, Form: f.order.form, Zone: f.zone},
		Step:  f.step, Ends: f.ends, Newest: f.newest,
	}
	for c := range f.columns {
		col := &f.columns[c]
		out := Column{Name: col.name, Sign: 1}
		if col.used() {
			out.Used, out.Role, out.Quantity = true, col.role.is, col.kind.is
			out.Unit, out.Scale, out.Places = col.unit.is.Name(), col.unit.is.Size(), col.places
			out.Sign, out.Apart = col.sign.is, col.apart.is
		}
		l.Columns = append(l.Columns, out)
	}
	return l
}

// settings gives all settings: of the file, then of each column of figures.
func (f *finder) settings() []Setting {
	all := f.asked
	for c := range f.columns {
		if f.columns[c].figures {
			all = append(all, f.columnSettings(c)...)
		}
	}
	return all
}
