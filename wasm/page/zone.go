//go:build js && wasm

package page

import (
	"syscall/js"

	"splittally/calc/zone"
)

// Years between which the person's own clock is asked for its changes, and how
// far apart it is asked. No clock has been changed and changed back within less
// than a month; two weeks find that too.
const (
	clockFrom, clockTo = 1990, 2040
	clockStep          = 14 * 24 * 3600
)

// clock gives the rules of the person's own clock. They are found when a file
// needs them first, by halving the time between two answers that differ.
func (p *page) clock() zone.Rules {
	if p.rules.Name != "" {
		return p.rules
	}
	date := js.Global().Get("Date")
	at := date.New(0)
	offset := func(unix int64) int {
		at.Call("setTime", float64(unix)*1000)
		return -60 * at.Call("getTimezoneOffset").Int()
	}
	start := int64(date.Call("UTC", clockFrom, 0, 1).Float() / 1000)
	end := int64(date.Call("UTC", clockTo, 0, 1).Float() / 1000)
	r := zone.Rules{Before: offset(start)}
	for was, from := r.Before, start; from < end; from += clockStep {
		is := offset(from + clockStep)
		if is == was {
			continue
		}
		before, after := from, from+clockStep
		for after-before > 1 {
			if middle := (before + after) / 2; offset(middle) == was {
				before = middle
			} else {
				after = middle
			}
		}
		r.Changes = append(r.Changes, zone.Change{At: after, Offset: is})
		was = is
	}
	r.Name = clockName(r, int64(date.Call("now").Float()/1000))
	p.rules = r
	return r
}

// clockName tells a clock by its offsets and not by its place, because it goes
// into files that people hand on.
func clockName(r zone.Rules, unix int64) string {
	winter, from, to := r.At(unix)
	summer := winter
	for _, near := range []int64{from - 1, to} {
		other, _, _ := r.At(near)
		if far := near - unix; far > -400*24*3600 && far < 400*24*3600 {
			winter, summer = min(winter, other), max(summer, other)
		}
	}
	if winter == summer {
		return "your own clock, " + zone.FromUTC(winter)
	}
	return "your own clock, " + zone.FromUTC(winter) + ", in summer " + zone.FromUTC(summer)
}
