package view

import (
	"strconv"

	"splittally/calc/billing"
	"splittally/calc/chart/markup"
	"splittally/calc/interval"
	"splittally/calc/record"
	"splittally/calc/remark"
	"splittally/calc/say"
	layout "splittally/calc/table"
)

// File is what the page knows of a file of readings at one place.
type File struct {
	ID       string // begins the ids of what is drawn, such as "monitors-0-file"
	Going    *Going // a file that is being read
	Tried    *Tried // the one that was tried last and gave no record
	Kept     *Kept  // the record that is there
	Problems []remark.Problem
	Bills    []billing.Period // of the case
	Open     map[string]bool  // ids of the parts that are unfolded
}

// Going is a file that is being read. Its markup stays the same while it is, so
// that what shows how far it is can be moved without drawing anew.
type Going struct {
	Name  string
	Waits string          // the name of the file that is read before it; empty if none is
	Early *interval.Found // what its head shows; nil until that is read
}

// Tried is a file that gave no record. What was there before still is.
type Tried struct {
	Name  string
	Says  string // in a sentence
	Found interval.Found
}

// Kept is a record at a place of the page. It never changes; another takes its
// place.
type Kept struct {
	Record record.Record
	Totals []string       // by channel, in kWh
	Found  interval.Found // what the file came to; it is blank once the page was left
	Taken  int            // which of its records it is
	Chosen bool           // by the person
	Again  bool           // the page can read the file again
}

// Keep adds up what a card shows of a record.
func Keep(k Kept) *Kept {
	k.Totals = make([]string, len(k.Record.Channels))
	for i := range k.Record.Channels {
		k.Totals[i] = total(&k.Record.Channels[i])
	}
	return &k
}

// Markup draws it all. It is empty if there is nothing.
func (f File) Markup() string {
	var inside piece
	switch {
	case f.Going != nil:
		inside = join(f.tried(), f.going())
	case f.Kept != nil:
		inside = join(f.tried(), f.card(*f.Kept))
	default:
		inside = f.tried()
	}
	if isEmpty(inside) {
		return ""
	}
	return el("div", class("file"), attr("id", f.ID), inside).(markup.Markup).String()
}

// going shows a file that is being read, with a way to stop it.
func (f File) going() piece {
	g := *f.Going
	stop := el("button", attr("type", "button"), attr("id", f.ID+"-stop"), attr("data-do", "stop-file"), text("Stop"))
	if g.Waits != "" {
		return el("div", class("going"), prose("“"+g.Name+"” waits until “"+g.Waits+"” has been read."), stop)
	}
	name := f.ID + "-going"
	bar := el("progress", attr("id", f.ID+"-bar"), attr("max", "1"), attr("aria-labelledby", name))
	shown := el("div", class("going"), el("p", attr("id", name), text("Reading “"+g.Name+"”")), bar,
		el("span", attr("id", f.ID+"-far"), text(" ")), stop)
	if g.Early == nil {
		return shown
	}
	return join(shown, f.settings(g.Early.Settings, false), f.preview(g.Early.Preview))
}

// tried tells why the last file gave no record.
func (f File) tried() piece {
	if f.Tried == nil {
		return none
	}
	t := *f.Tried
	if f.Kept != nil {
		t.Says += " What was there before still is."
	}
	return join(el("div", class("trouble"), prose(t.Says), problems(t.Found.Problems), bullets(t.Found.Notices),
		unusable(t.Found.Records)), f.bills(t.Found.Bills))
}

// card tells what a record holds, what is odd about it and how it was read.
func (f File) card(k Kept) piece {
	r, found := k.Record, k.Found
	bills := f.bills(found.Bills)
	if f.Tried != nil && len(f.Tried.Found.Bills) > 0 {
		bills = none // those of the file tried since stand above
	}
	return join(
		el("p", el("strong", text(named(r.Source.File))), text(kindOf(found))),
		fileFacts(r),
		f.channels(k),
		f.asked(k),
		f.candidates(k),
		problems(found.Problems), problems(f.Problems),
		bullets(found.Notices),
		bills,
		f.gaps(r), f.oddities(r.Oddities), f.read(k),
		el("button", attr("type", "button"), class("plain"), attr("id", f.ID+"-drop"), attr("data-do", "drop-file"), text("Take the file’s readings away")),
	)
}

// asked puts what the file leaves open where it can't be missed, with the first
// readings beside it.
func (f File) asked(k Kept) piece {
	open := f.settings(k.Found.Settings, false)
	if isEmpty(open) {
		return none
	}
	return join(open, f.preview(k.Found.Preview))
}

