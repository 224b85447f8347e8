package interval_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"

	"splittally/calc/record"
)

// formsColumn is a column of figures.
type formsColumn struct {
	head    string
	role    record.Role
	unit    string
	scale   int64   // µWh or µW of a unit of the last digit written
	figures []int64 // in units of the last digit
	absent  []bool
	index   int // among the columns of the file
}

// formsFile is a file that was drawn: its text, its truth, and what may be asked.
type formsFile struct {
	r       *rand.Rand
	h       *formsHome
	words   formsWords
	kind    string // energy, power or register
	tags    []string
	columns []*formsColumn
	at      []int64 // beginnings of intervals, or times of reads
	nominal []int64 // the same before their seconds were made uneven
	uneven  bool
	places  int
	modulus int64
	lost    []bool
	anew    int // the read before which a register began anew

	form    formsForm
	show    bool // the hours that differ are printed
	sunday  bool // see oddAt
	heads   []string
	text    []byte
	truth   []map[int64]*formsHour
	gaps    [][2]int64
	answers map[string]string
	doubt   map[string]bool
	odd     map[record.Kind]int
	junk    [2]int // lines that are no readings: those that surely are, and all
}

func (f *formsFile) tag(format string, args ...any) {
	f.tags = append(f.tags, fmt.Sprintf(format, args...))
}

// chance is true one time in n.
func (f *formsFile) chance(n int) bool { return f.r.IntN(n) == 0 }

func pickOne[T any](r *rand.Rand, of []T) T { return of[r.IntN(len(of))] }

// drawFile draws file n of a seed.
func drawFile(seed, n uint64) *formsFile {
	r := rand.New(rand.NewPCG(seed, n))
	f := &formsFile{r: r, h: drawHome(r), answers: map[string]string{}, doubt: map[string]bool{}, odd: map[record.Kind]int{}, anew: -1}
	f.kind = pickOne(r, []string{"energy", "energy", "energy", "energy", "energy", "power", "power", "register", "register"})
	f.tag("%s", f.kind)
	if f.h.turns {
		f.tag("turn")
	}
	f.tag("step%d", f.h.step/60)
	f.times()
	f.drawColumns()
	f.drawHoles()
	f.drawForm()
	f.write()
	f.sum()
	return f
}

// times draws when readings are taken.
func (f *formsFile) times() {
	h, last := f.h, f.h.to
	if f.kind == "register" {
		last += h.step
	}
	f.uneven = f.kind != "energy" && f.chance(12)
	for u := h.from; u < last; u += h.step {
		f.at = append(f.at, u)
		if f.uneven {
			u += 30 + f.r.Int64N(min(2*h.step, 3000)) - h.step
		}
		if len(f.at) > 6000 {
			break
		}
	}
	f.nominal = append([]int64(nil), f.at...)
	switch {
	case f.uneven:
		f.tag("uneven")
		h.step = 0
	case f.kind != "register" && !h.turns && f.chance(12):
		f.tag("jitter")
		for i := range f.at {
			f.at[i] += f.r.Int64N(1+min(h.step/10, 20)*2) - min(h.step/10, 20)
		}
	}
}

