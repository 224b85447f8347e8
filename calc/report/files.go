package report

import (
	"fmt"
	"strings"

	"splittally/calc"
	"splittally/calc/load"
	"splittally/calc/say"
)

// mostOutages is how many stretches without readings a report lists.
const mostOutages = 20

// files tells what each file of interval readings came to.
func (r *writer) files() {
	for i := range r.f.Readings {
		r.file(&r.f.Readings[i], fmt.Sprintf("monitor %d", i+1))
	}
	r.file(&r.f.MeterDays, "the utility’s meter")
}

func (r *writer) file(read *calc.Readings, of string) {
	if !read.IsRecord {
		return
	}
	rec := read.Record
	r.section("File of " + of)
	r.line("%s: readings %s", rec.Source.File, say.Readings(rec.Source))
	r.text("   by ", rec.Source.Zone)
	for _, said := range rec.Source.Said {
		r.text("   ", said)
	}
	for i, c := range rec.Channels {
		r.text("   ", fmt.Sprintf("%s: %s; %s", say.Column(c, i), say.Role(c.Role), c.Unit))
	}
	r.text("   without readings: ", say.Lost(rec))
	for _, o := range rec.Oddities {
		r.text("   odd: ", say.RecordOddity(o))
	}
	if len(read.Outages.Outages) > 0 {
		r.line("   when, for how long, what was used (± one standard uncertainty), what it looks like:")
	}
	last := ""
	for i, o := range read.Outages.Outages {
		if i == mostOutages {
			r.line("   … and %d more", len(read.Outages.Outages)-i+read.Outages.More)
			break
		}
		why := "" // most are short and have the same, which is told once
		if o.Why != "" && o.Why != last {
			why, last = " "+o.Why, o.Why
		}
		parts := []string{say.OutageWhen(o), say.OutageLength(o)}
		if used := say.OutageEnergy(o); used != "" {
			parts = append(parts, used)
		}
		r.text("   ", strings.Join(append(parts, say.OutageKind(o.Kind)), "; ")+"."+why)
	}
}

// loads tells what the hours of each instrument show, and those of the meter.
func (r *writer) loads() {
	for i := range r.f.Instruments {
		inst := &r.f.Instruments[i]
		if inst.IsLoad {
			r.load(inst.Name, inst.Load)
		}
	}
	if r.f.IsMeterLoad {
		r.load("the utility’s meter", r.f.MeterLoad)
	}
}

func (r *writer) load(name string, l load.Load) {
	if l.Counted == 0 {
		return
	}
	r.section("When power is used: " + say.Within(name))
	r.text("", say.Base(l.Base, fmt.Sprintf("%g %%", 100*r.f.Confidence)))
	r.text("", say.LoadHours(l))
	r.text("", say.LoadDuration(l))
	for _, m := range l.Months {
		line := fmt.Sprintf("%s: %s kWh", m.Span, m.Energy.Text(1))
		if n := m.Partial + m.Missing; n > 0 {
			line += ", without what " + say.Counted(n, "day lacks", "days lack")
		}
		r.line("   %s", line)
	}
}
