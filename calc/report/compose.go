package report

import (
	"slices"
	"strings"

	"splittally/calc"
	"splittally/calc/calendar"
	"splittally/calc/compare"
	"splittally/calc/say"
)

// Compose makes the report. It is bounded: what would not fit two sheets is
// counted instead, with where it can be had. The rooms are tried from the
// largest down until the paper is no longer than two sheets hold.
func Compose(c calc.Case, f calc.Findings, a About) Paper {
	f = named(f)
	var p Paper
	for size := range sizes {
		w := &composer{c: c, f: &f, room: roomOf(size)}
		p = w.compose(a)
		if p.lines() <= sheets {
			break
		}
	}
	return p
}

// room is how much a paper tells one by one; the rest is counted.
type room struct {
	size        int // 0 is the largest
	instruments int // told in full
	bills       int // rows of the table of bills
	parts       int // rows of the budget
	causes      int // of an instrument
	argued      int // causes that are told with what speaks for and against
	legs        int // legs, and runs of a timing
	points      int // questions, problems, notices
	lines       int // lines of the bill that is reckoned by hand, and formulas of a kind
	letters     int // of one sentence
}

// sizes is how many rooms there are to try.
const sizes = 10

func roomOf(size int) room {
	of := func(most, least int) int { return max(least, most*(sizes-size)/sizes) }
	return room{
		size: size, instruments: of(4, 1), bills: of(26, 3), parts: of(9, 3), causes: of(4, 2), argued: of(3, 0),
		legs: of(8, 2), points: of(7, 2), lines: of(12, 2), letters: of(700, 420),
	}
}

// composer is a paper in the making.
type composer struct {
	c    calc.Case
	f    *calc.Findings
	room room
	p    Paper
	left bool // something was counted instead of told
}

func (w *composer) compose(a About) Paper {
	w.p.Title = cut(clean(w.c.Title), 90)
	if w.p.Title == "" {
		w.p.Title = "A case without a name"
	}
	w.lead()
	w.pictures()
	w.measured()
	w.errors()
	w.sure()
	w.because()
	w.settings()
	w.checked()
	w.timed()
	w.priced()
	w.open()
	w.byHand()
	w.ends()
	w.p.Stamp = stamp(a)
	return w.p
}

func stamp(a About) string {
	said := "Split Tally " + a.Version
	if day, ok := calendar.ParseISO(a.Today); ok {
		said = "Made on " + day.Long() + " with " + said
	}
	if a.Engine != "" {
		said += ", engine " + a.Engine
	}
	return said + "."
}

// longName is how much of a name is told: one that somebody made as long as a
// page must not fill one.
const longName = 32

// named gives the findings with the instruments' names as the paper has them.
func named(f calc.Findings) calc.Findings {
	f.Instruments = slices.Clone(f.Instruments)
	for i := range f.Instruments {
		f.Instruments[i].Name = cut(clean(f.Instruments[i].Name), longName)
	}
	return f
}

// clean makes one line of a text from a person: nothing that ends a line, rings
// a bell or turns the direction of what follows is left.
func clean(text string) string {
	return strings.Trim(strings.Map(func(r rune) rune {
		switch {
		case r < ' ' || r >= 0x7f && r < 0xa0 || r == '\u2028' || r == '\u2029':
			return ' '
		case r >= '\u202a' && r <= '\u202e' || r >= '\u2066' && r <= '\u2069' || r == '\u200e' || r == '\u200f' || r == '\ufeff':
			return -1
		}
		return r
	}, text), " ")
}

// cut shortens a text to so many letters, and shows that it did.
func cut(text string, letters int) string {
	for at := range text {
		if letters--; letters < 0 {
			return strings.TrimRight(text[:at], " ") + "…"
		}
	}
	return text
}

// section adds a part; blocks without anything in them are left out, and so is
// a part without blocks.
func (w *composer) section(title string, blocks ...Block) {
	s := Section{Title: title}
	for _, b := range blocks {
		if len(b.Words)+len(b.Points) > 0 || b.Picture.Kind != NoPicture || b.Table != nil && len(b.Table.Rows) > 0 {
			s.Blocks = append(s.Blocks, b)
		}
	}
	if len(s.Blocks) > 0 {
		w.p.Sections = append(w.p.Sections, s)
	}
}

func (w *composer) words(all ...string) Block { return Block{Words: w.sentences(all)} }

func (w *composer) points(all []string) Block { return Block{Points: w.sentences(all)} }

// sentences cleans and cuts texts, and drops empty ones.
func (w *composer) sentences(all []string) (out []string) {
	for _, s := range all {
		if s = clean(s); s != "" {
			short := cut(s, w.room.letters)
			w.left = w.left || short != s
			out = append(out, short)
		}
	}
	return out
}

// first gives the first texts of a list, and counts the others in a last one.
func (w *composer) first(all []string, most int, what string) []string {
	if len(all) <= most {
		return all
	}
	w.left = true
	return append(slices.Clone(all[:most]), say.Counted(len(all)-most, "more "+what, "more "+what+"s")+".")
}

// leading is the first instrument that could be compared, and what it shows
// over all bills or over the one; nil if there is none.
func (w *composer) leading() (*calc.Instrument, compare.Comparison) {
	for i := range w.f.Instruments {
		if c, ok := total(&w.f.Instruments[i]); ok {
			return &w.f.Instruments[i], c
		}
	}
	return nil, compare.Comparison{}
}

// total is what an instrument shows over all bills, or over the one.
func total(i *calc.Instrument) (c compare.Comparison, ok bool) {
	if i.IsPooled {
		return i.Pooled.Total, true
	}
	for _, res := range i.Results {
		if res.Compares() {
			return res.Compared, true
		}
	}
	return c, false
}

// told gives the instruments that are told in full.
func (w *composer) told() []calc.Instrument {
	return w.f.Instruments[:min(len(w.f.Instruments), w.room.instruments)]
}

func (w *composer) lead() {
	var said []string
	for _, i := range w.f.Instruments {
		said = append(said, Verdict(i))
	}
	if len(said) == 0 {
		said = []string{"Nothing to compare yet: there are no readings."}
	}
	w.p.Lead = w.sentences(w.first(said, max(2, w.room.instruments), "instrument"))
}

// pictures are the stick of the first two instruments, or the stick and the
// days of the one.
func (w *composer) pictures() {
	var of []int
	for i := range w.f.Instruments {
		if c, ok := total(&w.f.Instruments[i]); ok && c.Indicated.Energy > 0 {
			of = append(of, i)
		}
	}
	switch {
	case len(of) == 0:
	case len(of) == 1:
		w.section("", Block{Picture: Picture{Stick, of[0]}}, Block{Picture: Picture{Days, of[0]}})
	case w.room.size == 0:
		w.section("", Block{Picture: Picture{Stick, of[0]}}, Block{Picture: Picture{Stick, of[1]}},
			Block{Picture: Picture{Days, of[0]}}, Block{Picture: Picture{Days, of[1]}})
	default:
		w.section("", Block{Picture: Picture{Stick, of[0]}}, Block{Picture: Picture{Stick, of[1]}})
	}
}

// ends says what every form of the findings says, and where the rest is.
func (w *composer) ends() {
	rest := ""
	if w.left {
		rest = "This paper is kept to two sheets. What is counted or cut short here stands whole in the saved file of the case, as text under “everything worked out”, and day by day and bill by bill in the two tables that the page saves for a spreadsheet."
	}
	caution := ""
	if w.careful() {
		caution = say.Caution
	}
	w.section("What this is", w.words(say.Legal, caution, rest))
}
