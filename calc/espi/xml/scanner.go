// Package xml reads XML as it comes in, in chunks of any size: it tells a
// Handler of each element as it begins and ends. What it tells does not depend
// on where the chunks are cut.
//
// It keeps less than 128 KiB however long the text is: one tag that a chunk cut
// in two (MaxTag), the characters of one element (MaxText) and the names of the
// open elements (MaxDepth of MaxName). Comments and instructions of any length
// pass through without being kept. There is no document type: entities that a
// text declares for itself can make a small file fill all memory, so a text that
// declares any is refused.
//
// The rules are those of Extensible Markup Language (XML) 1.0, fifth edition,
// as far as they matter to somebody who reads: tags nest and match, there is one
// root, the five entities and numbered characters (clauses 2.1, 2.4, 3.1, 4.1,
// 4.6). It does not look for characters that the rules forbid, nor for an
// attribute that stands twice.
//
// The step after is package espi.
package xml

import (
	"bytes"

	"splittally/calc/remark"
)

// Limits of what a text may hold.
const (
	MaxDepth = 64        // elements within elements
	MaxName  = 256       // bytes of a name, with its prefix
	MaxTag   = 64 * 1024 // bytes of one tag with its attributes
	MaxText  = 4 * 1024  // bytes of an element's characters; what goes beyond is left out
)

// Handler is told of the elements.
type Handler interface {
	// Start tells that an element begins. name is without its prefix. Neither
	// name nor tag may be kept.
	Start(name []byte, tag Tag)
	// End tells that the innermost open element ends. text has its characters
	// since the last tag before, so all of them if no element is within it, with
	// entities put in and without the blanks at both ends. It may not be kept.
	End(text []byte)
}

// Error is what is wrong in a text, and where. Nothing after it is read; what
// was told before it stands.
type Error struct{ remark.Problem }

// Error gives it as one sentence.
func (e *Error) Error() string { return e.String() }

type state uint8

const (
	inText        state = iota
	inTag               // markup has begun whose kind or end is not there yet
	inComment           // <!-- …
	inInstruction       // <? …
	inData              // <![CDATA[ …
)

// Scanner reads one text.
type Scanner struct {
	handler  Handler
	encoding encoding
	head     []byte // the first bytes, until the encoding is known
	half     []byte // the first bytes of a character of UTF-16

	state state
	carry []byte // the markup in inTag, so far
	quote byte   // that is open in carry
	run   int    // how many marks of the end of a comment, instruction or CDATA are there

	text  []byte // characters since the last tag, if they are not in one piece
	plain int    // how much of text has its entities put in

	names  []byte        // of the open elements, one after the other
	last   int           // where the innermost begins
	starts [MaxDepth]int // where those around it do
	depth  int
	begun  bool // the root has begun

	place place // of the chunk's first byte
	lines int   // that end in the chunk, as far as it is read
	begin int   // where in the chunk the markup in inTag began, −1 if before it
	above int   // how many lines of the chunk end before it
	mark  place // then it began here
	err   *Error
}

// New gives a Scanner that tells h.
func New(h Handler) *Scanner { return &Scanner{handler: h, begin: -1} }

// Write reads on. The error is an *Error and stays the same from then on.
func (s *Scanner) Write(chunk []byte) error {
	if s.err == nil {
		s.decode(chunk)
	}
	return s.problem()
}

// Close tells that the text is complete.
func (s *Scanner) Close() error {
	if s.err == nil && s.encoding == unknown {
		s.begins()
	}
	switch {
	case s.err != nil:
	case s.state == inComment:
		s.failAt(s.mark, "<!--", "the end of this comment (-->); the file ends before it")
	case s.state != inText:
		s.failAt(s.mark, "<", "the end of this tag; the file ends before it")
	case s.depth > 0:
		s.failAt(s.place, "", "</"+string(s.top())+">; the file ends here, so its last part is missing")
	case !s.begun:
		s.failAt(s.place, "", "an XML document; nothing is here")
	}
	return s.problem()
}

// problem avoids an error that is not nil and holds nil.
func (s *Scanner) problem() error {
	if s.err == nil {
		return nil
	}
	return s.err
}

// scan reads a piece of the text in UTF-8.
func (s *Scanner) scan(b []byte) {
	i := 0
	for i < len(b) && s.err == nil {
		from := i
		switch s.state {
		case inText:
			i = s.content(b, i)
			continue // which has counted its lines
		case inTag:
			i = s.markup(b, i)
		case inData:
			i = s.data(b, i)
		default:
			i = s.pass(b, i)
		}
		s.lines += bytes.Count(b[from:i], newline)
	}
	if s.err != nil {
		return
	}
	if s.state != inText && s.begin >= 0 {
		s.mark = s.place.next(b[:s.begin], s.above)
	}
	s.begin = -1
	s.place, s.lines = s.place.next(b, s.lines), 0
}

