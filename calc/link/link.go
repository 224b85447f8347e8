// Package link carries a whole case in the fragment of an address: the numbers,
// dates, bills, checks and tariffs, never the text that readings were pasted as.
//
// It reads and writes calc.Case. The page puts the fragment behind its own
// address; a browser sends no fragment to anybody.
//
// A fragment is “tally”, a character for the version, four for how many follow,
// and letters for a CRC-32 and the packed case. What it holds:
//
//   - Pasted readings as the days they were read as, with their decimals, and as
//     a plain table when they come back (see sheet). Notes, headings but the
//     names of columns, lines that could not be used and what stood beside the
//     figures stay behind.
//   - A rounding that is not half a digit, of sums and of differences, comes back
//     as the nearest that is. A day of which only a part was measured stays
//     behind as a gap, unless the hours go along.
//   - Records of files hour by hour in whole watt-hours, so that the sum from
//     their first hour to any other stays right to half a watt-hour; or without
//     the hours as totals of days whose course is not known.
//   - What an open question about a pasted text took for the time being comes
//     back as settled.
//   - Without names, words of names that are not of the trade come back as N1, N2
//     and so on, the same for the same word. Texts with such words in fields that
//     are for figures stay behind.
//
// Every link that was ever made can be read. What belongs to version 1 is never
// changed: the table of fields, the vocabulary, the terms, the coder.
package link

import (
	"fmt"
	"strings"

	"splittally/calc"
	"splittally/calc/document"
	"splittally/calc/link/coder"
)

// Options say what goes with the numbers.
type Options struct {
	// Names lets titles, notes and all names of people's own go along: of
	// monitors, legs, tariffs, their rows and the lines of bills.
	Names bool
	// Hours lets the hours of files go along, not their days alone: some ten
	// thousand characters a year and column.
	Hours bool
}

// The head of a fragment.
const (
	mark       = "tally"
	version    = '1'
	headLength = len(mark) + 1 + countLength
	// countLength is how many characters say how many follow.
	countLength = 4
	// MaxLength is the length of the longest fragment that is read.
	MaxLength = 1_000_000
	// mostFields is how many fields a later version may know.
	mostFields = 10_000
	// budget is what a link may come to, in items and characters.
	budget = 6 << 20
)

// Write gives the fragment of a case, without the #. It consists of letters and
// digits alone, so that no forum cuts an address off in it. It is empty for a
// case that is larger than any link holds, which only a file can carry.
func Write(c calc.Case, o Options) string {
	c = Clean(c, o)
	root := document.Write(c.Fields)
	w := &walk{Coder: coder.NewWriter(budget)}
	w.all(&root)
	packed := w.Bytes()
	if w.Broken || len(packed) > MaxLength/2 {
		return ""
	}
	sum := checksum(packed)
	body := coder.ToLetters(append([]byte{byte(sum >> 24), byte(sum >> 16), byte(sum >> 8), byte(sum)}, packed...))
	return mark + string(version) + coder.Count(len(body), countLength) + body
}

// all writes or reads a document.
func (w *walk) all(root *document.Node) {
	_, n := fields(-1)
	n = int(w.Number(&coder.Size{}, uint64(n)))
	top, known := fields(n)
	if n != known {
		w.newer, w.Broken = n < mostFields, true
		return
	}
	w.words = strings.Split(vocabulary, "|")
	w.Prime(strings.Join(strings.Fields(table)[:n], " ") + " " + vocabulary + terms)
	w.group(top, root, 0)
}

// Is says that a fragment was meant to hold a case, of any version.
func Is(fragment string) bool { return strings.HasPrefix(trim(fragment), mark) }

// trim takes off what stands around a fragment.
func trim(fragment string) string {
	fragment = strings.TrimPrefix(strings.TrimSpace(fragment), "#")
	return strings.TrimRightFunc(fragment, func(r rune) bool { return r > 'z' || coder.Letter(byte(r)) < 0 })
}

// Read gives the case of a fragment. Its error is a sentence for whoever
// opened the link.
func Read(fragment string) (calc.Case, error) {
	packed, err := open(trim(fragment))
	if err != nil {
		return calc.Case{}, err
	}
	w := &walk{Coder: coder.NewReader(packed, budget)}
	var root document.Node
	w.all(&root)
	shown(&root)
	var c calc.Case
	switch {
	case w.newer:
		return calc.Case{}, errNewer
	case w.Broken || w.Past() || len(document.Read(root, c.Fields)) > 0:
		return calc.Case{}, refusal("This link is whole, but what it holds is no case of Split Tally.")
	}
	return c, nil
}

// refusal is an error as a sentence for whoever opened the link.
type refusal string

func (r refusal) Error() string { return string(r) }

const errNewer = refusal("This link was made by a newer version of this page. Open the page anew to get that version, then open the link again.")

// open checks the head and the sum of a fragment and gives what is packed in it.
func open(text string) (packed []byte, err error) {
	switch {
	case !strings.HasPrefix(text, mark):
		return nil, refusal("This link holds no case of Split Tally.")
	case len(text) > MaxLength:
		return nil, refusal(fmt.Sprintf("This link is longer than any that this page makes: more than %d characters.", MaxLength))
	case len(text) > len(mark) && text[len(mark)] != version:
		return nil, errNewer
	case len(text) < headLength:
		return nil, refusal("This link was cut off near its beginning. Ask for it again, or for the case as a file.")
	}
	body := text[headLength:]
	whole := coder.Counted(text[headLength-countLength : headLength])
	const damaged = refusal("This link was damaged on its way: some of its letters are not those that were sent. Ask for it again, or for the case as a file.")
	switch {
	case whole < 0 || whole > MaxLength:
		return nil, damaged
	case len(body) < whole:
		return nil, refusal(fmt.Sprintf("This link was cut off: it has %d of %d characters. Ask for it again, or for the case as a file.",
			len(text), headLength+whole))
	case len(body) > whole:
		body = body[:whole] // what was written behind it
	}
	bytes, ok := coder.FromLetters(body)
	if !ok || len(bytes) < 4 {
		return nil, damaged
	}
	sum := uint32(bytes[0])<<24 | uint32(bytes[1])<<16 | uint32(bytes[2])<<8 | uint32(bytes[3])
	if checksum(bytes[4:]) != sum {
		return nil, damaged
	}
	return bytes[4:], nil
}

// checksum is CRC-32 as in IEEE 802.3. hash/crc32 has ways for other machines,
// which cost bytes.
func checksum(bytes []byte) uint32 {
	sum := ^uint32(0)
	for _, b := range bytes {
		sum ^= uint32(b)
		for range 8 {
			sum = sum>>1 ^ 0xEDB88320&-(sum&1)
		}
	}
	return ^sum
}
