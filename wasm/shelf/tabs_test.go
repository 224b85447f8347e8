package shelf

import (
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"splittally/calc"
	"splittally/calc/billing"
)

// browser is a browser with tabs in processes of their own. Each has its own
// view of the storage, which its own writes change at once; one process puts
// all writes in order and tells the others, who hear of them some time later
// and do not take up what they have themselves written meanwhile.
type browser struct {
	clock, ids int
	tabs       []*process
	central    map[string]string
	writes     int
}

type write struct {
	key, text string
	gone      bool
	from      *process
}

type process struct {
	b       *browser
	view    map[string]string
	out, in []write
	pending map[string]int // own writes that are not in order yet
	shelf   *Shelf
	tab     *Tab
}

func (p *process) Get(key string) (string, bool, error) {
	text, ok := p.view[key]
	return text, ok, nil
}

func (p *process) Set(key, text string) error {
	p.view[key] = text
	p.out = append(p.out, write{key, text, false, p})
	p.pending[key]++
	if strings.HasPrefix(key, caseKey) {
		p.b.writes++
	}
	return nil
}

func (p *process) Remove(key string) error {
	delete(p.view, key)
	p.out = append(p.out, write{key, "", true, p})
	p.pending[key]++
	return nil
}

func (p *process) Keys() (keys []string, err error) {
	for key := range p.view {
		keys = append(keys, key)
	}
	return keys, nil
}

func (b *browser) open() *process {
	p := &process{b: b, view: map[string]string{}, pending: map[string]int{}}
	for key, text := range b.central {
		p.view[key] = text
	}
	name := "p" + strconv.Itoa(len(b.tabs)) + "-"
	p.shelf = New(p, func() int64 { return int64(b.clock) }, func() string { b.ids++; return name + strconv.Itoa(b.ids) })
	b.tabs = append(b.tabs, p)
	return p
}

// send puts the oldest write of a process in order.
func (b *browser) send(p *process) {
	if len(p.out) == 0 {
		return
	}
	w := p.out[0]
	p.out = p.out[1:]
	if b.central[w.key] = w.text; w.gone {
		delete(b.central, w.key)
	}
	for _, q := range b.tabs {
		q.in = append(q.in, w)
	}
}

// hear lets a process take up the oldest write that it has not heard of.
func (p *process) hear() (News, bool) {
	if len(p.in) == 0 {
		return News{}, false
	}
	w := p.in[0]
	p.in = p.in[1:]
	if w.from == p {
		p.pending[w.key]--
		return News{}, true
	}
	if p.pending[w.key] == 0 {
		if p.view[w.key] = w.text; w.gone {
			delete(p.view, w.key)
		}
	}
	if w.key != caseKey+p.tab.ID() || w.gone {
		return News{}, true
	}
	return p.tab.Hear(w.text), true
}

// settle lets all be sent, heard and kept until nothing is left to do. It says
// how many rounds that took.
func (b *browser) settle(t tester) int {
	for round := 0; ; round++ {
		if round > 20 {
			t.Fatal("the tabs do not come to rest")
		}
		rest := true
		for _, p := range b.tabs {
			if p.tab.IsDirty() {
				keep(t, p.tab)
				rest = false
			}
		}
		for _, p := range b.tabs {
			for len(p.out) > 0 {
				b.send(p)
				rest = false
			}
		}
		for _, p := range b.tabs {
			for _, more := p.hear(); more; _, more = p.hear() {
				rest = false
			}
		}
		for _, p := range b.tabs {
			if _, err := p.tab.Look(); err != nil {
				t.Fatal(err)
			}
			rest = rest && !p.tab.IsDirty()
		}
		if rest {
			return round
		}
		b.clock++
	}
}

// values gives every text that a document holds or held in the steps of a tab.
func (p *process) values() string {
	var b strings.Builder
	tab := *p.tab
	tab.history.steps = append([]step(nil), tab.history.steps...)
	b.WriteString(calc.Save(tab.Case()))
	for tab.Undo() {
		b.WriteString(calc.Save(tab.Case()))
	}
	return b.String()
}

// Whatever the order in which tabs type, keep, send and hear: they end with one
// document, in few writes, and every text that was typed is in it or can be had
// by undoing.
func TestTabsComeToOneCase(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := &browser{central: map[string]string{}}
		begun := b.open()
		begun.tab = begun.shelf.Add(bills("1", "2", "3"))
		keep(t, begun.tab)
		for len(begun.out) > 0 {
			b.send(begun)
		}
		for range rapid.IntRange(1, 2).Draw(t, "others") {
			p := b.open()
			p.tab = openTab(t, p.shelf, begun.tab.ID())
		}
		var typed []string
		for range rapid.IntRange(1, 30).Draw(t, "moves") {
			p := b.tabs[rapid.IntRange(0, len(b.tabs)-1).Draw(t, "tab")]
			b.clock += rapid.IntRange(0, 2).Draw(t, "while")
			switch rapid.IntRange(0, 4).Draw(t, "what") {
			case 0:
				text := "<" + strconv.Itoa(len(typed)) + ">"
				if drawTyping(t, p, text) {
					typed = append(typed, text)
				}
			case 1:
				keep(t, p.tab)
			case 2:
				b.send(p)
			case 3:
				p.hear()
			case 4:
				if _, err := p.tab.Look(); err != nil {
					t.Fatal(err)
				}
			}
		}
		before := b.writes
		b.settle(t)
		if n := b.writes - before; n > 8*len(b.tabs) {
			t.Fatalf("%d writes to come to rest", n)
		}
		stored, err := readRecord(b.central[caseKey+begun.tab.ID()])
		if err != nil {
			t.Fatal(err)
		}
		held := ""
		for _, p := range b.tabs {
			if got := calc.Save(p.tab.Case()); got != stored.text {
				t.Fatalf("one has\n%s\nand the storage\n%s", got, stored.text)
			}
			held += p.values()
		}
		for _, text := range typed {
			if !strings.Contains(held, text) {
				t.Fatalf("%s is lost", text)
			}
		}
	})
}

