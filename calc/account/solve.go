package account

import (
	"strconv"
	"strings"

	"github.com/shopspring/decimal"

	"splittally/calc/number"
	"splittally/calc/remark"
	"splittally/calc/tariff"
)

// unknown is what is looked for: a bill for every value of it.
type unknown struct {
	what  string // "the loss factor"
	unit  string // behind a value: "per kWh", "%"
	at    func(x decimal.Decimal) tariff.Priced
	now   decimal.Decimal // where its bill has all lines
	least decimal.Decimal
	most  decimal.Decimal
	row   int // -1 if it is no row
	nth   int // which of the row's lines; -1 all
}

// solve finds the unknown that was asked for.
func (r *rebuild) solve() {
	asked := fold(r.b.Solve)
	if asked == "" {
		return
	}
	s := &r.out.Solved
	s.Asked = true
	var u unknown
	ok := false
	switch words := strings.Fields(asked); {
	case asked == "loss factor":
		u, ok = r.lossFactor(), true
	case words[0] == "row" && len(words) <= 3:
		u, ok = r.rowPrice(words[1:])
	default:
		r.sheet.problems = append(r.sheet.problems, remark.Problem{Path: r.b.Path + ".solve", Found: r.b.Solve, Wanted: "loss-factor, or a row of the tariff, such as row.0"})
	}
	if !ok {
		if s.Words == "" {
			s.Words = "It is not known what to find."
		}
		return
	}
	s.What = u.what
	r.search(u)
}

func (r *rebuild) lossFactor() unknown {
	now := r.usage.LossFactor
	if now.LessThanOrEqual(decimal.NewFromInt(1)) {
		now = decimal.New(104, -2)
	}
	return unknown{
		what: "the loss factor", now: now, least: decimal.New(5, -1), most: decimal.NewFromInt(2), row: -1,
		at: func(x decimal.Decimal) tariff.Priced {
			usage := r.usage
			usage.LossFactor = x
			return r.t.Price(usage)
		},
	}
}

// rowPrice takes "3" for the price of row 3, or "3 1" for that of its second
// tier or time-of-use period.
func (r *rebuild) rowPrice(words []string) (u unknown, ok bool) {
	s := &r.out.Solved
	row, part := -1, -1
	if len(words) > 0 {
		row = index(words[0])
	}
	if len(words) > 1 {
		part = index(words[1])
	}
	if row < 0 || row >= len(r.b.Schedule.Rows) {
		s.Words = "The tariff has no such row."
		return u, false
	}
	kind := r.kindOf(row)
	parts := r.partsOf(row)
	if kind == tariff.Netting || kind == "" {
		s.Words = "That row has no price."
		return u, false
	}
	if parts > 1 && part < 0 {
		s.Words = "“" + r.nameOf(row) + "” has " + strconv.Itoa(parts) + " prices. Choose which of them is to be found."
		return u, false
	}
	part = max(part, 0)
	if part >= max(parts, 1) {
		s.Words = "“" + r.nameOf(row) + "” has no such part."
		return u, false
	}
	return r.priceOf(row, part, parts), true
}

func index(text string) int {
	n, err := strconv.ParseUint(text, 10, 16)
	if err != nil {
		return -1
	}
	return int(n)
}

// partsOf counts the prices of a row of tiers or times; 0 of others.
func (r *rebuild) partsOf(row int) int {
	switch r.kindOf(row) {
	case tariff.Tiers:
		return len(r.b.Schedule.Rows[row].Steps)
	case tariff.Times:
		return len(r.b.Schedule.Rows[row].Bands)
	}
	return 0
}

func (r *rebuild) priceOf(row, part, parts int) unknown {
	in := r.b.Schedule.Rows[row]
	u := unknown{what: "the price of “" + r.nameOf(row) + "”", unit: "per kWh", row: row, nth: -1, most: decimal.NewFromInt(1_000_000)}
	percent := r.isPercent(row)
	switch kind := r.kindOf(row); {
	case percent:
		u.what, u.unit, u.most = "the percentage of “"+r.nameOf(row)+"”", "%", decimal.NewFromInt(100)
	case kind == tariff.Demand:
		u.unit = "per kW"
	case kind == tariff.Fixed || kind == tariff.Minimum || kind == tariff.Discount:
		u.unit = ""
	}
	switch r.kindOf(row) {
	case tariff.Energy, tariff.Tiers, tariff.Times, tariff.Fixed: // adjustments may be below zero
		u.least = decimal.NewFromInt(-1000)
	}
	u.now = decimal.New(1, -1)
	if percent {
		u.now = decimal.NewFromInt(5)
	}
	if parts > 0 {
		u.nth = part
		u.what = "the price of part " + strconv.Itoa(part+1) + " of “" + r.nameOf(row) + "”"
	}
	tail := perOf(in)
	u.at = func(x decimal.Decimal) tariff.Priced {
		text := price(x) + tail
		if percent {
			text = plain(x) + " %"
		}
		p, _ := r.variantAny(func(s *tariff.Schedule) { setPrice(s, row, part, text) })
		return p
	}
	return u
}

// variantAny is variant for a schedule that need not have had a price before.
func (r *rebuild) variantAny(change func(*tariff.Schedule)) (p tariff.Priced, ok bool) {
	t, _ := r.changed(change)
	return t.Price(r.usage), t.Given
}

func setPrice(s *tariff.Schedule, row, part int, text string) {
	target := &s.Rows[row]
	switch tariff.Kind(strings.ToLower(number.Trim(target.Kind))) {
	case tariff.Tiers:
		target.Steps = append([]tariff.Step(nil), target.Steps...)
		target.Steps[part].Price = text
	case tariff.Times:
		bands := append([]tariff.Band(nil), target.Bands...)
		for k := range bands { // those of one name have one price
			if k == part || fold(bands[k].Name) == fold(bands[part].Name) && fold(bands[k].Name) != "" {
				bands[k].Price = text
			}
		}
		target.Bands = bands
	default:
		target.Price = text
	}
}

// perOf keeps what a charge is for where its own text says so: "60.99p a day".
func perOf(row tariff.Row) string {
	text := strings.ToLower(number.Trim(row.Price))
	for _, per := range []string{"day", "month"} {
		if strings.HasSuffix(text, per) && number.IsBlank(row.Per) {
			return " per " + per
		}
	}
	return ""
}

// isPercent says whether a row's price is a percentage: of a tax, and of a
// discount that the tariff does not take for money.
func (r *rebuild) isPercent(row int) bool {
	switch r.kindOf(row) {
	case tariff.Tax:
		return true
	case tariff.Discount:
		for _, l := range r.out.Lines {
			if l.Row == row {
				return l.Unit == ""
			}
		}
		text := r.b.Schedule.Rows[row].Price
		return number.IsBlank(text) || strings.Contains(text, "%")
	}
	return false
}
