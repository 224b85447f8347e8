package billing

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"splittally/calc/remark"
)

// dated is a period whose days are settled, so that only its energy is talked of.
func dated(change func(*Period)) Period {
	p := Period{From: "2023-10-03", To: "2023-11-02", Days: "30"}
	change(&p)
	return p
}

func TestBilledEnergy(t *testing.T) {
	for _, c := range []struct{ typed, want, resolution string }{
		{"412", "412", "1"},
		{"412 kWh", "412", "1"},
		{"412.5kWh", "412.5", "0.1"},
		{"412,50", "412.5", "0.01"},
		{"1 234,5", "1234.5", "0.1"},
		{"1.234 MWh", "1234", "1"},
		{"412345 Wh", "412.345", "0.001"},
		{"４１２", "412", "1"},
	} {
		t.Run(c.typed, func(t *testing.T) {
			r := Read([]Period{dated(func(p *Period) { p.KWh = c.typed })}, Options{Answers: map[string]string{"periods.0.kwh": "1234"}})
			s := r.Statements[0]
			if !s.Given || s.Waits != "" || s.FromReads || len(r.Problems) > 0 {
				t.Errorf("given %v, waits %q, from reads %v, problems %v", s.Given, s.Waits, s.FromReads, r.Problems)
			}
			kWh(t, s.Reference, c.want)
			kWh(t, s.Billed, c.want)
			kWh(t, s.Adjusted, c.want)
			kWh(t, s.Resolution, c.resolution)
		})
	}
}

func TestWrongEnergy(t *testing.T) {
	for _, typed := range []string{"about 400", "-412", "412 therms", "1e12 MWh", "4l2"} {
		t.Run(typed, func(t *testing.T) {
			r := Read([]Period{dated(func(p *Period) { p.KWh = typed })}, Options{})
			wantSaid(t, r, "problem periods.0.kwh")
			if s := r.Statements[0]; s.Given || s.Waits != "the billed energy can't be used" {
				t.Errorf("given %v, waits %q", s.Given, s.Waits)
			}
		})
	}
}

func TestAmbiguousEnergy(t *testing.T) {
	periods := []Period{dated(func(p *Period) { p.KWh = "1,234" })}
	r := Read(periods, Options{})
	want := []remark.Question{{
		ID: "periods.0.kwh", Path: "periods.0.kwh",
		Asks: "Is the billed energy “1,234” 1.234 or 1234?",
		Why:  "The mark can stand before the decimals or between the thousands.",
		Choices: []remark.Choice{
			{ID: "1.234", Label: "1.234: the mark stands before the decimals", Gives: "1.234 kWh, 0.04 kWh a day"},
			{ID: "1234", Label: "1234: the mark stands between the thousands", Gives: "1234 kWh, 41.13 kWh a day"},
		},
		Taken: "1234",
	}}
	if d := cmp.Diff(want, r.Questions); d != "" {
		t.Errorf("question (-want +got):\n%s", d)
	}
	kWh(t, r.Statements[0].Reference, "1234")

	r = Read(periods, Options{Answers: map[string]string{"periods.0.kwh": "1.234"}})
	kWh(t, r.Statements[0].Reference, "1.234")
	kWh(t, r.Statements[0].Resolution, "0.001")
}

