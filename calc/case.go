package calc

import (
	"strings"

	"splittally/calc/billing"
	"splittally/calc/document"
	"splittally/calc/gain"
	"splittally/calc/pulse"
	"splittally/calc/tariff"
)

// Case is everything the owner knows, as texts just as they were typed: what
// is half typed survives being kept. An empty text is a field left blank.
//
// The page, the saved file and the scenarios in testdata are this document.
// Its fields are named once, in fields below; those names are also the names
// of the page's fields and the paths of problems and questions.
type Case struct {
	Title string
	Note  string
	// Today is the day of the last edit, as year-month-day. The core has no
	// clock; where a text gives no year this says which years can be meant.
	Today      string
	Monitors   []Monitor
	Meter      Meter
	Periods    []billing.Period
	Checks     gain.Checks       // spot checks of one monitor
	Timing     pulse.Timing      // pulses of the utility's meter, beside one monitor's watts
	Price      tariff.Flat       // the household's tariff, if it is a simple one
	Plans      []tariff.Schedule // tariffs line by line: the household's first, then others to compare
	Confidence string            // percent, 95 if blank
	Answers    []Answer
}

// Monitor is one of the owner's own instruments and what was pasted from it.
type Monitor struct {
	Name     string
	Accuracy string // percent of reading that its maker states
	Method   string // a fill.Method, or blank to choose by trial
	Setting  string // what its overall gain, or ratio, is set to now
	Readings string // pasted text; it may hold columns for several instruments
	Record   string // what a file of interval readings came to, as package record writes it
}

// Meter is the utility's meter.
type Meter struct {
	Class    string // percent of reading that its accuracy class allows
	Readings string // pasted text of its own daily figures, if the utility shows them
	Record   string // what a file of its own interval readings came to
}

// Answer is the choice taken for a question.
type Answer struct {
	Question, Choice string // IDs
}

// MonitorName is the name that was typed for a monitor, or "The monitor".
func (c *Case) MonitorName(i int) string {
	if i < len(c.Monitors) {
		if name := strings.TrimSpace(c.Monitors[i].Name); name != "" {
			return name
		}
	}
	return "The monitor"
}

// Fields describes the document; see package document.
func (c *Case) Fields(f *document.Fields) {
	f.Text("title", &c.Title)
	f.Lines("note", &c.Note)
	f.Text("today", &c.Today)
	document.Each(f, "monitors", &c.Monitors, (*Monitor).fields)
	f.Group("meter", func(f *document.Fields) {
		f.Text("class", &c.Meter.Class)
		f.Lines("readings", &c.Meter.Readings)
		f.Lines("record", &c.Meter.Record)
	})
	document.Each(f, "periods", &c.Periods, periodFields)
	f.Former("checks", "volts")
	f.Group("checks", func(f *document.Fields) { checkFields(&c.Checks, f) })
	f.Group("timing", func(f *document.Fields) { timingFields(&c.Timing, f) })
	f.Group("price", func(f *document.Fields) {
		f.Text("per-kwh", &c.Price.PerKWh)
		f.Text("fixed", &c.Price.Fixed)
		f.Text("tax", &c.Price.Tax)
		f.Text("currency", &c.Price.Currency)
	})
	document.Each(f, "plans", &c.Plans, PlanFields)
	f.Text("confidence", &c.Confidence)
	document.Each(f, "answers", &c.Answers, (*Answer).fields)
}

func (m *Monitor) fields(f *document.Fields) {
	f.Text("name", &m.Name)
	f.Text("accuracy", &m.Accuracy)
	f.Text("method", &m.Method)
	f.Text("setting", &m.Setting)
	f.Lines("readings", &m.Readings)
	f.Lines("record", &m.Record)
}

func periodFields(p *billing.Period, f *document.Fields) {
	f.Text("from", &p.From)
	f.Text("to", &p.To)
	f.Text("days", &p.Days)
	f.Text("kwh", &p.KWh)
	f.Text("apart", &p.Apart)
	f.Text("produced", &p.Produced)
	f.Text("exported", &p.Exported)
	document.Each(f, "lines", &p.Lines, lineFields)
	document.Each(f, "uses", &p.Uses, lineFields)
	f.Text("total", &p.Total)
	f.Text("solve", &p.Solve)
	f.Text("previous", &p.Previous)
	f.Text("present", &p.Present)
	f.Text("multiplier", &p.Multiplier)
	f.Text("digits", &p.Digits)
	f.Text("estimated", &p.Estimated)
	f.Text("loss-factor", &p.LossFactor)
	f.Text("loss-included", &p.LossIncluded)
	f.Text("read-hour", &p.ReadHour)
	f.Text("convention", &p.Convention)
}

