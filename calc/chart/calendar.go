package chart

import (
	"math"

	"splittally/calc/chart/markup"
)

// Calendar is a cell for each day, a column for each week, from Monday down.
type Calendar struct {
	ID     string
	Title  string
	Words  string
	Ink    Ink
	Shades Shades
	Bands  []Weeks // one below the other
}

// Weeks is a run of days, of a year for one.
type Weeks struct {
	Label string // such as the year
	First int    // the weekday of its first day, 0 for Monday
	Days  []Cell
	Marks []Mark // months
	Edges []int  // days, counted from the first, with which a billing period begins
}

// Cell is a day of a calendar.
type Cell struct {
	Energy float64 // kWh
	Known  bool    // false: an empty frame
	IsPart bool    // measured in part, or filled: hatched, and never solid
}

const (
	weeksLeft = 32.0
	weeksTop  = 16.0
	// cellText is the size from which a cell has room for its figure.
	cellText = 20.0
)

// DaysByWeek draws the calendar. The more a day used, the darker and the larger
// its square; where there is room, its figure is written.
func DaysByWeek(c Calendar) markup.Markup {
	columns := 1
	for _, b := range c.Bands {
		columns = max(columns, (b.First+len(b.Days)+6)/7)
	}
	g := weekGrid{c: c, size: math.Floor(math.Min(26, (Width-weeksLeft-1)/float64(columns))*100) / 100}
	var parts []markup.Part
	y := 0.0
	for _, b := range c.Bands {
		parts = append(parts, g.band(b, y+weeksTop))
		y += weeksTop + 7*g.size + 10
	}
	parts = append(parts, c.Shades.key(c.Ink, y, func(level int, x float64) markup.Markup {
		side := 10 * share(level)
		return path(shadeClass[level], string(appendSquare(nil, x+keyRoom/2-side/2, y+6-side/2, side)))
	}))
	return drawing(c.ID, c.Title, c.Words, y+28, parts...)
}

// weekGrid is a calendar with the size of its cells.
type weekGrid struct {
	c    Calendar
	size float64
}

// share gives the side of a square by its shade, as a part of its cell.
func share(level int) float64 { return 0.46 + 0.09*float64(level) }

// appendSquare appends a path around a square.
func appendSquare(b []byte, x, y, side float64) []byte {
	b = markup.AppendNumber(append(b, 'M'), x)
	b = markup.AppendNumber(append(b, ' '), y)
	b = markup.AppendNumber(append(b, 'h'), side)
	b = markup.AppendNumber(append(b, 'v'), side)
	b = markup.AppendNumber(append(b, 'h'), -side)
	return append(b, 'z')
}

// at gives the upper left corner of a day's cell.
func (g weekGrid) at(b Weeks, day int, top float64) (x, y float64) {
	n := b.First + day
	return weeksLeft + g.size*float64(n/7), top + g.size*float64(n%7)
}

// band draws a run of days, all squares of a shade as one path.
func (g weekGrid) band(b Weeks, top float64) markup.Markup {
	var squares [shades][]byte
	var frames, hatched []byte
	var over []markup.Part
	for i, d := range b.Days {
		x, y := g.at(b, i, top)
		if !d.Known {
			frames = appendSquare(frames, x+0.15*g.size, y+0.15*g.size, 0.7*g.size)
			continue
		}
		level := g.c.Shades.level(d.Energy)
		side := g.size * share(level)
		if g.size >= cellText {
			side = g.size - 1.5
		}
		left, up := x+(g.size-side)/2, y+(g.size-side)/2
		switch {
		case !d.IsPart:
			squares[level] = appendSquare(squares[level], left, up, side)
		case g.size >= cellText:
			over = append(over, g.c.Ink.hatch(left, up, side, side))
			hatched = appendSquare(hatched, left, up, side)
		default: // no room for more than one line
			hatched = append(appendSquare(hatched, left, up, side), to("l", side, side)...)
		}
		if g.size >= cellText {
			over = append(over, words("small", "middle", x+g.size/2, y+g.size/2+4, short(d.Energy)))
		}
	}
	cells := make([]markup.Part, 0, shades+1)
	for level, d := range squares {
		if len(d) > 0 {
			cells = append(cells, path(shadeClass[level], string(d)))
		}
	}
	parts := []markup.Part{words("small", "start", 0, top-5, b.Label), g.weekdays(top)}
	if len(frames) > 0 {
		parts = append(parts, path("grid", string(frames)))
	}
	if len(hatched) > 0 {
		over = append([]markup.Part{path("whisker", string(hatched))}, over...)
	}
	parts = append(parts, group(g.c.Ink.Class()+" cells", cells...), group(g.c.Ink.Class(), over...),
		across("line", g.edges(b, top)),
		named(b.Marks, top-5, func(day int) float64 { x, _ := g.at(b, day, top); return x }))
	return markup.Join(parts...)
}

// across draws where billing periods begin, if any does.
func across(name markup.Name, d string) markup.Markup {
	if d == "" {
		return markup.Markup{}
	}
	return group(Meter.Class(), path(name, d))
}

// short writes a figure in the room of a cell.
func short(v float64) string {
	if math.Abs(v) < 9.95 {
		return tick(v, 0.1)
	}
	return tick(v, 1)
}

// weekdays names some of the rows.
func (g weekGrid) weekdays(top float64) markup.Markup {
	var out []markup.Part
	for row, name := range []string{"Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"} {
		if row%3 == 0 || g.size >= cellText {
			out = append(out, words("small", "start", 0, top+g.size*(float64(row)+0.5)+4, name))
		}
	}
	return markup.Join(out...)
}

// edges draws a line before each day with which a billing period begins: up the
// left side of its cell and of those below it, and back over the rest of the
// week to the right.
func (g weekGrid) edges(b Weeks, top float64) string {
	d := ""
	for _, day := range b.Edges {
		if day < 0 || day > len(b.Days) {
			continue
		}
		x, y := g.at(b, day, top)
		bottom := top + 7*g.size
		if y == top {
			d += to("M", x, top) + to("V", bottom)
			continue
		}
		d += to("M", x, bottom) + to("V", y) + to("H", x+g.size) + to("V", top)
	}
	return d
}
