package record

import (
	"strconv"
	"strings"

	"splittally/calc/calendar"
	"splittally/calc/energy"
	"splittally/calc/ledger"
	"splittally/calc/remark"
)

// Parse reads a record from its text. What can't be read is told, line by line,
// and left out; everything else is kept. Problems have no path yet.
func Parse(text string) (Record, []remark.Problem) {
	p := parser{}
	for n := 1; text != ""; n++ {
		line := text
		if cut := strings.IndexByte(text, '\n'); cut >= 0 {
			line, text = text[:cut], text[cut+1:]
		} else {
			text = ""
		}
		p.at = n
		line = strings.TrimRight(line, " \r")
		switch {
		case line == "":
		case line[0] >= '0' && line[0] <= '9':
			p.day(line)
		default:
			p.line(line)
		}
	}
	return p.r, p.problems
}

type parser struct {
	r        Record
	at       int // the number of the line
	problems []remark.Problem
}

// maxProblems is how many problems of one record are told.
const maxProblems = 50

func (p *parser) wrong(column int, found, wanted string) {
	if len(p.problems) < maxProblems {
		p.problems = append(p.problems, remark.Problem{Line: p.at, Column: column, Found: found, Wanted: wanted})
	}
}

// line reads a line that begins with a word.
func (p *parser) line(line string) {
	word, rest, _ := strings.Cut(line, " ")
	s, ch := &p.r.Source, p.channel()
	switch word {
	case "hours":
		if rest != version {
			p.wrong(1, line, "“hours 1”, a record of a form known here; this one may come from a later version of the page")
		}
	case "file":
		s.File = rest
	case "bytes":
		s.Bytes = p.whole(word, rest)
	case "rows":
		s.Rows = int(p.whole(word, rest))
	case "step":
		s.Step = int(p.whole(word, rest))
	case "zone":
		s.Zone = rest
	case "said":
		s.Said = append(s.Said, rest)
	case "gap":
		p.gap(rest)
	case "gaps-more":
		p.r.MoreGaps = int(p.whole(word, rest))
	case "odd":
		p.oddity(rest)
	case "channel":
		p.r.Channels = append(p.r.Channels, Channel{Role: p.role(rest)})
	case "name":
		ch.Name = rest
	case "unit":
		ch.Unit = rest
	case "rounding", "register":
		v, ok := parseFixed(rest, 9)
		if !ok || v < 0 {
			p.wrong(len(word)+2, rest, "an energy in kWh, such as 0.0005")
		}
		ch.Rounding, ch.Sums = energy.Energy(v), word == "rounding"
	default:
		p.wrong(1, word, "a day such as 2024-03-01, or a word of a record such as “channel”")
	}
}

// channel gives the channel that lines belong to; before the first one there is
// none, and what is said of it is lost.
func (p *parser) channel() *Channel {
	if n := len(p.r.Channels); n > 0 {
		return &p.r.Channels[n-1]
	}
	return &Channel{}
}

func (p *parser) whole(word, text string) int64 {
	v, err := strconv.ParseInt(text, 10, 64)
	if err != nil || v < 0 {
		p.wrong(len(word)+2, text, "a whole number, such as 60")
		return 0
	}
	return v
}

func (p *parser) role(text string) Role {
	switch r := Role(text); r {
	case Import, Export, Production, LegA, LegB, LegC, Circuit:
		return r
	}
	p.wrong(len("channel ")+1, text, "import, export, production, leg-a, leg-b, leg-c or circuit")
	return Circuit
}

