package interval

import (
	"splittally/calc/calendar"
	"splittally/calc/record"
	"splittally/calc/remark"
	"splittally/calc/series"
	"splittally/calc/table"
	"splittally/calc/zone"
)

// columns reads a file of columns.
type columns struct {
	layout   table.Layout
	settings []table.Setting
	preview  Preview
	reader   *table.Reader
	// turned is the order of day and month that a row has shown, if it is not
	// that of the layout.
	turned string
	err    error
}

// The settings of the order of day and month, as table.Find asks for it.
const (
	orderSetting = "order"
	dayFirst     = "day-first"
	monthFirst   = "month-first"
	// orderTurned among the settings says that the order was turned once: rows
	// that contradict it again have no order.
	orderTurned = "order-turned"
)

// previewRows is how many readings are shown as they were understood.
const previewRows = 6

func newColumns(head []byte, l table.Layout, settings []table.Setting, o *Options) *columns {
	c := &columns{layout: l, settings: settings}
	var rules *zone.Rules
	if l.Stamp.Zone == table.Instant {
		rules = &o.Zone
	}
	c.reader = table.NewReader(l, rules)
	c.preview.Heads, c.preview.Rows = table.Preview(head, l, rules, previewRows)
	return c
}

// write hands rows over. It is false when no more are wanted.
func (c *columns) write(text []byte) bool {
	c.err = c.reader.Write(text)
	if order, ok := c.err.(*table.OrderError); ok {
		c.turned = dayFirst
		if order.Other == table.MonthFirst {
			c.turned = monthFirst
		}
	}
	return c.err == nil
}

// close puts what the rows came to into found.
func (c *columns) close(found *Found, o Options, bytes int64) {
	t, err := c.reader.Close()
	if err == nil {
		err = c.err
	}
	found.Preview, found.Settings = c.preview, c.settled(t.Decided)
	found.tell(err)
	if t.Rows == 0 {
		if err == nil {
			found.Problems = append(found.Problems, remark.Problem{Wanted: "rows with a time and a figure; none of this file could be read"})
		}
		return
	}
	r := record.Record{
		Source: record.Source{
			File: o.File, Bytes: bytes, Rows: t.Rows, Step: int(c.layout.Step / 1000), Zone: c.clock(o), Said: said(found.Settings),
		},
		Gaps: t.Gaps, MoreGaps: t.MoreGaps, Oddities: t.Oddities,
	}
	for i, made := range t.Made {
		column := &c.layout.Columns[made.Column]
		r.Channels = append(r.Channels, channel(t.First, t.Channels[i], record.Channel{
			Name: column.Name, Role: made.Role, Unit: unitWords(column), Rounding: made.Rounding, Sums: made.Sums,
		}))
	}
	found.Records = []Candidate{{Name: o.File, Usable: true, Record: r}}
}

// settled gives the settings, the order of day and month as sure if some row
// has shown it.
func (c *columns) settled(decided bool) []table.Setting {
	out := append([]table.Setting(nil), c.settings...)
	for i := range out {
		if s := &out[i]; s.ID == orderSetting && decided && !s.Sure {
			s.Sure, s.Why = true, "Further down there are dates that can be read in this order only."
		}
	}
	return out
}

// clock says whose clock the hours are by.
func (c *columns) clock(o Options) string {
	switch c.layout.Stamp.Zone {
	case table.Offset:
		return "the clock whose offset is written beside each time"
	case table.Instant:
		return o.Zone.Name
	}
	return "the home’s clock, as written"
}

// said tells how a file was read, a sentence for each setting.
func said(settings []table.Setting) []string {
	var out []string
	for _, s := range settings {
		for _, choice := range s.Choices {
			if choice.ID == s.Taken {
				text := s.Label + ": " + choice.Label
				if !s.Sure {
					text += " (assumed)"
				}
				out = append(out, text+".")
			}
		}
	}
	return out
}

// unitWords says what a column's figures are.
func unitWords(c *table.Column) string {
	switch c.Quantity {
	case series.Power:
		return c.Unit + ", mean power"
	case series.Register:
		return c.Unit + ", a register"
	}
	return c.Unit + ", energy of each interval"
}

// channel gives a channel its days, without those at its ends that have no
// readings.
func channel(from calendar.Day, days []record.Day, c record.Channel) record.Channel {
	first, last := 0, len(days)
	for first < last && days[first].Covered() == 0 {
		first++
	}
	for last > first && days[last-1].Covered() == 0 {
		last--
	}
	c.First, c.Days = from+calendar.Day(first), days[first:last]
	return c
}

// tell puts why the reading of columns ended among the problems.
func (f *Found) tell(err error) {
	switch err := err.(type) {
	case *table.LineError:
		f.Problems = append(f.Problems, remark.Problem{
			Line: err.Line, Wanted: "lines of at most 64 kB; what stands before this one was read, the rest was not",
		})
	case *table.OrderError:
		f.Problems = append(f.Problems, remark.Problem{
			Line: err.Line, Found: err.Found,
			Wanted: "dates in one order; above it are dates that can only be read in the other one. What stands before was read",
		})
	}
}
