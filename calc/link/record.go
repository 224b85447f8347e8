package link

import (
	"splittally/calc/calendar"
	"splittally/calc/energy"
	"splittally/calc/link/coder"
	"splittally/calc/record"
)

// records is what is known of the records of files so far.
type records struct {
	texts              texts
	count, bytes, rest coder.Size
	flags              texts
	first              coder.Signed
	rounding           coder.Size
}

// mostDays is how many days of hours a link holds at most.
const mostDays = 20_000

// record writes or reads what a file came to.
func (w *walk) record(text string) string {
	r := record.Record{}
	if !w.Reading {
		r, _ = record.Parse(text)
	}
	s, k := &r.Source, &w.records
	s.File = w.phrase(&k.texts, s.File)
	s.Bytes = int64(w.Number(&k.bytes, uint64(s.Bytes)))
	s.Rows = w.upTo(&k.bytes, s.Rows, 1<<40)
	s.Step = w.upTo(&k.rest, s.Step, 1<<31)
	s.Zone = w.phrase(&k.texts, s.Zone)
	each(w, &s.Said, 100, func(said *string) { *said = w.phrase(&k.texts, *said) })
	w.gaps(&r)
	r.MoreGaps = w.upTo(&k.rest, r.MoreGaps, 1<<40)
	each(w, &r.Oddities, 100, func(o *record.Oddity) {
		o.Kind = record.Kind(w.phrase(&k.texts, string(o.Kind)))
		o.Count = w.upTo(&k.rest, o.Count, 1<<40)
		each(w, &o.Lines, record.MaxLines, func(line *int) { *line = w.upTo(&k.rest, *line, 1<<40) })
	})
	each(w, &r.Channels, mostColumns, w.channel)
	if w.Broken {
		return ""
	}
	return record.Format(r)
}

// upTo writes or reads a whole number from 0 to most.
func (w *walk) upTo(s *coder.Size, v, most int) int {
	n := w.Number(s, uint64(max(0, v)))
	if n > uint64(most) {
		w.Broken = true
		return 0
	}
	return int(n)
}

// each writes or reads a list of at most so many.
func each[T any](w *walk, list *[]T, most int, one func(*T)) {
	n := w.upTo(&w.records.count, len(*list), most)
	if !w.Spend(n) {
		return
	}
	for i := range n {
		if w.Reading {
			var empty T
			*list = append(*list, empty)
		}
		if one(&(*list)[i]); w.Broken {
			return
		}
	}
}

// gaps writes or reads the gaps, in seconds where they are whole.
func (w *walk) gaps(r *record.Record) {
	before := int64(w.lastDay) * record.DayLength
	var from, length, fine coder.Size
	var minus coder.Chance
	time := func(s *coder.Size, v int64) int64 {
		parts := w.tree3(&w.records.flags.kinds, one(v%1000 != 0))
		if parts == 0 {
			return 1000 * int64(w.upTo(s, int(v/1000), 1<<36))
		}
		return int64(w.upTo(&fine, int(v), 1<<46))
	}
	each(w, &r.Gaps, record.MaxGaps, func(g *record.Gap) {
		if w.Bit(&minus, one(g.From < before)) == 1 {
			g.From = before - time(&from, before-g.From)
		} else {
			g.From = before + time(&from, g.From-before)
		}
		g.To = g.From + time(&length, max(0, g.To-g.From))
		g.Length = time(&length, max(0, g.Length))
		g.Known = w.Bit(&minus, one(g.Known)) == 1
		if g.Known {
			g.Energy = energy.Energy(w.Signed(&w.records.first, int64(g.Energy)))
		}
		if before = g.To; g.From < 0 || g.To > int64(lastDay)*record.DayLength {
			w.Broken = true
		}
	})
}

// channel writes or reads the hours of one channel.
func (w *walk) channel(c *record.Channel) {
	k := &w.records
	c.Role = record.Role(w.phrase(&k.texts, string(c.Role)))
	c.Name = w.phrase(&k.texts, c.Name)
	c.Unit = w.phrase(&k.texts, c.Unit)
	c.Rounding = energy.Energy(w.upTo(&k.rounding, int(c.Rounding), 1<<60))
	c.Sums = w.tree3(&k.flags.kinds, one(c.Sums)) == 1
	c.First = w.day(&k.first, c.First)
	h := &hourly{walk: w, unit: unitOf(c)}
	h.unit = energy.Energy(w.upTo(&k.rounding, int(h.unit), 1<<60))
	if h.unit <= 0 {
		w.Broken = true
		return
	}
	each(w, &c.Days, mostDays, h.dayOf)
	if calendar.Day(len(c.Days))+c.First > lastDay {
		w.Broken = true
	}
}
