// Package calc is the road from what an owner knows to what can be said:
//
//	Case --Work--> Findings
//
// A Case holds texts as typed; Findings hold everything that is shown. Work is
// pure: no clock, no page, no files, no globals, no chance. The page, the link,
// the saved file, the report and the tests are readers and writers of these
// two documents. Each stage is a room of its own below this folder.
package calc

import (
	"fmt"
	"strings"

	"splittally/calc/account"
	"splittally/calc/billing"
	"splittally/calc/calendar"
	"splittally/calc/compare"
	"splittally/calc/fill"
	"splittally/calc/intake"
	"splittally/calc/ledger"
	"splittally/calc/tariff"
)

// Work takes one case through. Equal cases give equal findings.
func Work(c Case) Findings { return work{c: c, memory: &Memory{}}.findings() }

// findings takes the case through; w holds it and a memory.
func (w work) findings() Findings {
	w.begin()
	w.readSettings()
	w.readBills()    // dates and figures of the bills -> spans of days and reference energies
	w.readMonitors() // pasted texts and the records of files -> daily ledgers
	if w.settleDates() {
		w.f = Findings{Notices: w.f.Notices[len(w.f.Notices)-1:]} // read anew by what the meter's own days settle
		w.readSettings()
		w.readBills()
		w.readMonitors()
	}
	w.judgeMeter() // the meter's own days -> what its bills are
	w.compare()    // ledgers and spans -> filled totals, percentage errors, verdicts
	w.pool()       // errors of the periods -> one for each instrument
	w.checkLegs()  // leg checks -> gains, and what setting them would do
	w.time()       // pulses of the meter -> watts, beside the monitor's
	w.fitLines()   // periods and days -> offset and gain
	w.pairDays()   // days of both -> how they differ day by day
	w.weigh()      // all of it -> why they differ
	w.correct()    // gains -> settings, judged where they were not found
	w.price()      // energies -> money
	w.shapes()     // hours -> pictures of the load
	return w.f
}

// begin gathers the answers.
func (w *work) begin() {
	w.answers = map[string]string{}
	for _, a := range w.c.Answers {
		w.answers[a.Question] = a.Choice
	}
}

// work is one case on its way.
type work struct {
	c        Case
	memory   *Memory
	answers  map[string]string
	settings settings
	checked  int // the monitor that the checks of the legs are of
	// midnights says of which bills the meter's own days show that they hold what
	// was used from midnight to midnight.
	midnights []bool
	tariff    tariff.Tariff
	isSimple  bool           // tariff is the simple one, of what the bill charges
	used      []tariff.Usage // by period, as the meter counted it
	uses      []account.Uses // by period, what the bill prints of its times of use
	f         Findings
}

func (w *work) readBills() {
	read := billing.Read(w.c.Periods, billing.Options{Path: "periods", Answers: w.answers})
	w.f.Periods = read.Statements
	w.f.Problems = append(w.f.Problems, read.Problems...)
	w.f.Questions = append(w.f.Questions, read.Questions...)
	w.f.Notices = append(w.f.Notices, read.Notices...)
}

func (w *work) readMonitors() {
	for i, m := range w.c.Monitors {
		r, read := w.readPasted(i)
		if m.Record == "" {
			w.addInstruments(i, read)
		} else {
			w.addRecorded(i, w.readRecord(m.Record, fmt.Sprintf("monitors.%d", i), &r), read.Ledgers)
			w.takeBeside(r, w.instrumentName(i, "", 1))
		}
		w.addReadings(r)
	}
	r, read := w.readDays(w.c.Meter.Readings, "meter")
	all := read.Ledgers
	if w.c.Meter.Record != "" {
		if own, ok := w.readRecord(w.c.Meter.Record, "meter", &r).whole(); ok {
			if len(all) > 0 {
				own = w.joined(own, all[0], "meter")
			}
			all = []ledger.Ledger{own}
		}
		w.takeBeside(r, "the meter")
	}
	if len(all) > 0 {
		w.f.Meter, r.Columns = all[0], 1
	}
	w.f.MeterDays = r
}

// readPasted reads what was pasted from a monitor.
func (w *work) readPasted(monitor int) (Readings, intake.Result) {
	r, read := w.readDays(w.c.Monitors[monitor].Readings, fmt.Sprintf("monitors.%d", monitor))
	r.First = len(w.f.Instruments)
	return r, read
}

// addReadings notes how the texts of a monitor were read, once its instruments
// are there.
func (w *work) addReadings(r Readings) {
	r.Columns = len(w.f.Instruments) - r.First
	w.f.Readings = append(w.f.Readings, r)
}

