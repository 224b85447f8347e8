package tariff

import (
	"slices"
	"strings"

	"github.com/shopspring/decimal"

	"splittally/calc/number"
	"splittally/calc/remark"
)

// amount is a text of money, taken apart.
type amount struct {
	ways       []number.Reading // none if the number can't be read
	hundredths bool             // written in cents or the like
	coin       string           // the word or sign that said so
	sign, code string           // of the currency, if one stands with the number
	per        string           // "kwh", "kw", "day", "month" or "period" if the text says what it is for
}

// coins are the hundredths of a currency, as they stand behind a number.
var coins = []string{
	"cents", "cent", "pence", "öre", "øre", "centimes", "centavos", "rappen", "rp.", "rp", "paise", "ct.", "ct", "cts", "¢", "c", "p",
}

// parseAmount takes a text of money apart; ok is false if there is something
// in it that is none of its parts.
func parseAmount(text string) (a amount, ok bool) {
	rest := strings.ToLower(number.Trim(text))
	rest = strings.TrimSpace(a.cutPer(rest))
	for _, s := range signs {
		low := strings.ToLower(s.sign)
		before, starts := strings.CutPrefix(rest, low)
		behind, ends := strings.CutSuffix(rest, low)
		if !starts && !ends {
			continue
		}
		a.sign, a.code = s.sign, s.code
		if rest = behind; starts {
			rest = before
		}
		break
	}
	rest = a.cutCode(number.Trim(rest))
	for _, c := range coins {
		plain, found := strings.CutSuffix(rest, c)
		if !found && c == "¢" {
			plain, found = strings.CutPrefix(rest, c)
		}
		if found {
			a.hundredths, a.coin, rest = true, c, plain
			break
		}
	}
	a.ways = number.Readings(rest)
	// A sign as "kr" and the hundredths contradict each other.
	return a, len(a.ways) > 0 && !(a.sign != "" && a.hundredths)
}

// cutPer takes what the money is for off the end.
func (a *amount) cutPer(rest string) string {
	for _, p := range []struct{ end, per string }{
		{"kwh", "kwh"}, {"kw", "kw"}, {"day", "day"}, {"billing period", "period"}, {"period", "period"}, {"bill", "period"}, {"month", "month"},
	} {
		for _, link := range []string{"/", "per ", "a "} {
			plain, found := strings.CutSuffix(rest, p.end)
			if !found {
				continue
			}
			if plain, found = strings.CutSuffix(strings.TrimRight(plain, " ")+spaceOf(link), link); found {
				a.per = p.per
				return plain
			}
		}
	}
	return rest
}

// spaceOf gives the blank that a linking word ends with.
func spaceOf(link string) string {
	if strings.HasSuffix(link, " ") {
		return " "
	}
	return ""
}

// cutCode takes a currency's code off either end.
func (a *amount) cutCode(rest string) string {
	if len(rest) < 4 {
		return rest
	}
	if code := strings.ToUpper(rest[:3]); isKnown(code) {
		a.code = code
		return rest[3:]
	}
	if code := strings.ToUpper(rest[len(rest)-3:]); isKnown(code) {
		a.code = code
		return rest[:len(rest)-3]
	}
	return rest
}

func isKnown(code string) bool { _, ok := known(code); return ok }

// money reads a field of money that may be said to be for one of per. ok is
// false if it is empty or wrong, and then a problem stands at the field.
func (s *sheet) money(field, typed, wanted string, per ...string) (m money, ok bool) {
	if number.IsBlank(typed) || onlySign(typed) {
		return money{}, false // "$", and the number is still to come
	}
	a, ok := parseAmount(typed)
	if !ok || a.ways[0].Value.IsNegative() || a.per != "" && !slices.Contains(per, a.per) {
		s.problem(field, typed, wanted)
		return money{}, false
	}
	return s.taken(field, typed, a, per), true
}

