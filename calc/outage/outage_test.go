package outage

import (
	"fmt"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"splittally/calc/calendar"
	"splittally/calc/energy"
	"splittally/calc/ledger"
	"splittally/calc/record"
)

// home is six weeks of an invented home: 0.2 kWh in each hour of the night, 0.5
// by day and 1.5 in the evening, a tenth more or less from day to day. What lies
// within gaps is not covered.
func home(gaps ...record.Gap) ledger.Ledger {
	var l ledger.Ledger
	for d := range calendar.Day(42) {
		e := ledger.Entry{State: ledger.Measured}
		for h := range 24 {
			x := 0.5
			switch {
			case h < 6:
				x = 0.2
			case h >= 18 && h < 22:
				x = 1.5
			}
			x *= 1 + 0.1*float64((7*int(d)+3*h)%11-5)/5
			from := at(int(d), h, 0)
			short := int64(0)
			for _, g := range gaps {
				short += max(0, min(g.To, from+hour)-max(g.From, from))
			}
			if short < hour {
				kWh, _ := energy.FromKilowattHours(x * float64(hour-short) / hour)
				l.Slots = append(l.Slots, ledger.Slot{Day: d, From: 60 * h, To: 60*h + 60, Energy: kWh, Short: int32(short)})
				e.Energy += kWh
			}
			e.Hours += float64(hour-short) / hour
		}
		switch {
		case e.Hours == 0:
			e = ledger.Entry{}
		case e.Hours < 24:
			e.State = ledger.Partial
		default:
			e.Hours = 0
		}
		l.Put(d, e)
	}
	return l
}

func at(d, h, m int) int64 { return int64(d)*day + int64(h)*hour + int64(m)*minute }

func gap(from, length int64) record.Gap {
	return record.Gap{From: from, To: from + length, Length: length}
}

func known(g record.Gap, kWh float64) record.Gap {
	g.Known = true
	g.Energy, _ = energy.FromKilowattHours(kWh)
	return g
}

// What events look like, each by its rule, with what it is told for.
func TestKinds(t *testing.T) {
	evening := at(20, 18, 0)
	late := home(gap(evening, 2*hour))
	for i := range late.Slots {
		if s := &late.Slots[i]; s.Day == 20 && s.From == 1200 {
			s.Energy += 3 * energy.KilowattHour
			late.Days[20].Energy += 3 * energy.KilowattHour
		}
	}
	var many []record.Gap
	for i := range 8 {
		many = append(many, gap(evening+int64(i)*10*minute, 3*minute))
	}
	blip := []record.Gap{gap(evening, 20_000), gap(evening+minute, 30_000), gap(evening+3*minute, 4*minute)}
	for _, c := range []struct {
		name string
		gaps []record.Gap
		l    *ledger.Ledger // if not home with the gaps
		kind Kind
		why  string
	}{
		{"the register went on", []record.Gap{known(gap(evening, 2*hour), 2.9)}, nil, Connection, "went on by 2.9"},
		{"the register stood still", []record.Gap{known(gap(evening, 2*hour), 0)}, nil, Power, "about 3.0"},
		{"the register went on a little", []record.Gap{known(gap(evening, 2*hour), 0.3)}, nil, Untold, "far less than the 3.0"},
		{"the supply flickered", blip, nil, Power, "3 gaps in a row, the last of 4 minutes"},
		{"the last is not the longest", []record.Gap{blip[2], gap(blip[2].To+minute, 20_000)}, nil, Untold, "Neither"},
		{"readings lost on the way", many, nil, Connection, "between 8 gaps over 1 hour 13 minutes"},
		{"sent later", []record.Gap{gap(evening, 2*hour)}, &late, Connection, "sent later"},
		{"a long one", []record.Gap{gap(evening, 26*hour+5*minute)}, nil, Connection, "It lasted 1 day 2 hours"},
		{"five minutes", []record.Gap{gap(evening, 5*minute)}, nil, Untold, "A single gap of 5 minutes"},
		{"an hour", []record.Gap{gap(evening, hour)}, nil, Untold, "its length of 1 hour nor"},
	} {
		l := home(c.gaps...)
		if c.gaps[0].Known {
			l = home()
		}
		if c.l != nil {
			l = *c.l
		}
		found := Of(c.gaps, l, minute)
		if len(found.Outages) != 1 {
			t.Errorf("%s: %d events, want 1", c.name, len(found.Outages))
			continue
		}
		o := found.Outages[0]
		if o.Kind != c.kind || !strings.Contains(strings.ReplaceAll(o.Why, "\u202f", " "), c.why) {
			t.Errorf("%s: %s, %q; want %s, %q", c.name, o.Kind, o.Why, c.kind, c.why)
		}
		if o.Late != (c.why == "sent later") || o.Known != c.gaps[0].Known {
			t.Errorf("%s: late %t, known %t", c.name, o.Late, o.Known)
		}
	}
}

