package account

import (
	"strconv"
	"strings"

	"github.com/shopspring/decimal"

	"splittally/calc/billing"
	"splittally/calc/number"
	"splittally/calc/remark"
	"splittally/calc/tariff"
)

// printed is a printed line as far as it could be read.
type printed struct {
	at     int // index in Bill.Printed
	name   string
	typed  string
	amount decimal.Decimal
	known  bool
	isSum  bool // of the lines above
}

// sheet is the reading of the amounts of one bill.
type sheet struct {
	currency tariff.Currency
	answers  map[string]string
	problems []remark.Problem
	asks     []remark.Question
}

// lines reads the printed lines. Blank ones are left out; those whose amount is
// missing or can't be read are kept without one.
func (s *sheet) lines(path string, typed []billing.Line) (list []printed) {
	for i, l := range typed {
		if number.IsBlank(l.Name + l.Amount) {
			continue
		}
		p := printed{at: i, name: number.Trim(l.Name), typed: number.Trim(l.Amount)}
		p.amount, p.known = s.amount(path+".lines."+strconv.Itoa(i)+".amount", l.Amount)
		list = append(list, p)
	}
	return list
}

// amount reads an amount of money; a credit may be written -5.00, 5.00-,
// (5.00) or 5.00 CR.
func (s *sheet) amount(path, typed string) (value decimal.Decimal, known bool) {
	if number.IsBlank(typed) {
		return value, false
	}
	plain, credit := cutCredit(number.Trim(typed))
	flat := tariff.Flat{Fixed: plain, Currency: s.currency.Code}
	read := tariff.Read(flat, tariff.Options{Path: path})
	if len(read.Questions) > 0 {
		id := read.Questions[0].ID
		read = tariff.Read(flat, tariff.Options{Path: path, Answers: map[string]string{id: s.settle(path, read.Questions[0])}})
	}
	if !read.Plan.HasFixed {
		s.problems = append(s.problems, remark.Problem{Path: path, Found: typed, Wanted: "an amount of money, such as 12.34 or −5.00"})
		return value, false
	}
	if credit {
		return read.Plan.Fixed.Neg(), true
	}
	return read.Plan.Fixed, true
}

// settle says which number a text as "1,234" is. An amount has no more decimals
// than its currency, so that with less than three of them the mark stands between
// the thousands; else it is asked.
func (s *sheet) settle(path string, q remark.Question) string {
	if s.currency.Places() < 3 {
		return largest(q.Choices)
	}
	q.ID, q.Path = path, path
	taken := q.Settle(s.answers, q.Choices[0].ID)
	s.asks = append(s.asks, q)
	return taken
}

// largest gives the choice that is the highest number. How many decimals it has
// does not tell, as 1,350 may be 1.35.
func largest(choices []remark.Choice) (id string) {
	var most decimal.Decimal
	for _, c := range choices {
		if v, err := decimal.NewFromString(c.ID); err == nil && v.GreaterThan(most) {
			id, most = c.ID, v
		}
	}
	return id
}

// cutCredit takes the marks of a credit off.
func cutCredit(text string) (plain string, credit bool) {
	if inner, ok := strings.CutPrefix(text, "("); ok {
		if inner, ok = strings.CutSuffix(inner, ")"); ok {
			return number.Trim(inner), true
		}
	}
	for _, end := range []string{"CR", "Cr", "cr"} {
		if plain, ok := strings.CutSuffix(text, end); ok {
			return number.Trim(plain), true
		}
	}
	at := strings.IndexAny(text, "-−–")
	if at < 0 {
		return text, false
	}
	before, behind := text[:at], strings.TrimLeft(text[at:], "-")
	if behind == text[at:] {
		behind = text[at+len("−"):] // the other two are as long
	}
	if hasDigit(before) == hasDigit(behind) || strings.ContainsAny(behind, "-−–") || strings.HasPrefix(text[at:], "--") {
		return text, false
	}
	return number.Trim(before + behind), true
}

func hasDigit(text string) bool {
	return strings.ContainsAny(text, "0123456789０１２３４５６７８９")
}

// total gives the printed total: as typed, else the sum of the lines if every
// one could be read.
func (s *sheet) total(path, typed string, lines []printed) (total decimal.Decimal, known bool) {
	if !number.IsBlank(typed) {
		return s.amount(path+".total", typed)
	}
	for _, l := range lines {
		if !l.known {
			return decimal.Decimal{}, false
		}
		if !l.isSum {
			total = total.Add(l.amount)
		}
	}
	return total, len(lines) > 0
}