// taken settles what an amount is, in the currency's unit. Charges in a currency
// without decimals are counts of it, prices per kWh and per kW are not.
func (s *sheet) taken(field, typed string, a amount, per []string) (m money) {
	isCount := s.out.Plan.Currency.Places() == 0 && !slices.Contains(per, "kwh") && !slices.Contains(per, "kw")
	m.value, m.per = s.number(field, typed, a.ways, isCount), a.per
	m.said = a.sign != "" || a.code != "" || a.hundredths
	if a.hundredths {
		m.value = m.value.Shift(-2)
		s.notice(field, "read-as-hundredths", "“"+number.Trim(typed)+"” is read as "+m.value.String()+" of the currency’s unit.")
	}
	if c := s.out.Plan.Currency.Code; a.code != "" && c != a.code {
		s.notice(field, "currency-differs", "“"+number.Trim(typed)+"” names another currency than "+c+". It is taken as an amount of "+c+".")
	}
	return m
}

// money is an amount in the currency's unit. said is true if the text itself
// told whether it is in units or hundredths.
type money struct {
	value decimal.Decimal
	said  bool
	per   string // as of amount
}

// onlySign says whether the text is a currency's sign or code so far.
func onlySign(typed string) bool {
	for _, s := range signs {
		if strings.EqualFold(number.Trim(typed), s.sign) {
			return true
		}
	}
	return isKnown(strings.ToUpper(number.Trim(typed)))
}

// plausiblePrice asks about a bare price that would be dear beyond belief in
// the currency's unit: 14 dollars or 14 cents? Nothing is asked of currencies
// with a small unit.
func (s *sheet) plausiblePrice(typed string, price money) decimal.Decimal {
	if price.said || price.value.LessThan(dear) || !s.hasLargeUnit() {
		return price.value
	}
	hundredths := price.value.Shift(-2)
	taken := s.ask("per-kwh", "per-kwh-unit", remark.Question{
		Asks: "Is the price per kWh " + price.value.String() + " or " + hundredths.String() + "?",
		Why:  "“" + number.Trim(typed) + "” would be a very high price if it is not in cents.",
		Choices: []remark.Choice{
			{ID: "hundredths", Label: "It is in cents, pence or the like", Gives: hundredths.String() + " per kWh"},
			{ID: "units", Label: "It is in the currency’s unit", Gives: price.value.String() + " per kWh"},
		},
	}, "hundredths")
	if taken == "hundredths" {
		return hundredths
	}
	return price.value
}

// dear is the bare price per kWh from which hundredths are likely.
var dear = decimal.NewFromInt(2)

func (s *sheet) hasLargeUnit() bool {
	c := s.out.Plan.Currency
	return c.Code == "" || listed(largeUnit, c.Code)
}

// percent reads a field in percent; what names it in the question.
func (s *sheet) percent(field, typed, what string) (decimal.Decimal, bool) {
	if number.IsBlank(typed) {
		return decimal.Decimal{}, false
	}
	plain, percent := strings.CutSuffix(number.Trim(typed), "%")
	ways := number.Readings(plain)
	if len(ways) == 0 || ways[0].Value.IsNegative() || ways[0].Value.GreaterThan(decimal.NewFromInt(100)) {
		s.problem(field, typed, "a "+what+" in percent from 0 to 100, such as 5.5")
		return decimal.Decimal{}, false
	}
	v := ways[0].Value
	if percent || v.IsZero() || v.GreaterThanOrEqual(decimal.New(3, -1)) {
		return v, true
	}
	taken := s.ask(field, field+"-unit", remark.Question{
		Asks: "Is the " + what + " " + v.String() + " % or " + v.Shift(2).String() + " %?",
		Why:  "“" + number.Trim(typed) + "” is a very low " + what + " if it is in percent.",
		Choices: []remark.Choice{
			{ID: "percent", Label: "It is in percent", Gives: v.String() + " %"},
			{ID: "portion", Label: "It is a portion of 1", Gives: v.Shift(2).String() + " %"},
		},
	}, "portion")
	if taken == "portion" {
		v = v.Shift(2)
	}
	return v, true
}
