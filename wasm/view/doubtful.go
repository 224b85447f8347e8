package view

import (
	"strconv"

	"splittally/calc/chart"
	"splittally/calc/pulse"
	"splittally/calc/rhythm"
	"splittally/calc/say"
)

// mostDoubts bounds the list of pulses to look at; a bad recording has hundreds.
const mostDoubts = 12

// surely is the chance from which a pulse that counts needs no look.
const surely = 0.9

// hardly is the chance below which what sounds a little like a pulse is not
// worth a line: noise has hundreds of them.
const hardly = 0.1

// mind is a pulse to look at: what seems wrong, and what can be done.
type mind struct {
	at   float64
	said string
	acts []piece
}

// doubtful lists what seems wrong with the pulses of a run, the first of them
// with buttons, and what the person did about others.
func (s *sheet) doubtful(i int, r pulse.Found, b beats) piece {
	d := doubts{run: i, r: r}
	d.one, d.many = say.Pulse(s.c.Timing.Shows)
	var open, told []mind
	noise := 0
	gaps := b.gaps
	for k, m := range r.Marks.Marks {
		switch beat := beatOf(m, r.Rhythm, k); {
		case m.Told != rhythm.Nothing:
			told = append(told, d.changed(k, m))
		case beat == chart.Unsure && k < len(r.Rhythm.Chances) && r.Rhythm.Chances[k] < hardly:
			noise++
		case beat != chart.Counts:
			open = append(open, d.passed(k, m, beat))
		case k < len(r.Rhythm.Chances) && r.Rhythm.Chances[k] < surely:
			open = append(open, d.faint(k, m))
		}
		if len(gaps) > 0 && gaps[0].After == k {
			open, gaps = append(open, d.lacking(gaps[0])), gaps[1:]
		}
	}
	parts := []piece{d.mayBe(), d.list("What to look at", open)}
	if noise > 0 {
		parts = append(parts, prose(capital(say.Counted(noise, "more sound", "more sounds"))+" may be a "+d.one+", but hardly. The picture shows where."))
	}
	if len(told) > 0 {
		parts = append(parts, s.folded("more", id("told", i), "What you changed: "+say.Counted(len(told), "pulse", "pulses"), func() piece { return d.list("What you changed", told) }))
	}
	return join(parts...)
}

// doubts are those of one run.
type doubts struct {
	run       int
	r         pulse.Found
	one, many string // what is counted
}

// mayBe says what the count may be if it is not certain.
func (d doubts) mayBe() piece {
	j := d.r.Rhythm
	if j.Least >= j.Most || j.Why != "" {
		return none
	}
	return prose("The count may be anything from " + strconv.Itoa(j.Least) + " to " + strconv.Itoa(j.Most) + "; the ± allows for it. Looking at the places below settles it.")
}

func (d doubts) list(name string, all []mind) piece {
	if len(all) == 0 {
		return none
	}
	shown := all[:min(len(all), mostDoubts)]
	items := each(len(shown), func(i int) piece {
		return el("li", el("span", text(shown[i].said)), el("span", class("acts"), join(shown[i].acts...)))
	})
	rest := none
	if n := len(all) - len(shown); n > 0 {
		rest = prose("And " + strconv.Itoa(n) + " more, later in the run.")
	}
	return join(el("ul", class("minds"), attr("aria-label", name), items), rest)
}

// button is one thing that can be done about a mark.
func (d doubts) button(label string, do, told string, mark int, at float64) piece {
	return el("button", attr("type", "button"), attr("id", id("run", d.run)+"-"+do+told+"-"+strconv.Itoa(mark)), attr("data-do", do),
		attr("data-mark", strconv.Itoa(mark)), attr("data-told", told), attr("data-place", strconv.FormatFloat(at, 'f', 4, 64)), text(label), el("span", class("unseen"), text(" at "+say.Watch(at, 2))))
}

func (d doubts) tell(label string, told rhythm.Told, mark int, at float64) piece {
	return d.button(label, "mark", string(told), mark, at)
}

// passed is a mark that does not count.
func (d doubts) passed(k int, m rhythm.Mark, beat chart.Beat) mind {
	said := "At " + say.Watch(m.At, 2) + " something comes between two " + d.many + ". It is not counted."
	if beat == chart.Unsure {
		said = "At " + say.Watch(m.At, 2) + " something may be a " + d.one + d.chance(k) + ". It is not counted."
	}
	return mind{m.At, said, []piece{d.tell("Count it", rhythm.Added, k, m.At), d.tell("Strike it out", rhythm.Struck, k, m.At)}}
}

// faint is a mark that counts though it is not sure.
func (d doubts) faint(k int, m rhythm.Mark) mind {
	return mind{
		m.At, "The " + d.one + " at " + say.Watch(m.At, 2) + " is counted, though not certain" + d.chance(k) + ".",
		[]piece{d.tell("Strike it out", rhythm.Struck, k, m.At), d.tell("It is one", rhythm.Added, k, m.At)},
	}
}

// lacking is a place where pulses lack.
func (d doubts) lacking(g gap) mind {
	n := len(g.at)
	sure := " (" + percent(strconv.Itoa(int(100*g.Chance))) + " sure)"
	said := capital(d.one) + " " + strconv.Itoa(g.zero) + ", about " + say.Watch(g.at[0], 1) + ", seems to be missing" + sure + ". It is counted all the same."
	if n > 1 {
		said = capital(d.many) + " " + strconv.Itoa(g.zero) + " to " + strconv.Itoa(g.zero+n-1) + ", from " + say.Watch(g.at[0], 1) + ", seem to be missing" + sure + ". They are counted all the same."
	}
	return mind{g.at[0], said, []piece{d.button("Set one there", "insert-mark", "", g.After, g.at[0])}}
}

// changed is a mark of which the person has said what it is.
func (d doubts) changed(k int, m rhythm.Mark) mind {
	said, other := "At "+say.Watch(m.At, 2)+": struck out.", d.tell("Count it", rhythm.Added, k, m.At)
	if m.Told == rhythm.Added {
		said, other = "At "+say.Watch(m.At, 2)+": counted.", d.tell("Strike it out", rhythm.Struck, k, m.At)
	}
	return mind{m.At, said, []piece{other, d.tell("As it was found", rhythm.Nothing, k, m.At)}}
}

// chance tells how sure a mark is.
func (d doubts) chance(k int) string {
	if k >= len(d.r.Rhythm.Chances) {
		return ""
	}
	return " (" + percent(strconv.Itoa(int(100*d.r.Rhythm.Chances[k]))) + " sure)"
}
