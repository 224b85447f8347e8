package shelf

import (
	"errors"
	"strconv"

	"splittally/calc"
	"splittally/calc/billing"
	"splittally/calc/document"
)

// memory is a storage with a clock, and with room for so many bytes.
type memory struct {
	texts   map[string]string
	room    int // 0 for no end of it
	refuses bool
	clock   int64
	ids     int
}

var errRefused = errors.New("access is denied")

func (m *memory) Get(key string) (string, bool, error) {
	if m.refuses {
		return "", false, errRefused
	}
	text, ok := m.texts[key]
	return text, ok, nil
}

func (m *memory) Set(key, text string) error {
	if m.refuses {
		return errRefused
	}
	used := len(key) + len(text)
	for other, text := range m.texts {
		if other != key {
			used += len(other) + len(text)
		}
	}
	if m.room > 0 && used > m.room {
		return ErrFull
	}
	m.texts[key] = text
	return nil
}

func (m *memory) Remove(key string) error {
	if m.refuses {
		return errRefused
	}
	delete(m.texts, key)
	return nil
}

func (m *memory) Keys() (keys []string, err error) {
	if m.refuses {
		return nil, errRefused
	}
	for key := range m.texts {
		keys = append(keys, key)
	}
	return keys, nil
}

func newMemory() *memory { return &memory{texts: map[string]string{}} }

// shelf gives a shelf on the storage; each has ids and the one clock.
func (m *memory) shelf(name string) *Shelf {
	return New(m, func() int64 { m.clock++; return m.clock }, func() string { m.ids++; return name + strconv.Itoa(m.ids) })
}

// tester is a test, or one of rapid's.
type tester interface {
	Helper()
	Fatal(...any)
}

func titled(title string) calc.Case { return calc.Case{Title: title} }

// bills is a case with bills of so many kWh.
func bills(kWh ...string) calc.Case {
	c := calc.Case{}
	for i, k := range kWh {
		c.Periods = append(c.Periods, billing.Period{From: strconv.Itoa(i+1) + " Jan", To: strconv.Itoa(i+2) + " Jan", KWh: k})
	}
	return c
}

// first says a step by the path of its first change.
func first(changes []document.Change) string { return changes[0].Path }

// keep keeps what must be kept.
func keep(t tester, tab *Tab) News {
	t.Helper()
	news, err := tab.Keep()
	if err != nil {
		t.Fatal(err)
	}
	return news
}

func openTab(t tester, s *Shelf, id string) *Tab {
	t.Helper()
	tab, err := s.Open(id)
	if err != nil {
		t.Fatal(err)
	}
	return tab
}
