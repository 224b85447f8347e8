package say

import (
	"math"

	"splittally/calc/outage"
)

// OutageWhen says from when to when an instrument was silent.
func OutageWhen(o outage.Outage) string {
	return WallSpan(o.From, o.To)
}

// OutageLength says for how long, without what was read in between.
func OutageLength(o outage.Outage) string {
	if o.Gaps > 1 {
		return Lasting(o.Length) + " in " + Counted(o.Gaps, "gap", "gaps")
	}
	return Lasting(o.Length)
}

// OutageEnergy says what was used meanwhile, and how well that is known, as ± one
// standard uncertainty. It is empty if nothing is.
func OutageEnergy(o outage.Outage) string {
	switch {
	case o.Known:
		return small(o.Energy.KilowattHours()) + ", by the register"
	case o.Estimated:
		return "about " + small(o.Energy.KilowattHours()) + ", ± " + small(o.Standard)
	}
	return ""
}

// small writes an energy in kWh, and below a tenth of one in Wh.
func small(kWh float64) string {
	if math.Abs(kWh) < 0.1 {
		return Plain(1000*kWh, 0) + Thin + "Wh"
	}
	return Plain(kWh, 2) + Thin + "kWh"
}

// OutageKind says what it looks like.
func OutageKind(k outage.Kind) string {
	switch k {
	case outage.Power:
		return "the power was gone"
	case outage.Connection:
		return "the connection was lost"
	case outage.Untold:
		return "cannot be told"
	}
	return string(k)
}

// Outages sums them up, such as "12 times without readings, 3 h 5 min together".
func Outages(f outage.Found) string {
	all := f.MoreLength
	for _, o := range f.Outages {
		all += o.Length
	}
	return Counted(len(f.Outages)+f.More, "time", "times") + " without readings, " + Lasting(all) + " together"
}
