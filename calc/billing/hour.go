package billing

import (
	"strconv"
	"strings"

	"splittally/calc/number"
)

// readHours reads the hour of day at which the reads were taken.
func (s *sheet) readHours() {
	for i := range s.bills {
		b := &s.bills[i]
		hour, state := parseHour(b.typed.ReadHour)
		switch state {
		case dateSure:
			b.says.Hour, b.says.HourKnown = hour, true
		case dateWrong:
			s.problem(b, "read-hour", b.typed.ReadHour, "an hour of the day from 0 to 24, such as 9:30, noon or midnight")
		}
	}
}

// parseHour reads "9", "9:30", "9.30", "9.5", "9:30 pm", "noon" and "midnight", which
// is the start of the day; its end is 24.
func parseHour(text string) (hour float64, state dateState) {
	text = strings.ToLower(number.Trim(text))
	switch text {
	case "":
		return 0, dateAbsent
	case "midnight":
		return 0, dateSure
	case "noon", "midday":
		return 12, dateSure
	}
	if strings.HasPrefix("midnight", text) || strings.HasPrefix("noon", text) {
		return 0, dateUnfinished
	}
	half := ""
	for _, end := range []string{"am", "a.m.", "pm", "p.m.", "h"} {
		if rest, ok := strings.CutSuffix(text, end); ok {
			text, half = strings.TrimSpace(rest), end[:1]
			break
		}
	}
	if h, m, dot := strings.Cut(text, "."); dot && len(m) == 2 {
		text = h + ":" + m // many write the clock so; in hundredths of an hour nobody does
	}
	whole, minutes, clock := strings.Cut(text, ":")
	if !clock {
		minutes = "0"
	} else if minutes == "" {
		return 0, dateUnfinished
	}
	r := number.Readings(whole)
	m, err := strconv.Atoi(minutes)
	if len(r) != 1 || err != nil || m < 0 || m > 59 || len(minutes) > 2 || clock && r[0].Places != 0 {
		return 0, dateWrong
	}
	hour = r[0].Value.InexactFloat64()
	if half == "a" || half == "p" {
		if hour < 1 || hour >= 13 {
			return 0, dateWrong
		}
		if hour >= 12 {
			hour -= 12
		}
		if half == "p" {
			hour += 12
		}
	}
	hour += float64(m) / 60
	if hour < 0 || hour > 24 {
		return 0, dateWrong
	}
	return hour, dateSure
}
