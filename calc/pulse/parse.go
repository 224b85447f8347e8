package pulse

import (
	"math"
	"strconv"
	"strings"
	"unicode/utf8"

	"splittally/calc/remark"
	"splittally/calc/rhythm"
)

// Misread says what is wrong in a text of marks, and where.
type Misread remark.Problem

// Error gives it as one sentence.
func (e *Misread) Error() string { return "marks: " + remark.Problem(*e).String() }

// Parse reads what Format writes, and nothing else: the text is not one that
// people type. The only error is *Misread.
func Parse(text string) (Marks, error) {
	p := parser{rest: text}
	m, ok := p.marks()
	if !ok {
		return Marks{}, &p.wrong
	}
	return m, nil
}

// parser goes through a text line by line.
type parser struct {
	rest  string
	line  int
	wrong Misread
}

// next gives the next line; ok is false at the end.
func (p *parser) next() (line string, ok bool) {
	if p.rest == "" {
		return "", false
	}
	line, p.rest, _ = strings.Cut(p.rest, "\n")
	p.line++
	return strings.TrimSuffix(line, "\r"), true
}

// fail notes what is wrong at a byte of the present line.
func (p *parser) fail(line string, at int, wanted string) bool {
	found := line[at:]
	if i := strings.IndexByte(found, ' '); i > 0 {
		found = found[:i]
	}
	const most = 40
	if len(found) > most {
		found = strings.ToValidUTF8(found[:most], "") + "…"
	}
	p.wrong = Misread{Line: max(1, p.line), Column: 1 + utf8.RuneCountInString(line[:at]), Found: found, Wanted: wanted}
	return false
}

func (p *parser) marks() (m Marks, ok bool) {
	if line, _ := p.next(); line != heading {
		return m, p.fail(line, 0, "“"+heading+"”, with which a text of marks begins")
	}
	for {
		line, more := p.next()
		if !more {
			p.line++
			return m, p.fail("", 0, "the number of marks, such as “marks 12”")
		}
		name, value, _ := strings.Cut(line, " ")
		if name == "marks" {
			n, good := whole(value)
			if !good || n > MostMarks {
				return m, p.fail(line, len(line)-len(value), "a number of marks up to "+strconv.Itoa(MostMarks))
			}
			return m, p.body(&m, int(n))
		}
		if !p.head(&m, line, name, value) {
			return m, false
		}
	}
}

// head reads a line before the marks.
func (p *parser) head(m *Marks, line, name, value string) bool {
	at := len(line) - len(value)
	switch name {
	case "breaks":
		return p.breaks(m, line, at)
	case "says":
		m.Says = append(m.Says, value)
		return true
	}
	for _, h := range heads {
		switch {
		case h.name != name:
		case h.text != nil:
			*h.text(m) = value
			return true
		default:
			v, err := strconv.ParseFloat(value, 64)
			if err != nil || strings.ContainsFunc(value, func(c rune) bool { return c > '9' }) || math.IsInf(v, 0) {
				return p.fail(line, at, "a number, such as 12.5")
			}
			*h.real(m) = v
			return true
		}
	}
	return p.fail(line, 0, "the name of a line of marks, such as “by” or “marks”")
}

func (p *parser) breaks(m *Marks, line string, at int) bool {
	for at < len(line) {
		end := at
		for end < len(line) && line[end] != ' ' {
			end++
		}
		n, ok := whole(line[at:end])
		if !ok || n > MostSeconds*ticks || len(m.Breaks) >= MostMarks {
			return p.fail(line, at, "a time in tenths of a millisecond")
		}
		m.Breaks = append(m.Breaks, float64(n)/ticks)
		at = end + 1
	}
	return true
}

// whole reads a whole number that begins with no needless zero.
func whole(text string) (n int64, ok bool) {
	if text == "" || len(text) > 12 || len(text) > 1 && text[0] == '0' {
		return 0, false
	}
	for i := range len(text) {
		if text[i] < '0' || text[i] > '9' {
			return 0, false
		}
		n = n*10 + int64(text[i]-'0')
	}
	return n, true
}

// body reads the marks, of which there must be n.
func (p *parser) body(m *Marks, n int) bool {
	if n > 0 {
		m.Marks = make([]rhythm.Mark, 0, min(n, len(p.rest)/2+1))
	}
	var last int64
	for {
		line, more := p.next()
		if !more {
			break
		}
		for at := 0; at < len(line); {
			if len(m.Marks) == n {
				return p.fail(line, at, "no more than the "+strconv.Itoa(n)+" marks that were announced")
			}
			k, end, ok := p.mark(line, at, &last)
			if !ok {
				return false
			}
			m.Marks = append(m.Marks, k)
			at = end
		}
	}
	if len(m.Marks) < n {
		p.line++
		return p.fail("", 0, strconv.Itoa(n)+" marks, of which only "+strconv.Itoa(len(m.Marks))+" are there")
	}
	return true
}

const markWanted = "a mark: tenths of a millisecond since the one before, such as 36012 or 36012j7x"

// mark reads one mark with the blank behind it.
func (p *parser) mark(line string, at int, last *int64) (k rhythm.Mark, end int, ok bool) {
	end = at
	for end < len(line) && line[end] >= '0' && line[end] <= '9' {
		end++
	}
	n, good := whole(line[at:end])
	if !good {
		return k, end, p.fail(line, at, markWanted)
	}
	if *last += n; *last > MostSeconds*ticks {
		return k, end, p.fail(line, at, "a mark within 24 hours of the beginning")
	}
	k.At, k.Sure = float64(*last)/ticks, 1
	if end+1 < len(line) && line[end] >= 'a' && line[end] <= 'j' && line[end+1] >= '0' && line[end+1] <= '9' {
		k.Sure = float64(10*int(line[end]-'a')+int(line[end+1]-'0')) / 100
		end += 2
	}
	if end < len(line) {
		switch line[end] {
		case 'x':
			k.Told = rhythm.Struck
			end++
		case '+':
			k.Told = rhythm.Added
			end++
		}
	}
	switch {
	case end == len(line):
		return k, end, true
	case line[end] == ' ' && end+1 < len(line):
		return k, end + 1, true
	}
	return k, end, p.fail(line, at, markWanted)
}
