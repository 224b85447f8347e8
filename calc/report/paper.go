package report

// Paper is the report of a case for somebody else: a printed page of at most
// two sheets, and the same as Markdown and as plain text. It says what was
// measured and how, the errors with their intervals, the budget, the causes,
// the corrections, the money, and how to check all of it by hand.
type Paper struct {
	Title    string
	Lead     []string // the verdicts, a sentence for each instrument
	Sections []Section
	Stamp    string // date, version and hash of the engine
}

// Section is a part of the report under a heading of its own; the first has
// none where it is pictures alone.
type Section struct {
	Title  string
	Blocks []Block
}

// Block is one of these: paragraphs, a list, a table or a picture.
type Block struct {
	Words   []string // paragraphs
	Points  []string // a list
	Table   *Table
	Picture Picture // a picture that the page draws; texts leave it out
}

// Picture names a drawing: its kind, and the instrument that it is of.
type Picture struct {
	Kind       PictureKind
	Instrument int
}

// PictureKind is what a picture shows. The zero value is no picture.
type PictureKind uint8

// The kinds.
const (
	NoPicture PictureKind = iota
	Stick                 // the two counts as a split stick
	Days                  // the days of the last bill that was compared
)

// Table is a table with a head. Columns of numbers are set to the right.
type Table struct {
	Caption string
	Head    []string
	Numbers []bool // by column
	Rows    [][]string
}

// About is what a report says of itself.
type About struct {
	Today   string // year-month-day, on which it is made
	Version string // of the program
	Engine  string // hash of the engine, short
	// IsExample says that the case is the worked example of an invented home,
	// which the paper then tells: it would be worth nothing as somebody's.
	IsExample bool
}
