package say

import (
	"splittally/calc/figure"
	"splittally/calc/metered"
)

// MeteredBill says in a few words what a bill is beside the meter's own days.
func MeteredBill(b metered.Judged) string {
	switch b.Kind {
	case metered.Agrees:
		return "agrees, to within its rounding"
	case metered.Split:
		return "a part of a reading period that was split"
	case metered.Estimated:
		return "rests on an estimated read"
	case metered.Net:
		return "net of credits"
	case metered.InDay:
		return "read during the day"
	case metered.DayOff:
		return "a day off"
	case metered.Losses:
		return "holds losses"
	case metered.Multiplier:
		return "off by a multiplier"
	case metered.Unexplained:
		return "not explained"
	}
	if b.Missing > 0 {
		return "not judged: the record lacks " + figure.Counted(b.Missing, "day", "days")
	}
	return "waits for the bill"
}
