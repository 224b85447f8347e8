//go:build js && wasm

package page

import (
	"maps"
	"slices"
	"strconv"
	"strings"
	"syscall/js"

	"splittally/calc/billing"
	"splittally/calc/interval"
	"splittally/calc/record"
	"splittally/wasm/view"
)

// readingsChosen takes a file that was picked for a spot.
func (p *page) readingsChosen(input js.Value) {
	if files := input.Get("files"); files.Length() > 0 {
		p.takeFile(files.Index(0), p.spotAround(input), false)
	}
	input.Set("value", "") // so that the same file can be picked again
}

// headSize is what is looked at to tell what a file is.
const headSize = 512

// takeFile reads a file for a spot. If it was dropped it may also be a saved
// case, which is opened.
func (p *page) takeFile(file js.Value, s *spot, dropped bool) {
	name := file.Get("name").String()
	p.bytesOf(file.Call("slice", 0, headSize), func(head []byte, broke string) {
		text := strings.TrimLeft(string(head), "\ufeff \t\r\n")
		switch isCase := strings.HasPrefix(text, "{"); {
		case dropped && (isCase || strings.HasSuffix(strings.ToLower(name), ".json")):
			p.openFile(file, p.openText)
		case !s.field.Get("isConnected").Bool():
		case broke != "":
			p.trial(s, name, "“"+name+"” could not be read: "+broke, interval.Found{})
		case isCase && strings.Contains(text, `"splittally"`):
			p.trial(s, name, "“"+name+"” is a saved case and holds no readings of its own. “Open a file”, at the end of the page, opens it.", interval.Found{})
		default:
			packed := strings.HasPrefix(string(head), "\x1f\x8b") // RFC 1952, section 2.3.1
			p.lineUp(&job{spot: s, file: file, name: name, packed: packed})
		}
	})
}

// warmRuns is how often the engine reads its own few rows while a person looks
// for a file. A browser makes code fast only once it has run, and the first
// hundredth of a file would take as long as all the rest.
const warmRuns = 6

// warmUp lets the engine read what it made itself, in tasks of their own.
func (p *page) warmUp() {
	if p.warm {
		return
	}
	p.warm = true
	rows := []byte("Time,House (kW)\n")
	for minute := range 2 * 1440 {
		day, rest := 1+minute/1440, minute%1440
		rows = append(rows, "2024-03-0"...)
		rows = append(rows, byte('0'+day), ' ', byte('0'+rest/600), byte('0'+rest/60%10), ':', byte('0'+rest%60/10), byte('0'+rest%10))
		rows = append(rows, ",0.4"...)
		rows = append(strconv.AppendInt(rows, int64(minute%97), 10), '\n')
	}
	left := warmRuns
	var run func()
	run = func() {
		r := interval.New(interval.Options{})
		if r.Write(rows) == nil {
			r.Close()
		}
		if left--; left > 0 && len(p.jobs) == 0 {
			p.soon(run)
		}
	}
	p.soon(run)
}

// trial tells that a file gave nothing. What was there before still is.
func (p *page) trial(s *spot, name, says string, found interval.Found) {
	s.tried = &view.Tried{Name: name, Says: says, Found: found}
	unfoldAround(s.field)
	p.drawFiles()
	p.announce(says)
}

// stopReading is the act of the button beside the bar.
func (p *page) stopReading(button js.Value) {
	s := p.spotAround(button)
	if s == nil || s.job == nil {
		return
	}
	name := s.job.name
	p.stop(s.job)
	p.trial(s, name, "“"+name+"” was not read to its end. Nothing of it was taken.", interval.Found{})
}

// finish ends a file, and takes what it came to in a task of its own. A row far
// down can show that the file has to be read otherwise than its head let think:
// then it is read once more.
func (p *page) finish(j *job) {
	if settings, again := j.reader.Again(); again && !j.isSecond {
		p.lineUp(&job{spot: j.spot, file: j.file, name: j.name, packed: j.packed, again: j.again, settings: settings, isSecond: true})
		return
	}
	found := j.reader.Close()
	p.soon(func() {
		if j.spot.job == j { // it may have been stopped meanwhile
			p.arrive(j, found)
		}
	})
}

// arrive tells what a file came to, and takes it.
func (p *page) arrive(j *job, found interval.Found) {
	s, broke := j.spot, j.stream.broke
	if broke != "" {
		broke = "“" + j.name + "” could only be read up to " + strconv.FormatFloat(j.stream.read/1e6, 'f', 1, 64) + " MB: " + broke
		found.Notices = append([]string{broke + " What follows is what was read until there."}, found.Notices...)
	}
	p.leave(j)
	taken := -1
	for i, c := range found.Records {
		if c.Usable && (taken < 0 || j.again != nil && j.again.shown.Taken == i) {
			taken = i
		}
	}
	switch {
	case taken >= 0:
		p.took(j, found, taken)
	case found.Text != "" && broke == "":
		p.paste(s, j.name, found.Text)
	case j.again != nil:
		p.trial(s, j.name, "Read that way “"+j.name+"” gives no readings.", found)
	default:
		p.trial(s, j.name, "“"+j.name+"” gave no readings.", found)
	}
}

