package tariff

import (
	"math"
	"strconv"
	"strings"

	"splittally/calc/calendar"
	"splittally/calc/holiday"
	"splittally/calc/number"
	"splittally/calc/remark"
)

// builder is the reading of one schedule.
type builder struct {
	sheet
	in     Schedule
	tariff Tariff
	bare   []bare // prices per kWh and per day that say no unit
	waits  string // the first thing that is missing
}

// Build reads a schedule. A row that lacks something is left out and a notice
// "row-waits" says what; a row with a problem is left out as well. Everything
// else is kept.
func Build(s Schedule, o Options) Built {
	if o.Path == "" {
		o.Path = "tariff"
	}
	b := &builder{sheet: sheet{path: o.Path, answers: o.Answers}, in: s}
	b.readCurrency(s.Currency, pricesOf(s)...)
	b.tariff = Tariff{Name: number.Trim(s.Name), Currency: b.out.Plan.Currency, path: o.Path}
	b.frame()
	for i := range s.Rows {
		if r := b.row(i); r != nil {
			b.tariff.rows = append(b.tariff.rows, r)
		} else if number.Trim(s.Rows[i].Kind+s.Rows[i].Name+s.Rows[i].Price) != "" {
			b.tariff.LeftOut = append(b.tariff.LeftOut, b.nameOf(i))
		}
	}
	b.settleBare()
	b.doubts()
	b.finish()
	return Built{Tariff: b.tariff, Problems: b.out.Problems, Questions: b.out.Questions, Notices: b.out.Notices}
}

// pricesOf lists the texts in which a currency's sign may stand.
func pricesOf(s Schedule) (list []string) {
	for _, r := range s.Rows {
		if Kind(fold(r.Kind)) == Tax {
			continue
		}
		list = append(list, r.Price)
		for _, step := range r.Steps {
			list = append(list, step.Price)
		}
		for _, band := range r.Bands {
			list = append(list, band.Price)
		}
	}
	return list
}

// fold makes words comparable that a person typed or chose.
func fold(text string) string { return strings.ToLower(number.Trim(text)) }

// frame reads what stands above the rows.
func (b *builder) frame() {
	t := &b.tariff
	t.round.total = b.choice("round", b.in.Round, "line", "total") == 1
	t.round.half = half(b.choice("half", b.in.Half, "up", "even", "down"))
	t.round.places = t.Currency.Places()
	if text := number.Trim(b.in.Places); text != "" {
		n, err := strconv.ParseUint(text, 10, 8)
		if err != nil || n > 6 {
			b.problem("places", text, "a number of decimals from 0 to 6; empty for the currency’s own")
		} else {
			t.round.places = int32(n)
		}
	}
	t.inclusive, _ = b.percent("inclusive", b.in.Inclusive, "tax")
	if t.region = number.Trim(b.in.Region); t.region != "" && !holiday.Known(t.region) {
		b.problem("region", t.region, "a region whose public holidays are known, such as US or CA-ON")
	}
	b.ownDates()
}

// choice reads one of a few words; "" is the first.
func (b *builder) choice(field, typed string, words ...string) int {
	text := fold(typed)
	for i, w := range words {
		if text == w {
			return i
		}
	}
	if text != "" {
		b.problem(field, typed, "one of "+strings.Join(words, ", "))
	}
	return 0
}

// ownDates reads the owner's holidays, a date a line.
func (b *builder) ownDates() {
	t := &b.tariff
	line := 0
	for text := range strings.Lines(b.in.Dates) {
		line++
		if number.IsBlank(text) {
			continue
		}
		text = number.Trim(text)
		if at, s := readYearDay(text); s == good {
			t.yearDays = append(t.yearDays, at)
			continue
		}
		d, s := readDate(text)
		switch {
		case s == good:
			t.dates = append(t.dates, d)
		case s == wrong:
			b.out.Problems = append(b.out.Problems, remark.Problem{
				Path: b.path + ".dates", Line: line, Column: 1, Found: text, Wanted: "a holiday, such as 2024-12-24, 24 Dec 2024, or 24 Dec for every year",
			})
		default:
			b.notice("dates", "holiday-waits", "The holiday “"+text+"” is not counted yet: its date is not whole.")
		}
	}
}

// field names a field of row i.
func field(i int, name string) string { return "rows." + strconv.Itoa(i) + "." + name }

