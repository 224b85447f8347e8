package calc

import (
	"fmt"
	"slices"

	"splittally/calc/billing"
	"splittally/calc/calendar"
	"splittally/calc/energy"
	"splittally/calc/ledger"
	"splittally/calc/outage"
	"splittally/calc/record"
	"splittally/calc/remark"
)

// Channel is one channel of a record that is no instrument: what the home fed
// into the grid or made itself, or a circuit.
type Channel struct {
	Role   record.Role
	Ledger ledger.Ledger
}

// recorded is a record taken apart.
type recorded struct {
	record   record.Record
	problems []remark.Problem
	mains    []ledger.Ledger   // taken from the grid
	odd      [][]ledger.Oddity // of each main
	legs     []ledger.Ledger
	beside   []Channel
	outages  outage.Found
}

// openRecord takes apart the text of a record. Equal texts of the case before
// are not read again.
func (w *work) openRecord(text string) recorded {
	return w.memory.records.get(text, func(a, b string) bool { return a == b }, func(text string) recorded {
		var out recorded
		out.record, out.problems = record.Parse(text)
		for i := range out.record.Channels {
			c := &out.record.Channels[i]
			l, err := c.Ledger(out.record.Source.Step)
			if err != nil {
				out.problems = append(out.problems, remark.Problem{Found: c.Name, Wanted: "energies that a home can have"})
				continue
			}
			switch c.Role {
			case record.Import:
				out.mains, out.odd = append(out.mains, l), append(out.odd, ledger.Odd(l))
			case record.LegA, record.LegB, record.LegC:
				out.legs = append(out.legs, l)
			default:
				out.beside = append(out.beside, Channel{c.Role, l})
			}
			c.Days = nil // the ledger has them
		}
		for _, own := range [][]ledger.Ledger{out.mains, out.legs} {
			if len(own) > 0 {
				out.outages = outage.Of(out.record.Gaps, own[0], 1000*int64(out.record.Source.Step))
				break
			}
		}
		return out
	})
}

// whole gives what was taken from the grid: the first main, or the legs together.
func (r recorded) whole() (ledger.Ledger, bool) {
	switch {
	case len(r.mains) > 0:
		return r.mains[0], true
	case len(r.legs) > 0:
		sum, err := ledger.Sum(r.legs, "")
		return sum, err == nil
	}
	return ledger.Ledger{}, false
}

// readRecord reads the record of a file.
func (w *work) readRecord(text, path string, r *Readings) recorded {
	rec := w.openRecord(text)
	for _, p := range rec.problems {
		p.Path = path + ".record"
		w.f.Problems = append(w.f.Problems, p)
	}
	if len(rec.problems) == 0 && len(rec.mains)+len(rec.legs) == 0 {
		w.f.Notices = append(w.f.Notices, remark.Notice{
			Code: "record-without-import", Path: path + ".record",
			Text: "No column of the file is taken as energy from the grid, so that there is nothing to compare with the bill.",
		})
	}
	r.Record, r.IsRecord, r.Beside, r.Outages = rec.record, true, rec.beside, rec.outages
	return rec
}

// addRecorded makes instruments of a record and of what was pasted beside it.
// One pasted column and one instrument of the file are the same instrument, and
// its days are joined; columns beyond that are instruments of their own.
func (w *work) addRecorded(monitor int, rec recorded, pasted []ledger.Ledger) {
	first := len(w.f.Instruments)
	for i, l := range rec.mains {
		w.f.Instruments = append(w.f.Instruments, Instrument{
			Monitor: monitor, Name: w.instrumentName(monitor, l.Name, len(rec.mains)), Ledger: l, Odd: rec.odd[i],
		})
	}
	w.addLegs(monitor, first, rec)
	if len(pasted) == 1 && len(w.f.Instruments) == first+1 {
		inst := &w.f.Instruments[first]
		inst.Ledger = w.joined(inst.Ledger, pasted[0], fmt.Sprintf("monitors.%d", monitor))
		inst.Odd = ledger.Odd(inst.Ledger)
		return
	}
	for _, l := range pasted {
		w.f.Instruments = append(w.f.Instruments, Instrument{
			Monitor: monitor, Name: w.instrumentName(monitor, l.Name, len(pasted)+1), Ledger: l, Odd: ledger.Odd(l),
		})
	}
}