// read tells how the file was read, to be put right.
func (f File) read(k Kept) piece {
	return f.folded("how", "How the file was read", func() piece {
		again := prose("Pick the file again to change how it is read: the page keeps what it came to, not the file.")
		if k.Again {
			again = none
		}
		first := none
		if isEmpty(f.settings(k.Found.Settings, false)) { // else they stand beside the questions
			first = f.preview(k.Found.Preview)
		}
		return join(bullets(k.Record.Source.Said), f.settings(k.Found.Settings, true), first, again)
	})
}

// settings are selects: the sure ones, or those that the file leaves open. A
// reason that several have is given once.
func (f File) settings(all []layout.Setting, sure bool) piece {
	why := ""
	return each(len(all), func(i int) piece {
		s := all[i]
		if s.Sure != sure || len(s.Choices) == 0 {
			return none
		}
		if s.Why == why {
			s.Why = ""
		} else {
			why = s.Why
		}
		return f.setting(s)
	})
}

// setting is a select. One that nobody has answered begins with the choice
// taken for now, so that it can be confirmed as well as changed.
func (f File) setting(s layout.Setting) piece {
	name := f.ID + "-set-" + s.ID
	options := []piece{attr("id", name), attr("data-setting", s.ID)}
	if s.Why != "" {
		options = append(options, attr("aria-describedby", name+"-why"))
	}
	if !s.Sure {
		options = append(options, el("option", attr("value", ""), markup.Is("selected"), text("For now: "+label(s))))
	}
	for _, c := range s.Choices {
		options = append(options, el("option", attr("value", c.ID), markup.Is("selected").If(s.Sure && c.ID == s.Taken), text(c.Label)))
	}
	field, why := markup.Name("field"), none
	if s.Why != "" {
		why = el("p", class("hint"), attr("id", name+"-why"), text(s.Why))
	}
	if !s.Sure {
		field = "asks"
	}
	return el("div", class(field), el("label", attr("for", name), text(s.Label)), el("select", options...), why)
}

// label names the choice taken.
func label(s layout.Setting) string {
	for _, c := range s.Choices {
		if c.ID == s.Taken {
			return c.Label
		}
	}
	return s.Taken
}

// candidates are the records that a file offers, if there are several.
func (f File) candidates(k Kept) piece {
	var choices []piece
	name := f.ID + "-meter"
	for i, c := range k.Found.Records {
		if !c.Usable {
			continue
		}
		label := []piece{text(c.Name)}
		if i == k.Taken && !k.Chosen {
			label = append(label, mark("mark", "taken for now"))
		}
		choices = append(choices, el("label",
			el("input", attr("type", "radio"), attr("id", name+"-"+strconv.Itoa(i)), attr("name", name), attr("value", strconv.Itoa(i)),
				attr("data-candidate", strconv.Itoa(i)), markup.Is("checked").If(i == k.Taken && k.Chosen)),
			el("span", label...)))
	}
	others := unusable(k.Found.Records)
	if len(choices) < 2 {
		return others
	}
	return join(el("fieldset", append([]piece{class("asks"), el("legend", text("The file has several meters: which one is it?"))}, choices...)...), others)
}

// unusable lists what a file holds beside electrical energy.
func unusable(all []interval.Candidate) piece {
	return list(len(all), func(i int) string {
		if all[i].Usable {
			return ""
		}
		return all[i].Name + ": " + all[i].Why
	})
}

// bills offers the billing periods that a feed tells of.
func (f File) bills(all []interval.Bill) piece {
	if len(all) == 0 {
		return none
	}
	items := each(len(all), func(i int) piece {
		b := all[i]
		for _, p := range f.Bills {
			if b.From != "" && p.From == b.From && p.To == b.To {
				return el("li", text(b.Words), mark("mark", "among the bills"))
			}
		}
		if b.KWh+b.Total == "" {
			return el("li", text(b.Words)) // a period that still runs: there is no bill
		}
		return el("li", text(b.Words+" "), el("button", attr("type", "button"), attr("id", f.ID+"-bill-"+strconv.Itoa(i)),
			attr("data-do", "use-bill"), attr("data-bill", strconv.Itoa(i)), text("Use as a bill")))
	})
	return join(prose("The file tells of "+say.Counted(len(all), "billing period", "billing periods")+":"), el("ul", class("bills"), items))
}
