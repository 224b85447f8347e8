package metered

import (
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"splittally/calc/calendar"
	"splittally/calc/energy"
	"splittally/calc/ledger"
)

// made is an invented home by the hour and its meter's bills.
type made struct {
	*rand.Rand
	first calendar.Day
	hours []float64 // kWh
	cuts  []int     // days on which bills begin, and one more
	reads []float64 // hours from the first midnight at which the register was read
}

// invent makes a home with n bills of 28 to 33 days, read at midnights.
func invent(seed uint64, n int) *made {
	m := &made{Rand: rand.New(rand.NewPCG(seed, 21)), first: 19000, cuts: []int{3}}
	for range n {
		m.cuts = append(m.cuts, m.cuts[len(m.cuts)-1]+28+m.IntN(6))
	}
	for _, c := range m.cuts {
		m.reads = append(m.reads, float64(24*c))
	}
	for h := range 24 * (m.cuts[n] + 3) {
		m.hours = append(m.hours, (0.3+0.9*math.Exp(-math.Pow(float64(h%24-19)/3, 2)))*math.Exp(0.5*m.NormFloat64())*
			(1+0.4*math.Cos(2*math.Pi*float64(h)/24/365)))
	}
	return m
}

// energy adds up from one hour to another.
func (m *made) energy(from, to float64) float64 {
	sum := 0.0
	for h := int(from); h < int(math.Ceil(to)); h++ {
		sum += m.hours[h] * (min(to, float64(h+1)) - max(from, float64(h)))
	}
	return sum
}

// record gives the meter's own days to the watt-hour, with slots if asked.
func (m *made) record(slots bool) (l ledger.Ledger) {
	for d := range len(m.hours) / 24 {
		sum := energy.Energy(0)
		for h, x := range m.hours[24*d : 24*d+24] {
			e := energy.Energy(math.Round(x*1000)) * energy.WattHour
			sum += e
			if slots {
				l.Slots = append(l.Slots, ledger.Slot{Day: m.first + calendar.Day(d), From: 60 * h, To: 60*h + 60, Energy: e})
			}
		}
		l.Put(m.first+calendar.Day(d), ledger.Entry{State: ledger.Measured, Energy: sum, Rounding: energy.WattHour * 5 / 2})
	}
	return l
}

// bills gives the differences of whole kilowatt-hours of the register.
func (m *made) bills() []Bill {
	var out []Bill
	at := 100 + m.Float64()
	for i := range m.cuts[1:] {
		next := at + m.energy(m.reads[i], m.reads[i+1])
		out = append(out, Bill{
			Index: i, Given: true, Step: energy.KilowattHour, Billed: energy.Energy(math.Floor(next)-math.Floor(at)) * energy.KilowattHour,
			Span: calendar.Span{First: m.first + calendar.Day(m.cuts[i]), End: m.first + calendar.Day(m.cuts[i+1])},
		})
		at = next
	}
	return out
}

func kilowattHours(x float64) energy.Energy {
	return energy.Energy(math.Round(x)) * energy.KilowattHour
}

func kinds(r Result) string {
	var out []string
	for _, b := range r.Bills {
		out = append(out, string(b.Kind))
	}
	return strings.Join(out, " ")
}