// drawColumns draws what the columns of figures are and their figures.
func (f *formsFile) drawColumns() {
	f.words = formsLanguages[0]
	if f.chance(3) {
		f.words = pickOne(f.r, formsLanguages)
	}
	f.tag("%s", f.words.tag)
	unit := pickOne(f.r, []string{"kWh", "kWh", "kWh", "Wh", "Wh", "MWh"})
	scale := map[string]float64{"Wh": 1e6, "kWh": 1e9, "MWh": 1e12}[unit]
	if f.kind == "power" {
		unit = pickOne(f.r, []string{"W", "kW"})
		scale = map[string]float64{"W": 1e6, "kW": 1e9}[unit]
	}
	mean := 300e6 * float64(max(f.h.step, 300)) / 3600
	if f.kind == "power" {
		mean = 300e6
	}
	least := max(0, min(6, int(math.Ceil(math.Log10(scale/mean*20)))))
	f.places = least + f.r.IntN(7-least)
	if f.chance(8) && least > 0 {
		f.places = least - 1
	}
	f.tag("%s", unit)
	f.tag("places%d", f.places)
	digit := int64(math.Round(scale / math.Pow10(f.places)))
	roles := []record.Role{record.Import}
	if f.chance(3) {
		roles = pickOne(f.r, formsRoles)
	}
	f.tag("%v", roles)
	legs := pickOne(f.r, formsLegs)
	circuits := f.r.Perm(len(formsCircuits))
	for i, role := range roles {
		c := &formsColumn{role: role, unit: unit, scale: digit, absent: make([]bool, len(f.at))}
		w := f.words
		switch {
		case role == record.Circuit:
			c.head = formsCircuits[circuits[i]]
		case strings.HasPrefix(string(role), "leg"):
			c.head = legs[i]
		case role == record.Export:
			c.head = pickOne(f.r, w.exports)
		case role == record.Production:
			c.head = pickOne(f.r, w.made)
		case len(roles) > 1:
			c.head = pickOne(f.r, w.imports)
		default:
			c.head = pickOne(f.r, map[string][]string{"energy": w.energy, "power": w.power, "register": w.register}[f.kind])
		}
		f.fill(c)
		f.columns = append(f.columns, c)
		if role == record.Circuit { // a part of the whole
			for i := range c.figures {
				f.columns[0].figures[i] += c.figures[i]
			}
		}
	}
}

// fill draws the figures of a column.
func (f *formsFile) fill(c *formsColumn) {
	w := f.h.load(f.r, c.role, f.nominal)
	c.figures = make([]int64, len(w))
	if f.kind != "register" {
		for i := range w {
			micro := w[i] * 1e6
			if f.kind == "energy" {
				micro *= float64(f.h.step) / 3600
			}
			c.figures[i] = int64(math.Round(micro / float64(c.scale)))
		}
		return
	}
	total := f.r.Float64() * 4e13 // up to 40 MWh
	if c.role == record.Import && !f.has("[import circuit circuit circuit]") && f.chance(8) {
		f.modulus = int64(math.Round(1e14 / float64(c.scale))) // of 100,000 kWh
		total = 1e14 - f.r.Float64()*3e10
		f.tag("rollover")
	} else if f.chance(10) && len(f.columns) == 0 {
		f.anew = 10 + f.r.IntN(len(w)-15)
		f.tag("reset")
	}
	for i := range w {
		if i > 0 {
			total += w[i-1] * 1e6 * float64(f.at[i]-f.at[i-1]) / 3600
		}
		if i == f.anew {
			total = 0
		}
		c.figures[i] = int64(total / float64(c.scale))
		if f.modulus > 0 && c.role == record.Import {
			c.figures[i] %= f.modulus
		}
	}
}

// drawHoles draws rows and cells that lack, away from a change of the clock.
func (f *formsFile) drawHoles() {
	f.lost = make([]bool, len(f.at))
	drop := func(i, n int) {
		for ; n > 0 && i < len(f.at)-3; i, n = i+1, n-1 {
			if i > 2 && !f.h.nearTurn(f.at[i], 6) && i != f.anew && i != f.anew-1 {
				f.lost[i] = true
				f.oddAt(i)
			}
		}
	}
	if f.chance(4) && !f.uneven {
		f.tag("missing")
		for range 1 + f.r.IntN(4) {
			drop(f.r.IntN(len(f.at)), 1+f.r.IntN(3)*f.r.IntN(12))
		}
	}
	if f.chance(6) && !f.uneven {
		f.tag("empty")
		for range 1 + f.r.IntN(5) {
			i := f.r.IntN(len(f.at))
			if i > 2 && i < len(f.at)-3 && !f.lost[i] && !f.h.nearTurn(f.at[i], 6) && i != f.anew && i != f.anew-1 {
				c := pickOne(f.r, f.columns)
				if !c.absent[i] {
					c.absent[i] = true
					f.oddAt(i)
					f.odd[record.NoFigure]++
				}
			}
		}
	}
}
