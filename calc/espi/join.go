package espi

import (
	"strconv"

	"splittally/calc/calendar"
	"splittally/calc/energy"
	"splittally/calc/record"
	"splittally/calc/series"
)

// part is a track with all that belongs to it.
type part struct {
	*track
	meter    int // −1 if none
	point    int // −1 if none
	service  int // −1 if not told
	quantity series.Quantity
	why      string // why no record can be made of it
	clock    *clock
	sums     series.Sums
	channel  record.Channel
	uneven   bool
}

// join puts together what belongs together, once all is known.
func (r *Reader) join(result *Result) {
	for _, t := range r.tracks {
		r.settleType(t)
	}
	choice, setting := r.setClock()
	isUsed, isRegister := false, false
	var parts []*part
	for _, t := range r.tracks {
		if t.readings == 0 {
			continue
		}
		p := r.partOf(t)
		if p.why == "" {
			r.finish(p, choice)
		}
		isUsed = isUsed || p.why == ""
		isRegister = isRegister || p.why == "" && p.quantity == series.Register && t.step > 0
		parts = append(parts, p)
	}
	if isUsed {
		result.Settings = append(result.Settings, setting)
	}
	if isRegister {
		result.Settings = append(result.Settings, r.stampSetting())
	}
	r.group(parts, result)
	r.tellBills(choice, result)
	r.notice(parts, result)
}

// settleType gives a track its type, now that all are known, and the readings
// that waited for it.
func (r *Reader) settleType(t *track) {
	if t.typed == nil {
		t.typed = r.typeOf(r.meterOf(t))
	}
	for i := range t.waiting {
		r.follow(&t.waiting[i])
	}
	t.waiting = nil
}

// partOf gathers what belongs to a track.
func (r *Reader) partOf(t *track) *part {
	p := &part{track: t, meter: r.meterOf(t), service: -1}
	p.point = r.pointOf(p.meter)
	if p.point < 0 {
		p.point = r.pointFor(&place{}, ownerOf(t.key, "MeterReading"))
	}
	if p.point >= 0 {
		p.service = r.points[p.point].service
	}
	if t.typed == nil {
		p.why = "the feed does not say what its figures are"
		return p
	}
	if s := serviceOf(t.typed.commodity); s >= 0 && p.service < 0 {
		p.service = s
	}
	p.quantity, p.why = t.typed.quantity()
	if p.service > electricity {
		p.why = "it is no electricity"
	}
	return p
}

// finish makes the channel of a part.
func (r *Reader) finish(p *part, choice string) {
	p.clock = r.clockFor(choice, r.clockOf(p.point), p.track)
	if p.clock == nil { // this one has no clock of the feed's
		p.clock = r.clockFor(ownClock, nil, p.track)
	}
	for i := range p.track.sums {
		if p.track.sums[i].is == p.quantity {
			p.sums = p.track.sums[i].series.Done()
		}
	}
	p.track.sums = nil
	c := &p.channel
	c.Role, c.Name, c.Unit, c.Sums = p.role(), r.channelName(p), p.unitText(), p.quantity != series.Register
	if len(p.sums.Channels) == 0 {
		return
	}
	days := p.sums.Channels[0]
	m := remainder{power: p.power()}
	m.days(days)
	for i := range p.sums.Gaps {
		p.sums.Gaps[i].Energy = m.of(p.sums.Gaps[i].Energy)
	}
	if m.large {
		p.why = "its figures are too large to be a home’s"
		return
	}
	l := local{clock: p.clock, shift: p.shift}
	c.First, c.Days = l.days(p.sums.First, days)
	p.sums.Gaps = l.gaps(p.sums.Gaps)
	p.apart()
	p.uneven = l.uneven
	p.tellTurns()
	c.Rounding = p.rounding()
}

// apart parts readings of a day or more from one another: the hour of midnight
// that one begins with says so. Else a ledger would take all days in a row for
// one total.
func (p *part) apart() {
	c := &p.channel
	for _, start := range p.long {
		wall := p.clock.wall(start)
		d := int(dayOf(wall) - c.First)
		if wall%daySeconds == 0 && d >= 0 && d < len(c.Days) {
			c.Days[d].Hours[0].Marks |= record.Begins
		}
	}
}

// power is the power of ten that makes µWh, or µW, of the sums of the figures.
func (p *part) power() int { return 6 + p.typed.power - decimals(p.factor) }

// rounding is half of the last digit that figures have, as the energy of one
// interval. Enough of them tell that there is none below, say, the tens.
func (p *part) rounding() energy.Energy {
	last := min(p.digit, p.factor)
	if p.readings >= 20 && p.total != 0 {
		last = p.digit
	}
	e := (&remainder{power: p.power()}).of(energy.Energy(last)) / 2
	if p.quantity == series.Power && p.step > 0 {
		return energy.Energy(float64(e) * float64(p.step) / hourSeconds)
	}
	return e
}

