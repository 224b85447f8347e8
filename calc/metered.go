package calc

import "splittally/calc/metered"

// judgeMeter holds the bills against the meter's own days, if they are known. It
// is one instrument against itself, so that nothing of any accuracy is in it.
func (w *work) judgeMeter() {
	if len(w.f.Meter.Days) == 0 {
		return
	}
	var bills []metered.Bill
	for p, b := range w.f.Periods {
		if !b.Dated {
			continue
		}
		bills = append(bills, metered.Bill{
			Index: p, Span: b.Span, Given: b.Given || b.Zero,
			Billed: b.Reference, Step: b.Resolution, Exported: b.Exported.Energy,
		})
	}
	w.f.Metered, w.f.IsMetered = metered.Judge(w.f.Meter, bills)
}
