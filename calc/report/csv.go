package report

import (
	"strconv"
	"strings"
	"unicode"

	"splittally/calc"
	"splittally/calc/calendar"
	"splittally/calc/correct"
	"splittally/calc/energy"
	"splittally/calc/fill"
	"splittally/calc/ledger"
	"splittally/calc/say"
)

// A table for a spreadsheet is written by RFC 4180: commas, CRLF, a head, cells
// in quotation marks where they need them. A byte order mark makes the common
// spreadsheets take it as UTF-8; decimals have points, days are those of ISO
// 8601.
//
// Numbers are written by this program and stay numbers, a minus included. What
// a person typed is written by name, which keeps it from being a formula.

// sheet is a table for a spreadsheet in the making.
type sheet struct {
	b     strings.Builder
	begun bool // the row has a cell
}

func newSheet() *sheet {
	s := &sheet{}
	s.b.WriteString("\ufeff")
	return s
}

// cell writes a cell of our own: a number, a date or words that we chose.
func (s *sheet) cell(text string) {
	if s.begun {
		s.b.WriteByte(',')
	}
	s.begun = true
	if strings.ContainsAny(text, ",\"\r\n") {
		text = `"` + strings.ReplaceAll(text, `"`, `""`) + `"`
	}
	s.b.WriteString(text)
}

func (s *sheet) end() {
	s.b.WriteString("\r\n")
	s.begun = false
}

// name writes a cell that holds what a person typed, with words of ours behind
// it. Spreadsheets take what begins with one of = + - @ for a formula, also
// behind blanks and in the wide forms of these signs (OWASP, CSV Injection); an
// apostrophe before it says that it is text. A semicolon or tab would begin a
// new cell where the spreadsheet parts cells by those, so there is none.
func (s *sheet) name(typed, words string) { s.cell(harmless(typed) + words) }

func harmless(typed string) string {
	typed = strings.ReplaceAll(clean(typed), ";", ",")
	bare := strings.TrimLeftFunc(typed, func(r rune) bool {
		return unicode.IsSpace(r) || unicode.Is(unicode.Cf, r) || r == '\'' || r == '"'
	})
	for _, sign := range "=+-@|%＝＋－＠﹦﹢﹣﹫−" {
		if strings.HasPrefix(bare, string(sign)) {
			return "'" + typed
		}
	}
	return typed
}

func (s *sheet) energy(e energy.Energy) { s.cell(e.Decimal().String()) }

// DaysCSV has a row for each day that an instrument, the meter or a bill knows.
func DaysCSV(f calc.Findings) string {
	s := newSheet()
	s.cell("date")
	s.cell("bill")
	s.cell("meter kWh")
	logs := make([]dayLog, len(f.Instruments))
	for n := range f.Instruments {
		i := &f.Instruments[n]
		logs[n] = newDayLog(i)
		s.name(i.Name, " kWh")
		s.name(i.Name, " kind")
		s.name(i.Name, " plus or minus kWh")
		if logs[n].corrected != nil {
			s.name(i.Name, " corrected kWh")
		}
	}
	s.end()
	for d, span := allDays(f).First, allDays(f); d < span.End; d++ {
		s.day(f, logs, d)
	}
	return s.b.String()
}

func (s *sheet) day(f calc.Findings, logs []dayLog, d calendar.Day) {
	s.cell(d.String())
	s.cell(billsOf(f, d))
	if e := f.Meter.At(d); e.State == ledger.Missing {
		s.cell("")
	} else {
		s.energy(e.Energy)
	}
	for n := range logs {
		logs[n].write(s, d)
	}
	s.end()
}

// allDays spans the first to the last day that anything is known of.
func allDays(f calc.Findings) (all calendar.Span) {
	add := func(s calendar.Span) {
		switch {
		case s.Days() == 0:
		case all.Days() == 0:
			all = s
		default:
			all = calendar.Span{First: min(all.First, s.First), End: max(all.End, s.End)}
		}
	}
	for _, i := range f.Instruments {
		add(i.Ledger.Span())
	}
	for _, p := range f.Periods {
		if p.Dated {
			add(p.Span)
		}
	}
	add(f.Meter.Span())
	return all
}

// billsOf names the bills that a day belongs to: bills that overlap share days.
func billsOf(f calc.Findings, d calendar.Day) string {
	var bills []string
	for n, p := range f.Periods {
		if p.Dated && p.Span.Has(d) {
			bills = append(bills, strconv.Itoa(n+1))
		}
	}
	return strings.Join(bills, " and ")
}

