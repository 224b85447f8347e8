package espi

import (
	"strconv"
	"strings"

	"splittally/calc/calendar"
	"splittally/calc/remark"
	"splittally/calc/series"
	"splittally/calc/table"
)

// meterName names a meter by what it counts, and by its place if there are
// several.
func (r *Reader) meterName(parts []*part, several bool) string {
	p := parts[0]
	name := "Electricity"
	if p.service >= 0 {
		name = serviceName(p.service)
	}
	for i, p := range parts {
		joint := ", "
		if i > 0 {
			joint = " and "
		}
		if p.typed != nil && (p.service <= electricity || p.typed.flow > forward) {
			name += joint + flowName(p.typed.flow)
			if phase := phaseName(p.typed.phase); phase != "" {
				name += " by phase " + phase
			}
		}
	}
	if words := stepWords(p.step); words != "" {
		name += ", " + words
	}
	if several && p.point >= 0 && len(r.points) > 1 {
		if tail := tailOf(r.points[p.point].self, "UsagePoint"); tail != "" {
			name += ", meter " + tail[len("UsagePoint/"):]
		}
	}
	return name
}

// phaseName gives the phase of a ReadingType that measures one alone (PhaseCode,
// from memory); empty for all others.
func phaseName(phase int) string {
	switch phase {
	case 128, 129:
		return "A"
	case 64, 65:
		return "B"
	case 32, 33:
		return "C"
	}
	return ""
}

// stepWords says how long intervals are.
func stepWords(step int64) string {
	switch {
	case step <= 0:
		return ""
	case step == hourSeconds:
		return "each hour"
	case step == daySeconds:
		return "each day"
	case step%daySeconds == 0:
		return "each " + strconv.FormatInt(step/daySeconds, 10) + " days"
	case step%hourSeconds == 0:
		return "each " + strconv.FormatInt(step/hourSeconds, 10) + " hours"
	case step%60 == 0:
		return "each " + strconv.FormatInt(step/60, 10) + " minutes"
	}
	return "each " + strconv.FormatInt(step, 10) + " seconds"
}

// channelName gives the title of a part's type, or else of its MeterReading.
func (r *Reader) channelName(p *part) string {
	if p.typed.title != "" {
		return p.typed.title
	}
	if p.meter >= 0 {
		return r.meters[p.meter].title
	}
	return ""
}

// unit gives the unit of a part's figures, such as "kWh" or "0.01 therms".
func (p *part) unit() string {
	if p.typed == nil {
		return "an unknown unit"
	}
	name := unitName(p.typed.uom)
	if p.typed.uom == wattHours || p.typed.uom == watts {
		switch p.typed.power {
		case -3:
			return "m" + name
		case 3:
			return "k" + name
		case 6:
			return "M" + name
		}
	}
	if p.typed.power != 0 {
		return fixed(1, -p.typed.power) + " " + name
	}
	return name
}

func (p *part) unitText() string {
	switch p.quantity {
	case series.Power:
		return p.unit() + ", mean power"
	case series.Register:
		return p.unit() + ", register"
	}
	return p.unit() + ", energy of each interval"
}

// totalText gives the sum of a part's figures in whole units, such as "140 therms".
func (p *part) totalText() string {
	if p.large {
		return ""
	}
	if p.typed == nil {
		return fixed(p.total, decimals(p.factor))
	}
	return fixed(p.total, decimals(p.factor)-p.typed.power) + " " + unitName(p.typed.uom)
}

// told says why a part is of no use, and what it is all the same.
func (p *part) told() string {
	text := upperFirst(p.why) + ": " + counted(p.readings, "reading") + " from " + dayOf(p.first).Long() + " to " + dayOf(p.end).Long()
	if total := p.totalText(); total != "" && p.quantity == series.Energy {
		text += ", " + total + " in all"
	}
	return text + "."
}

// said says what a part was taken for.
func (r *Reader) said(p *part) (said []string) {
	what := "Figures are energies of their intervals, in " + p.unit()
	switch {
	case p.quantity == series.Power:
		what = "Figures are mean powers over their intervals, in " + p.unit()
	case p.quantity == series.Register && r.readsAtStart():
		what = "Figures are reads of a register at the start of each interval, in " + p.unit()
	case p.quantity == series.Register:
		what = "Figures are reads of a register at the end of each interval, in " + p.unit()
	}
	said = append(said, what+"; "+flowName(p.typed.flow)+".")
	if p.meter >= 0 && r.meters[p.meter].title != "" {
		said = append(said, "The feed calls it “"+r.meters[p.meter].title+"”.")
	}
	if p.typed.contradicts() {
		said = append(said, "The feed gives its kind as another than its unit has; the unit was believed.")
	}
	if text := p.qualityText(); text != "" {
		said = append(said, text)
	}
	if c := p.costText(); c.Amount != "" {
		said = append(said, "The feed says that "+counted(c.Readings, "reading")+" cost "+amountText(c.Amount, c.Currency)+" in all.")
	}
	if p.uneven {
		said = append(said, "The clock's hours do not begin where the readings were divided, so hours are up to 30 minutes off.")
	}
	return said
}

