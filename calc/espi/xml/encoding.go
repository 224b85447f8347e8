package xml

import (
	"bytes"
	"strings"
	"unicode/utf16"
	"unicode/utf8"
)

type encoding uint8

const (
	unknown encoding = iota
	utf8Bytes
	latin1
	utf16Big
	utf16Little
)

// maxHead is how much of a text may come before the end of its declaration.
const maxHead = 1024

// decode turns a chunk into UTF-8 and scans it.
func (s *Scanner) decode(chunk []byte) {
	for s.encoding == unknown {
		if len(chunk) == 0 {
			return
		}
		s.head = append(s.head, chunk[0])
		chunk = chunk[1:]
		if s.headIsWhole() {
			s.begins()
		}
	}
	s.inUTF8(chunk)
}

// headIsWhole says whether head tells the encoding: it has a mark of the order of
// bytes, or the declaration (<?xml … ?>) is complete, or there is none.
func (s *Scanner) headIsWhole() bool {
	h := s.head
	if len(h) < 4 {
		return false
	}
	if h[0] == 0 || h[1] == 0 || h[0] >= 0xFE || len(h) == maxHead {
		return true
	}
	h = declaration(h)
	if n := min(len(h), len("<?xml")); string(h[:n]) != "<?xml"[:n] {
		return true
	}
	return bytes.Contains(h, []byte("?>"))
}

// declaration is a head without the mark of UTF-8.
func declaration(head []byte) []byte { return bytes.TrimPrefix(head, []byte("\xEF\xBB\xBF")) }

// begins decides the encoding (XML 1.0, appendix F) and scans what is there.
func (s *Scanner) begins() {
	h, width := append(s.head, 0, 0, 0, 0), 0
	switch {
	case h[0] == 0 && h[1] == 0 && len(s.head) > 3, h[0] == 0xFF && h[1] == 0xFE && h[2] == 0 && h[3] == 0 && len(s.head) > 3:
		s.failAt(place{}, "", "UTF-8, UTF-16 or Latin-1; this is in four bytes a character (UTF-32)")
		return
	case h[0] == 0xFE && h[1] == 0xFF:
		s.encoding, width = utf16Big, 2
	case h[0] == 0xFF && h[1] == 0xFE:
		s.encoding, width = utf16Little, 2
	case h[0] == 0 && h[1] == '<':
		s.encoding = utf16Big
	case h[0] == '<' && h[1] == 0 && len(s.head) > 1:
		s.encoding = utf16Little
	default:
		width = len(s.head) - len(declaration(s.head))
		s.encoding = utf8Bytes
		if width == 0 {
			s.encoding = declared(s.head)
		}
	}
	head := s.head[width:]
	s.head = nil
	s.inUTF8(head)
}

// declared gives the encoding that a declaration names. All others of one byte a
// character have the same signs for markup and figures, so they pass as Latin-1.
func declared(head []byte) encoding {
	text := strings.ToLower(string(head))
	if !strings.HasPrefix(text, "<?xml") {
		return utf8Bytes
	}
	end := strings.Index(text, "?>")
	if end < 0 {
		return utf8Bytes
	}
	for _, name := range []string{"8859", "latin", "windows-125", "cp125"} {
		if strings.Contains(text[:end], name) {
			return latin1
		}
	}
	return utf8Bytes
}

// inUTF8 scans b, turned into UTF-8.
func (s *Scanner) inUTF8(b []byte) {
	switch s.encoding {
	case utf8Bytes:
		s.scan(b)
	case latin1:
		s.scanLatin1(b)
	default:
		s.scanUTF16(b)
	}
}

func (s *Scanner) scanLatin1(b []byte) {
	for len(b) > 0 && s.err == nil {
		i := 0
		for i < len(b) && b[i] < 0x80 {
			i++
		}
		s.scan(b[:i])
		if i == len(b) || s.err != nil {
			return
		}
		s.scan(utf8.AppendRune(nil, rune(b[i])))
		b = b[i+1:]
	}
}

// scanUTF16 keeps up to three bytes that a character lacks, between chunks.
func (s *Scanner) scanUTF16(b []byte) {
	var piece [4096]byte
	to := piece[:0]
	for _, c := range b {
		s.half = append(s.half, c)
		if len(s.half)%2 != 0 {
			continue
		}
		r := s.unit(0)
		if utf16.IsSurrogate(r) && r < 0xDC00 {
			if len(s.half) < 4 {
				continue
			}
			r = utf16.DecodeRune(r, s.unit(2))
		}
		s.half = s.half[:0]
		to = utf8.AppendRune(to, r)
		if len(to) > len(piece)-utf8.UTFMax {
			s.scan(to)
			to = piece[:0]
		}
		if s.err != nil {
			return
		}
	}
	s.scan(to)
}

func (s *Scanner) unit(at int) rune {
	if s.encoding == utf16Big {
		return rune(s.half[at])<<8 | rune(s.half[at+1])
	}
	return rune(s.half[at+1])<<8 | rune(s.half[at])
}