// tellTurns counts the changes of the clock among the readings, and says of other
// oddities by whose clock they are told.
func (p *part) tellTurns() {
	back, on := record.Oddity{Kind: record.ClockBack}, record.Oddity{Kind: record.ClockOn}
	for i := range p.channel.Days {
		d := &p.channel.Days[i]
		o := &on
		switch {
		case d.Turn == 0 || d.Covered() == 0:
			continue
		case d.Turn > 0:
			o = &back
		}
		if o.Count++; o.Count == 1 {
			o.Told = pad(int(d.TurnAt)) + ":00 on " + (p.channel.First + calendar.Day(i)).Long()
		}
	}
	odd := p.sums.Oddities
	for i := range odd {
		if odd[i].Told != "" {
			odd[i].Told += p.byUTC()
		}
	}
	for _, o := range []record.Oddity{back, on} {
		if o.Count > 0 {
			odd = append(odd, o)
		}
	}
	p.sums.Oddities = odd
}

// byUTC says by whose clock the series of a track told of oddities.
func (p *part) byUTC() string {
	if p.shift == 0 {
		return " UTC"
	}
	return " UTC and " + strconv.FormatInt(p.shift/60, 10) + " minutes"
}

// role is what the readings of a part measure.
func (p *part) role() record.Role {
	switch phase := phaseName(p.typed.phase); {
	case p.typed.flow == reverse:
		return record.Export
	case phase == "A":
		return record.LegA
	case phase == "B":
		return record.LegB
	case phase == "C":
		return record.LegC
	}
	return record.Import
}

// group makes meters of parts: readings of one usage point whose directions, or
// phases, differ belong into one record.
func (r *Reader) group(parts []*part, result *Result) {
	var made [][]*part
	for _, p := range parts {
		home := -1
		for i := range made {
			if home < 0 && p.joins(made[i]) {
				home = i
			}
		}
		switch {
		case home < 0:
			made = append(made, []*part{p})
		case made[home][0].channel.Role == record.Export: // which comes last
			made[home] = append([]*part{p}, made[home]...)
		default:
			made[home] = append(made[home], p)
		}
	}
	for _, g := range made {
		result.Meters = append(result.Meters, r.meterFrom(g, len(made) > 1))
	}
}

// joins says whether a part belongs to others.
func (p *part) joins(others []*part) bool {
	if p.why != "" || p.point < 0 {
		return false
	}
	for _, o := range others {
		a, b := p.channel.Role, o.channel.Role
		switch {
		case o.why != "" || o.point != p.point || o.step != p.step || o.quantity != p.quantity || a == b:
			return false
		case a != record.Export && b != record.Export && (a == record.Import || b == record.Import):
			return false // all of it, and a leg of it
		case o.typed.flow == net || p.typed.flow == net:
			return false // in which the other is already
		}
	}
	return true
}

// meterFrom makes a meter of one part or of several that belong together.
func (r *Reader) meterFrom(parts []*part, several bool) Meter {
	p := parts[0]
	m := Meter{Name: r.meterName(parts, several), Usable: p.why == ""}
	if !m.Usable {
		m.Why = p.told()
		m.Costs = append(m.Costs, p.costText())
		return m
	}
	rec := &m.Record
	rec.Source = record.Source{Step: int(p.step), Zone: p.clock.rules.Name}
	rec.Gaps, rec.MoreGaps = p.sums.Gaps, p.sums.MoreGaps
	for i, p := range parts {
		rec.Channels = append(rec.Channels, p.channel)
		rec.Source.Rows += p.sums.Rows
		rec.Source.Said = append(rec.Source.Said, r.said(p)...)
		rec.Oddities = addOddities(rec.Oddities, p.sums.Oddities)
		m.Costs = append(m.Costs, p.costText())
		if i > 0 {
			rec.Gaps = common(rec.Gaps, p.sums.Gaps)
			rec.MoreGaps = min(rec.MoreGaps, p.sums.MoreGaps)
		}
	}
	m.Heads, m.Rows = p.preview()
	return m
}

// common gives what two lists of gaps have in common, with the energies of the
// first. Gaps that differ by a change of the clock keep their true lengths.
func common(a, b []record.Gap) (list []record.Gap) {
	for i, k := 0, 0; i < len(a) && k < len(b); {
		g := a[i]
		g.From, g.To = max(g.From, b[k].From), min(g.To, b[k].To)
		if g.From < g.To {
			g.Length = min(a[i].Length, b[k].Length, a[i].Length-(a[i].To-a[i].From)+g.To-g.From)
			list = append(list, g)
		}
		if a[i].To < b[k].To {
			i++
		} else {
			k++
		}
	}
	return list
}

// addOddities adds up oddities of a kind.
func addOddities(to, more []record.Oddity) []record.Oddity {
	for _, o := range more {
		i := 0
		for i < len(to) && to[i].Kind != o.Kind {
			i++
		}
		if i == len(to) {
			to = append(to, o)
		} else {
			to[i].Count += o.Count
		}
	}
	return to
}