// qualityText tells the qualities that the feed gives its readings, if any.
func (p *part) qualityText() string {
	text, kinds := "", 0
	for quality, n := range p.qualities {
		if n == 0 {
			continue
		}
		if kinds++; kinds > 1 {
			text += ", "
		}
		text += counted(n, "reading") + " " + qualityName(quality)
	}
	if text == "" {
		return ""
	}
	return "By the feed: " + text + "."
}

func (p *part) costText() Cost {
	if p.costs == 0 {
		return Cost{}
	}
	c := Cost{Amount: money(p.cost), Readings: p.costs}
	if p.typed != nil {
		c.Currency = currencyName(p.typed.currency)
	}
	return c
}

// money writes hundred-thousandths, with the two decimals at least that most
// currencies have.
func money(n int64) string {
	text := fixed(n, 5)
	switch point := strings.IndexByte(text, '.'); {
	case point < 0:
		return text + ".00"
	case point == len(text)-2:
		return text + "0"
	}
	return text
}

func amountText(amount, currency string) string {
	if currency == "" {
		return amount + " (its currency is not told)"
	}
	return amount + " " + currency
}

// preview shows the first readings.
func (p *part) preview() (heads []string, rows [][]string) {
	heads = []string{"From", "To", unitName(p.typed.uom)}
	for i := range p.shown {
		x := &p.shown[i]
		figure := "none"
		if x.hasFigure {
			figure = fixed(x.figure, decimals(p.factor)-p.typed.power)
		}
		rows = append(rows, []string{wallText(p.clock.wall(x.start)), wallText(p.clock.wall(x.start + x.length)), figure})
	}
	return heads, rows
}

// wallText writes a local time, such as "2024-03-01 00:15".
func wallText(wall int64) string {
	_, rest := calendar.Floor(wall, daySeconds)
	text := dayOf(wall).String() + " " + pad(int(rest/hourSeconds)) + ":" + pad(int(rest/60%60))
	if rest%60 != 0 {
		text += ":" + pad(int(rest%60))
	}
	return text
}

func pad(n int) string {
	if n < 10 {
		return "0" + strconv.Itoa(n)
	}
	return strconv.Itoa(n)
}

// counted writes a number with its noun.
func counted(n int, noun string) string {
	if n == 1 {
		return "1 " + noun
	}
	return strconv.Itoa(n) + " " + noun + "s"
}

func upperFirst(text string) string {
	if text != "" && text[0] >= 'a' && text[0] <= 'z' {
		return string(text[0]-'a'+'A') + text[1:]
	}
	return text
}

// stampSetting asks when a register was read.
func (r *Reader) stampSetting() table.Setting {
	s := table.Setting{
		ID: stampSetting, Label: "A register was read",
		Why:     "Its readings have a start and an end, and the feed does not say at which of them the register was read.",
		Choices: []table.Choice{{ID: atEnd, Label: "at the end of each reading"}, {ID: atStart, Label: "at its start"}},
		Taken:   atEnd,
	}
	if set := r.options.Settings[stampSetting]; offers(s.Choices, set) {
		s.Taken, s.Sure = set, true
	}
	return s
}

// notice tells what was left out.
func (r *Reader) notice(parts []*part, result *Result) {
	say := func(text string) { result.Notices = append(result.Notices, text) }
	if len(parts) == 0 {
		text := "The feed holds no interval readings."
		if r.service >= 0 {
			text = "The feed holds no interval readings; it is about " + lowerFirst(serviceName(r.service)) + "."
		}
		say(text)
	}
	if len(result.Problems) > 0 && len(parts) > 0 {
		n := 0
		for _, p := range parts {
			n += p.readings
		}
		say("What stands before that place was read: " + counted(n, "reading") + ".")
	}
	lost := 0
	for _, t := range r.tracks {
		lost += t.lost
	}
	if lost > 0 {
		result.Problems = append(result.Problems, remark.Problem{
			Found:  counted(lost, "reading") + " without a time that makes sense",
			Wanted: "a timePeriod in each, or an interval with a start in its block",
		})
	}
	if r.dropped > 0 {
		say("The feed has more parts than are kept: " + counted(r.dropped, "part") + " were left out.")
	}
}

func lowerFirst(text string) string {
	if text != "" && text[0] >= 'A' && text[0] <= 'Z' {
		return string(text[0]-'A'+'a') + text[1:]
	}
	return text
}

// days writes the first and the last of days, in words.
func days(first, last calendar.Day) string {
	if first == last {
		return "on " + first.Long()
	}
	return "from " + first.Long() + " to " + last.Long()
}