// dayLog finds what an instrument shows of a day.
type dayLog struct {
	log       ledger.Ledger
	filled    map[calendar.Day]fill.Day
	corrected map[calendar.Day]correct.Day // nil if no correction stands
}

func newDayLog(i *calc.Instrument) dayLog {
	out := dayLog{log: i.Ledger, filled: map[calendar.Day]fill.Day{}}
	for _, r := range i.Results {
		for _, d := range r.Filled.Days {
			if d.Filled {
				out.filled[d.Day] = d
			}
		}
	}
	if n := standing(i); n >= 0 {
		out.corrected = map[calendar.Day]correct.Day{}
		for _, d := range i.Corrections[n].Days {
			out.corrected[d.Day] = d
		}
	}
	return out
}

// write writes the cells of a day: its energy, how that is known, and what
// rounding hides of it. How far a single filled day may be off is not known,
// only how far all of a bill's together.
func (l *dayLog) write(s *sheet, d calendar.Day) {
	e := l.log.At(d)
	f, isFilled := l.filled[d]
	switch {
	case isFilled:
		s.energy(f.Energy)
		s.cell("filled")
		s.cell("")
	case e.State == ledger.Missing:
		s.cell("")
		s.cell("missing")
		s.cell("")
	default:
		s.energy(e.Energy)
		s.cell(kinds[e.State])
		s.energy(e.Rounding)
	}
	if l.corrected == nil {
		return
	}
	if c, ok := l.corrected[d]; ok {
		s.cell(c.Corrected.Text(3))
	} else {
		s.cell("")
	}
}

// kinds are the words for how a day is known.
var kinds = [...]string{ledger.Missing: "missing", ledger.Measured: "measured", ledger.Spread: "share of several days", ledger.Partial: "partial"}

// BillsCSV has a row for each bill.
func BillsCSV(f calc.Findings) string {
	s := newSheet()
	for _, head := range []string{"bill", "from", "to", "days", "meter kWh", "computed money", "printed money", "currency"} {
		s.cell(head)
	}
	for _, i := range f.Instruments {
		for _, head := range []string{" kWh", " filled days", " error %", " plus or minus %", " verdict"} {
			s.name(i.Name, head)
		}
	}
	s.end()
	for n, p := range f.Periods {
		if !untouched(p) {
			s.bill(f, n)
		}
	}
	return s.b.String()
}

func (s *sheet) bill(f calc.Findings, n int) {
	p := f.Periods[n]
	s.cell(strconv.Itoa(n + 1))
	if p.Dated {
		s.cell(p.Span.First.String())
		s.cell(p.Span.Last().String())
		s.cell(strconv.Itoa(p.Days()))
	} else {
		s.blanks(3)
	}
	if p.Given {
		s.energy(p.Reference)
	} else {
		s.cell("")
	}
	s.money(f, n)
	for _, i := range f.Instruments {
		s.result(i.Results[n])
	}
	s.end()
}

func (s *sheet) blanks(n int) {
	for range n {
		s.cell("")
	}
}

func (s *sheet) money(f calc.Findings, n int) {
	if n >= len(f.Accounts) || len(f.Accounts[n].Priced.Lines) == 0 {
		s.blanks(3)
		return
	}
	a := f.Accounts[n]
	s.cell(a.Priced.Total.StringFixed(a.Currency.Places()))
	if a.HasTotal {
		s.cell(a.Total.String())
	} else {
		s.cell("")
	}
	s.name(a.Currency.Code+a.Currency.Sign, "")
}

func (s *sheet) result(r calc.Result) {
	if len(r.Filled.Days) == 0 {
		s.blanks(5)
		return
	}
	s.energy(r.Filled.Total)
	s.cell(strconv.Itoa(r.Filled.Filled))
	if !r.Compares() {
		s.blanks(3)
		return
	}
	c := r.Compared
	s.cell(c.Percent.StringFixed(3))
	if text := strconv.FormatFloat(c.Expanded, 'f', 3, 64); strings.ContainsAny(text, "IN") {
		s.cell("") // without limit
	} else {
		s.cell(text)
	}
	s.cell(strings.ReplaceAll(say.Short(c.Verdict), "’", "'"))
}
