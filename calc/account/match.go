package account

import (
	"cmp"
	"slices"
	"strings"

	"github.com/shopspring/decimal"

	"splittally/calc/sorted"
	"splittally/calc/tariff"
)

// matcher finds the computed lines that each printed one stands for. No line
// belongs to two.
//
// A printed line stands for several computed ones only if they add up to its
// amount, or if it has the name of the row that makes them all and no other
// printed line has a claim on them.
type matcher struct {
	printed []printed
	lines   []tariff.Line
	rows    []string // the name of each line's row, folded
	labels  []string // of a tier or band, folded; "" of other lines
	of      [][]int  // lines of each printed line
	taken   []bool
}

// match gives for each printed line the indexes of its computed lines.
func match(list []printed, p tariff.Priced) [][]int {
	m := &matcher{printed: list, lines: p.Lines, of: make([][]int, len(list)), taken: make([]bool, len(p.Lines))}
	for _, l := range p.Lines {
		row, label := parts(l, p.Uses)
		m.rows, m.labels = append(m.rows, fold(row)), append(m.labels, fold(label))
	}
	for p := range list {
		if list[p].isSum {
			m.of[p] = []int{}
		}
	}
	m.byName()
	m.bySum()
	m.byRow()
	m.byTokens()
	m.byAmount()
	m.byOrder()
	return m.of
}

func (m *matcher) take(p int, lines ...int) {
	m.of[p] = lines
	for _, l := range lines {
		m.taken[l] = true
	}
}

// free lists the printed lines that have none yet.
func (m *matcher) free() (list []int) {
	for p := range m.printed {
		if m.of[p] == nil {
			list = append(list, p)
		}
	}
	return list
}

// left lists the lines that nobody has and that pass.
func (m *matcher) left(pass func(l int) bool) (list []int) {
	for l := range m.lines {
		if !m.taken[l] && pass(l) {
			list = append(list, l)
		}
	}
	return list
}

func (m *matcher) equal(p, l int) bool {
	return m.printed[p].known && m.printed[p].amount.Equal(m.lines[l].Amount)
}

// byName takes lines of the very name, those of the very amount first.
func (m *matcher) byName() {
	for _, amounts := range []bool{true, false} {
		for _, p := range m.free() {
			name := fold(m.printed[p].name)
			same := m.left(func(l int) bool {
				isName := name != "" && (name == fold(m.lines[l].Name) || name == m.labels[l])
				return isName && (!amounts || m.equal(p, l))
			})
			if len(same) > 0 {
				m.take(p, same[0])
			}
		}
	}
}

// bySum takes all lines of a row that add up to a printed amount.
func (m *matcher) bySum() {
	for _, p := range m.free() {
		if !m.printed[p].known || m.printed[p].amount.IsZero() {
			continue
		}
		for l := range m.lines {
			group := m.left(func(k int) bool { return m.lines[k].Row == m.lines[l].Row })
			if len(group) > 1 && sumOf(m.lines, group).Equal(m.printed[p].amount) && !m.anyEqual(p) {
				m.take(p, group...)
				break
			}
		}
	}
}

// anyEqual says whether a single line that is left has the printed amount.
func (m *matcher) anyEqual(p int) bool {
	return len(m.left(func(l int) bool { return m.equal(p, l) })) > 0
}

func sumOf(lines []tariff.Line, group []int) (sum decimal.Decimal) {
	for _, l := range group {
		sum = sum.Add(lines[l].Amount)
	}
	return sum
}

// byRow takes the lines of the row of that name: all of them, if this is the
// only printed line that can mean them, else one each in order.
func (m *matcher) byRow() {
	for _, p := range m.free() {
		if m.of[p] != nil {
			continue
		}
		name := m.printed[p].name
		group := m.left(func(l int) bool { return m.labels[l] != "" && sameWords(name, m.rows[l]) })
		if len(group) == 0 {
			continue
		}
		var rivals []int
		for _, q := range m.free() {
			if q != p && (sameWords(m.printed[q].name, m.rows[group[0]]) || m.claims(q, group)) {
				rivals = append(rivals, q)
			}
		}
		if len(rivals) == 0 {
			m.take(p, slices.DeleteFunc(group, func(l int) bool { return m.lines[l].Row != m.lines[group[0]].Row })...)
		}
	}
}

// claims says whether the name of a printed line points at one of the lines.
func (m *matcher) claims(p int, group []int) bool {
	return slices.ContainsFunc(group, func(l int) bool { return likeness(m.printed[p].name, m.lines[l].Name) > 0 })
}

// likely is a printed and a computed line that may belong together.
type likely struct {
	p, l  int
	like  float64
	equal bool
}

// byTokens takes lines that share words, the likest first.
func (m *matcher) byTokens() {
	var all []likely
	for _, p := range m.free() {
		for _, l := range m.left(func(int) bool { return true }) {
			if like := likeness(m.printed[p].name, m.name(l)); like > 0 {
				all = append(all, likely{p, l, like, m.equal(p, l)})
			}
		}
	}
	sorted.Stable(all, func(a, b likely) int {
		if a.equal != b.equal {
			if a.equal {
				return -1
			}
			return 1
		}
		return cmp.Compare(b.like, a.like)
	})
	for _, pair := range all {
		if m.of[pair.p] == nil && !m.taken[pair.l] {
			m.take(pair.p, pair.l)
		}
	}
}

// name is what of a line's name can be printed: tiers are named by their limits
// here, as no bill names them, so that they are told by the order of their row.
func (m *matcher) name(l int) string {
	if strings.HasSuffix(m.labels[l], " kwh") { // up to 500, 500 to 700, over 700 kWh
		return m.rows[l]
	}
	return m.lines[l].Name
}

// byAmount takes lines of the very amount.
func (m *matcher) byAmount() {
	for _, p := range m.free() {
		same := m.left(func(l int) bool { return m.equal(p, l) && !m.lines[l].Amount.IsZero() })
		if len(same) > 0 {
			m.take(p, same[0])
		}
	}
}

// byOrder takes what is left in order, where as many are left of both between
// two that belong together.
func (m *matcher) byOrder() {
	var open []int // printed lines since the last that has a line
	from := 0
	close := func(to int) {
		lines := m.left(func(l int) bool { return l >= from && l < to })
		if len(lines) == len(open) {
			for i, p := range open {
				if near(m.printed[p], m.lines[lines[i]]) {
					m.take(p, lines[i])
				}
			}
		}
	}
	for p := range m.printed {
		if m.of[p] == nil {
			open = append(open, p)
		}
		if len(m.of[p]) == 0 {
			continue
		}
		close(m.of[p][0])
		open, from = nil, slices.Max(m.of[p])
	}
	close(len(m.lines))
}

// near says whether two amounts can be of the same line, so that order alone
// pairs nothing that is wide apart: of one sign and within a factor of two.
func near(p printed, l tariff.Line) bool {
	two := decimal.NewFromInt(2)
	a, b := p.amount, l.Amount
	return p.known && a.Sign() == b.Sign() && a.Abs().LessThanOrEqual(b.Abs().Mul(two)) && b.Abs().LessThanOrEqual(a.Abs().Mul(two))
}
