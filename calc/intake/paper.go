package intake

import (
	"strings"

	"splittally/calc/intake/scan"
	"splittally/calc/intake/words"
)

// paper is a text with its rows and columns found. It does not change any more
// while attempts are made on it.
type paper struct {
	sheet   *scan.Sheet
	lines   []Line  // what is known of each line before any row is worked out
	facts   []facts // of each line
	rows    []row
	columns []column
	labels  []labelRow // rows of totals and the like

	headings []int    // lines that name the columns
	dropped  []column // columns of numbers that are no energy

	dated      bool        // rows have dates
	timed      bool        // rows have times of day
	ending     bool        // a heading says that times end their intervals
	starting   bool        // a heading says that they begin them
	serial     bool        // dates are spreadsheet serial numbers
	clock      map[int]int // minutes of the day of lines whose date holds them
	epoch      bool        // dates are seconds or milliseconds since 1970
	joined     bool        // digits parted by plain blanks are one number
	blocks     bool        // each column is a table of its own
	rough      []int       // lines whose figures are said to be rough or estimated
	hourKey    int         // 1 + the key of a column of numbered hours; 0 if none
	hourFirst  int         // the number of the day's first hour, 0 or 1
	grid       bool        // rows are the figures of a grid
	monthYears bool        // names of months with two digits are months of years
	weekly     bool        // words say that figures are of weeks
	weekEnding bool        // and that the date is the week's last
	register   bool        // words say that figures are register reads
	atEnd      bool        // words say that they are read at the end of the day
	atStart    bool        // words say that they are read at its start
	titleUnit  words.Unit
	years      []int // years written in lines that are no rows
	constant   bool  // a column without a name was left out since it never changes
	unread     bool  // a column of which no figure can be read was left out
	noEnergy   bool  // there are figures, but all of money or other quantities
}

// facts counts what stands in one line.
type facts struct {
	dates, times            int
	numbers                 int // that can be figures
	money, others, brackets int
	missing, dashes         int
	energies                int // numbers with a unit of energy or power
	words                   int // words that mean nothing to us, before the last number
	units                   int // words that are units
	label                   words.Label
	labelFirst              bool // the label is the first thing on the line
	dateName                bool
	month                   int // a month named alone on the line
	weekday                 int // -1 if none
	blank, rule, comment    bool
	firstNumber, firstDate  int // indices of items, -1 if none
	firstMissing, firstTime int
	relative                words.Label // Today or Yesterday
	carried                 int         // item of the date in a row above, whose cell here is blank; 0 if none
}

// row is one reading: a day, perhaps a time, and a figure for each column.
type row struct {
	line        int // index of the line
	first, last scan.Date
	dates       int // 0, 1, or 2 for a range
	from, till  int // minutes of the day, -1 if none
	zone        int // offset of from, in minutes
	zoned       bool
	weekday     int // -1 if none is written
	dateAt      int // item of the date, -1 if it stands on another line
	figures     []int
	relative    words.Label
	onWeekday   int  // 1 + the weekday that the figure is of, in the week of the date; 0 if it is of the date
	lent        bool // first has the year of last, since it has none of its own
	wrong       bool // the line is wrong; the row only tells its day
}

// Special values of row.figures, which otherwise hold the index of an item.
const (
	absent = -1 // nothing stands in the column
	noData = -2 // a mark says that there is no figure
)

// labelRow is a row of totals, averages and so on.
type labelRow struct {
	line  int
	label words.Label
	items []int
}

// column is one column of figures.
type column struct {
	key          int // 8 × cell + place within the cell
	name         string
	unit         words.Unit  // from the heading
	label        words.Label // what the heading's words make of it
	begins, ends int         // where its figures stand, in bytes
}

// lay finds the rows and columns of a sheet.
func lay(s *scan.Sheet) *paper {
	p := &paper{sheet: s, lines: make([]Line, len(s.Lines)), facts: make([]facts, len(s.Lines))}
	for i := range s.Lines {
		p.lines[i] = Line{Number: i + 1, Why: "no day and no figure on it"}
		p.facts[i] = p.gather(i)
		if len(s.Lines[i].Text) > scan.MaxLine {
			p.lines[i].Use, p.lines[i].Why = Wrong, wrongLength
		}
	}
	p.joinUnits()
	p.joinYears()
	p.joinMonths()
	p.joinOrdinals()
	p.joinTimes()
	p.joinGroups()
	p.daysAcross()
	if !p.layGrid() && !p.layPairs() {
		p.layTable()
	}
	p.readHints()
	return p
}

