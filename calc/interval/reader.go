package interval

import (
	"bytes"
	"errors"
	"strings"

	"splittally/calc/espi"
	"splittally/calc/remark"
	"splittally/calc/table"
)

// Bounds of what is kept of a file.
const (
	// headLength is how much is gathered before anything is decided, in bytes as
	// they come: twice what Find looks at, since UTF-16 has two for each letter.
	headLength = 2 * table.HeadLength
	// maxText is how long a text without interval readings may be, in bytes.
	maxText = 4 << 20
)

// ErrEnough says that no more of a file is wanted: Close tells why.
var ErrEnough = errors.New("no more of the file is wanted")

// Reader reads one file. It keeps the head of it, and all of a short text that
// holds no interval readings.
type Reader struct {
	o       Options
	letters letters
	kept    []byte // as it came, until it is known what it is; of a text, all of it
	bytes   int64
	columns *columns
	feed    *espi.Reader
	isText  bool
	why     *table.NoReadings // why a text holds no interval readings
	full    bool              // no more is wanted
	found   Found
}

// New begins to read a file.
func New(o Options) *Reader { return &Reader{o: o} }

// Write takes the next bytes of the file. The error is ErrEnough, when no more
// of it is wanted; what was read before is kept.
func (r *Reader) Write(chunk []byte) error {
	if r.full {
		return ErrEnough
	}
	r.bytes += int64(len(chunk))
	switch {
	case r.columns != nil || r.feed != nil:
		r.pass(chunk)
	case r.isText:
		r.keep(chunk)
	default:
		r.kept = append(r.kept, chunk...)
		if len(r.kept) >= headLength {
			r.settle(false)
		}
	}
	if r.full {
		return ErrEnough
	}
	return nil
}

// Again says whether the file has to be read once more from its start, and with
// which settings: a row far down can show that days and months stand the other
// way round than its head let think.
func (r *Reader) Again() (settings map[string]string, again bool) {
	if r.columns == nil || r.columns.turned == "" || r.o.Settings[orderTurned] != "" {
		return nil, false
	}
	settings = map[string]string{}
	for id, choice := range r.o.Settings {
		settings[id] = choice
	}
	settings[orderSetting], settings[orderTurned] = r.columns.turned, "yes"
	return settings, true
}

// Early gives what is known as soon as the head is read, without any record.
func (r *Reader) Early() (Found, bool) {
	return r.found, r.found.Kind != "" || len(r.found.Problems) > 0
}

// Close ends the file and gives what it came to.
func (r *Reader) Close() Found {
	if r.columns == nil && r.feed == nil && !r.isText && !r.full {
		r.settle(true)
	}
	switch {
	case r.columns != nil:
		r.columns.close(&r.found, r.o, r.bytes)
	case r.feed != nil:
		closeFeed(r.feed, &r.found, r.o, r.bytes)
	case r.isText && !r.full:
		r.found.Text = asUTF8(r.letters.turn(r.kept))
	}
	return r.found
}

// settle finds out what the file is, by its head or, if whole, all of it.
func (r *Reader) settle(whole bool) {
	head := r.kept
	is, mark := encodingOf(head)
	r.letters.is = is
	if kind := packedKind(head); kind != "" {
		r.refuse("", kind)
		return
	}
	peek := letters{is: is} // the letters proper go on with the next chunk
	text := peek.turn(head[mark:])
	first := bytes.TrimLeft(text, " \t\r\n\f\u00a0")
	switch {
	case len(first) == 0 && whole:
		r.refuse("", "a file that holds something; this one is empty")
	case isBinary(text[:min(len(text), 4096)]):
		r.refuse("", "a text: columns of readings, or an ESPI feed; this file is of another kind")
	case first0(first) == '<':
		r.settleMarkup(first)
	case first0(first) == '{' || first0(first) == '[':
		r.refuse("", "columns of readings, or an ESPI feed; this is JSON, which programs read: look for an export as CSV")
	default:
		r.settleColumns(text, whole)
	}
	if r.full {
		return
	}
	if r.feed == nil {
		r.kept = r.kept[mark:]
	}
	if r.isText {
		r.keep(nil)
		return
	}
	kept := r.kept
	r.kept = nil
	r.pass(kept)
}

func first0(b []byte) byte {
	if len(b) == 0 {
		return 0
	}
	return b[0]
}

// settleMarkup takes XML, but no page of the web.
func (r *Reader) settleMarkup(text []byte) {
	start := bytes.ToLower(text[:min(len(text), 200)])
	if bytes.Contains(start, []byte("<html")) || bytes.Contains(start, []byte("<!doctype html")) {
		r.refuse("", "columns of readings, or an ESPI feed; this is a page of the web, such as one that asks to sign in")
		return
	}
	r.feed = espi.NewReader(espi.Options{Zone: r.o.Zone, Settings: r.o.Settings})
	r.found.Kind = "an ESPI feed"
}

// settleColumns takes columns of readings, or else a short text.
func (r *Reader) settleColumns(text []byte, whole bool) {
	layout, settings, err := table.Find(text, whole, r.o.Settings)
	if err == nil {
		r.columns = newColumns(text, layout, settings, &r.o)
		r.found.Kind = "columns of readings"
		r.found.Settings, r.found.Preview = settings, r.columns.preview
		return
	}
	r.isText = true
	r.why, _ = err.(*table.NoReadings)
}

// pass hands bytes on.
func (r *Reader) pass(chunk []byte) {
	if r.feed != nil { // XML tells its letters itself
		r.full = r.feed.Write(chunk) != nil
		return
	}
	r.full = !r.columns.write(r.letters.turn(chunk))
}

// keep keeps a text, as long as it is short.
func (r *Reader) keep(chunk []byte) {
	if len(r.kept)+len(chunk) <= maxText {
		r.kept = append(r.kept, chunk...)
		return
	}
	r.kept = nil
	wanted := "readings within days in columns, each with its time"
	if r.why != nil {
		wanted += "; here " + r.why.Why
	}
	r.refuse("", wanted)
	if r.why != nil {
		r.found.Problems[0].Line, r.found.Problems[0].Found = r.why.Line, r.why.Found
	}
}

// refuse tells why nothing can be read.
func (r *Reader) refuse(found, wanted string) {
	r.full = true
	r.found.Problems = append(r.found.Problems, remark.Problem{Found: found, Wanted: wanted})
}

// packedKind tells files that hold others by their first bytes, in the words of
// a problem.
func packedKind(head []byte) string {
	for _, k := range [...]struct{ begins, wanted string }{
		{"PK\x03\x04", "a text file; this is a zip folder or a spreadsheet: unpack it, or save the sheet as CSV, and pick the file that comes out"},
		{"\xD0\xCF\x11\xE0", "a text file; this is a spreadsheet of the old kind: save the sheet as CSV"},
		{"%PDF", "a text file; this is a PDF: mark its table, copy it, and paste it"},
		{"\x1F\x8B", "a text file; this is packed with gzip: unpack it first"},
		{"BZh", "a text file; this is packed with bzip2: unpack it first"},
		{"\xFD7zXZ", "a text file; this is packed with xz: unpack it first"},
		{"7z\xBC\xAF", "a text file; this is packed with 7z: unpack it first"},
		{"PAR1", "a text file; this is Parquet, which programs read: look for an export as CSV"},
		{"SQLite format 3", "a text file; this is a database: look for an export as CSV"},
	} {
		if strings.HasPrefix(string(head[:min(len(head), 16)]), k.begins) {
			return k.wanted
		}
	}
	return ""
}
