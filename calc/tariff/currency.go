package tariff

import (
	"strings"

	"github.com/shopspring/decimal"

	"splittally/calc/number"
)

// Currency is the unit of money. The zero value is money without a name, to
// two decimals.
type Currency struct {
	Code   string // ISO 4217, such as "USD"; "" if not known
	Sign   string // as typed before or behind an amount; "" if none
	places int32  // decimals less the usual two, so that the zero value has two
}

// Places is the number of decimals of the smallest unit (ISO 4217 minor unit).
func (c Currency) Places() int32 { return c.places + 2 }

// Text gives an amount for show, rounded half away from zero to the
// currency's places, with its code or sign: "12.30 EUR", "−$0.07", "12.30".
func (c Currency) Text(amount decimal.Decimal) string {
	rounded := amount.Round(c.Places())
	minus := ""
	if rounded.IsNegative() {
		minus, rounded = "−", rounded.Neg()
	}
	digits := rounded.StringFixed(c.Places())
	switch {
	case c.Code != "":
		return minus + digits + " " + c.Code
	case c.Sign != "":
		return minus + c.Sign + digits
	}
	return minus + digits
}

// Minor units from ISO 4217 (from memory); every code not named here has two.
// Codes is what the field is checked against: the commoner currencies.
const (
	withoutDecimals = " JPY KRW CLP ISK VND XAF XOF XPF PYG UGX "
	threeDecimals   = " BHD IQD JOD KWD LYD OMR TND "
	twoDecimals     = " USD CAD AUD NZD GBP EUR CHF SEK NOK DKK PLN CZK HUF RON BGN TRY UAH RSD ALL MKD BAM GEL MDL" +
		" ILS AED SAR QAR EGP MAD DZD ZAR NGN KES GHS INR PKR BDT LKR NPR CNY HKD TWD SGD MYR THB IDR PHP" +
		" MXN BRL ARS COP PEN UYU BOB CRC DOP GTQ JMD TTD BBD BSD BZD FJD "
)

// largeUnit lists the currencies whose unit buys several kilowatt-hours
// anywhere, so that a price of two or more per kWh is meant in hundredths.
const largeUnit = " USD CAD AUD NZD GBP EUR CHF SGD "

func listed(list, code string) bool { return code != "" && strings.Contains(list, " "+code+" ") }

// known gives the currency of a code.
func known(code string) (Currency, bool) {
	switch {
	case listed(withoutDecimals, code):
		return Currency{Code: code, places: -2}, true
	case listed(threeDecimals, code):
		return Currency{Code: code, places: 1}, true
	case listed(twoDecimals, code):
		return Currency{Code: code}, true
	}
	return Currency{}, false
}

// signs lists the currency signs that are understood, the longer first. Where
// one currency alone has the sign it names it.
var signs = []struct{ sign, code string }{
	{"US$", "USD"},
	{"C$", "CAD"},
	{"A$", "AUD"},
	{"NZ$", "NZD"},
	{"R$", "BRL"},
	{"$", ""},
	{"€", "EUR"},
	{"£", "GBP"},
	{"¥", ""},
	{"₹", "INR"},
	{"₩", "KRW"},
	{"₪", "ILS"},
	{"₺", "TRY"},
	{"₴", "UAH"},
	{"₱", "PHP"},
	{"₫", "VND"},
	{"₦", "NGN"},
	{"฿", "THB"},
	{"zł", "PLN"},
	{"kč", "CZK"},
	{"kr.", ""},
	{"kr", ""},
	{"ft", "HUF"},
	{"fr.", "CHF"},
}

// readCurrency takes the currency from its field, or else from the sign or
// code that stands with one of the amounts.
func (s *sheet) readCurrency(field string, amounts ...string) {
	if code := strings.ToUpper(number.Trim(field)); code != "" {
		c, ok := known(code)
		if ok {
			s.out.Plan.Currency = c
			return
		}
		if len(code) >= 3 { // a shorter one is being typed
			s.problem("currency", field, "the three letters of a currency (ISO 4217), such as USD, EUR or GBP; amounts are shown to two decimals")
		}
		return
	}
	for _, text := range amounts {
		a, _ := parseAmount(text)
		if c, ok := known(a.code); ok {
			s.out.Plan.Currency = c
			return
		}
		if a.sign != "" {
			s.out.Plan.Currency = Currency{Sign: a.sign}
			return
		}
	}
}