// drawTyping types a text somewhere in a tab.
func drawTyping(t *rapid.T, p *process, text string) bool {
	c := p.tab.Case()
	c.Periods = append([]billing.Period(nil), c.Periods...)
	at := 0
	if n := len(c.Periods); n > 0 {
		at = rapid.IntRange(0, n-1).Draw(t, "at")
	}
	typed := true
	switch what := rapid.IntRange(0, 5).Draw(t, "where"); {
	case what == 0:
		c.Title = text
	case what == 1:
		c.Note = text
	case what == 2 || len(c.Periods) == 0:
		c.Periods = append(c.Periods, billing.Period{From: text})
	case what == 3:
		c.Periods = append(c.Periods[:at], c.Periods[at+1:]...)
		typed = false
	default:
		c.Periods[at].KWh = text
	}
	p.tab.Note(c, first)
	p.tab.Pause()
	return typed
}

// twoTabs gives two tabs of one case that both have seen.
func twoTabs(t *testing.T) (b *browser, p, q *process) {
	b = &browser{central: map[string]string{}, clock: 100}
	p = b.open()
	p.tab = p.shelf.Add(bills("1", "2"))
	keep(t, p.tab)
	for len(p.out) > 0 {
		b.send(p)
	}
	q = b.open()
	q.tab = openTab(t, q.shelf, p.tab.ID())
	b.settle(t)
	return b, p, q
}

func TestDifferentFieldsOfTwoTabs(t *testing.T) {
	b, p, q := twoTabs(t)
	p.tab.Note(with(p.tab.Case(), 0, func(x *billing.Period) { x.KWh = "10" }), first)
	q.tab.Note(with(q.tab.Case(), 1, func(x *billing.Period) { x.KWh = "20" }), first)
	keep(t, p.tab)
	keep(t, q.tab)
	b.settle(t)
	if got := kWh(p.tab.Case()) + "/" + kWh(q.tab.Case()); got != "10 20/10 20" {
		t.Error(got)
	}
}

// The later one of two texts in one field is taken; the other is told of, and is
// one undoing away in both tabs.
func TestOneFieldOfTwoTabs(t *testing.T) {
	b, p, q := twoTabs(t)
	set := func(who *process, text string) {
		b.clock++
		who.tab.Note(with(who.tab.Case(), 0, func(x *billing.Period) { x.KWh = text }), first)
		keep(t, who.tab)
	}
	set(p, "10")
	set(q, "11")
	b.send(p)
	b.send(q)
	q.hear()
	p.hear() // its own
	q.hear() // its own
	news, _ := p.hear()
	if len(news.Lost) != 1 || news.Lost[0].Before != "10" || news.Lost[0].After != "11" || news.Lost[0].Path != "periods.0.kwh" {
		t.Errorf("told: %+v", news.Lost)
	}
	b.settle(t)
	for i, who := range b.tabs {
		if got := kWh(who.tab.Case()); got != "11 2" {
			t.Errorf("tab %d has %s", i, got)
		}
		if who.tab.Undo(); kWh(who.tab.Case()) != "10 2" {
			t.Errorf("tab %d, undone once, has %s", i, kWh(who.tab.Case()))
		}
	}
}

// A tab that heard nothing, as one that slept, merges before it writes.
func TestTabThatHeardNothing(t *testing.T) {
	m := newMemory()
	a, b := m.shelf("a"), m.shelf("b")
	one := a.Add(titled("x"))
	keep(t, one)
	other := openTab(t, b, one.ID())
	for i := range 30 { // more than any tab remembers
		one.Note(titled("x"+strconv.Itoa(i)), first)
		one.Pause()
		keep(t, one)
	}
	c := other.Case()
	c.Note = "typed after a long sleep"
	other.Note(c, first)
	keep(t, other)
	news, err := one.Look()
	if err != nil || !news.IsChanged {
		t.Fatal(news, err)
	}
	if got := one.Case(); got.Note != c.Note || got.Title != "x29" {
		t.Errorf("%q, %q", got.Title, got.Note)
	}
	if got := other.Case(); got.Note != c.Note || got.Title != "x29" {
		t.Errorf("%q, %q", got.Title, got.Note)
	}
}