func TestRegisterReads(t *testing.T) {
	for _, c := range []struct {
		name         string
		period       Period
		energy, step string // "" for not given
		fromReads    bool
		said         []string
	}{
		{name: "a difference", period: Period{Previous: "40081", Present: "40770"}, energy: "689", step: "1", fromReads: true},
		{name: "decimals and a multiplier", period: Period{Previous: "0012.5", Present: "0023.0", Multiplier: "x40"}, energy: "420", step: "4", fromReads: true},
		{name: "the coarser read counts", period: Period{Previous: "40081", Present: "40770.5"}, energy: "689.5", step: "1", fromReads: true},
		{name: "the coarser read first", period: Period{Previous: "40081.5", Present: "40770"}, energy: "688.5", step: "1", fromReads: true},
		{name: "one more than the register shows", period: Period{Previous: "1000", Present: "1400", Digits: "3"}, said: []string{"problem periods.0.present", "problem periods.0.previous"}},
		{name: "rolled over", period: Period{Previous: "99871", Present: "00412"}, energy: "541", step: "1", fromReads: true, said: []string{"notice register-roll-over periods.0.present"}},
		{name: "rolled over, zeros left out", period: Period{Previous: "99871", Present: "412"}, energy: "541", step: "1", fromReads: true, said: []string{"notice register-roll-over periods.0.present"}},
		{name: "rolled over with decimals", period: Period{Previous: "9987.1", Present: "0041.2"}, energy: "54.1", step: "0.1", fromReads: true, said: []string{"notice register-roll-over periods.0.present"}},
		{name: "digits told", period: Period{Previous: "9871", Present: "412", Digits: "4"}, energy: "541", step: "1", fromReads: true, said: []string{"notice register-roll-over periods.0.present"}},
		{name: "no roll-over of a home", period: Period{Previous: "40770", Present: "40081"}, said: []string{"question periods.0.roll-over = not-comparable"}},
		{name: "half round is no roll-over", period: Period{Previous: "412", Present: "411", Digits: "3"}, said: []string{"question periods.0.roll-over = not-comparable"}},
		{name: "the bill confirms a large one", period: Period{Previous: "5000", Present: "4000", KWh: "9000"}, energy: "9000", step: "1", fromReads: true, said: []string{"notice register-roll-over periods.0.present"}},
		{name: "more digits than the register", period: Period{Previous: "140081", Present: "140770", Digits: "5"}, said: []string{"problem periods.0.present", "problem periods.0.previous"}},
		{name: "digits are nonsense", period: Period{Previous: "40081", Present: "40770", Digits: "many"}, energy: "689", step: "1", fromReads: true, said: []string{"problem periods.0.digits"}},
		{name: "nothing used", period: Period{Previous: "40081", Present: "40081"}, said: []string{"problem periods.0.present"}},
		{name: "not a read", period: Period{Previous: "n/a", Present: "40081"}, said: []string{"problem periods.0.previous"}},
		{name: "below zero", period: Period{Previous: "-5", Present: "40081"}, said: []string{"problem periods.0.previous"}},
		{name: "multiplier of nothing", period: Period{Previous: "40081", Present: "40770", Multiplier: "0"}, said: []string{"problem periods.0.multiplier"}},
		{name: "ambiguous marks", period: Period{Previous: "1,234", Present: "1,903"}, energy: "669", step: "1", fromReads: true, said: []string{"question periods.0.present = 1903", "question periods.0.previous = 1234"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := c.period
			p.From, p.To, p.Days = "2023-10-03", "2023-11-02", "30"
			r := Read([]Period{p}, Options{})
			s := r.Statements[0]
			wantSaid(t, r, c.said...)
			if s.Given != (c.energy != "") || s.Given != (s.Waits == "") || s.FromReads != c.fromReads {
				t.Errorf("given %v, waits %q, from reads %v", s.Given, s.Waits, s.FromReads)
			}
			if c.energy != "" {
				kWh(t, s.Reference, c.energy)
				kWh(t, s.Resolution, c.step)
			}
		})
	}
}

func TestRollOverAnswered(t *testing.T) {
	r := Read([]Period{dated(func(p *Period) { p.Previous, p.Present = "40770", "40081" })},
		Options{Answers: map[string]string{"periods.0.roll-over": "rolled-over"}})
	wantSaid(t, r, "question periods.0.roll-over = rolled-over, answered", "notice use-implausible periods.0.present")
	kWh(t, r.Statements[0].Reference, "99311")
}

func TestReadsAgainstBill(t *testing.T) {
	for _, c := range []struct {
		name, kWh, previous, present string
		energy                       string
		fromReads                    bool
		said                         []string
	}{
		{"they agree", "689", "40081", "40770", "689", true, nil},
		{"the reads are finer", "689", "40081.2", "40770.5", "689.3", true, nil},
		{"the bill is finer", "689.4", "40081", "40770", "689.4", false, nil},
		{"they differ", "789", "40081", "40770", "789", false, []string{"notice reads-differ periods.0.present"}},
		{"the reads are wrong", "789", "x", "40770", "789", false, []string{"problem periods.0.previous"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := Read([]Period{dated(func(p *Period) { p.KWh, p.Previous, p.Present = c.kWh, c.previous, c.present })}, Options{})
			wantSaid(t, r, c.said...)
			kWh(t, r.Statements[0].Reference, c.energy)
			if got := r.Statements[0].FromReads; got != c.fromReads {
				t.Errorf("from reads %v, want %v", got, c.fromReads)
			}
		})
	}
}

func TestReadsDifferTellsBoth(t *testing.T) {
	r := Read([]Period{dated(func(p *Period) { p.KWh, p.Previous, p.Present = "789", "40081", "40770" })}, Options{})
	want := "The two reads give 689 kWh, the bill 789 kWh of metered energy: 100 kWh apart. The results rest on the billed energy."
	if r.Notices[0].Text != want {
		t.Errorf("notice %q, want %q", r.Notices[0].Text, want)
	}
}