// content reads on from b[i] up to markup that it cannot read in one go, or to
// the end. The commonest tags, those without attributes, it reads itself.
func (s *Scanner) content(b []byte, i int) int {
	for i < len(b) {
		run, end, lines, entities := characters(b, i)
		s.lines += lines
		if run < end && s.depth == 0 {
			s.fail(b, run, "", "“<”: outside of the document only blanks may stand")
			return end
		}
		next := s.simple(b, i, run, end, entities)
		if next < 0 {
			s.keep(b[i:end])
			if end < len(b) {
				s.state, s.begin, s.above, s.carry, s.quote = inTag, end, s.lines, s.carry[:0], 0
			}
			return end
		}
		i = next
		if s.err != nil {
			return i
		}
	}
	return i
}

// characters looks from b[i] on: end is where the next tag begins, run where
// the blanks end, lines how many lines end up to there, entities whether there
// may be any. Like nameEnd it calls nothing, which makes it fast as WebAssembly.
func characters(b []byte, i int) (run, end, lines int, entities bool) {
	for i < len(b) && b[i] <= ' ' {
		if b[i] == '\n' {
			lines++
		}
		i++
	}
	run = i
	for i < len(b) && b[i] != '<' {
		switch b[i] {
		case '&':
			entities = true
		case '\n':
			lines++
		}
		i++
	}
	return run, i, lines, entities
}

// nameEnd gives where the name at b[i] ends and where its part after the prefix
// begins.
func nameEnd(b []byte, i int) (end, local int) {
	local = i
	for i < len(b) && !endsName[b[i]] {
		i++
		if b[i-1] == ':' {
			local = i
		}
	}
	return i, local
}

// simple reads the tag at b[at] if it is whole and has no attributes, and gives
// the index after it; −1 if it is not such a tag. The characters before it are
// b[from:at], blank up to b[run].
func (s *Scanner) simple(b []byte, from, run, at int, entities bool) int {
	if at+1 >= len(b) {
		return -1
	}
	if b[at+1] == '/' {
		end := at + 2 + len(s.names) - s.last
		if end >= len(b) || b[end] != '>' || s.depth == 0 || string(b[at+2:end]) != string(s.names[s.last:]) {
			return -1
		}
		if entities || len(s.text) > 0 {
			s.keep(b[from:at])
			s.pop(s.kept())
		} else {
			s.pop(trimmed(b[run:min(at, run+MaxText)]))
		}
		return end + 1
	}
	i, local := nameEnd(b, at+1)
	end := i
	if i+1 < len(b) && b[i] == '/' {
		end++
	}
	if end >= len(b) || b[end] != '>' || !begins(b[at+1]) || i-at > MaxName {
		return -1
	}
	if s.push(b, at, b[at+1:i]) {
		s.handler.Start(b[local:i], Tag{})
		if end > i {
			s.pop(nil)
		}
	}
	return end + 1
}

// endsName has the bytes that end the name of a tag, or make it one to read with
// more care.
var endsName = [256]bool{
	'\t': true, '\n': true, '\r': true, ' ': true, '/': true, '>': true, '"': true, '\'': true, '<': true,
}

// begins says whether a name can begin with c.
func begins(c byte) bool {
	return c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' || c == '_' || c == ':' || c >= 0x80
}

// top is the name of the innermost open element.
func (s *Scanner) top() []byte { return s.names[s.last:] }

// push opens an element whose tag begins at b[at].
func (s *Scanner) push(b []byte, at int, name []byte) bool {
	switch {
	case s.depth == MaxDepth:
		s.fail(b, at, "<"+string(name), "elements nested no deeper than 64")
		return false
	case s.begun && s.depth == 0:
		s.fail(b, at, "<"+string(name), "the end of the file: a second document begins here, and only the first is read")
		return false
	}
	s.begun = true
	s.starts[s.depth] = s.last
	s.last = len(s.names)
	s.names = append(s.names, name...)
	s.depth++
	s.text, s.plain = s.text[:0], 0
	return true
}

// pop closes the innermost open element.
func (s *Scanner) pop(text []byte) {
	s.depth--
	s.names, s.last = s.names[:s.last], s.starts[s.depth]
	s.handler.End(text)
	s.text, s.plain = s.text[:0], 0
}
