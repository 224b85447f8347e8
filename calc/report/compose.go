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
// counted instead, with where it can be had. It is made anew in a narrower room
// until it is no longer than two sheets hold.
func Compose(c calc.Case, f calc.Findings, a About) Paper {
	f = named(f)
	in := widest
	for step := 0; ; step++ {
		w := &composer{c: c, f: &f, room: in, left: in != widest}
		p := w.compose(a)
		if step == len(narrower) || p.points() <= sheets {
			return p
		}
		in[narrower[step].dim] = narrower[step].most
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
	w.p.Title = cut(clean(w.c.Title), longTitle)
	if w.p.Title == "" {
		w.p.Title = "A case without a name"
	}
	w.lead(a.IsExample)
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

// How much of a name is told: one that somebody made as long as a page must not
// fill one.
const (
	longTitle = 64
	longName  = 32
	longHead  = 20 // above a column
)

// named gives the findings with the instruments' names as the paper has them.
func named(f calc.Findings) calc.Findings {
	f.Instruments = slices.Clone(f.Instruments)
	for i := range f.Instruments {
		f.Instruments[i].Name = short(f.Instruments[i].Name, longName)
	}
	return f
}

// clean makes one line of a text from a person: nothing that ends a line, rings
// a bell or turns the direction of what follows is left.
func clean(text string) string {
	return strings.TrimSpace(strings.Map(func(r rune) rune {
		switch {
		case r < ' ' || r >= 0x7f && r < 0xa0 || r == '\u2028' || r == '\u2029':
			return ' '
		case r >= '\u202a' && r <= '\u202e' || r >= '\u2066' && r <= '\u2069' || r == '\u200e' || r == '\u200f' || r == '\ufeff':
			return -1
		}
		return r
	}, text))
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

// short cuts the middle of a name: columns of one monitor are told apart by how
// their names end.
func short(name string, letters int) string {
	all := []rune(clean(name))
	if len(all) <= letters {
		return string(all)
	}
	head := letters / 2
	return strings.TrimRight(string(all[:head]), " ") + "…" + strings.TrimLeft(string(all[len(all)-letters+head:]), " ")
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
			short := cut(s, w.room[mostLetters])
			w.left = w.left || short != s
			out = append(out, short)
		}
	}
	return out
}

// inline gives the first texts of a list in one, and counts the others.
func (w *composer) inline(all []string, most int, between, what string) string {
	if n := len(all) - most; n > 0 {
		w.left = true
		return strings.Join(all[:most], between) + " and " + say.Counted(n, "more "+what, "more "+what+"s")
	}
	return strings.Join(all, between)
}

// first gives the first texts of a list, and counts the others in a last one.
func (w *composer) first(all []string, most int, what string) []string {
	if len(all) <= most {
		return all
	}
	w.left = true
	return append(slices.Clone(all[:most]), say.Counted(len(all)-most, "more "+what, "more "+what+"s")+".")
}

// of begins a sentence about an instrument, if there is another.
func (w *composer) of(i *calc.Instrument) string {
	if len(w.f.Instruments) < 2 {
		return ""
	}
	return i.Name + ": "
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
	return w.f.Instruments[:min(len(w.f.Instruments), w.room[mostInstruments])]
}

// explained gives the instruments of which causes and settings are told.
func (w *composer) explained() []calc.Instrument {
	all := w.f.Instruments[:min(len(w.f.Instruments), w.room[mostExplained])]
	w.left = w.left || len(all) < len(w.f.Instruments)
	return all
}

func (w *composer) lead(isExample bool) {
	var said []string
	for n := range w.f.Instruments {
		said = append(said, w.verdict(&w.f.Instruments[n]))
	}
	if len(said) == 0 {
		said = []string{"Nothing to compare yet: there are no readings."}
	}
	said = w.first(said, max(2, w.room[mostInstruments]), "instrument")
	if isExample {
		said = append([]string{"This home is invented, and so are its figures: an example of what a report looks like."}, said...)
	}
	w.p.Lead = w.sentences(said)
}

// verdict is the leading sentence of an instrument; what stands behind it is told
// below, and left out here where there is little room.
func (w *composer) verdict(i *calc.Instrument) string {
	said := Verdict(*i)
	if c, ok := total(i); ok && w.room[mostReasons] == 0 {
		said = ": " + say.Error(c) + ", " + say.Short(c.Verdict) + "."
		if i.IsPooled {
			said = ", " + say.Counted(i.Pooled.Periods, "bill", "bills") + " together" + said
		}
		said = i.Name + said
	}
	return said
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
	case w.room[mostPictures] > 1:
		w.section("", Block{Picture: Picture{Stick, of[0]}}, Block{Picture: Picture{Stick, of[1]}},
			Block{Picture: Picture{Days, of[0]}}, Block{Picture: Picture{Days, of[1]}})
	default:
		w.section("", Block{Picture: Picture{Stick, of[0]}}, Block{Picture: Picture{Stick, of[1]}})
	}
}

// ends says what every form of the findings says, and where the rest is. None of
// it is ever cut.
func (w *composer) ends() {
	last := []string{say.Legal}
	if w.careful() {
		last = append(last, say.Caution)
	}
	if w.left {
		last = append(last, elsewhere)
	}
	w.section("What this is", Block{Words: last})
}

// elsewhere says where what was left out is to be had.
const elsewhere = "To fit two sheets some of it is counted or cut short. It stands whole in the saved file of the case and in the text of everything worked out, and its days and bills in the tables for a spreadsheet."