func lineFields(l *billing.Line, f *document.Fields) {
	f.Text("name", &l.Name)
	f.Text("amount", &l.Amount)
}

// PlanFields describes a tariff, in a case and in a file of its own.
func PlanFields(s *tariff.Schedule, f *document.Fields) {
	f.Text("name", &s.Name)
	f.Text("currency", &s.Currency)
	f.Text("round", &s.Round)
	f.Text("half", &s.Half)
	f.Text("places", &s.Places)
	f.Text("inclusive", &s.Inclusive)
	f.Text("region", &s.Region)
	f.Lines("dates", &s.Dates)
	document.Each(f, "rows", &s.Rows, rowFields)
}

func rowFields(r *tariff.Row, f *document.Fields) {
	f.Text("kind", &r.Kind)
	f.Text("name", &r.Name)
	f.Text("price", &r.Price)
	f.Text("per", &r.Per)
	f.Text("basis", &r.Basis)
	f.Text("on", &r.On)
	f.Text("from", &r.From)
	f.Text("to", &r.To)
	f.Text("since", &r.Since)
	f.Text("until", &r.Until)
	document.Each(f, "steps", &r.Steps, func(s *tariff.Step, f *document.Fields) {
		f.Text("up-to", &s.UpTo)
		f.Text("price", &s.Price)
	})
	document.Each(f, "bands", &r.Bands, func(b *tariff.Band, f *document.Fields) {
		f.Text("name", &b.Name)
		f.Text("price", &b.Price)
		f.Text("days", &b.Days)
		f.Text("hours", &b.Hours)
	})
}

func checkFields(c *gain.Checks, f *document.Fields) {
	accuracy := func(name string, a *gain.Accuracy) {
		f.Group(name, func(f *document.Fields) {
			f.Text("percent", &a.Percent)
			f.Text("digits", &a.Digits)
		})
	}
	f.Text("service", &c.Service)
	f.Text("drop", &c.Drop)
	f.Text("power-factor", &c.PowerFactor)
	accuracy("voltmeter", &c.Voltmeter)
	accuracy("clampmeter", &c.Clampmeter)
	accuracy("plugmeter", &c.Plugmeter)
	document.Each(f, "legs", &c.Legs, legFields)
	document.Each(f, "lines", &c.Lines, pairFields)
}

func legFields(l *gain.Leg, f *document.Fields) {
	f.Text("name", &l.Name)
	f.Text("share", &l.Share)
	f.Text("setting", &l.Setting)
	document.Each(f, "pairs", &l.Pairs, pairFields)
	document.Each(f, "amps", &l.Amps, pairFields)
	document.Each(f, "steps", &l.Steps, func(s *gain.Step, f *document.Fields) {
		f.Text("before", &s.Before)
		f.Text("after", &s.After)
		f.Text("load", &s.Load)
	})
}

func pairFields(p *gain.Pair, f *document.Fields) {
	f.Text("reference", &p.Reference)
	f.Text("monitor", &p.Monitor)
}

func timingFields(t *pulse.Timing, f *document.Fields) {
	f.Text("shows", &t.Shows)
	f.Text("constant", &t.Constant)
	f.Text("per", &t.Per)
	f.Text("multiplier", &t.Multiplier)
	f.Text("hand", &t.Hand)
	document.Each(f, "runs", &t.Runs, func(r *pulse.Run, f *document.Fields) {
		f.Text("how", &r.How)
		f.Text("turns", &r.Turns)
		f.Text("seconds", &r.Seconds)
		f.Lines("marks", &r.Marks)
		f.Lines("watts", &r.Watts)
		f.Text("begins", &r.Begins)
	})
}

func (a *Answer) fields(f *document.Fields) {
	f.Text("question", &a.Question)
	f.Text("choice", &a.Choice)
}
