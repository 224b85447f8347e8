package calc

import (
	"fmt"
	"slices"

	"splittally/calc/tariff"
)

// readPlans reads the tariffs of the case: those described line by line, and
// the simple one, which is the household's if there is no other.
func (w *work) readPlans() {
	read := tariff.Read(w.c.Price, tariff.Options{Path: "price", Answers: w.answers})
	w.f.Problems = append(w.f.Problems, read.Problems...)
	w.f.Questions = append(w.f.Questions, read.Questions...)
	w.f.Notices = append(w.f.Notices, read.Notices...)
	w.f.Plan = read.Plan
	for i, s := range w.c.Plans {
		if blankSchedule(s) {
			w.f.Plans = append(w.f.Plans, tariff.Built{Tariff: tariff.Tariff{Waits: "nothing is typed yet"}})
			continue
		}
		built := tariff.Build(s, tariff.Options{Path: fmt.Sprintf("plans.%d", i), Answers: w.answers})
		w.f.Problems = append(w.f.Problems, built.Problems...)
		w.f.Questions = append(w.f.Questions, built.Questions...)
		w.f.Notices = append(w.f.Notices, built.Notices...)
		w.f.Plans = append(w.f.Plans, built)
	}
	w.tariff = read.Plan.Tariff()
	if len(w.f.Plans) > 0 && w.f.Plans[0].Tariff.Given {
		w.tariff, w.isSimple = w.f.Plans[0].Tariff, false
	} else {
		w.isSimple = true
	}
}

// blankSchedule says that nothing but what a fresh field holds was typed.
func blankSchedule(s tariff.Schedule) bool {
	rows := s.Rows
	s.Rows = nil
	blank := slices.IndexFunc(rows, func(r tariff.Row) bool {
		r.Kind, r.Per, r.Basis = "", "", ""
		steps := slices.IndexFunc(r.Steps, func(s tariff.Step) bool { return s != tariff.Step{} })
		bands := slices.IndexFunc(r.Bands, func(b tariff.Band) bool { return b != tariff.Band{} })
		r.Steps, r.Bands = nil, nil
		return steps >= 0 || bands >= 0 || fmt.Sprint(r) != fmt.Sprint(tariff.Row{})
	}) < 0
	return blank && fmt.Sprint(s) == fmt.Sprint(tariff.Schedule{})
}