func TestWhatBillsAre(t *testing.T) {
	agree := func(n int) []Kind { return slices.Repeat([]Kind{Agrees}, n) }
	for _, c := range []struct {
		name   string
		reads  func(m *made)
		bills  func(m *made, b []Bill)
		want   []Kind // of 8 bills
		sure   bool
		says   string
		noSlot bool
	}{
		{name: "sound", want: agree(8)},
		{
			name: "all read at nine", reads: func(m *made) {
				for i := range m.reads {
					m.reads[i] += 9 - 24 + m.NormFloat64()/2
				}
			},
			want: slices.Repeat([]Kind{InDay}, 8), sure: true, says: "on the last date",
		},
		{
			name: "all read at four in the afternoon, days alone known", noSlot: true, reads: func(m *made) {
				for i := range m.reads {
					m.reads[i] += 16 - 24
				}
			},
			want: slices.Repeat([]Kind{InDay}, 8), sure: true, says: "taken as evenly used",
		},
		{
			name: "one read in the evening before", reads: func(m *made) { m.reads[4] -= 5 },
			want: []Kind{Agrees, Agrees, Agrees, InDay, InDay, Agrees, Agrees, Agrees}, says: "or estimated",
		},
		{
			name: "one read a day late", reads: func(m *made) { m.reads[4] += 24 },
			want: []Kind{Agrees, Agrees, Agrees, DayOff, DayOff, Agrees, Agrees, Agrees}, sure: true, says: "a day later",
		},
		{
			name: "all reads a day late", reads: func(m *made) {
				for i := range m.reads {
					m.reads[i] += 24
				}
			},
			want: slices.Repeat([]Kind{DayOff}, 8), sure: true, says: "a day later",
		},
		{
			name: "a read guessed", bills: func(m *made, b []Bill) {
				b[3].Billed += kilowattHours(150)
				b[4].Billed -= kilowattHours(150)
			},
			want: []Kind{Agrees, Agrees, Agrees, Estimated, Estimated, Agrees, Agrees, Agrees}, sure: true, says: "made up for it",
		},
		{
			name: "losses", bills: func(m *made, b []Bill) {
				for i := range b {
					b[i].Billed = kilowattHours(b[i].Billed.KilowattHours() * 1.0376)
				}
			},
			want: slices.Repeat([]Kind{Losses}, 8), sure: true, says: "3.7",
		},
		{
			name: "a multiplier", bills: func(m *made, b []Bill) {
				for i := range b {
					b[i].Billed, b[i].Step = 40*kilowattHours(m.energy(m.reads[i], m.reads[i+1])), 40*energy.KilowattHour
				}
			},
			want: slices.Repeat([]Kind{Multiplier}, 8), sure: true, says: "40 times",
		},
		{
			name: "net of credits", bills: func(m *made, b []Bill) {
				b[5].Billed, b[6].Billed, b[7].Billed = 0, b[6].Billed/3, b[7].Billed/2
			},
			want: append(agree(5), Net, Net, Net), sure: true, says: "Bills 6 to 8",
		},
		{
			name: "exported energy taken off", bills: func(m *made, b []Bill) {
				b[6].Exported = kilowattHours(b[6].Billed.KilowattHours() / 2)
				b[6].Billed -= b[6].Exported
			},
			want: append(agree(6), Net, Agrees), sure: true, says: "was taken off",
		},
		{
			name: "far too much", bills: func(m *made, b []Bill) { b[2].Billed *= 2 },
			want: []Kind{Agrees, Agrees, Unexplained, Agrees, Agrees, Agrees, Agrees, Agrees}, says: "nothing known here explains",
		},
		{
			name: "a bill is missing", bills: func(m *made, b []Bill) { b[2].Given, b[2].Billed = false, 0 },
			want: []Kind{Agrees, Agrees, Waits, Agrees, Agrees, Agrees, Agrees, Agrees},
		},
	} {
		t.Run(c.name, func(t *testing.T) {
			m := invent(4, 8)
			if c.reads != nil {
				c.reads(m)
			}
			bills := m.bills()
			if c.bills != nil {
				c.bills(m, bills)
			}
			r, done := Judge(m.record(!c.noSlot), bills)
			want := Result{}
			for _, k := range c.want {
				want.Bills = append(want.Bills, Judged{Kind: k})
			}
			got := kinds(r)
			if c.want[0] == InDay { // a bill whose two reads are apart by as much agrees
				got = strings.ReplaceAll(got, string(Agrees), string(InDay))
			}
			if c.want[0] == DayOff {
				got = strings.ReplaceAll(got, string(Agrees), string(DayOff))
			}
			if !done || got != kinds(want) {
				t.Fatalf("bills are %s, want %s; %+v", kinds(r), kinds(want), r.Found)
			}
			if c.says == "" {
				if len(r.Found) > 0 {
					t.Errorf("findings %+v", r.Found)
				}
				return
			}
			if len(r.Found) != 1 || r.Found[0].Sure != c.sure || !strings.Contains(r.Found[0].Words, c.says) {
				t.Errorf("findings %+v, want one, sure %v, that says %q", r.Found, c.sure, c.says)
			}
		})
	}
}

