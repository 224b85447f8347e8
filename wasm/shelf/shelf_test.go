package shelf

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"splittally/calc"
)

func TestCasesAreListedByTheirKeys(t *testing.T) {
	m := newMemory()
	s := m.shelf("a")
	m.texts["another page’s"] = "x"
	first, second := s.Add(titled("<b>Larch Bend</b>\n")), s.Add(bills("412"))
	keep(t, first)
	keep(t, second)
	first.Note(titled("Larch Bend"), func([]change) string { return "" })
	keep(t, first)
	got, err := s.Cases()
	if err != nil {
		t.Fatal(err)
	}
	var names []string
	for _, e := range got {
		names = append(names, e.Name)
		if e.Size == 0 || e.At == 0 || e.IsAway {
			t.Errorf("%+v", e)
		}
	}
	if diff := cmp.Diff([]string{"Larch Bend", "Bills from 1 Jan to 2 Jan"}, names); diff != "" {
		t.Error(diff)
	}
	if c, err := s.Case(second.ID()); err != nil || c.Periods[0].KWh != "412" {
		t.Errorf("%v, %v", c, err)
	}
}

func TestName(t *testing.T) {
	for _, c := range []struct {
		c    calc.Case
		want string
	}{
		{titled(" x "), "x"},
		{bills("1", "2"), "Bills from 1 Jan to 3 Jan"},
		{calc.Case{Monitors: []calc.Monitor{{}, {Name: "Hallway"}}}, "Hallway"},
		{calc.Case{}, "A case without a title"},
	} {
		if got := Name(c.c); got != c.want {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
}

func TestTakenAwayAndBack(t *testing.T) {
	m := newMemory()
	s, other := m.shelf("a"), m.shelf("b")
	tab := s.Add(titled("mine"))
	keep(t, tab)
	there := openTab(t, other, tab.ID())
	if err := s.TakeAway(tab.ID()); err != nil {
		t.Fatal(err)
	}
	if list, _ := s.Cases(); len(list) != 1 || !list[0].IsAway {
		t.Errorf("after taking it away: %+v", list)
	}
	if news := there.Hear(m.texts[caseKey+tab.ID()]); !news.IsAway || news.IsChanged {
		t.Errorf("the other tab hears %+v", news)
	}
	keep(t, there) // nothing to keep: it stays away
	if list, _ := s.Cases(); !list[0].IsAway {
		t.Error("a tab in which nothing was typed brought it back")
	}
	there.Note(titled("typed on"), first)
	keep(t, there)
	if list, _ := s.Cases(); list[0].IsAway || list[0].Name != "typed on" {
		t.Errorf("what was typed afterwards: %+v", list)
	}
	_ = s.TakeAway(tab.ID())
	_ = s.BringBack(tab.ID())
	if list, _ := s.Cases(); list[0].IsAway {
		t.Error("it did not come back")
	}
	if err := s.Erase(tab.ID()); err != nil || len(m.texts) > 0 {
		t.Errorf("%v; left: %v", err, m.texts)
	}
}

// A tab that had typed when the case was taken away keeps it.
func TestTakenAwayWhileTyping(t *testing.T) {
	m := newMemory()
	s, other := m.shelf("a"), m.shelf("b")
	tab := s.Add(titled("mine"))
	keep(t, tab)
	there := openTab(t, other, tab.ID())
	there.Note(titled("mine, and more"), first)
	_ = s.TakeAway(tab.ID())
	if news := there.Hear(m.texts[caseKey+tab.ID()]); news.IsAway {
		t.Error("it is told as away though there is something to keep")
	}
	keep(t, there)
	if list, _ := s.Cases(); list[0].IsAway || list[0].Name != "mine, and more" {
		t.Errorf("%+v", list)
	}
}

func TestDamagedIsSetAside(t *testing.T) {
	m := newMemory()
	s := m.shelf("a")
	good, bad := s.Add(titled("good")), s.Add(titled("bad"))
	keep(t, good)
	keep(t, bad)
	key := caseKey + bad.ID()
	for name, damage := range map[string]func(string) string{
		"cut":     func(text string) string { return text[:len(text)-5] },
		"altered": func(text string) string { return strings.Replace(text, `"title": "bad`, `"title": "bed`, 1) },
		"empty":   func(string) string { return "" },
		"foreign": func(string) string { return "[1, 2]" },
	} {
		t.Run(name, func(t *testing.T) {
			whole := m.texts[key]
			damaged := damage(whole)
			m.texts[key] = damaged
			list, err := s.Cases()
			if err != nil || len(list) != 1 || list[0].Name != "good" {
				t.Fatalf("%+v, %v", list, err)
			}
			aside := s.Aside()
			if len(aside) != 1 {
				t.Fatalf("%d are set aside", len(aside))
			}
			for k, text := range aside {
				if text != damaged {
					t.Errorf("set aside is %q", text)
				}
				if err := s.Discard(k); err != nil {
					t.Error(err)
				}
			}
			if len(s.Aside()) > 0 {
				t.Error("it can't be discarded")
			}
			m.texts[key] = damaged
			if _, err := s.Open(bad.ID()); err == nil {
				t.Error("it opens")
			}
			for k := range s.Aside() {
				_ = s.Discard(k)
			}
			m.texts[key] = whole
		})
	}
	if err := s.Discard(caseKey + good.ID()); err != nil || m.texts[caseKey+good.ID()] == "" {
		t.Error("Discard erases what was not set aside")
	}
}

// A sound record of a later version is not for this one, and stays where it is.
func TestLaterVersionStays(t *testing.T) {
	m := newMemory()
	s := m.shelf("a")
	r := record{id: stamp{"x", 1}, at: 1, name: "later", text: "{\"splittally\": \"9\"}\n"}
	m.texts[caseKey+"x"] = r.String()
	_, err := s.Open("x")
	unread, ok := err.(*Unread)
	if !ok || unread.Text != r.String() || m.texts[caseKey+"x"] != r.String() {
		t.Errorf("%v; kept: %q", err, m.texts)
	}
}

func TestOldCaseIsTakenOver(t *testing.T) {
	m := newMemory()
	m.texts[onlyKey] = calc.Save(titled("from before"))
	m.texts[onlyAsideKey] = "what the earlier version set aside"
	s := m.shelf("a")
	tab, _, err := s.TakeOver()
	if err != nil || tab.Case().Title != "from before" || m.texts[onlyKey] != "" {
		t.Fatalf("%v, %v", tab, err)
	}
	if list, _ := s.Cases(); len(list) != 1 || list[0].Name != "from before" {
		t.Errorf("%+v", list)
	}
	if again, _, err := s.TakeOver(); again != nil || err != nil {
		t.Errorf("taken over twice: %v, %v", again, err)
	}
	m.texts[onlyKey] = `{"splittally": "1", "title": `
	if tab, text, err := s.TakeOver(); tab != nil || err == nil || text == "" {
		t.Errorf("%v, %q, %v", tab, text, err)
	}
	if len(s.Aside()) != 2 || m.texts[onlyAsideKey] != "what the earlier version set aside" {
		t.Errorf("set aside: %q", s.Aside())
	}
}

// Where there is no room for both the old one stays.
func TestOldCaseWithoutRoom(t *testing.T) {
	m := newMemory()
	m.texts[onlyKey] = calc.Save(titled("from before"))
	m.room = 100
	tab, _, err := m.shelf("a").TakeOver()
	if err != ErrFull || tab.Case().Title != "from before" || m.texts[onlyKey] == "" {
		t.Errorf("%v, %q", err, m.texts)
	}
}

func TestRefusedStorage(t *testing.T) {
	m := newMemory()
	s := m.shelf("a")
	tab := s.Add(titled("mine"))
	m.refuses = true
	if _, err := tab.Keep(); err != errRefused || !tab.IsDirty() {
		t.Errorf("%v", err)
	}
	if _, err := s.Cases(); err != errRefused {
		t.Errorf("%v", err)
	}
	m.refuses = false
	keep(t, tab)
	if tab.IsDirty() || len(m.texts) != 1 {
		t.Error("it does not go on trying")
	}
}

// Steps give way before a case is refused: those of other cases first.
func TestFullStorage(t *testing.T) {
	m := newMemory()
	s := m.shelf("a")
	var tabs []*Tab
	for range 3 {
		tab := s.Add(titled("x"))
		keep(t, tab)
		for i := range 40 {
			c := titled("x")
			c.Note = strings.Repeat(string(rune('a'+i%26)), 200)
			tab.Note(c, first)
			tab.Pause()
			keep(t, tab)
		}
		tabs = append(tabs, tab)
	}
	used := 0
	for key, text := range m.texts {
		used += len(key) + len(text)
	}
	m.room = used + 100
	c := tabs[2].Case()
	c.Title = strings.Repeat("long ", 1000)
	tabs[2].Note(c, first)
	keep(t, tabs[2])
	if m.texts[stepsKey+tabs[0].ID()] != "" {
		t.Error("the steps of the case changed longest ago are still there")
	}
	m.room = len(m.texts[caseKey+tabs[2].ID()]) + 3000
	c.Title = strings.Repeat("longer ", 1000)
	tabs[2].Note(c, first)
	for id := range tabs[:2] {
		_ = s.Erase(tabs[id].ID())
	}
	keep(t, tabs[2])
	if got, err := s.Case(tabs[2].ID()); err != nil || got.Title != c.Title {
		t.Errorf("%.20q, %v", got.Title, err)
	}
	if undo, _ := tabs[2].Undoes(); undo == "" {
		t.Error("the tab itself has forgotten its steps")
	}
	m.room = 10
	c.Title = "y"
	tabs[2].Note(c, first)
	if _, err := tabs[2].Keep(); err != ErrFull || !tabs[2].IsDirty() {
		t.Errorf("%v", err)
	}
}

// Cases that are not the same have nothing to do with one another.
func TestOtherCaseInAnotherTab(t *testing.T) {
	m := newMemory()
	a, b := m.shelf("a"), m.shelf("b")
	one, other := a.Add(titled("one")), b.Add(titled("other"))
	keep(t, one)
	keep(t, other)
	if news, err := one.Look(); err != nil || news.IsChanged {
		t.Error(news, err)
	}
	if one.Case().Title != "one" || other.Case().Title != "other" {
		t.Error("mixed")
	}
}
