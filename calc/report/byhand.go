package report

import (
	"math"
	"strconv"
	"strings"

	"github.com/shopspring/decimal"

	"splittally/calc"
	"splittally/calc/account"
	"splittally/calc/compare"
	"splittally/calc/correct"
	"splittally/calc/energy"
	"splittally/calc/pulse"
	"splittally/calc/say"
)

// byHand gives the formulas with the figures of the case put in. Each is
// reckoned from the figures as they are printed, so that whoever checks it with
// a pocket calculator gets what stands behind its sign of equality.
func (w *composer) byHand() {
	lead, c := w.leading()
	if lead == nil {
		return
	}
	over := ", the bill: "
	if lead.IsPooled {
		over = ", all bills together: "
	}
	list := []string{w.total(lead), "Error of " + lead.Name + over + errorByHand(c)}
	if s := w.doubtByHand(c); s != "" {
		list = append(list, s)
	}
	for _, i := range w.explained() {
		if n := standing(&i); n >= 0 {
			all := settingsByHand(&i, i.Corrections[n])
			list = append(list, all[:min(len(all), 3, w.room[mostLegs])]...)
		}
	}
	list = append(list, w.legsByHand()...)
	list = append(list, w.runsByHand()...)
	list = append(list, w.worthByHand(lead), w.billByHand())
	w.section("Check it by hand", w.points(list))
}

// total adds up the bill of which the most days were filled.
func (w *composer) total(i *calc.Instrument) string {
	best := -1
	for n, r := range i.Results {
		if r.Compares() && (best < 0 || r.Filled.Filled > i.Results[best].Filled.Filled) {
			best = n
		}
	}
	if best < 0 || i.Results[best].Filled.Filled == 0 {
		return ""
	}
	r := i.Results[best].Filled
	var days []string
	filled := energy.Energy(0)
	for _, d := range r.Days {
		if d.Filled {
			filled += d.Energy
			days = append(days, d.Day.Short()+" "+minus(d.Energy.Text(2)))
		}
	}
	return "Energy of " + i.Name + ", bill " + strconv.Itoa(best+1) + ": " + say.Counted(len(r.Days)-r.Filled, "day", "days") + " measured and " +
		strconv.Itoa(r.Filled) + " filled (" + w.inline(days, 4, ", ", "day") + "): " +
		exact(r.Total-filled) + " + " + exact(filled) + " = " + exact(r.Total) + " kWh."
}

// exact writes an energy with all its digits.
func exact(e energy.Energy) string { return say.Number(e.Decimal()) }

func errorByHand(c compare.Comparison) string {
	m, r := c.Indicated.Energy.Decimal(), c.Reference.Energy.Decimal()
	e := m.Sub(r).Shift(2).DivRound(r, 3)
	return "100 × (" + say.Number(m) + " − " + say.Number(r) + ") ÷ " + say.Number(r) + " = " + minus(e.StringFixed(3)) + say.Thin + "%."
}

// doubtByHand puts the parts of the budget into the root of the sum of squares.
func (w *composer) doubtByHand(c compare.Comparison) string {
	parts := grouped(c.Budget)
	if len(parts) == 0 || math.IsInf(c.Standard, 0) || math.IsNaN(c.Standard) {
		return ""
	}
	if n := w.room[mostParts]; len(parts) > n+1 {
		parts = append(parts[:n:n], remains(parts[n:]))
	}
	var terms []string
	sum := 0.0
	for _, p := range parts {
		u := rounded(math.Sqrt(p.square), 4)
		if u > 0 {
			terms = append(terms, fixed(u, 4)+"²")
			sum += u * u
		}
	}
	u, k := rounded(math.Sqrt(sum), 3), rounded(c.Coverage, 3)
	said := "Its uncertainty, from the column “adds”: u = √(" + strings.Join(terms, " + ") + ") = " + fixed(u, 3) + say.Thin + "%; U = " +
		fixed(k, 3) + " × " + fixed(u, 3) + " = " + fixed(k*u, 2) + say.Thin + "%"
	if e, big := c.Percent.InexactFloat64(), rounded(k*u, 2); big > 0 {
		e = rounded(e, 3)
		said += "; Eₙ = error ÷ U: " + say.Plain(e, 3) + " ÷ " + fixed(big, 2) + " = " + say.Plain(e/big, 2) + " (beyond ±1 they differ)"
	}
	return said + "."
}

func rounded(x float64, places int) float64 {
	out, _ := strconv.ParseFloat(fixed(x, places), 64)
	return out
}

