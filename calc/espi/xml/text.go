package xml

import (
	"bytes"
	"strconv"
	"strings"
	"unicode/utf8"
)

// keep keeps characters for which the end of the element is not there yet. The
// blanks that they begin with don't count.
func (s *Scanner) keep(run []byte) {
	if len(s.text) == 0 {
		for len(run) > 0 && run[0] <= ' ' {
			run = run[1:]
		}
	}
	s.text = append(s.text, run[:min(len(run), MaxText-len(s.text))]...)
}

// kept gives the characters that were kept, with their entities put in.
func (s *Scanner) kept() []byte {
	s.entities()
	return trimmed(s.text)
}

// entities puts the characters that entities stand for into the part of text
// that has not been looked through. None is longer than its name.
func (s *Scanner) entities() {
	from := s.text[s.plain:]
	to := s.text[:s.plain]
	for len(from) > 0 {
		i := bytes.IndexByte(from, '&')
		if i < 0 {
			break
		}
		to = append(to, from[:i]...)
		from = from[i:]
		r, length := entity(from)
		if length == 0 { // none that is known: it stays as it is
			r, length = '&', 1
		}
		to = utf8.AppendRune(to, r)
		from = from[length:]
	}
	s.text = append(to, from...)
	s.plain = len(s.text)
}

// longest is the longest entity that is read, "&#x0010FFFF;".
const longest = 12

// entity reads the entity at the beginning of b. length is 0 if there is none.
func entity(b []byte) (r rune, length int) {
	end := bytes.IndexByte(b[:min(len(b), longest)], ';')
	if end < 0 {
		return 0, 0
	}
	switch name := string(b[1:end]); {
	case name == "lt":
		return '<', end + 1
	case name == "gt":
		return '>', end + 1
	case name == "amp":
		return '&', end + 1
	case name == "quot":
		return '"', end + 1
	case name == "apos":
		return '\'', end + 1
	case strings.HasPrefix(name, "#x"):
		return numbered(name[2:], 16, end+1)
	case strings.HasPrefix(name, "#"):
		return numbered(name[1:], 10, end+1)
	}
	return 0, 0
}

func numbered(digits string, base, length int) (rune, int) {
	n, err := strconv.ParseUint(digits, base, 21)
	if err != nil || n == 0 || !utf8.ValidRune(rune(n)) {
		return 0, 0
	}
	return rune(n), length
}

// trimmed is b without the blanks at both ends.
func trimmed(b []byte) []byte {
	for len(b) > 0 && b[0] <= ' ' {
		b = b[1:]
	}
	for len(b) > 0 && b[len(b)-1] <= ' ' {
		b = b[:len(b)-1]
	}
	return b
}

// Text gives bytes as a text that can be shown. Bytes that are no UTF-8 are
// taken for Latin-1, which is what a file without a declaration most likely is.
func Text(b []byte) string {
	if utf8.Valid(b) {
		return string(b)
	}
	latin := make([]byte, 0, 2*len(b))
	for _, c := range b {
		latin = utf8.AppendRune(latin, rune(c))
	}
	return string(latin)
}

// Tag is a tag's attributes.
type Tag struct{ attributes []byte }

// Attribute gives the value of an attribute by its name with its prefix, with
// entities put in. ok is false if there is none of that name.
func (t Tag) Attribute(name string) (value string, ok bool) {
	ok = t.Each(func(n []byte, v string) bool {
		if string(n) == name {
			value = v
			return true
		}
		return false
	})
	return value, ok
}

// Each tells f each attribute until f returns true, and returns whether it did.
func (t Tag) Each(f func(name []byte, value string) bool) bool {
	rest := t.attributes
	for {
		equals := bytes.IndexByte(rest, '=')
		if equals < 0 {
			return false
		}
		name, after := trimmed(rest[:equals]), trimmed(rest[equals+1:])
		if len(after) == 0 {
			return false
		}
		quote := after[0]
		end := -1
		if quote == '"' || quote == '\'' {
			end = bytes.IndexByte(after[1:], quote)
		}
		if end < 0 {
			return false
		}
		if f(name, value(after[1:end+1])) {
			return true
		}
		rest = after[end+2:]
	}
}

func value(b []byte) string {
	if bytes.IndexByte(b, '&') < 0 {
		return Text(b)
	}
	s := Scanner{text: bytes.Clone(b)}
	return Text(s.kept())
}
