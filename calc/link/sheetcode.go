package link

import (
	"splittally/calc/calendar"
	"splittally/calc/link/coder"
)

// days is what is known of readings so far: an instrument is told from one
// beside it, as they count the same electricity.
type days struct {
	flags, names texts
	count        coder.Size
	at, length   coder.Signed
	plain        coder.Chance
	beside       map[stretch]int64 // figures of the column before, in µWh
}

// stretch is the time of a figure.
type stretch struct{ at, length int }

// sheet writes or reads readings.
func (w *walk) sheet(text string) string {
	s := &sheet{}
	if !w.Reading {
		s, _ = parseSheet(text)
	}
	d := &w.days
	flags := w.tree3(&d.flags.kinds, one(s.timed)+2*one(s.mega))
	s.timed, s.mega = flags&1 == 1, flags&2 == 2
	columns := int(w.Number(&d.flags.others, uint64(len(s.names))))
	rows := int(w.Number(&d.count, uint64(len(s.rows))))
	if columns < 1 || columns > mostColumns || rows > mostRows || !w.Spend(40*columns+rows*(24+16*columns)) {
		w.Broken = true
		return ""
	}
	if w.Reading {
		s.names, s.rows = make([]string, columns), make([]row, rows)
	}
	for i := range s.names {
		s.names[i] = w.phrase(&d.names, s.names[i])
	}
	w.rows(s)
	for c := range s.names {
		w.column(s, c)
	}
	if w.Broken {
		return ""
	}
	return s.String()
}

// rows writes or reads the times of all rows: as a rule each begins where the
// one before ended, and is as long.
func (w *walk) rows(s *sheet) {
	unit, d := dayLength, &w.days
	if s.timed {
		unit = 1
	}
	at, length := int(w.lastDay)*dayLength, dayLength
	for i := range s.rows {
		r := &s.rows[i]
		if w.Bit(&d.plain, one(r.at == at && r.length == length)) == 1 {
			r.at, r.length = at, length
		} else {
			r.at = at + unit*int(w.Signed(&d.at, int64((r.at-at)/unit)))
			r.length = length + unit*int(w.Signed(&d.length, int64((r.length-length)/unit)))
			if day := calendar.Day(r.at / dayLength); day < firstDay || day > lastDay || r.length <= 0 || r.length > 40_000*dayLength {
				w.Broken = true
			}
		}
		if r.cells == nil {
			r.cells = make([]cell, len(s.names))
		}
		at, length = r.at+r.length, r.length
		w.lastDay = calendar.Day(r.at / dayLength)
	}
}

// figures is what was learnt of the figures of a column.
type figures struct {
	known              [2]coder.Chance
	same, minus, comma coder.Chance
	sizes              coder.Size
	residue            coder.Signed
	guess              guesser
	places             int
}

// column writes or reads the figures of one column.
func (w *walk) column(s *sheet, c int) {
	k := &figures{}
	own := make(map[stretch]int64, len(s.rows))
	before := 1
	for i := range s.rows {
		r := &s.rows[i]
		f := &r.cells[c]
		before = w.Bit(&k.known[before], one(f.known))
		if f.known = before == 1; !f.known {
			continue
		}
		key := stretch{r.at, r.length}
		other, isBeside := w.days.beside[key]
		e := w.figure(k, f, s.mega, other, isBeside)
		if w.Broken {
			return
		}
		own[key] = e
	}
	if len(own) > 0 {
		w.days.beside = own
	}
}

// figure writes or reads a figure by its distance from what is guessed, and
// gives its energy. other is that of the column beside it.
func (w *walk) figure(k *figures, f *cell, mega bool, other int64, isBeside bool) int64 {
	if w.Bit(&k.same, one(f.places == k.places)) == 0 {
		k.places = int(w.Number(&k.sizes, uint64(f.places+1))) - 1
	}
	f.places = k.places
	if f.places > 12 || !w.Spend(f.places+8) {
		w.Broken = true
		return 0
	}
	f.comma = w.Bit(&k.comma, one(f.comma)) == 1
	unit := int64(numeral{digits: 1, places: f.places}.energy(mega))
	if unit <= 0 {
		w.Broken = true
		return 0
	}
	near := k.guess.next(other, isBeside) / unit
	value := near + w.Signed(&k.residue, f.signed()-near)
	f.minus, f.digits = value < 0, max(value, -value)
	if value == 0 {
		f.minus = w.Bit(&k.minus, one(f.minus)) == 1
	}
	e := f.energy(mega)
	if f.digits < 0 || f.digits >= 1e15 || e == tooMuch {
		w.Broken = true
		return 0
	}
	k.guess.saw(int64(e), other, isBeside)
	return int64(e)
}

func (n numeral) signed() int64 {
	if n.minus {
		return -n.digits
	}
	return n.digits
}
