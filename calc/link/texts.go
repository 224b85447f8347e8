package link

import (
	"slices"
	"strconv"
	"strings"

	"splittally/calc/calendar"
	"splittally/calc/document"
	"splittally/calc/link/coder"
)

// texts is what was learnt of the texts of one field.
type texts struct {
	has, minus coder.Chance
	kinds      [8]coder.Chance
	from       [4]coder.Chance
	others     coder.Size
	size       coder.Size
	steps      [3]coder.Signed
	places     coder.Size
	last       numeral
}

// fieldCost is what a field or a group takes from the budget, as it takes room.
const fieldCost = 40

// The kinds of texts.
const (
	aWord    = iota // of the vocabulary
	aNumber         // digits and decimals
	aDate           // written as a day of the calendar is, in one of two ways
	before          // a text that was there before
	freeText        // letter by letter
	behind          // a number and what is behind it
	aSheet          // readings
	aRecord         // what a file came to
)

// text writes or reads the text of a field.
func (w *walk) text(p *place, n *document.Node) {
	text, kind := "", 0
	if !w.Reading {
		text = lined(*n)
		kind = w.kindOf(p, text)
	}
	text = w.coded(&p.texts, kind, text, aRecord)
	if w.Reading {
		*n = document.Node{Text: text}
	}
}

// phrase writes or reads a text that is no field of its own.
func (w *walk) phrase(t *texts, text string) string {
	kind := 0
	if !w.Reading {
		kind = w.kindOf(&place{}, text)
	}
	return w.coded(t, kind, text, behind)
}

// coded writes or reads a text of a kind that is most at most.
func (w *walk) coded(t *texts, kind int, text string, most int) string {
	if kind = w.tree3(&t.kinds, kind); kind > most || !w.Spend(fieldCost) {
		w.Broken = true
		return ""
	}
	switch kind {
	case aWord:
		i := w.Number(&t.others, uint64(max(0, slices.Index(w.words, text))))
		if i < uint64(len(w.words)) {
			return w.words[i]
		}
	case aNumber:
		return w.number(t, text)
	case behind:
		cut := numberEnd(text)
		number := w.number(t, text[:cut])
		unit, is := text[cut:], 0
		if !w.Reading {
			is = w.kindOf(&place{}, unit)
		}
		return number + w.coded(&w.behind, is, unit, freeText)
	case aDate:
		return w.date(t, text)
	case before:
		i := w.Number(&t.others, uint64(max(0, slices.Index(w.texts, text))))
		if i < uint64(len(w.texts)) && w.Spend(len(w.texts[i])) {
			return w.texts[i]
		}
	case freeText:
		text = w.Text(text)
		w.texts = append(w.texts, text)
		return text
	case aSheet:
		return w.sheet(text)
	case aRecord:
		return w.record(text)
	}
	w.Broken = true
	return ""
}

// tree3 writes or reads a number below 8.
func (w *walk) tree3(chances *[8]coder.Chance, v int) int {
	node := 1
	for i := 2; i >= 0; i-- {
		node = 2*node + w.Bit(&chances[node], v>>i&1)
	}
	return node - 8
}

// kindOf says how a text is best written.
func (w *walk) kindOf(p *place, text string) int {
	if p.name == "readings" {
		if _, ok := parseSheet(text); ok {
			return aSheet
		}
	}
	switch {
	case p.name == "record":
		return aRecord
	case slices.Contains(w.words, text):
		return aWord
	case slices.Contains(w.texts, text):
		return before
	}
	if _, ok := numeralOf(text); ok {
		return aNumber
	}
	if day, _, ok := dateOf(text); ok && day >= firstDay && day <= lastDay {
		return aDate
	}
	if cut := numberEnd(text); cut > 0 {
		if _, ok := numeralOf(text[:cut]); ok {
			return behind
		}
	}
	return freeText
}

// numberEnd is where the number ends that a text begins with.
func numberEnd(text string) int {
	end := len(text) - len(strings.TrimLeft(text, "0123456789.,"))
	return len(strings.TrimRight(text[:end], ".,"))
}

// numeral is a number as it is written.
type numeral struct {
	minus  bool
	digits int64
	places int // behind the mark; −1 without a mark
	comma  bool
}

// mostDigits is how many digits a numeral has at most.
const mostDigits = 15