func (p *parser) gap(rest string) {
	fields := strings.Fields(rest)
	if len(fields) == 3 || len(fields) == 4 {
		from, ok1 := parseWall(fields[0])
		to, ok2 := parseWall(fields[1])
		length, ok3 := parseFixed(fields[2], 3)
		g := Gap{From: from, To: to, Length: length}
		ok4 := true
		if len(fields) == 4 {
			var v int64
			v, ok4 = parseFixed(fields[3], 9)
			g.Energy, g.Known = energy.Energy(v), true
		}
		if ok1 && ok2 && ok3 && ok4 && length >= 0 {
			p.r.Gaps = append(p.r.Gaps, g)
			return
		}
	}
	p.wrong(len("gap ")+1, rest, "a start, an end and a length in seconds, such as 2024-03-05T13:22:10 2024-03-05T13:40:55 1125")
}

func (p *parser) oddity(rest string) {
	fields := strings.SplitN(rest, " ", 4)
	if len(fields) >= 3 {
		o := Oddity{Kind: Kind(fields[0])}
		n, err := strconv.Atoi(fields[1])
		o.Count = n
		for _, line := range strings.Split(fields[2], ",") {
			if fields[2] == "." {
				break
			}
			at, bad := strconv.Atoi(line)
			if bad != nil {
				err = bad
			}
			o.Lines = append(o.Lines, at)
		}
		if len(fields) == 4 {
			o.Told = fields[3]
		}
		if err == nil && n >= 0 {
			p.r.Oddities = append(p.r.Oddities, o)
			return
		}
	}
	p.wrong(len("odd ")+1, rest, "a kind, a count and lines, such as “duplicate 2 1034,1082”")
}

// day reads a day of figures.
func (p *parser) day(line string) {
	date, rest, _ := strings.Cut(line, " ")
	d, ok := calendar.ParseISO(date)
	switch {
	case !ok:
		p.wrong(1, date, "a day such as 2024-03-01")
		return
	case len(p.r.Channels) == 0:
		p.wrong(1, date, "“channel import” before the first day")
		return
	}
	c := p.channel()
	if len(c.Days) == 0 {
		c.First = d
	}
	at := int(d - c.First)
	if at < len(c.Days) || at >= ledger.MaxDays {
		p.wrong(1, date, "days in their order, each once, within a hundred years")
		return
	}
	var day Day
	if !p.hours(&day, rest, len(date)+2) {
		return
	}
	for len(c.Days) < at {
		c.Days = append(c.Days, Day{})
	}
	c.Days = append(c.Days, day)
}

// hours reads the figures of a day, which begin at a column of the line.
func (p *parser) hours(day *Day, rest string, column int) bool {
	if rest == "." {
		return true
	}
	n := 0
	for at := 0; at < len(rest); {
		end := at
		for end < len(rest) && rest[end] != ' ' {
			end++
		}
		if token := rest[at:end]; token != "" {
			to, ok := day.place(n)
			switch {
			case n == 0 && day.Turn == 0 && day.turn(token):
				n--
			case !ok || !parseHour(token, to):
				p.wrong(column+at, token, "a figure in kWh for each hour of the day, such as 0.412, 0.398@3540 or a dot")
				return false
			}
			n++
		}
		at = end + 1
	}
	if want := 24 + int(day.Turn); n != want {
		p.wrong(column, strconv.Itoa(n)+" figures", strconv.Itoa(want)+", one for each hour of the day")
		return false
	}
	return true
}

// place gives the hour that the n-th figure of a day is of.
func (d *Day) place(n int) (*Hour, bool) {
	at := int(d.TurnAt)
	switch {
	case d.Turn > 0 && n == at+1:
		return &d.Again, true
	case d.Turn > 0 && n > at:
		n--
	case d.Turn < 0 && n >= at:
		n++
	}
	if n >= 24 {
		return nil, false
	}
	return &d.Hours[n], true
}

// turn reads how the clock was changed.
func (d *Day) turn(token string) bool {
	word, hour, ok := strings.Cut(token, ":")
	h, err := strconv.Atoi(hour)
	if !ok || err != nil || h < 0 || h > 23 || word != "twice" && word != "never" {
		return false
	}
	d.Turn, d.TurnAt = 1, uint8(h)
	if word == "never" {
		d.Turn = -1
	}
	return true
}