// addLegs makes an instrument of the legs, or hangs them on the one that they
// are the legs of.
func (w *work) addLegs(monitor, first int, rec recorded) {
	if len(rec.legs) == 0 {
		return
	}
	if len(rec.mains) == 0 {
		name := w.instrumentName(monitor, "", 1)
		sum, err := ledger.Sum(rec.legs, name)
		if err != nil {
			return // no home has that much
		}
		w.f.Instruments = append(w.f.Instruments, Instrument{Monitor: monitor, Name: name, Ledger: sum, Odd: ledger.Odd(sum)})
	}
	if len(w.f.Instruments) == first+1 && len(rec.legs) > 1 {
		inst := &w.f.Instruments[first]
		inst.Legs, inst.Shares = rec.legs, ledger.Shares(rec.legs, inst.Ledger.Span())
	}
}

// joined takes days that a file lacks, or has in part, from what was pasted
// beside it, and says so.
func (w *work) joined(file, pasted ledger.Ledger, path string) ledger.Ledger {
	out := file
	out.Days, out.Slots = slices.Clone(file.Days), slices.Clone(file.Slots)
	taken, both, apart := 0, 0, energy.Energy(0)
	for d := pasted.First; d < pasted.Span().End; d++ {
		own, other := file.At(d), pasted.At(d)
		switch {
		case other.State == ledger.Missing:
		case own.State == ledger.Measured || own.State == ledger.Spread:
			if other.State == ledger.Measured {
				both, apart = both+1, max(apart, (own.Energy-other.Energy).Abs())
			}
		case other.State == ledger.Spread && anyKnown(file, other.Total):
		case other.State == ledger.Partial && own.State == ledger.Partial:
		default:
			out.Put(d, other)
			out.Slots = slices.DeleteFunc(out.Slots, func(s ledger.Slot) bool { return s.Day == d })
			taken++
		}
	}
	if taken > 0 || both > 0 {
		text := fmt.Sprintf("Days from the file are kept; %d from the pasted text stand where it has none or a part.", taken)
		if both > 0 {
			text += fmt.Sprintf(" On %d days both give a figure; they differ by %s kWh at most.", both, apart.Text(2))
		}
		w.f.Notices = append(w.f.Notices, remark.Notice{Code: "file-and-paste", Path: path + ".readings", Text: text})
	}
	return out
}

// anyKnown says that a ledger knows a day of a span.
func anyKnown(l ledger.Ledger, span calendar.Span) bool {
	for d := span.First; d < span.End; d++ {
		if l.At(d).State != ledger.Missing {
			return true
		}
	}
	return false
}

// takeBeside takes what a file knows of energy made in the home and fed into
// the grid for the bills at which nothing was typed.
func (w *work) takeBeside(r Readings, name string) {
	for _, c := range r.Beside {
		for p := range w.f.Periods {
			bill := &w.f.Periods[p]
			to, what := &bill.Produced, "produced in the home"
			switch {
			case c.Role == record.Export:
				to, what = &bill.Exported, "fed into the grid"
			case c.Role != record.Production:
				continue
			}
			if to.Given || !bill.Dated || c.Ledger.Count(bill.Span, ledger.Measured) < bill.Span.Days() {
				continue
			}
			*to = billing.Beside{Given: true, Resolution: energy.WattHour}
			for d := bill.Span.First; d < bill.Span.End; d++ {
				to.Energy += c.Ledger.At(d).Energy
			}
			w.f.Notices = append(w.f.Notices, remark.Notice{
				Code: "beside-from-file", Path: fmt.Sprintf("periods.%d", p),
				Text: fmt.Sprintf("%s kWh %s, from the file of %s.", to.Energy.Text(1), what, name),
			})
		}
	}
}
