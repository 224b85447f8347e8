package view

import (
	"slices"
	"strconv"
	"strings"

	"github.com/shopspring/decimal"

	"splittally/calc/account"
	"splittally/calc/chart/markup"
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
				s.put("plans."+strconv.Itoa(i)+".waits", el("p", class("hint"), text("Not reckoned with yet: "+built.Tariff.Waits+".")))
				break
			}
		}
	}
}

// accounts sets each printed bill beside the one that the tariff gives.
func (s *sheet) accounts() markup.Markup {
	var out []markup.Part
	for _, a := range s.f.Accounts {
		if len(a.Pairs) > 0 && a.Period < len(s.f.Periods) {
			out = append(out, paragraphs(a.Words), s.accountTable(a), solved(a.Solved), s.timesOfUse(a), taxIn(a), paragraphs(words(a.Skipped)), paragraphs(words(a.Notices)))
		}
	}
	return headed("The bill, rebuilt", out)
}

// headed gives parts below a heading, or nothing if there are none.
func headed(title string, parts []markup.Part) markup.Markup {
	if len(parts) == 0 {
		return markup.Markup{}
	}
	return markup.Join(append([]markup.Part{el("h3", text(title))}, parts...)...)
}

// accountTable has the columns of the printed bill only if something of it was typed.
func (s *sheet) accountTable(a account.Account) markup.Markup {
	heads := []string{"Line of the bill", "Printed", "Computed", "Printed − computed"}
	cells := func(printed, computed, off string) []cell {
		return []cell{{heads[1], text(printed), "num"}, {heads[2], text(computed), "num"}, {heads[3], text(off), "num"}}
	}
	if !a.HasTotal && !slices.ContainsFunc(a.Pairs, func(p account.Pair) bool { return p.At >= 0 }) {
		heads = []string{heads[0], heads[2]}
		cells = func(_, computed, _ string) []cell { return []cell{{heads[1], text(computed), "num"}} }
	}
	money := a.Currency.Text
	rows := markup.Each(a.Pairs, func(p account.Pair) markup.Markup {
		printed, computed, off := "—", "—", "—"
		if p.HasPrinted {
			printed = money(p.Printed)
		} else if p.Typed != "" {
			printed = p.Typed + " ?"
		}
		if p.Line >= 0 {
			computed = money(p.Computed)
			if p.HasPrinted {
				off = apart(p.Off, a.Currency)
			}
		}
		return tr(markup.Join(text(p.Name), under("gives", s.howReckoned(a, p)), under("reason", tied(p.Reason))), cells(printed, computed, off)...)
	})
	total, off := "—", "—"
	if a.HasTotal {
		total, off = money(a.Total), apart(a.Off, a.Currency)
	}
	caption := capital(s.bill(a.Period)) + ", " + spanWords(s.f.Periods[a.Period].Span)
	return table("wide", caption, heads, tbody(rows), sums(tr(text("Total"), cells(total, money(a.Priced.Total), off)...)))
}

// howReckoned says how the computed amount of a pair came about.
func (s *sheet) howReckoned(a account.Account, p account.Pair) string {
	switch {
	case len(p.Lines) > 1:
		return "lines of the tariff together: " + strconv.Itoa(len(p.Lines))
	case p.Line >= 0 && p.Line < len(a.Lines):
		return reckoned(a.Lines[p.Line], a.Currency)
	}
	return ""
}

// under gives a line below a name, or nothing.
func under(name markup.Name, words string) markup.Markup {
	if words == "" {
		return markup.Markup{}
	}
	return el("span", class(name), text(words))
}

// sums gives the rows that a table ends with.
func sums(rows ...markup.Part) markup.Markup {
	return el("tbody", append([]markup.Part{class("sum"), markup.A("role", "rowgroup")}, rows...)...)
}

// apart writes how far two amounts are apart.
func apart(off decimal.Decimal, c tariff.Currency) string {
	if off.IsZero() {
		return "the same"
	}
	return plus(off, c)
}

// plus writes an amount with its sign.
func plus(amount decimal.Decimal, c tariff.Currency) string {
	if amount.Round(c.Places()).IsPositive() {
		return "+" + c.Text(amount)
	}
	return c.Text(amount)
}

// reckoned says what a line is reckoned with: "600 kWh × 0.12".
func reckoned(l tariff.Line, c tariff.Currency) string {
	one := decimal.NewFromInt(1)
	quantity := minus(l.Quantity.Round(4).String())
	switch {
	case l.Unit == "" && l.Rate.Equal(one), l.Unit == "period" && l.Quantity.Equal(one):
		return ""
	case l.Unit == "":
		return percent(minus(l.Rate.Shift(2).String())) + " of " + c.Text(l.Quantity)
	case l.Unit == "day" || l.Unit == "month" || l.Unit == "period":
		return quantity + " × " + minus(l.Rate.String()) + " per " + l.Unit
	}
	return quantity + say.Thin + l.Unit + " × " + minus(l.Rate.String())
}

// solved tells the value that was looked for.
func solved(v account.Solved) markup.Markup {
	if !v.Asked {
		return markup.Markup{}
	}
	var parts []markup.Part
	if v.Found {
		list := []fact{{capital(v.What), minus(v.Value.String())}}
		if !v.Low.Equal(v.High) {
			list = append(list, fact{"The same amount comes out from", minus(v.Low.String()) + " to " + minus(v.High.String())})
		}
		parts = append(parts, facts(list...))
	}
	return el("div", append(append([]markup.Part{class("decide")}, parts...), said(v.Words))...)
}

// timesOfUse says what energy fell into each period of rows that change with
// the hour, and what the bill could be if that is assumed.
func (s *sheet) timesOfUse(a account.Account) markup.Markup {
	if len(s.c.Plans) == 0 {
		return markup.Markup{}
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
		return markup.Markup{}
	}
	heads := []string{"Time-of-use period", "kWh", "Share"}
	rows := markup.Each(uses, func(u tariff.Use) markup.Markup {
		share := "—"
		if all := sum[u.Row]; all.IsPositive() {
			share = percent(u.KWh.Shift(2).DivRound(all, 1).StringFixed(1))
		}
		return tr(markup.Join(text(u.Name), assumed(u.Assumed)), cell{heads[1], text(u.KWh.StringFixed(2)), "num"}, cell{heads[2], text(share), "num"})
	})
	m := table("narrow", "When the energy was used", heads, tbody(rows))
	if a.IsAssumed {
		m = markup.Join(m, p("The readings do not tell these hours. If all that is assumed fell into the cheapest period, or all into the dearest, the bill would come to "+
			a.Currency.Text(a.Least)+" or "+a.Currency.Text(a.Most)+"."))
	}
	return m
}

// assumed marks what is assumed.
func assumed(is bool) markup.Markup {
	if !is {
		return markup.Markup{}
	}
	return markup.Join(text(" "), el("span", class("mark guessed"), text("assumed")))
}

// taxIn tells what of the total is tax.
func taxIn(a account.Account) markup.Markup {
	if a.Tax.IsZero() {
		return markup.Markup{}
	}
	return p("Tax in the total: " + a.Currency.Text(a.Tax) + ".")
}

func paragraphs(list []string) markup.Markup { return markup.Each(list, said) }
