package billing

import (
	"testing"

	"github.com/shopspring/decimal"
)

// Values that other people have printed. Names of sources stand with each; the
// figures were read in copies of them and typed by hand.

// City of Clintonville, Wisconsin, bill explanation: reads of 40081 and 40770
// are 689 kWh. Jackson County Power Board, residential example: 8865 and 9975
// are 1110 kWh.
func TestPublishedRegisterDifferences(t *testing.T) {
	for _, c := range []struct{ previous, present, want string }{
		{"40081", "40770", "689"},
		{"8865", "9975", "1110"},
	} {
		r := Read([]Period{dated(func(p *Period) { p.Previous, p.Present = c.previous, c.present })}, Options{})
		wantSaid(t, r)
		kWh(t, r.Statements[0].Reference, c.want)
	}
}

// Oakville Hydro, sample tiered bill for 700 kWh (May to October 2022): with a
// loss factor of 3.76 % the lines for transmission ($0.0160), losses ($0.115 on
// the losses alone) and wholesale ($0.0039) are printed as $11.62, $3.03 and
// $2.83. The losses come out only from unrounded kWh.
func TestPublishedLossAdjustedLines(t *testing.T) {
	r := Read([]Period{dated(func(p *Period) { p.KWh, p.LossFactor, p.LossIncluded = "700", "3.76", "no" })}, Options{})
	s := r.Statements[0]
	adjusted := s.Adjusted.Decimal()
	losses := adjusted.Sub(s.Reference.Decimal())
	for _, c := range []struct{ name, rate, want string }{
		{"transmission", "0.0160", "11.62"},
		{"losses", "0.115", "3.03"},
		{"wholesale", "0.0039", "2.83"},
	} {
		quantity := adjusted
		if c.name == "losses" {
			quantity = losses
		}
		if got := quantity.Mul(decimal.RequireFromString(c.rate)).StringFixed(2); got != c.want {
			t.Errorf("%s on %s kWh: %s, printed %s", c.name, quantity, got, c.want)
		}
	}
}

// Horizon Utilities (Ontario), guide to the bill: the adjustment factor of
// 3.79 % and the rule (adjusted less measured energy, times the price) are
// printed; 800 kWh and 10 ¢ are ours.
func TestPublishedLossRule(t *testing.T) {
	r := Read([]Period{dated(func(p *Period) { p.KWh, p.LossFactor, p.LossIncluded = "800", "3.79", "no" })}, Options{})
	kWh(t, r.Statements[0].Adjusted, "830.32")
	// The same bill, had it printed the adjusted energy.
	r = Read([]Period{dated(func(p *Period) { p.KWh, p.LossFactor, p.LossIncluded = "830.32", "3.79", "yes" })}, Options{})
	kWh(t, r.Statements[0].Reference, "800")
}

// Green Button sample file 1dayLP_45Days.xml (EnergyOS/SGIP, synthetic): a
// billing period of 2588400 s from 1330578000, which is 1 to 30 March 2012 in
// US Eastern time with one day of 23 hours, holds 30 daily readings. Civil days
// count the short day as one. hourlyForMonthMar.xml: 2674800 s from 1298955600
// are the 31 days of March 2011, of 743 hours.
func TestPublishedDayCounts(t *testing.T) {
	for _, c := range []struct {
		from, to string
		seconds  int
		days     int
	}{
		{"2012-03-01", "2012-03-31", 2588400, 30},
		{"2011-03-01", "2011-04-01", 2674800, 31},
	} {
		r := Read([]Period{{From: c.from, To: c.to, KWh: "1951.364", ReadHour: "0"}}, Options{})
		if got := r.Statements[0].Days(); got != c.days {
			t.Errorf("%s to %s: %d days, want %d", c.from, c.to, got, c.days)
		}
		const lostHour = 3600
		if got := r.Statements[0].Days()*86400 - lostHour; got != c.seconds {
			t.Errorf("%s to %s: %d s, published %d", c.from, c.to, got, c.seconds)
		}
	}
}

// CalTRACK methods 2.2.3.4 and 2.2.3.5: periods of under 25 days are off the
// cycle; so are those over 35 days where bills come monthly, and over 70 where
// they come every two months.
func TestPublishedCycleLimits(t *testing.T) {
	if shortestCycle != 25 || longestMonth != 35 || longestBimonth != 70 {
		t.Errorf("limits %d, %d, %d days; published 25, 35, 70", shortestCycle, longestMonth, longestBimonth)
	}
}
