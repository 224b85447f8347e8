package xml

import (
	"bytes"
	"strings"
)

const (
	comment   = "<!--"
	cdata     = "<![CDATA["
	maxDoc    = 80 // bytes of a document type that are looked at
	maxQuoted = 40 // bytes of a tag that an error quotes
)

// markup reads on from b[i] to the end of the markup in carry.
func (s *Scanner) markup(b []byte, i int) int {
	for i < len(b) {
		c := b[i]
		i++
		s.carry = append(s.carry, c)
		n := len(s.carry)
		switch {
		case n == 1:
		case n == 2 && c == '?':
			s.entities()
			s.state, s.run = inInstruction, 0
			return i
		case s.carry[1] == '!':
			if s.declared(b, c) {
				return i
			}
		case s.quote != 0:
			if c == s.quote {
				s.quote = 0
			}
		case c == '"' || c == '\'':
			s.quote = c
		case c == '>':
			s.state = inText
			s.tag(b)
			return i
		}
		if n == MaxTag {
			s.fail(b, s.begin, quoted(s.carry), "the end of this tag; it is longer than 64 KiB")
			return i
		}
	}
	return i
}

// declared looks at markup that begins with <!, now that it has another
// character c, and says whether that settles what it is.
func (s *Scanner) declared(b []byte, c byte) bool {
	n := len(s.carry)
	switch {
	case n == len(comment) && string(s.carry) == comment:
		s.entities()
		s.state, s.run = inComment, 0
		return true
	case n == len(cdata) && string(s.carry) == cdata && s.depth > 0:
		s.entities()
		s.state, s.run = inData, 0
		return true
	case n < len(comment) && string(s.carry) == comment[:n], n < len(cdata) && string(s.carry) == cdata[:n]:
		return false
	case c != '>' && c != '[' && n < maxDoc:
		return false // so that it can be told what it declares
	}
	if strings.Contains(strings.ToLower(string(s.carry)), "html") {
		s.fail(b, s.begin, quoted(s.carry), "a feed; this is a page of the web")
	} else {
		s.fail(b, s.begin, quoted(s.carry), "a document without such declarations: they could make a small file fill all memory, so none is read")
	}
	return true
}

// pass passes over a comment or an instruction, from b[i].
func (s *Scanner) pass(b []byte, i int) int {
	mark, needed := byte('-'), 2
	if s.state == inInstruction {
		mark, needed = '?', 1
	}
	for i < len(b) {
		if s.run == 0 {
			skip := bytes.IndexByte(b[i:], mark)
			if skip < 0 {
				return len(b)
			}
			i += skip
		}
		c := b[i]
		i++
		switch {
		case c == mark:
			s.run++
		case c == '>' && s.run >= needed:
			s.state = inText
			return i
		default:
			s.run = 0
		}
	}
	return i
}

// data reads the characters of a CDATA section, from b[i].
func (s *Scanner) data(b []byte, i int) int {
	for i < len(b) {
		c := b[i]
		i++
		switch {
		case c == ']':
			s.run++
			continue
		case c == '>' && s.run >= 2:
			s.brackets(s.run - 2)
			s.state, s.plain = inText, len(s.text)
			return i
		}
		s.brackets(s.run)
		s.run = 0
		if len(s.text) < MaxText {
			s.text = append(s.text, c)
		}
	}
	return i
}

// brackets keeps n closing brackets that were no end of a CDATA section.
func (s *Scanner) brackets(n int) {
	for ; n > 0 && len(s.text) < MaxText; n-- {
		s.text = append(s.text, ']')
	}
}

// tag takes the whole tag in carry.
func (s *Scanner) tag(b []byte) {
	inner := s.carry[1 : len(s.carry)-1]
	if len(inner) > 0 && inner[0] == '/' {
		s.endTag(b, trimmed(inner[1:]))
		return
	}
	closed := len(inner) > 0 && inner[len(inner)-1] == '/'
	if closed {
		inner = inner[:len(inner)-1]
	}
	name := inner
	if i := bytes.IndexAny(inner, " \t\r\n/"); i >= 0 {
		name = inner[:i]
	}
	switch {
	case len(name) == 0 || !begins(name[0]):
		s.fail(b, s.begin, quoted(s.carry), "the name of an element after “<”; the sign itself is written “&lt;”")
		return
	case len(name) >= MaxName:
		s.fail(b, s.begin, quoted(s.carry), "a name shorter than 256 bytes")
		return
	}
	if s.push(b, s.begin, name) {
		s.handler.Start(name[bytes.LastIndexByte(name, ':')+1:], Tag{inner[len(name):]})
		if closed {
			s.pop(nil)
		}
	}
}

func (s *Scanner) endTag(b []byte, name []byte) {
	switch {
	case s.depth == 0:
		s.fail(b, s.begin, "</"+quoted(name)+">", "the beginning of an element before its end")
	case string(name) != string(s.top()):
		s.fail(b, s.begin, "</"+quoted(name)+">", "</"+string(s.top())+">, the end of the element that is open")
	default:
		s.pop(s.kept())
	}
}

// quoted gives the beginning of b, as an error shows it.
func quoted(b []byte) string {
	if len(b) <= maxQuoted {
		return Text(b)
	}
	return Text(b[:maxQuoted]) + "…"
}
