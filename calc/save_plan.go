package calc

import (
	"splittally/calc/document"
	"splittally/calc/remark"
	"splittally/calc/tariff"
)

// PlanVersion is the version of a tariff's file. It rises when a field changes
// its meaning; a new field alone does not need it.
const PlanVersion = "1"

// planMark is the file's first field, whose text is the version.
const planMark = "splittally-tariff"

// SavePlan gives a tariff as the text of a file of its own: JSON, with the
// fields of PlanFields behind the version.
func SavePlan(s tariff.Schedule) string {
	version := PlanVersion
	return document.JSON(document.Write(func(f *document.Fields) {
		f.Text(planMark, &version)
		PlanFields(&s, f)
	}))
}

// OpenPlan reads the text of a tariff's file. A file that does not fit in full
// is refused with all that is wrong in it, so that nothing is half opened.
func OpenPlan(text string) (tariff.Schedule, []remark.Problem) {
	var s tariff.Schedule
	var version string
	problems := open(text, planMark, PlanVersion, "a tariff saved by Split Tally", func(f *document.Fields) {
		f.Text(planMark, &version)
		PlanFields(&s, f)
	})
	if len(problems) > 0 {
		return tariff.Schedule{}, problems
	}
	return s, nil
}