// wait leaves row i out until something is there.
func (b *builder) wait(i int, missing string) {
	text := "The row “" + b.nameOf(i) + "” is left out: " + missing + " is missing."
	b.notice("rows."+strconv.Itoa(i), "row-waits", text)
	if b.waits == "" {
		b.waits = missing + " of “" + b.nameOf(i) + "” is missing"
	}
}

// nameOf gives the name that a row has on the bill.
func (b *builder) nameOf(i int) string {
	r := b.in.Rows[i]
	if name := number.Trim(r.Name); name != "" {
		return name
	}
	if name := names[Kind(fold(r.Kind))]; name != "" {
		return name
	}
	return "row " + strconv.Itoa(i+1)
}

// row reads row i; nil if it is left out.
func (b *builder) row(i int) *row {
	in := b.in.Rows[i]
	r := &row{kind: Kind(fold(in.Kind)), index: i, name: b.nameOf(i), since: math.MinInt32, until: math.MaxInt32}
	if names[r.kind] == "" {
		if r.kind != "" {
			b.problem(field(i, "kind"), in.Kind, "one of energy, tiers, times, fixed, demand, export, netting, discount, tax, minimum")
		} else if number.Trim(in.Name+in.Price) != "" {
			b.wait(i, "its kind")
		}
		return nil
	}
	// Every field is looked at, so that all problems are told at once.
	ok := b.when(r, in)
	ok = b.basis(r, in) && ok
	ok = b.priced(r, in) && ok
	ok = b.counts(r, in) && ok
	if !ok {
		return nil
	}
	return r
}

// when reads the season and the dates of a row.
func (b *builder) when(r *row, in Row) bool {
	ok := true
	from, given := b.yearDay(r.index, "from", in.From, &ok)
	to, ends := b.yearDay(r.index, "to", in.To, &ok)
	switch {
	case given && ends:
		r.season = season{from, to}
	case ok && given:
		b.wait(r.index, "the last day of the season")
		ok = false
	case ok && ends:
		b.wait(r.index, "the first day of the season")
		ok = false
	}
	b.date(r.index, "since", in.Since, &r.since, &ok)
	b.date(r.index, "until", in.Until, &r.until, &ok)
	if ok && r.since > r.until {
		b.problem(field(r.index, "until"), in.Until, "a date that is not before "+r.since.Long())
		ok = false
	}
	return ok
}

func (b *builder) yearDay(i int, name, typed string, ok *bool) (d yearDay, given bool) {
	d, s := readYearDay(typed)
	b.judge(i, field(i, name), typed, s, yearDayWanted, ok)
	return d, s == good
}

func (b *builder) date(i int, name, typed string, into *calendar.Day, ok *bool) {
	d, s := readDate(typed)
	b.judge(i, field(i, name), typed, s, dateWanted, ok)
	if s == good {
		*into = d
	}
}

// judge tells of a field of row i that is wrong or not whole yet.
func (b *builder) judge(i int, at, typed string, s state, wanted string, ok *bool) {
	switch s {
	case wrong:
		b.problem(at, typed, wanted)
		*ok = false
	case begun:
		b.wait(i, "the rest of “"+number.Trim(typed)+"”")
		*ok = false
	}
}

// finish says what the tariff needs, and whether it can be used at all.
func (b *builder) finish() {
	t := &b.tariff
	mindsHolidays := false
	for _, r := range t.rows {
		switch r.kind {
		case Energy, Tiers, Times, Fixed, Demand:
			t.Given = true
		}
		t.NeedsPower = t.NeedsPower || r.kind == Demand
		t.HasEdges = t.HasEdges || r.kind == Tiers || r.kind == Minimum || r.kind == Netting
		t.NeedsExport = t.NeedsExport || r.kind == Export || r.kind == Netting
		for _, band := range r.bands {
			t.NeedsHours = t.NeedsHours || len(band.hours) > 0
			mindsHolidays = mindsHolidays || band.days.mindsHolidays()
		}
	}
	if mindsHolidays && t.region == "" && len(t.dates)+len(t.yearDays) == 0 {
		b.notice("region", "no-holidays", "No holidays are given, so every Monday to Friday counts as a workday.")
	}
	if !t.Given {
		t.Waits = b.waits
		if t.Waits == "" && len(b.out.Problems) > 0 {
			t.Waits = "no row with a price can be used"
		} else if t.Waits == "" {
			t.Waits = "a row with a price is missing"
		}
	}
}
