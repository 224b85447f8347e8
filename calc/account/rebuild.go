package account

import (
	"slices"

	"github.com/shopspring/decimal"

	"splittally/calc/figure"
	"splittally/calc/tariff"
)

// Rebuild sets a printed bill beside the one that a tariff gives: line by line,
// with the difference, and the likely reason where trying it gives what is
// printed. It also finds the unknown that b.Solve names.
//
// A tariff that is not Given is used as far as it has rows.
func Rebuild(t tariff.Tariff, b Bill) Account {
	r := &rebuild{t: t, b: b, usage: lean(t, b.Usage), sheet: sheet{currency: t.Currency, answers: b.Options.Answers}}
	r.out.Priced = t.Price(b.Usage)
	r.list = r.sheet.lines(b.Path, b.Printed)
	subtotals(r.list, r.out.Lines)
	r.pairs()
	r.out.Total, r.out.HasTotal = r.sheet.total(b.Path, b.Total, r.list)
	if r.out.HasTotal {
		r.out.Off = r.out.Total.Sub(r.out.Priced.Total)
	}
	r.absent()
	r.heldTax()
	r.signs()
	r.assumed()
	r.reasons()
	r.words()
	r.solve()
	r.out.Problems, r.out.Questions = r.sheet.problems, r.sheet.asks
	return r.out
}

// rebuild is the work on one bill.
type rebuild struct {
	t     tariff.Tariff
	b     Bill
	usage tariff.Usage // of days, where hours change nothing
	sheet sheet
	list  []printed
	rows  map[int]int // the row of a pair that has no line
	// common says how many lines are explained by what explains a pair.
	common map[int]int
	out    Account
}

// pairs puts the lines side by side in the order of the printed bill; those that
// are not printed come where the tariff has them.
func (r *rebuild) pairs() {
	lines := r.out.Lines
	rest := make([]bool, len(lines))
	for i, group := range match(r.list, r.out.Priced) {
		p := r.list[i]
		pair := Pair{Name: p.name, At: p.at, Typed: p.typed, Printed: p.amount, HasPrinted: p.known, Line: -1}
		if p.isSum {
			pair.Reason = "It is the sum of lines above, and is not added again."
		}
		if len(group) > 0 {
			pair.Line, pair.Computed = group[0], sumOf(lines, group)
			for _, l := range group {
				rest[l] = true
			}
			if len(group) > 1 {
				pair.Lines = group
			}
			if pair.Name == "" {
				pair.Name = lines[group[0]].Name
			}
			if p.known {
				pair.Off = pair.Printed.Sub(pair.Computed)
				pair.IsEqual = pair.Off.IsZero()
			}
		}
		r.out.Pairs = append(r.out.Pairs, pair)
	}
	for l, line := range lines {
		if !rest[l] {
			at := 1 + lastBefore(r.out.Pairs, l)
			r.out.Pairs = slices.Insert(r.out.Pairs, at, Pair{Name: line.Name, At: -1, Computed: line.Amount, Line: l})
		}
	}
}

// lastBefore gives the last pair of a line before l; -1 if there is none.
func lastBefore(pairs []Pair, l int) int {
	best := -1
	for i, p := range pairs {
		if p.Line >= 0 && p.Line < l && (best < 0 || p.Line >= pairs[best].Line) {
			best = i
		}
	}
	return best
}

// linesOf lists the computed lines of a pair.
func (p Pair) linesOf() []int {
	switch {
	case p.Lines != nil:
		return p.Lines
	case p.Line >= 0:
		return []int{p.Line}
	}
	return nil
}

// differs says whether both amounts are there and not the same.
func (p Pair) differs() bool { return p.HasPrinted && p.Line >= 0 && !p.IsEqual }

// text gives money for show.
func (r *rebuild) text(amount decimal.Decimal) string { return r.t.Currency.Text(amount) }

// moreOrLess gives a difference in words: "0.10 more".
func (r *rebuild) moreOrLess(off decimal.Decimal) string {
	if off.IsNegative() {
		return r.text(off.Neg()) + " less"
	}
	return r.text(off) + " more"
}

// words sum the bill up.
func (r *rebuild) words() {
	r.out.Words = append(leftOut(r.t), r.lacks()...)
	if len(r.list) == 0 && !r.out.HasTotal {
		return
	}
	say := func(text string) { r.out.Words = append(r.out.Words, text) }
	var alone, missing, off int
	for _, p := range r.out.Pairs {
		switch {
		case p.At >= 0 && p.Line < 0 && p.Reason != "":
		case p.At >= 0 && p.Line < 0:
			alone++
		case p.At < 0:
			missing++
		case p.differs():
			off++
		}
	}
	if r.out.HasTotal && r.out.Off.IsZero() {
		say("The bill comes out exactly: " + r.text(r.out.Total) + ".")
	} else if r.out.HasTotal {
		say(r.text(r.out.Total) + " is printed, " + r.moreOrLess(r.out.Off) + " than the " + r.text(r.out.Priced.Total) + " that come out.")
	}
	if len(r.list) > 0 && off > 0 {
		say(figure.Counted(off, "line differs", "lines differ") + " from what is printed.")
	}
	if alone > 0 {
		say(figure.Counted(alone, "printed line is", "printed lines are") + " not in the tariff.")
	}
	if missing > 0 && len(r.list) > 0 {
		say(figure.Counted(missing, "line of the tariff is", "lines of the tariff are") + " not printed.")
	}
	r.totalWords(say, alone+missing+off == 0)
}

// totalWords looks at a total that its own lines do not make.
func (r *rebuild) totalWords(say func(string), allEqual bool) {
	if !r.out.HasTotal || len(r.list) == 0 {
		return
	}
	var sum decimal.Decimal
	for _, p := range r.list {
		if !p.known {
			return
		}
		if !p.isSum {
			sum = sum.Add(p.amount)
		}
	}
	off := r.out.Total.Sub(sum)
	if off.IsZero() {
		return
	}
	say("The printed lines add up to " + r.text(sum) + "; the printed total is " + r.moreOrLess(off) + ".")
	if name, ok := r.onlyOff(off.Neg()); ok && r.out.Off.IsZero() {
		say("That is what “" + name + "” is apart. Look whether it is typed as printed.")
	}
	if !allEqual || r.out.Off.IsZero() {
		return
	}
	if v, ok := r.variant(func(s *tariff.Schedule) { s.Round = other(s.Round) }); ok && v.Total.Equal(r.out.Total) {
		if fold(r.b.Schedule.Round) == "total" {
			say(r.text(r.out.Total) + " comes out, as printed, if each line is rounded by itself.")
		} else {
			say(r.text(r.out.Total) + " comes out, as printed, if the total alone is rounded.")
		}
	}
}

// onlyOff gives the only line that differs, if it is by so much.
func (r *rebuild) onlyOff(by decimal.Decimal) (name string, ok bool) {
	for _, p := range r.out.Pairs {
		switch {
		case p.At < 0 || p.Line < 0 || ok && p.differs():
			return "", false
		case p.differs():
			name, ok = p.Name, p.Off.Equal(by)
			if !ok {
				return "", false
			}
		}
	}
	return name, ok
}

// other is the other way to round.
func other(round string) string {
	if fold(round) == "total" {
		return "line"
	}
	return "total"
}
