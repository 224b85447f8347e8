package pulse

import (
	"math"
	"strings"
	"unicode/utf8"

	"splittally/calc/number"
	"splittally/calc/remark"
)

// mostWatts is more than any meter of a home counts, with a multiplier or not.
const mostWatts = 1e7

const wattsWanted = "the monitor’s watts, with the time into the run if it is known, such as 1240 or 0:30 1240"

// noted is one figure of the monitor, in every way it can be read.
type noted struct {
	line   int
	ways   []wattsWay
	timed  bool
	direct float64 // seconds into the run, if the time has its unit
	colons colons  // the time, if it has colons
}

type wattsWay struct {
	watts   float64
	step    float64 // one count of the last digit
	unit    bool    // the unit was typed
	at      float64 // of two bare numbers the first
	hasTime bool
}

// readWatts reads the monitor's figures, one or several a line.
func (s *sheet) readWatts(r *run) (all []noted) {
	for i, line := range strings.Split(r.typed.Watts, "\n") {
		line = oneReading(line)
		for at := 0; at <= len(line); {
			piece := line[at:]
			if end := strings.IndexByte(piece, ';'); end >= 0 {
				piece = piece[:end]
			}
			if !number.IsBlank(piece) {
				if n, ok := readNoted(piece); ok {
					n.line = i + 1
					all = append(all, n)
				} else {
					lead := len(piece) - len(strings.TrimLeftFunc(piece, number.Blank))
					s.out.Problems = append(s.out.Problems, remark.Problem{
						Path: r.path + ".watts", Line: i + 1, Column: 1 + utf8.RuneCountInString(line[:at+lead]),
						Found: number.Trim(piece), Wanted: wattsWanted,
					})
				}
			}
			at += len(piece) + 1
		}
	}
	return all
}

// oneReading makes a blank of what parts a time from its watts in tables:
// "0:30;1240", "0:30 = 1240", "0:30 - 1240". Letters keep their places.
func oneReading(line string) string {
	if i := strings.IndexByte(line, ';'); i >= 0 && i == strings.LastIndexByte(line, ';') && isTime(line[:i]) {
		return line[:i] + " " + line[i+1:]
	}
	if i := strings.IndexAny(line, "=-"); i > 0 && i+1 < len(line) && line[i+1] == ' ' && isTime(line[:i]) {
		return line[:i] + " " + line[i+1:]
	}
	return line
}

func isTime(text string) bool {
	_, ok := readColons(number.Trim(text))
	return ok && strings.Contains(text, ":")
}

// readNoted reads one figure with its time, which stands before or behind it.
func readNoted(text string) (n noted, ok bool) {
	fields := strings.Fields(strings.ToLower(strings.NewReplacer("@", " ", "\t", " ", " at ", " ").Replace(text)))
	for i, f := range fields {
		fields[i] = strings.TrimRight(f, ",")
	}
	if len(fields) == 1 && strings.Contains(fields[0], ":") {
		if i := strings.LastIndexByte(fields[0], ','); i > 0 { // 0:30,1240
			fields = []string{fields[0][:i], fields[0][i+1:]}
		}
	}
	rest := n.takeTime(fields)
	text = strings.Join(rest, " ")
	n.ways = readWays(text)
	if len(rest) == 2 && !n.timed {
		n.ways = append(n.ways, secondsAndWatts(rest)...)
	}
	return n, len(n.ways) > 0
}

// takeTime takes a time with colons or with its unit from the ends of fields.
func (n *noted) takeTime(fields []string) (rest []string) {
	last := len(fields) - 1
	switch {
	case last < 1:
		return fields
	case strings.Contains(fields[0], ":"):
		rest = fields[1:]
		text := fields[0]
		switch rest[0] {
		case "am", "pm", "a.m.", "p.m.":
			text += rest[0]
			rest = rest[1:]
		case "min", "h", "s":
			rest = rest[1:]
		}
		n.colons, n.timed = readColons(text)
	case strings.Contains(fields[last], ":"):
		rest = fields[:last]
		n.colons, n.timed = readColons(fields[last])
	case last > 1 && strings.Contains(fields[last-1], ":"):
		rest = fields[:last-1]
		n.colons, n.timed = readColons(fields[last-1] + fields[last])
	default:
		for k := min(4, last); k > 0; k-- {
			head := strings.Join(fields[:k], " ")
			if sp := united(head); len(sp) == 1 && len(readWays(strings.Join(fields[k:], " "))) > 0 {
				n.timed, n.direct = true, sp[0].seconds
				return fields[k:]
			}
		}
		return fields
	}
	if !n.timed {
		return nil
	}
	return rest
}

// readWays gives every way in which a text is a number of watts.
func readWays(text string) (ways []wattsWay) {
	var shift int32
	unit := false
	for _, u := range []struct {
		suffix string
		shift  int32
	}{{"kilowatts", 3}, {"kw", 3}, {"watts", 0}, {"watt", 0}, {"w", 0}} {
		if bare, ok := strings.CutSuffix(text, u.suffix); ok {
			text, shift, unit = bare, u.shift, true
			break
		}
	}
	for _, r := range number.Readings(text) {
		v := r.Value.Shift(shift).InexactFloat64()
		if math.Abs(v) <= mostWatts {
			ways = append(ways, wattsWay{watts: v, step: math.Pow10(-int(r.Places - shift)), unit: unit})
		}
	}
	return ways
}

// secondsAndWatts reads two bare numbers, "30 1240". Seconds that can be two
// numbers, as "1,250" can, are none.
func secondsAndWatts(fields []string) (ways []wattsWay) {
	seconds := number.Readings(fields[0])
	if len(seconds) != 1 {
		return nil
	}
	at := seconds[0].Value.InexactFloat64()
	if !(at >= 0 && at <= MostSeconds) {
		return nil
	}
	for _, w := range readWays(fields[1]) {
		w.at, w.hasTime = at, true
		ways = append(ways, w)
	}
	return ways
}

// settle picks the way that comes nearest to the meter's watts: what can be
// read in two ways differs by a factor of a thousand or so.
func (n *noted) settle(meter float64) wattsWay {
	best, nearest := n.ways[0], math.Inf(1)
	for _, w := range n.ways {
		off := 100.0
		if w.watts > 0 && meter > 0 {
			off = math.Abs(math.Log(w.watts / meter))
		}
		if off < nearest {
			best, nearest = w, off
		}
	}
	return best
}
