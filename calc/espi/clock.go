package espi

import (
	"splittally/calc/calendar"
	"splittally/calc/table"
	"splittally/calc/zone"
)

// IDs of the settings, and their choices.
const (
	zoneSetting  = "zone"
	fromFeed     = "feed"     // the feed’s LocalTimeParameters
	ownClock     = "own"      // the person’s own clock
	asWritten    = "utc"      // the stamps show the clock’s time, as if it were UTC
	fromStandard = "standard" // they show that of the clock without summer time

	stampSetting = "stamps"
	atStart      = "start"
	atEnd        = "end"
)

// clock is whose clock the days of a track are by.
type clock struct {
	rules zone.Rules
	late  int64 // seconds by which times are to be put later to be true
}

// clockFor gives the clock that a choice stands for, nil if the feed does not
// offer it.
func (r *Reader) clockFor(choice string, l *localTime, t *track) *clock {
	switch choice {
	case ownClock:
		return &clock{rules: r.options.Zone}
	case asWritten:
		return &clock{rules: zone.Rules{Name: "the clock’s own time, as the feed has it"}}
	case fromFeed, fromStandard:
		if l == nil || l.Offset == 0 {
			return nil
		}
		first, _, _ := dayOf(t.first).Date()
		last, _, _ := dayOf(t.end).Date()
		c := clock{rules: l.Rules(max(first, calendar.FirstYear+1), min(last, calendar.LastYear-1))}
		if choice == fromStandard {
			c.late = -int64(l.Offset)
		}
		return &c
	}
	return nil
}

// shiftOf gives how far into an hour of UTC an hour of the local clock begins, as
// far as that is known when readings begin: in seconds, at a time.
func (r *Reader) shiftOf(at int64) int64 {
	offset := 0
	switch set := r.options.Settings[zoneSetting]; {
	case set == asWritten, set == fromStandard:
	case len(r.clocks) > 0 && r.clocks[0].Offset != 0 && set != ownClock:
		offset = r.clocks[0].Offset
	default:
		offset, _, _ = r.options.Zone.At(at)
	}
	_, shift := calendar.Floor(int64(offset), hourSeconds)
	return shift
}

// readsAtStart says whether a register was read at the start of a reading's
// period. The standard does not tell; its end is assumed.
func (r *Reader) readsAtStart() bool { return r.options.Settings[stampSetting] == atStart }

// evidence is what speaks for a choice of clock.
type evidence struct {
	choice   string
	ends     int // of the first and the last time of each track, how many are midnights
	midnight int // blocks that begin at midnight
	blocks   int
}

// better says whether e speaks more for its choice than o.
func (e evidence) better(o evidence) bool {
	return e.ends > o.ends || e.ends == o.ends && e.midnight > o.midnight
}

// weigh gives what speaks for a choice; offered is false if the feed lacks it.
func (r *Reader) weigh(choice string) (e evidence, offered bool) {
	e.choice = choice
	for _, t := range r.tracks {
		if t.readings == 0 {
			continue
		}
		c := r.clockFor(choice, r.clockOf(r.pointOf(r.meterOf(t))), t)
		if c == nil {
			continue
		}
		offered = true
		for _, at := range []int64{t.first, t.end} {
			if c.isMidnight(at) {
				e.ends++
			}
		}
		for _, at := range t.starts {
			e.blocks++
			if c.isMidnight(at) {
				e.midnight++
			}
		}
	}
	return e, offered
}

func (c *clock) isMidnight(at int64) bool { return c.wall(at)%daySeconds == 0 }

// wall gives the local time for a time of the feed, both in seconds.
func (c *clock) wall(at int64) int64 {
	offset, _, _ := c.rules.At(at + c.late)
	return at + c.late + int64(offset)
}

// setClock settles whose clock the days are by, and asks if that is not plain.
//
// A feed says it in LocalTimeParameters. But some have none, or an offset of 0
// that nobody set; and some write the time of the clock as if it were UTC. Then
// readings that begin and end at midnight, and blocks that do, tell which is
// meant (common practice, no source).
func (r *Reader) setClock() (choice string, s table.Setting) {
	s = table.Setting{ID: zoneSetting, Label: "Whose clock the days are by"}
	var taken, best evidence
	for _, choice := range []string{fromFeed, fromStandard, ownClock, asWritten} {
		e, offered := r.weigh(choice)
		if !offered {
			continue
		}
		s.Choices = append(s.Choices, table.Choice{ID: choice, Label: r.clockLabel(choice)})
		if taken.choice == "" {
			taken = e
		}
		if best.choice == "" || e.better(best) {
			best = e
		}
	}
	feed := taken.choice == fromFeed
	s.Sure = feed && taken.ends >= best.ends
	switch {
	case best.ends > taken.ends && (!feed || r.titlesAreUTC()):
		s.Why = r.whyClock(best, feed)
		taken = best
	case feed && !s.Sure:
		s.Why = "By the feed’s own clock its readings do not begin and end at midnight; by another they would."
	case !feed:
		s.Why = "The feed does not say by whose clock its days are."
	}
	if set := r.options.Settings[zoneSetting]; offers(s.Choices, set) {
		taken.choice, s.Sure = set, true
	}
	s.Taken = taken.choice
	return taken.choice, s
}

func (r *Reader) whyClock(best evidence, feed bool) string {
	switch {
	case feed:
		return "The titles of its blocks show the times of day that UTC has, and only by such a clock do its readings begin or end at midnight."
	case best.choice == ownClock:
		return "The feed does not say by whose clock its days are. By yours its readings begin or end at midnight."
	}
	return "The feed does not say by whose clock its days are. Its readings begin or end at midnight as they are written."
}

func offers(choices []table.Choice, id string) bool {
	for _, c := range choices {
		if c.ID == id {
			return true
		}
	}
	return false
}

func (r *Reader) clockLabel(choice string) string {
	switch choice {
	case fromFeed:
		return "the feed’s, " + r.clocks[0].Rules(2000, 2000).Name
	case asWritten:
		return "the times as written, without a zone"
	case fromStandard:
		return "the feed’s, with its winter time written as if it were UTC"
	}
	if r.options.Zone.Name == "" {
		return "UTC"
	}
	return r.options.Zone.Name
}

// titlesAreUTC says whether the titles of most blocks show the time of their
// start by UTC.
func (r *Reader) titlesAreUTC() bool {
	titles, same := 0, 0
	for _, t := range r.tracks {
		titles, same = titles+t.titles, same+t.asUTC
	}
	return titles > 0 && same*10 >= titles*9
}

// timeIn finds a date with a time in a text, such as 2023-09-15 00:00, and gives
// it in seconds, read as UTC.
func timeIn(text string) (seconds int64, ok bool) {
	const form = "2006-01-02 15:04"
	for i := 0; i+len(form) <= len(text); i++ {
		part := text[i : i+len(form)]
		day, isDay := calendar.ParseISO(part[:10])
		hour, minute := twoDigits(part[11:13]), twoDigits(part[14:])
		if isDay && (part[10] == ' ' || part[10] == 'T') && part[13] == ':' && hour < 24 && minute < 60 {
			return int64(day)*daySeconds + int64(hour)*hourSeconds + int64(minute)*60, true
		}
	}
	return 0, false
}

// twoDigits reads a number of two digits; what is none is 99.
func twoDigits(text string) int {
	if text[0] < '0' || text[0] > '9' || text[1] < '0' || text[1] > '9' {
		return 99
	}
	return int(text[0]-'0')*10 + int(text[1]-'0')
}
