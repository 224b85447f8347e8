// Package espi reads feeds of interval readings in the form of the open standard
// NAESB REQ.21 (ESPI): XML, most often within Atom entries, pushed in chunks of
// any size.
//
// A feed is a heap of entries that point at one another: blocks of readings
// belong to a MeterReading, which belongs to a UsagePoint and has a ReadingType
// that says what its figures are. They may come in any order. So that memory
// does not grow with the readings, each goes to package series at once; where
// what it is comes later, it is counted as all that it could be.
//
// Times within the feed are points of time, and readings are first added up by
// hours of UTC. Whose clock the days are by is settled at the end, when all that
// tells it is there.
//
// Memory: what package xml and package series keep, for at most 64 series of
// readings; 8 bytes for each of at most 65,536 links; at most 1,024 entries of
// other kinds, titles cut to 200 bytes.
//
// The step before is package interval, which tells a feed from columns; so is
// the step after, which offers the meters to the person.
package espi

import (
	"splittally/calc/espi/xml"
	"splittally/calc/record"
	"splittally/calc/remark"
	"splittally/calc/table"
	"splittally/calc/zone"
)

// Options is what is known of a feed before it is read.
type Options struct {
	Zone     zone.Rules        // the person's own clock
	Settings map[string]string // what the person has set right: IDs of Result.Settings -> choices
}

// Result is what a feed came to.
type Result struct {
	// IsFeed is false if nothing of it is ESPI.
	IsFeed   bool
	Meters   []Meter
	Bills    []Bill
	Settings []table.Setting
	Problems []remark.Problem // what is wrong in the text; what stands before it was read
	Notices  []string
}

// Meter is one record that a feed offers: the readings of a meter, and those of
// its other direction if it has them.
type Meter struct {
	Name   string
	Usable bool   // false for gas, water and figures that are no energy
	Why    string // why it is not usable
	Record record.Record
	Costs  []Cost // one for each channel of the record
	// Heads and Rows show its first readings as they were understood.
	Heads []string
	Rows  [][]string
}

// Cost is what a feed says that readings cost.
type Cost struct {
	Amount   string // exact, such as "255.04491" or "208.10"; empty if no reading has a cost
	Currency string // ISO 4217, such as "USD"; empty if not told
	Readings int    // how many have one
}

// Bill is a usage summary: what was billed for a period.
type Bill struct {
	From, To string // the first and the last day that belong, such as 2012-03-01; empty if they make no sense
	KWh      string // empty if not told
	Total    string // what was charged, in whole units of the currency; empty if not told
	Currency string
	Words    string // all of it in one sentence
}

// Reader reads one feed.
type Reader struct {
	options Options
	scanner *xml.Scanner

	path  [xml.MaxDepth]element
	depth int
	root  string // the name of the root
	known bool   // something of ESPI was met

	service int // the last ServiceCategory kind; −1 if none was met

	entry   entry
	points  []usagePoint
	meters  []meterReading
	types   []readingType
	clocks  []localTime
	bills   []summary
	objects int  // how many of these there are
	links   int  // how many links are kept
	dropped int  // how many of either were not
	full    bool // the object that is open is not kept

	tracks  []*track
	waiting int // readings without times that wait, in all tracks
	block   block
	reading reading
	figures [1]int64 // for a row, so that none is allocated
}

// Limits of what is kept.
const (
	maxTracks  = 64
	maxObjects = 1024
	maxLinks   = 65536
	maxTitle   = 200
)

// NewReader gives a Reader.
func NewReader(o Options) *Reader {
	r := &Reader{options: o, service: -1}
	r.scanner = xml.New((*handler)(r))
	return r
}

// Write reads on. An error says that reading on is of no use: Close tells what
// is wrong, and what was read before.
func (r *Reader) Write(chunk []byte) error { return r.scanner.Write(chunk) }

// Close tells what the feed came to.
func (r *Reader) Close() Result {
	var result Result
	if err, ok := r.scanner.Close().(*xml.Error); ok {
		result.Problems = append(result.Problems, err.Problem)
	}
	result.IsFeed = r.known
	if !r.known {
		if r.root != "" {
			result.Problems = append(result.Problems, remark.Problem{
				Found:  "<" + r.root + ">",
				Wanted: "a feed of interval readings as NAESB REQ.21 (ESPI) has it, with UsagePoint, MeterReading and IntervalBlock",
			})
		}
		return result
	}
	r.join(&result)
	return result
}