// The energy of a gap is what the same hours bring on other days, but for what
// one day has more than another.
func TestEnergy(t *testing.T) {
	for _, c := range []struct {
		name      string
		g         record.Gap
		want, off float64 // kWh
	}{
		{"two hours of the evening", gap(at(20, 18, 0), 2*hour), 3, 0.2},
		{"the night", gap(at(20, 0, 0), 6*hour), 1.2, 0.1},
		{"ten minutes of it", gap(at(20, 3, 20), 10*minute), 0.2 / 6, 0.01},
		{"over midnight", gap(at(20, 21, 0), 5*hour), 1.5 + 1 + 0.4, 0.2},
		{"two days and a half", gap(at(20, 12, 0), 60*hour), 10 + 2*14.2, 1.5},
	} {
		o := Of([]record.Gap{c.g}, home(c.g), minute).Outages[0]
		got := o.Energy.KilowattHours()
		if !o.Estimated || o.Known || got < c.want-c.off || got > c.want+c.off || o.Standard <= 0 || o.Standard > c.want {
			t.Errorf("%s: %.3f ± %.3f kWh, want %.3f", c.name, got, o.Standard, c.want)
		}
	}
	o := Of([]record.Gap{gap(at(3, 4, 0), hour)}, ledger.Ledger{}, minute).Outages[0]
	if o.Estimated || o.Known || o.Energy != 0 {
		t.Errorf("an estimate from nothing: %+v", o)
	}
}

// Events never lose a gap, come in order, and are no more than Most.
func TestProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var gaps []record.Gap
		last := int64(0)
		length := int64(0)
		for range rapid.IntRange(0, 300).Draw(t, "gaps") {
			last += rapid.Int64Range(1, 2*hour).Draw(t, "between")
			g := gap(last, rapid.Int64Range(1, 2*hour).Draw(t, "length"))
			if rapid.IntRange(0, 5).Draw(t, "known") == 0 {
				g = known(g, rapid.Float64Range(0, 3).Draw(t, "kWh"))
			}
			gaps = append(gaps, g)
			last, length = g.To, length+g.Length
		}
		before := fmt.Sprint(gaps)
		found := Of(gaps, home(), rapid.SampledFrom([]int64{0, minute, hour}).Draw(t, "step"))
		n, sum := 0, found.MoreLength
		for i, o := range found.Outages {
			n, sum = n+o.Gaps, sum+o.Length
			if o.To <= o.From || i > 0 && o.From <= found.Outages[i-1].To || o.Why == "" || o.Kind == "" {
				t.Fatalf("event %d: %+v", i, o)
			}
		}
		if sum != length || found.More == 0 && n != len(gaps) || len(found.Outages) > Most || fmt.Sprint(gaps) != before {
			t.Fatalf("%d events and %d more of %d gaps, length %d of %d", len(found.Outages), found.More, len(gaps), sum, length)
		}
	})
}

func TestWords(t *testing.T) {
	for length, want := range map[int64]string{
		400: "1 second", 40_000: "40 seconds", minute: "1 minute", 90_000: "1 minute 30 seconds",
		hour: "1 hour", 200 * minute: "3 hours 20 minutes", 2*day + 4*hour: "2 days 4 hours",
	} {
		if got := Words(length); got != want {
			t.Errorf("%d: %q, want %q", length, got, want)
		}
	}
}

func BenchmarkOf(b *testing.B) {
	var gaps []record.Gap
	for d := range 40 {
		for h := range 20 {
			gaps = append(gaps, gap(at(d, h, 7), 12*minute))
		}
	}
	l := home(gaps...)
	for b.Loop() {
		Of(gaps, l, minute)
	}
}