// took puts a record where its file was meant for.
func (p *page) took(j *job, found interval.Found, taken int) {
	s, before := j.spot, ""
	if j.again == nil && p.keptAt(s) != nil {
		before = p.saved()
	}
	s.tried = nil
	chosen := j.again != nil && j.again.shown.Chosen && j.again.shown.Taken == taken
	p.setFound(s, kept{file: j.file, packed: j.packed, settings: j.settings}, found, taken, chosen)
	if before != "" {
		p.soon(func() { p.offer("“"+j.name+"” took the place of the file that was there.", before) })
	}
	p.announce("“" + j.name + "” has been read.")
}

// paste puts a short text that holds no interval readings where such texts go.
func (p *page) paste(s *spot, name, text string) {
	area := s.field.Call("closest", "[data-takes-file]").Call("querySelector", "textarea")
	before := ""
	if strings.TrimSpace(area.Get("value").String()) != "" {
		before = p.saved()
	}
	area.Set("value", text)
	unfoldAround(area)
	says := "“" + name + "” holds no interval readings. It is in the field for daily totals now, as if it were pasted."
	p.trial(s, name, says, interval.Found{})
	if before != "" {
		p.offer("“"+name+"” took the place of the daily totals that were there.", before)
	}
	p.touched()
}

// setRight takes a choice of how a file is to be read, and reads it again. That
// a choice was only confirmed has to be in what the record says of itself, too.
func (p *page) setRight(list js.Value) {
	s, id, choice := p.spotAround(list), attribute(list, "data-setting"), list.Get("value").String()
	if choice == "" {
		return
	}
	if j := s.job; j != nil {
		p.lineUp(&job{spot: s, file: j.file, name: j.name, packed: j.packed, again: j.again, settings: with(j.settings, id, choice)})
		return
	}
	if k := p.keptAt(s); k != nil && k.shown.Again {
		name := k.file.Get("name").String()
		p.lineUp(&job{spot: s, file: k.file, name: name, packed: k.packed, again: k, settings: with(k.settings, id, choice)})
	}
}

func with(settings map[string]string, id, choice string) map[string]string {
	out := maps.Clone(settings)
	if out == nil {
		out = map[string]string{}
	}
	out[id] = choice
	return out
}

// setCandidate takes another meter of the same file.
func (p *page) setCandidate(radio js.Value) {
	s := p.spotAround(radio)
	k := p.keptAt(s)
	p.setFound(s, *k, k.shown.Found, number(radio, "data-candidate"), true)
	p.drawFiles()
}

// setRole changes what a column of a record measures.
func (p *page) setRole(list js.Value) {
	s, i := p.spotAround(list), number(list, "data-role")
	k := p.keptAt(s)
	shown := *k.shown
	shown.Record.Channels = append([]record.Channel(nil), shown.Record.Channels...)
	c := &shown.Record.Channels[i]
	c.Role = record.Role(list.Get("value").String())
	shown.Record.Source.Said = slices.DeleteFunc(slices.Clone(shown.Record.Source.Said), func(said string) bool {
		return strings.HasPrefix(said, "“"+c.Name+"”: what it measures:") // no more
	})
	p.setRecord(s, *k, shown)
	p.drawFiles()
}

// dropFile takes a record away.
func (p *page) dropFile(button js.Value) {
	s, before := p.spotAround(button), p.saved()
	s.field.Set("value", "")
	p.drawFiles()
	p.offer("The file’s readings were taken away.", before)
	p.touched()
}

// useBill adds a billing period that a file tells of to the bills.
func (p *page) useBill(button js.Value) {
	s := p.spotAround(button)
	tried, found := s.tried, interval.Found{}
	if k := p.keptAt(s); k != nil {
		found = k.shown.Found
	}
	if tried != nil && len(tried.Found.Bills) > 0 {
		found = tried.Found
	}
	b := found.Bills[number(button, "data-bill")]
	bill := billing.Period{From: b.From, To: b.To, KWh: b.KWh, Total: b.Total}
	before, c := p.saved(), p.read()
	at := 0
	for at < len(c.Periods) && !isBlank(c.Periods[at]) {
		at++
	}
	if at == len(c.Periods) {
		c.Periods = append(c.Periods, bill)
	}
	c.Periods[at] = bill
	p.replace(c)
	s.tried = tried // its other bills are still there to be used
	p.offer("It is bill "+strconv.Itoa(at+1)+" now.", before)
	p.toKeep()
}

func isBlank(b billing.Period) bool {
	for _, l := range slices.Concat(b.Lines, b.Uses) {
		if l.Name+l.Amount != "" {
			return false
		}
	}
	return b.From+b.To+b.Days+b.KWh+b.Previous+b.Present+b.Total+b.Apart+b.Produced+b.Exported == ""
}