// gather counts what stands in a line.
func (p *paper) gather(line int) facts {
	l := p.sheet.Lines[line]
	f := facts{weekday: -1, firstNumber: -1, firstDate: -1, firstMissing: -1, firstTime: -1}
	if l.First == l.Past {
		f.blank = scan.IsBlank(l.Text)
		f.rule = !f.blank && scan.IsRule(l.Text)
		return f
	}
	f.rule = scan.IsRule(l.Text)
	unknown := 0
	for i := l.First; i < l.Past; i++ {
		it := &p.sheet.Items[i]
		switch it.Kind {
		case scan.DateOf:
			f.dates++
			setFirst(&f.firstDate, i)
		case scan.TimeOf:
			f.times++
			setFirst(&f.firstTime, i)
		case scan.Number:
			f.number(it, i, &unknown)
		case scan.Missing:
			f.missing++
			setFirst(&f.firstMissing, i)
		case scan.Dash:
			f.dashes++
			setFirst(&f.firstMissing, i)
		case scan.Word:
			f.word(it, &unknown, i == l.First, p.besideDate(l, i))
		}
	}
	if f.numbers == 0 {
		f.words = unknown
	}
	f.month = p.loneMonth(line, &f)
	f.comment = isComment(l.Text)
	return f
}

func setFirst(at *int, i int) {
	if *at < 0 {
		*at = i
	}
}

func (f *facts) number(it *scan.Item, i int, unknown *int) {
	switch {
	case it.Unit == words.Money:
		f.money++
		return
	case it.Unit == words.Other:
		f.others++
		return
	case it.Bracket && !it.Unit.IsEnergy():
		f.brackets++
		return
	}
	f.words = *unknown
	f.numbers++
	setFirst(&f.firstNumber, i)
	if it.Unit != 0 {
		f.energies++
	}
}

// besideDate says whether an item is the first of its line or next to a date.
// Elsewhere a short word is not the name of a weekday: "12.4 so far".
func (p *paper) besideDate(l scan.Line, i int) bool {
	return i == l.First || p.sheet.Items[i-1].Kind == scan.DateOf || i+1 < l.Past && p.sheet.Items[i+1].Kind == scan.DateOf
}

func (f *facts) word(it *scan.Item, unknown *int, first, besideDate bool) {
	label := words.LabelOf(it.Fold)
	if day, ok := words.Weekday(it.Fold); ok && (words.Month(it.Fold) == 0 || f.weekday < 0) && (besideDate || len(it.Fold) > 3 || f.dates == 0) {
		f.weekday = day
		return
	}
	switch {
	case it.Unit != 0:
		f.units++
		if f.label == 0 && label != 0 {
			f.label = label
		}
	case label == words.Today || label == words.Yesterday:
		if f.relative == 0 {
			f.relative = label
		}
	case label == words.DateName || label == words.HourName || label == words.MonthName || label == words.YearName:
		f.dateName = true
	case label != 0:
		if f.label == 0 || aggregate(label) && !aggregate(f.label) { // “week total” is a total
			f.labelFirst = first || f.labelFirst
			f.label = label
		}
	default:
		if words.Month(it.Fold) == 0 && !it.Bracket {
			*unknown++
		}
	}
}

// loneMonth gives the month that a line names and nothing else.
func (p *paper) loneMonth(line int, f *facts) int {
	l := p.sheet.Lines[line]
	if l.Past-l.First > 2 || f.numbers+f.times+f.money > 0 {
		return 0
	}
	items := p.sheet.Of(line)
	for ii := range items {
		it := &items[ii]
		if it.Kind == scan.Word {
			if m := words.Month(it.Fold); m > 0 {
				return m
			}
		}
	}
	return 0
}

// isComment says whether a line begins as comments do: "# note", "// note".
func isComment(text string) bool {
	text = strings.TrimLeft(text, " \t")
	if strings.HasPrefix(text, "//") {
		return true
	}
	if len(text) < 4 || text[0] != '#' {
		return false
	}
	c := text[1]
	return c == ' ' || c == '#' || c|0x20 >= 'a' && c|0x20 <= 'z'
}
