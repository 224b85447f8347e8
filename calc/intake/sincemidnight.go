package intake

import (
	"slices"

	"splittally/calc/energy"
	"splittally/calc/remark"
)

// stamp gives the time that the line of an interval gives, in minutes since day
// 0; the last minute of a day is its end.
func (a *attempt) stamp(p *interval) int {
	at := int(p.span.First)*dayLength + a.p.rows[p.row].from
	if (at+1)%dayLength == 0 {
		at++
	}
	return at
}

// dayStarted gives the day that the read of an interval adds up: of a read at
// midnight the day that ends, unless it is smaller than the one before.
func (a *attempt) dayStarted(parts []interval, i int) int {
	stamp := a.stamp(&parts[i])
	if stamp%dayLength == 0 && i > 0 && parts[i].energy >= parts[i-1].energy {
		return stamp/dayLength - 1
	}
	return stamp / dayLength
}

// beginsDaily says whether the figures are running totals that begin at zero
// each midnight: through each day they never fall, and each day but the first
// begins below where the one before ended. It is asked then.
func (a *attempt) beginsDaily(parts []interval) bool {
	days, long := 0, 0
	for i := 0; i < len(parts); {
		n, day := i, a.dayStarted(parts, i)
		for n < len(parts) && a.dayStarted(parts, n) == day {
			if a.p.rows[parts[n].row].till >= 0 || n > i && parts[n].energy < parts[n-1].energy {
				return false
			}
			n++
		}
		if i > 0 && parts[i].energy > parts[i-1].energy/2 && parts[i-1].energy > 0 {
			return false
		}
		days++
		if n-i >= 6 && parts[n-1].energy/3 > parts[i].energy {
			long++
		}
		i = n
	}
	if long == 0 || 2*long < days {
		return false
	}
	if !a.asked("register") {
		a.ask("register", "Are these running totals that begin anew each day, or the energy of each interval?",
			"Through each day the figures only rise, and they begin again after midnight.", "midnight",
			remark.Choice{ID: "midnight", Label: "Running totals since midnight"},
			remark.Choice{ID: "daily", Label: "The energy of each interval"})
	}
	if a.taken("register") != "midnight" {
		return false
	}
	a.notices = slices.DeleteFunc(a.notices, func(n remark.Notice) bool { return n.Code == "interval-start-assumed" })
	return true
}

// sinceMidnight makes intervals of running totals that begin at each midnight:
// from each read back to the one before, or to midnight.
func (a *attempt) sinceMidnight(parts []interval) []interval {
	out := make([]interval, 0, len(parts))
	before, at, zone, current, perDay := energy.Energy(0), 0, 0, -1, map[int]int{}
	for i := range parts {
		p := parts[i]
		stamp, day := a.stamp(&p), a.dayStarted(parts, i)
		if day != current {
			before, at, zone, current = 0, day*dayLength, p.zone, day
		}
		read, its := p.energy, p.zone
		if length := (stamp - its) - (at - zone); length > 0 {
			p.energy, p.at, p.zone, p.length = read-before, at, zone, length
			perDay[day]++
			out = append(out, p)
		}
		before, at, zone = read, stamp, its
	}
	for i := range out {
		// The last read of a day alone is rounded.
		out[i].rounding = rootShare(out[i].rounding, perDay[out[i].at/dayLength])
	}
	return out
}