func TestLossFactor(t *testing.T) {
	for _, c := range []struct {
		typed, factor string
		said          []string
	}{
		{"", "1", nil},
		{"0", "1", nil},
		{"3.76", "1.0376", nil},
		{"3,76 %", "1.0376", nil},
		{"1.0376", "1.0376", []string{"notice loss-factor-read periods.0.loss-factor"}},
		{"1.0376 %", "1.010376", nil},
		{"0.0376", "1.0376", []string{"notice loss-factor-read periods.0.loss-factor"}},
		{"0.5", "1.005", nil},
		{"1.5", "1.015", nil},
		{"1.1", "1.011", nil},
		{"1", "1.01", nil},
		{"-3", "1", []string{"problem periods.0.loss-factor"}},
		{"37.6", "1", []string{"problem periods.0.loss-factor"}},
		{"some", "1", []string{"problem periods.0.loss-factor"}},
	} {
		t.Run(c.typed, func(t *testing.T) {
			r := Read([]Period{dated(func(p *Period) { p.KWh, p.LossFactor, p.LossIncluded = "412", c.typed, "no" })}, Options{})
			wantSaid(t, r, c.said...)
			if got := r.Statements[0].LossFactor.String(); got != c.factor {
				t.Errorf("factor %s, want %s", got, c.factor)
			}
		})
	}
}

func TestLossIncluded(t *testing.T) {
	for _, c := range []struct {
		name                        string
		change                      func(*Period)
		answer                      string
		billed, reference, adjusted string
		said                        []string
	}{
		{"yes", func(p *Period) { p.LossIncluded = "yes" }, "", "1000", "900", "1000", nil},
		{"no", func(p *Period) { p.LossIncluded = "No" }, "", "1000", "1000", "1111.1", nil},
		{"asked", func(*Period) {}, "", "1000", "1000", "1111.1", []string{"question periods.0.loss-included = no"}},
		{"answered", func(*Period) {}, "yes", "1000", "900", "1000", []string{"question periods.0.loss-included = yes, answered"}},
		{"nonsense", func(p *Period) { p.LossIncluded = "maybe" }, "", "1000", "1000", "1111.1", []string{"problem periods.0.loss-included", "question periods.0.loss-included = no"}},
		{"the reads show yes", func(p *Period) { p.Previous, p.Present = "100", "1000" }, "", "1000", "900", "1000", []string{"notice loss-shown periods.0.loss-included"}},
		{"the reads show no", func(p *Period) { p.Previous, p.Present = "0", "1000" }, "", "1000", "1000", "1111.1", []string{"notice loss-shown periods.0.loss-included"}},
		{"the reads show neither", func(p *Period) { p.Previous, p.Present = "0", "800" }, "", "1000", "1000", "1111.1", []string{"notice reads-differ periods.0.present", "question periods.0.loss-included = no"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := dated(func(p *Period) { p.KWh, p.LossFactor = "1000", "11.11" })
			c.change(&p)
			r := Read([]Period{p}, Options{Answers: map[string]string{"periods.0.loss-included": c.answer}})
			s := r.Statements[0]
			wantSaid(t, r, c.said...)
			for _, e := range []struct{ got, want string }{
				{s.Billed.Text(1), c.billed + ".0"},
				{s.Reference.Text(1), c.reference + ".0"},
				{s.Adjusted.Text(1), dotZero(c.adjusted)},
			} {
				if e.got != e.want {
					t.Errorf("billed %s, reference %s, adjusted %s; want %s, %s, %s", s.Billed, s.Reference, s.Adjusted, c.billed, c.reference, c.adjusted)
				}
			}
		})
	}
}

// dotZero writes a whole number with one decimal.
func dotZero(n string) string {
	if strings.Contains(n, ".") {
		return n
	}
	return n + ".0"
}

func TestLossesWithoutFactor(t *testing.T) {
	r := Read([]Period{dated(func(p *Period) { p.KWh, p.LossIncluded = "1000", "yes" })}, Options{})
	wantSaid(t, r, "notice loss-factor-missing periods.0.loss-factor")
	kWh(t, r.Statements[0].Reference, "1000")
}

func TestImplausibleUse(t *testing.T) {
	r := Read([]Period{dated(func(p *Period) { p.KWh = "412345" })}, Options{})
	wantSaid(t, r, "notice use-implausible periods.0.kwh")
	if !r.Statements[0].Given {
		t.Error("a large use is pointed out, not refused")
	}
}