// numeralOf takes a number apart; ok is false if it would not be written so again.
func numeralOf(text string) (n numeral, ok bool) {
	body := strings.TrimPrefix(text, "-")
	n.minus = len(body) < len(text)
	n.places = -1
	if at := strings.IndexAny(body, ".,"); at >= 0 {
		n.comma, n.places = body[at] == ',', len(body)-at-1
		body = body[:at] + body[at+1:]
	}
	digits, err := strconv.ParseUint(body, 10, 63)
	n.digits = int64(digits)
	return n, err == nil && len(body) <= mostDigits && n.String() == text
}

func (n numeral) String() string {
	text := strconv.FormatInt(n.digits, 10)
	if n.places >= 0 {
		for len(text) <= n.places {
			text = "0" + text
		}
		mark := "."
		if n.comma {
			mark = ","
		}
		at := len(text) - n.places
		text = text[:at] + mark + text[at:]
	}
	if n.minus {
		text = "-" + text
	}
	return text
}

// number writes or reads a numeral: alone, or by how far it is from the last of
// the field, or from the one before it, as what a monitor shows is from what
// the multimeter does.
func (w *walk) number(t *texts, text string) string {
	n, _ := numeralOf(text)
	n.places = int(w.Number(&t.places, uint64(2*(n.places+1)+one(n.comma))))
	n.comma, n.places = n.places&1 == 1, n.places>>1-1
	n.minus = w.Bit(&t.minus, one(n.minus)) == 1
	if n.places > mostDigits {
		w.Broken = true
		return ""
	}
	near := [3]int64{0, t.last.at(n.places), w.last.at(n.places)}
	from := 0
	for i := range near {
		if gap(n.digits, near[i]) < gap(n.digits, near[from])/4 {
			from = i
		}
	}
	from = w.Bit(&t.from[0], one(from > 0)) * (1 + w.Bit(&t.from[1], one(from > 1)))
	if from == 0 {
		n.digits = int64(w.Number(&t.size, uint64(n.digits)))
	} else {
		n.digits = near[from] + w.Signed(&t.steps[from], n.digits-near[from])
	}
	if n.digits < 0 || n.digits >= 1e15 {
		w.Broken = true
		return ""
	}
	t.last, w.last = n, n
	return n.String()
}

func gap(a, b int64) int64 { return max(a-b, b-a) }

// at gives the digits of a number with other places, as near as may be.
func (n numeral) at(places int) int64 {
	v := n.digits
	for have := max(0, n.places); have < places && v < 1e14; have++ {
		v *= 10
	}
	for have := max(0, n.places); have > max(0, places); have-- {
		v /= 10
	}
	return v
}

// dateOf takes a date apart that is written as 2026-10-03 or 3 Oct 2026.
func dateOf(text string) (day calendar.Day, long, ok bool) {
	if day, ok = calendar.ParseISO(text); ok {
		return day, false, day.String() == text
	}
	if len(text) < 10 || len(text) > 11 || text[0] < '0' || text[0] > '9' {
		return 0, false, false
	}
	year, err := strconv.Atoi(text[len(text)-4:])
	for month := 1; month <= 12 && err == nil; month++ {
		n, _ := strconv.Atoi(strings.TrimSpace(text[:2]))
		if day, ok = calendar.Date(year, month, n); ok && day.Long() == text {
			return day, true, true
		}
	}
	return 0, false, false
}

// date writes or reads a date by its distance from the one before.
func (w *walk) date(t *texts, text string) string {
	day, long, _ := dateOf(text)
	long = w.Bit(&t.minus, one(long)) == 1
	day = w.day(&t.steps[0], day)
	if long {
		return day.Long()
	}
	return day.String()
}

// The days of a calendar that a link may hold: the years 1970 to 2199.
const (
	firstDay calendar.Day = 0
	lastDay  calendar.Day = 84_005
)

func (w *walk) day(s *coder.Signed, day calendar.Day) calendar.Day {
	step := w.Signed(s, int64(day-w.lastDay))
	if step < -200_000 || step > 200_000 {
		w.Broken = true
		return 0
	}
	day = w.lastDay + calendar.Day(step)
	if day < firstDay || day > lastDay {
		w.Broken = true
		return 0
	}
	w.lastDay = day
	return day
}