// settingsByHand gives new settings as the old ones times the factor.
func settingsByHand(i *calc.Instrument, c correct.Correction) (out []string) {
	for _, s := range c.Settings {
		f := decimal.NewFromFloat(s.Factor).Round(5)
		name := "Setting of " + i.Name
		if s.Name != "" {
			name = "Setting of " + short(s.Name, longName)
		}
		out = append(out, name+": "+say.Old(s)+" × "+say.Number(f)+" = "+say.Number(s.Old.Mul(f).Round(s.Places()+2))+", in its steps "+say.Set(s, s.New)+".")
	}
	return out
}

// legsByHand gives the gain of each leg as the reference over the monitor, of
// the kind that was measured and where the means alone give it.
func (w *composer) legsByHand() (out []string) {
	for _, l := range w.f.Checks.Legs {
		for _, kind := range []struct {
			name   string
			given  bool
			r, m   float64
			factor float64
		}{
			{"volts", l.Volts.Given, l.Volts.Reference, l.Volts.Monitor, l.Volts.Factor},
			{"amperes", l.Amps.Given, l.Amps.Reference, l.Amps.Monitor, l.Amps.Factor},
			{"loads", l.Power.Given, l.Power.Reference, l.Power.Monitor, l.Power.Factor},
		} {
			r, m := rounded(kind.r, 3), rounded(kind.m, 3)
			if !kind.given || m == 0 || math.Abs(r/m-kind.factor) > 0.0002 {
				continue
			}
			out = append(out, "Gain of "+short(l.Name, longName)+" by its "+kind.name+": "+plain(r)+" ÷ "+plain(m)+" = "+fixed(r/m, 4)+".")
		}
	}
	return out[:min(len(out), w.room[mostLegs])] // the others go the same way
}

// runsByHand gives the watts of each timed run.
func (w *composer) runsByHand() (out []string) {
	_, many := say.Pulse(w.c.Timing.Shows)
	for n, run := range w.f.Timing.Runs {
		if run.Waits != "" || !run.Given || run.Seconds <= 0 {
			continue
		}
		if s := runByHand(run, w.f.Timing.PerPulse); s != "" {
			out = append(out, "Run "+strconv.Itoa(n+1)+", "+many+" × Wh of each × 3600 ÷ seconds: "+s)
		}
	}
	return out[:min(len(out), 3, w.room[mostLegs])]
}

func runByHand(run pulse.Found, perPulse float64) string {
	s := rounded(run.Seconds, 3)
	watts := run.Count * rounded(perPulse, 6) * 3600 / s
	if math.Abs(watts/run.Watts.Value-1) > 0.0005 {
		return "" // the times of all pulses were used, not those of the ends alone
	}
	return plain(run.Count) + " × " + plain(rounded(perPulse, 6)) + " × 3600 ÷ " + plain(s) + " = " + fixed(watts, 1) + say.Thin + "W."
}

// plain writes a number with the digits that it has.
func plain(x float64) string {
	return strings.Replace(strconv.FormatFloat(x, 'f', -1, 64), "-", say.Minus, 1)
}

// worthByHand gives the price of the disagreement in the bill where it is the
// largest and one price holds.
func (w *composer) worthByHand(i *calc.Instrument) string {
	best := -1
	for n, r := range i.Results {
		if r.IsPriced && !r.Worth.IsAcross && (best < 0 || r.Worth.Energy.Abs().GreaterThan(i.Results[best].Worth.Energy.Abs())) {
			best = n
		}
	}
	if best < 0 {
		return ""
	}
	v := i.Results[best].Worth
	kWh, price := v.Energy.Round(3), v.Marginal.Round(6)
	return "Worth in bill " + strconv.Itoa(best+1) + ", kWh apart × price of one more: " + say.Number(kWh) + " × " + say.Number(price) + " = " + say.Number(kWh.Mul(price).Round(4)) + "."
}

// billByHand gives the lines of the last bill that was reckoned.
func (w *composer) billByHand() string {
	var last *account.Account
	for n := range w.f.Accounts {
		if a := &w.f.Accounts[n]; len(a.Priced.Lines) > 0 && a.Period < len(w.f.Periods) {
			last = a
		}
	}
	if last == nil || w.room[mostLines] == 0 {
		return ""
	}
	c := bare(last.Currency)
	c.Sign = ""
	var all []string
	rest := decimal.Zero
	for n, l := range last.Priced.Lines {
		if n >= w.room[mostLines] {
			rest = rest.Add(l.Amount)
			continue
		}
		said := short(l.Name, longName) + ": "
		if how := say.Reckoned(l, c); how != "" {
			said += how + " = "
		}
		all = append(all, said+c.Text(l.Amount))
	}
	if n := len(last.Priced.Lines) - len(all); n > 0 {
		w.left = true
		all = append(all, say.Counted(n, "more line", "more lines")+": "+c.Text(rest))
	}
	return "Bill " + strconv.Itoa(last.Period+1) + ", line by line: " + strings.Join(all, "; ") + ". In all " + last.Currency.Text(last.Priced.Total) + "."
}
