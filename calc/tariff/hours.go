package tariff

import (
	"strconv"
	"strings"

	"splittally/calc/intake/words"
	"splittally/calc/number"
)

// minutesOfDay counts the minutes of the clock; a day has them all, however
// long it is.
const minutesOfDay = 1440

// hours is a span of the local clock in minutes, to not included. It runs over
// midnight if to is not after from.
type hours struct{ from, to int }

const (
	hoursWanted = "hours of the clock from and to, such as 7-11, 17-19 or 22:30-6"
	daysWanted  = "all, workdays (Monday to Friday without holidays), rest (the other days), or weekdays and holidays with commas, such as Sat, Sun, holidays"
)

// readHours reads spans as "7-11, 17-19", "22:30-6" or "4 pm to 9 pm".
func readHours(text string) (list []hours, s state) {
	text = strings.ToLower(number.Trim(text))
	if text == "" {
		return nil, absent
	}
	text = plainSpans(text)
	for _, part := range strings.Split(text, ",") {
		if part = number.Trim(part); part == "" {
			continue
		}
		h, s := readSpan(part)
		if s != good {
			return nil, s
		}
		list = append(list, h)
	}
	if len(list) == 0 {
		return nil, wrong
	}
	return list, good
}

// clockWords are pairs of what people write and what it stands for. (A
// strings.Replacer would cost the engine 8 kB of code.)
var clockWords = [...]string{
	"p.m.", "pm", "a.m.", "am", " and ", ",", ";", ",", "\n", ",", "noon", "12pm", "midnight", "0", " to ", "-", "–", "-", "−", "-", "—", "-",
}

// plainSpans writes spans with commas and hyphens alone.
func plainSpans(text string) string {
	for i := 0; i < len(clockWords); i += 2 {
		text = strings.ReplaceAll(text, clockWords[i], clockWords[i+1])
	}
	return text
}

func readSpan(text string) (h hours, s state) {
	first, second, ok := strings.Cut(text, "-")
	from, s := readClock(first)
	if s != good {
		return h, s
	}
	if second = number.Trim(second); !ok || second == "" {
		return h, begun
	}
	to, s := readClock(second)
	if s != good {
		return h, s
	}
	if from.half == 0 && to.half != 0 {
		// "7-11 am" and "4-9 pm", but "11-2 pm"
		from.half = to.half
		if from.minute(0) >= to.minute(minutesOfDay) {
			from.half = other(to.half)
		}
	}
	if from.half != 0 && to.half == 0 && to.hour != 0 {
		return h, begun // "4 pm-9"
	}
	h = hours{from.minute(0), to.minute(minutesOfDay)}
	if h.from == minutesOfDay || h.from == h.to {
		return h, wrong
	}
	return h, good
}

// clock is a time of day as written.
type clock struct {
	hour, min int
	half      byte // 'a' and 'p' of a clock of twelve hours
}

func other(half byte) byte {
	if half == 'a' {
		return 'p'
	}
	return 'a'
}

// minute gives the minute of the day; midnight is what 0:00 stands for.
func (c clock) minute(midnight int) int {
	h := c.hour
	if c.half != 0 {
		h %= 12
	}
	if c.half == 'p' {
		h += 12
	}
	if h == 0 && c.min == 0 {
		return midnight
	}
	return h*60 + c.min
}

// readClock reads 7, 07:30, 7.30, 7h30, 7am.
func readClock(text string) (c clock, s state) {
	text = number.Trim(text)
	for _, half := range []string{"am", "pm"} {
		if plain, ok := strings.CutSuffix(text, half); ok {
			c.half, text = half[0], number.Trim(plain)
		}
	}
	hour, min, split := cutAny(text, ":.h")
	if split && min == "" && !strings.HasSuffix(text, "h") {
		return c, begun
	}
	var err error
	if c.hour, err = clockNumber(hour); err != nil {
		return c, wrong
	}
	if min != "" {
		if len(min) == 1 {
			return c, begun
		}
		if c.min, err = clockNumber(min); err != nil {
			return c, wrong
		}
	}
	if c.min > 59 || c.hour*60+c.min > minutesOfDay || c.half != 0 && (c.hour == 0 || c.hour > 12) {
		return c, wrong
	}
	return c, good
}

func cutAny(text, marks string) (before, after string, found bool) {
	if i := strings.IndexAny(text, marks); i >= 0 {
		return text[:i], text[i+1:], true
	}
	return text, "", false
}

func clockNumber(text string) (int, error) {
	n, err := strconv.ParseUint(text, 10, 8)
	if err == nil && len(text) > 2 {
		err = strconv.ErrRange
	}
	return int(n), err
}

// days says on which days a band holds.
type days struct {
	all, workdays, rest, holidays bool
	week                          [7]bool // by the day of the week, Sunday first
}

// have says whether a day belongs to d.
func (d days) have(weekday int, holiday bool) bool {
	work := weekday >= 1 && weekday <= 5 && !holiday
	return d.all || d.workdays && work || d.rest && !work || d.holidays && holiday || d.week[weekday]
}

// mindsHolidays says whether a holiday makes a difference.
func (d days) mindsHolidays() bool { return d.workdays || d.rest || d.holidays }

// readDays reads "workdays", "rest", "Sat, Sun, holidays", "Mon-Fri".
func readDays(text string) (d days, s state) {
	text = strings.ToLower(number.Trim(text))
	if text == "" {
		return days{all: true}, absent
	}
	any := false
	for _, part := range strings.Split(plainSpans(text), ",") {
		if part = number.Trim(part); part == "" {
			continue
		}
		if s := d.read(part); s != good {
			return d, s
		}
		any = true
	}
	if !any {
		return d, wrong
	}
	return d, good
}

func (d *days) read(part string) state {
	switch part {
	case "all", "every day", "daily":
		d.all = true
	case "workdays":
		d.workdays = true
	case "rest":
		d.rest = true
	case "holidays", "holiday":
		d.holidays = true
	case "weekend", "weekends":
		d.week[0], d.week[6] = true, true
	default:
		first, last, isRange := strings.Cut(part, "-")
		from, s := readWeekday(first)
		if s != good {
			return s
		}
		to := from
		if isRange {
			if to, s = readWeekday(last); s != good {
				return s
			}
		}
		for ; from != to; from = (from + 1) % 7 {
			d.week[from] = true
		}
		d.week[to] = true
	}
	return good
}

// readWeekday reads the name of a weekday, 0 for Sunday.
func readWeekday(text string) (int, state) {
	text = number.Trim(text)
	if text == "" {
		return 0, begun
	}
	if w, ok := words.Weekday(words.Fold(text)); ok {
		return w, good
	}
	for _, name := range strings.Fields("all workdays rest holidays weekends sundays mondays tuesdays wednesdays thursdays fridays saturdays") {
		if name == text {
			if w, ok := words.Weekday(strings.TrimSuffix(text, "s")); ok {
				return w, good
			}
			return 0, wrong // "all-Fri"
		}
		if strings.HasPrefix(name, text) {
			return 0, begun
		}
	}
	return 0, wrong
}
