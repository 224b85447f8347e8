package calc

import (
	"splittally/calc/billing"
	"splittally/calc/document"
	"splittally/calc/gain"
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
	Checks     gain.Checks // spot checks of one monitor
	Price      tariff.Flat
	Confidence string // percent, 95 if blank
	Answers    []Answer
}

// Monitor is one of the owner's own instruments and what was pasted from it.
type Monitor struct {
	Name     string
	Accuracy string // percent of reading that its maker states
	Method   string // a fill.Method, or blank to choose by trial
	Setting  string // what its overall gain, or ratio, is set to now
	Readings string // pasted text; it may hold columns for several instruments
}

// Meter is the utility's meter.
type Meter struct {
	Class    string // percent of reading that its accuracy class allows
	Readings string // pasted text of its own daily figures, if the utility shows them
}

// Answer is the choice taken for a question.
type Answer struct {
	Question, Choice string // IDs
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
	})
	document.Each(f, "periods", &c.Periods, periodFields)
	f.Former("checks", "volts")
	f.Group("checks", func(f *document.Fields) { checkFields(&c.Checks, f) })
	f.Group("price", func(f *document.Fields) {
		f.Text("per-kwh", &c.Price.PerKWh)
		f.Text("fixed", &c.Price.Fixed)
		f.Text("tax", &c.Price.Tax)
		f.Text("currency", &c.Price.Currency)
	})
	f.Text("confidence", &c.Confidence)
	document.Each(f, "answers", &c.Answers, (*Answer).fields)
}

func (m *Monitor) fields(f *document.Fields) {
	f.Text("name", &m.Name)
	f.Text("accuracy", &m.Accuracy)
	f.Text("method", &m.Method)
	f.Text("setting", &m.Setting)
	f.Lines("readings", &m.Readings)
}

func periodFields(p *billing.Period, f *document.Fields) {
	f.Text("from", &p.From)
	f.Text("to", &p.To)
	f.Text("days", &p.Days)
	f.Text("kwh", &p.KWh)
	f.Text("apart", &p.Apart)
	f.Text("produced", &p.Produced)
	f.Text("exported", &p.Exported)
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

func (a *Answer) fields(f *document.Fields) {
	f.Text("question", &a.Question)
	f.Text("choice", &a.Choice)
}