// A period split by days is found with reads at midnight and in the day.
func TestSplitPeriod(t *testing.T) {
	for _, hour := range []float64{0, -15} {
		m := invent(6, 6)
		for i := range m.reads {
			m.reads[i] += hour
		}
		bills := m.bills()
		whole := bills[2]
		days := whole.Span.Days()
		a, b := whole, whole
		a.Span.End = whole.Span.First + 11
		b.Span.First = a.Span.End
		a.Billed = energy.Energy(int(whole.Billed.KilowattHours())*11/days) * energy.KilowattHour
		b.Billed = whole.Billed - a.Billed
		b.Index = 6
		bills = append(slices.Replace(bills, 2, 3, a), b)
		r, _ := Judge(m.record(true), bills)
		f, ok := r.Of(6)
		if !ok || f.Kind != Split || !f.Sure || !slices.Equal(f.Bills, []int{2, 6}) || f.Billed != whole.Billed {
			t.Errorf("read %g hours from midnight: %+v", hour, r.Found)
		}
		if other, ok := r.Of(0); ok != (hour != 0) || ok && (other.Kind != InDay || !other.Sure || other.From > 9.5 || other.Till < 8.5) {
			t.Errorf("read %g hours from midnight: %+v", hour, other)
		}
	}
}

// Sound bills agree, always; and what is no reading at one time of day is seldom
// called so.
func TestHowOftenReadsAreNamed(t *testing.T) {
	alike, scattered, errors, held := 0, 0, 0, 0
	const n = 200
	named := func(m *made, bills []Bill) bool {
		r, _ := Judge(m.record(true), bills)
		return slices.ContainsFunc(r.Found, func(f Finding) bool { return f.Kind == InDay && f.Sure })
	}
	for seed := range uint64(n) {
		m := invent(seed, 9)
		if r, _ := Judge(m.record(seed%2 == 0), m.bills()); r.Agree != 9 || len(r.Found) > 0 {
			t.Errorf("seed %d: sound bills are %s", seed, kinds(r))
		}
		hour := 6 + 12*m.Float64()
		for i := range m.reads {
			m.reads[i] += hour + m.NormFloat64() - 24
		}
		if bills := m.bills(); named(m, bills) {
			alike++
			r, _ := Judge(m.record(true), bills)
			if f := r.Found[0]; f.From <= hour+0.5 && f.Till >= hour-0.5 { // of nine reads the middle one is known so well
				held++
			}
		}
		m = invent(seed, 9)
		for i := range m.reads {
			m.reads[i] -= 24 * m.Float64()
		}
		if named(m, m.bills()) {
			scattered++
		}
		m = invent(seed, 9)
		bills := m.bills()
		for i := range bills {
			bills[i].Billed += kilowattHours(6 * m.NormFloat64())
		}
		if named(m, bills) {
			errors++
		}
	}
	t.Logf("of %d: named of reads at one hour %d, of reads at any hour %d, of bills with errors of their own %d; the hour held %d", n, alike, scattered, errors, held)
	if alike < 95*n/100 || scattered > 2*n/100 || errors > 5*n/100 || held < 90*alike/100 {
		t.Error("reads at one time of day are named too seldom, or others too often")
	}
}

func TestNothingToJudge(t *testing.T) {
	m := invent(1, 2)
	if _, done := Judge(ledger.Ledger{}, m.bills()); done {
		t.Error("judged without a record")
	}
	if _, done := Judge(m.record(true), nil); done {
		t.Error("judged without bills")
	}
	l := m.record(true)
	l.Days[10].State = ledger.Missing
	r, done := Judge(l, m.bills())
	if !done || r.Bills[0].Kind != Waits || r.Bills[0].Missing != 1 || r.Bills[1].Kind != Agrees || r.Covered != 1 {
		t.Errorf("%+v", r)
	}
}

func BenchmarkJudge(b *testing.B) {
	m := invent(2, 24)
	for i := range m.reads {
		m.reads[i] += 9 - 24 + m.NormFloat64()/2
	}
	record, bills := m.record(true), m.bills()
	for b.Loop() {
		Judge(record, bills)
	}
}
