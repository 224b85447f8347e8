package view

import (
	"slices"
	"strconv"
	"strings"

	"github.com/shopspring/decimal"

	"splittally/calc/account"
	"splittally/calc/say"
	"splittally/calc/tariff"
)

// planName names a tariff: by the name that it was given, or by its number.
func (s *sheet) planName(i int) string {
	if i < len(s.f.Plans) && s.f.Plans[i].Tariff.Name != "" {
		return s.f.Plans[i].Tariff.Name
	}
	return "Tariff " + strconv.Itoa(i+1)
}

// planWaits tells beside each tariff that was begun what it still lacks.
func (s *sheet) planWaits() {
	for i, built := range s.f.Plans {
		if i >= len(s.c.Plans) || built.Tariff.Given || built.Tariff.Waits == "" {
			continue
		}
		for _, r := range s.c.Plans[i].Rows {
			if strings.TrimSpace(r.Kind+r.Name+r.Price) != "" {
				s.put("plans."+strconv.Itoa(i)+".waits", para("hint", "Not reckoned with yet: "+built.Tariff.Waits+"."))
				break
			}
		}
	}
}

// accounts sets each printed bill beside the one that the tariff gives.
func (s *sheet) accounts() piece {
	var out []piece
	for _, a := range s.f.Accounts {
		if len(a.Pairs)+len(a.Notices)+len(a.Skipped) > 0 && a.Period < len(s.f.Periods) {
			out = append(out, paragraphs(a.Words), s.accountTable(a), solved(a.Solved), s.timesOfUse(a),
				said(say.Netting(a.Priced)), said(say.TaxIn(a.Priced)), paragraphs(words(a.Skipped)), paragraphs(words(a.Notices)))
		}
	}
	return headed("The bill, rebuilt", out)
}

// accountTable has the columns of the printed bill only if something of it was
// typed.
func (s *sheet) accountTable(a account.Account) piece {
	b := &beside{Account: a, heads: []string{"Line of the bill", "Printed", "Computed", "Apart"}}
	if !a.HasTotal && !slices.ContainsFunc(a.Pairs, func(p account.Pair) bool { return p.At >= 0 }) {
		b.heads = []string{b.heads[0], b.heads[2]}
	}
	rows := each(len(a.Pairs), func(i int) piece { return b.row(a.Pairs[i]) })
	money := bare(a.Currency)
	total, off := "—", "—"
	if a.HasTotal {
		total, off = money.Text(a.Total), say.Apart(a.Off, money)
	}
	all := sums(tr(text("Total"), b.cells(total, money.Text(a.Priced.Total), off)...))
	caption := capital(s.bill(a.Period)) + ", " + spanWords(s.f.Periods[a.Period].Span)
	if a.Currency.Code != "" {
		caption += ", in " + a.Currency.Code
	}
	if b.long > longest {
		return table("wide", caption, b.heads, tbody(rows), all)
	}
	return table("tight", caption, b.heads, tbody(rows), all)
}

// beside is the table of one bill, printed and computed.
type beside struct {
	account.Account
	heads []string
	long  int // bytes of the longest amount
}

// longest is how many bytes an amount may have for three of them to stand beside
// a name on a phone; a true minus has three.
const longest = 11

func (b *beside) cells(printed, computed, off string) []cell {
	values := []string{printed, computed, off}
	if len(b.heads) == 2 {
		values = values[1:2]
	}
	var out []cell
	for i, v := range values {
		b.long = max(b.long, len(v))
		out = append(out, num(b.heads[i+1], v))
	}
	return out
}

// row gives a line, and the reason of its difference in a row of its own.
func (b *beside) row(p account.Pair) piece {
	money := bare(b.Currency)
	printed, computed, off := "—", "—", "—"
	if p.HasPrinted {
		printed = money.Text(p.Printed)
	} else if p.Typed != "" {
		printed = p.Typed + " ?"
	}
	if p.Line >= 0 {
		computed = money.Text(p.Computed)
		if p.HasPrinted {
			off = say.Apart(p.Off, money)
		}
	}
	a := b.Account
	a.Currency = money
	return join(tr(join(text(p.Name), gives(say.ReckonedPair(a, p))), b.cells(printed, computed, off)...), reasonRow(p.Reason, len(b.heads)))
}

// reasonRow gives a row of words about the one above, or nothing.
func reasonRow(words string, columns int) piece {
	if words == "" {
		return none
	}
	return el("tr", attr("role", "row"),
		el("td", attr("role", "cell"), attr("colspan", strconv.Itoa(columns)), under("reason", tied(words))))
}

// bare leaves the code of a currency out of amounts, for tables that name it once.
func bare(c tariff.Currency) tariff.Currency {
	c.Code = ""
	return c
}

// sums gives the rows that a table ends with.
func sums(rows ...piece) piece {
	return el("tbody", append([]piece{class("sum"), attr("role", "rowgroup")}, rows...)...)
}

// solved tells the value that was looked for.
func solved(v account.Solved) piece {
	if !v.Asked || v.Words == "" {
		return none
	}
	return el("div", class("decide"), said(v.Words))
}

// timesOfUse says what energy fell into each period of rows that change with
// the hour, and what the bill could be if that is assumed.
func (s *sheet) timesOfUse(a account.Account) piece {
	if len(s.c.Plans) == 0 {
		return none
	}
	var uses []tariff.Use
	sum := map[int]decimal.Decimal{}
	for _, u := range a.Uses {
		if rows := s.c.Plans[0].Rows; u.Row < len(rows) && rows[u.Row].Kind == string(tariff.Times) {
			uses = append(uses, u)
			sum[u.Row] = sum[u.Row].Add(u.KWh)
		}
	}
	if len(uses) == 0 {
		return none
	}
	heads := []string{"Time-of-use period", "kWh", "Share"}
	rows := each(len(uses), func(i int) piece {
		u := uses[i]
		share := "—"
		if all := sum[u.Row]; all.IsPositive() {
			share = percent(u.KWh.Shift(2).DivRound(all, 1).StringFixed(1))
		}
		return row(heads, join(text(u.Name), assumed(u.Assumed)), u.KWh.StringFixed(2), share)
	})
	return join(table("narrow", "When the energy was used", heads, tbody(rows)), said(say.AssumedHours(a.Priced)))
}

// assumed marks what is assumed.
func assumed(is bool) piece {
	if !is {
		return none
	}
	return mark("mark guessed", "assumed")
}

func paragraphs(list []string) piece {
	return each(len(list), func(i int) piece { return said(list[i]) })
}