// readDays reads one pasted text, if there is any.
func (w *work) readDays(text, path string) (Readings, intake.Result) {
	if strings.TrimSpace(text) == "" {
		return Readings{}, intake.Result{}
	}
	today, _ := calendar.ParseISO(w.c.Today)
	read := w.readText(text, intake.Options{Path: path, Answers: w.answers, Near: w.billed(), Today: today})
	w.f.Problems = append(w.f.Problems, read.Problems...)
	w.f.Questions = append(w.f.Questions, read.Questions...)
	w.f.Notices = append(w.f.Notices, read.Notices...)
	r := Readings{Lines: read.Lines, Unit: read.Unit}
	for _, line := range read.Lines {
		switch line.Use {
		case intake.Used:
			r.Used++
		case intake.Ignored:
			r.Ignored++
		case intake.Wrong:
			r.Wrong++
		}
	}
	return r, read
}

// billed gives the days from the first to the last that any bill covers.
func (w *work) billed() calendar.Span {
	var all calendar.Span
	for _, p := range w.f.Periods {
		switch {
		case !p.Dated:
		case all.Days() == 0:
			all = p.Span
		default:
			all = calendar.Span{First: min(all.First, p.Span.First), End: max(all.End, p.Span.End)}
		}
	}
	return all
}

func (w *work) instrumentName(monitor int, column string, columns int) string {
	name := w.c.Monitors[monitor].Name
	switch {
	case columns > 1 && column != "" && name != "":
		return name + ", " + column
	case columns > 1 && column != "":
		return column
	case name != "":
		return name
	case len(w.c.Monitors) == 1:
		return "The monitor"
	}
	return fmt.Sprintf("Monitor %d", monitor+1)
}

// compare sets every instrument against every bill.
func (w *work) compare() {
	for i := range w.f.Instruments {
		for p := range w.f.Periods {
			w.f.Instruments[i].Results = append(w.f.Instruments[i].Results, w.result(i, p))
		}
	}
}

func (w *work) result(i, p int) Result {
	bill := w.f.Periods[p]
	r := Result{Best: -1, Waits: bill.Waits}
	if !bill.Dated {
		return r
	}
	total, err := w.total(i, p, bill.Span, bill.ReadOffset)
	if err != nil {
		r.Waits = "the instrument has no reading to start from"
		return r
	}
	if known := total.Filled.Measured + total.Filled.Spread + total.Filled.Partial; known == 0 {
		r.Waits = "no day of this period was measured"
		return r
	}
	r.Filled = total.Filled
	w.f.Notices = append(w.f.Notices, total.notices(w.f.Instruments[i].Name, p)...)
	if !bill.Given {
		return r
	}
	r.Compared = compare.Judge(total.amount, w.reference(p), w.f.Confidence)
	r.Shifts, r.Best = r.Compared.Shifts(w.daysAround(i, bill.Span))
	for _, way := range bill.Ways {
		r.Ways = append(r.Ways, w.way(i, p, way))
	}
	return r
}

// way gives the outcome of one reading of the bill's dates.
func (w *work) way(i, p int, way billing.Way) WayResult {
	out := WayResult{Way: way}
	total, err := w.total(i, p, way.Span, way.Convention.ReadOffset(w.f.Periods[p].Hour))
	if err != nil {
		return out
	}
	out.Total = total.amount.Energy
	out.Percent, err = compare.PercentError(out.Total, w.f.Periods[p].Reference, compare.Places)
	out.Known = err == nil
	return out
}

// daysAround gives the days at both ends of a period, as far as they were measured.
func (w *work) daysAround(i int, s calendar.Span) compare.Ends {
	day := func(d calendar.Day) compare.DayEnergy {
		e := w.f.Instruments[i].Ledger.At(d)
		return compare.DayEnergy{Energy: e.Energy, Known: e.State == ledger.Measured}
	}
	return compare.Ends{Before: day(s.First - 1), First: day(s.First), Last: day(s.Last()), After: day(s.End)}
}

func (w *work) pool() {
	for i := range w.f.Instruments {
		inst := &w.f.Instruments[i]
		var periods []compare.Period
		for p, r := range inst.Results {
			if r.Compares() {
				periods = append(periods, compare.Period{Span: w.f.Periods[p].Span, Comparison: r.Compared})
			}
		}
		if len(periods) < 2 {
			continue
		}
		pooled, err := compare.Pool(periods)
		inst.Pooled, inst.IsPooled = pooled, err == nil
	}
}

// others gives the ledgers of all instruments but one.
func (w *work) others(i int) []ledger.Ledger {
	var out []ledger.Ledger
	for j, inst := range w.f.Instruments {
		if j != i {
			named := inst.Ledger
			named.Name = inst.Name
			out = append(out, named)
		}
	}
	return out
}

// method is the way of filling that was set for an instrument; blank chooses by trial.
func (w *work) method(i int) fill.Method {
	return w.settings.method[w.f.Instruments[i].Monitor]
}
