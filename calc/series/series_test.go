package series

import (
	"fmt"
	"strings"
	"testing"

	"splittally/calc/calendar"
	"splittally/calc/energy"
	"splittally/calc/record"
)

const (
	hourMs  = int64(record.Whole)
	quarter = hourMs / 4
)

// clock gives a time by the clock, such as "2024-03-01 02:15" or with seconds.
func clock(t *testing.T, text string) int64 {
	t.Helper()
	var y, m, d, h, min, sec int
	if _, err := fmt.Sscanf(text+":00", "%d-%d-%d %d:%d:%d", &y, &m, &d, &h, &min, &sec); err != nil {
		t.Fatal(text, err)
	}
	day, ok := calendar.Date(y, m, d)
	if !ok {
		t.Fatal(text)
	}
	return int64(day)*dayLength + int64(h)*hourMs + int64(min)*minute + int64(sec)*1000
}

// feed adds readings of one channel, a line each: a time and a figure, which may
// be followed by an offset in hours. Lines are numbered from 1.
func feed(t *testing.T, c Channel, o Options, lines ...string) Sums {
	t.Helper()
	s := New([]Channel{c}, o)
	n := 0
	for _, text := range lines {
		for _, line := range strings.Split(strings.TrimSpace(text), "\n") {
			n++
			var date, at string
			var figure int64
			offset := 0
			if _, err := fmt.Sscan(line, &date, &at, &figure, &offset); err != nil && !strings.Contains(err.Error(), "EOF") && !strings.Contains(err.Error(), "newline") {
				t.Fatal(line, err)
			}
			s.Add(&Row{Wall: clock(t, date+" "+at), Offset: offset * 3600, Line: n, Figures: []int64{figure}, Have: 1})
		}
	}
	return s.Done()
}

// evenly writes readings from a time on, with figures 1, 2, 3 …
func evenly(t *testing.T, from string, step int64, n, first int) string {
	t.Helper()
	var b strings.Builder
	at := clock(t, from)
	for i := range n {
		fmt.Fprintln(&b, stamp(at+int64(i)*step), first+i)
	}
	return b.String()
}

func stamp(wall int64) string {
	d, rest := floor(wall, dayLength)
	return fmt.Sprintf("%s %02d:%02d:%02d", calendar.Day(d), rest/hourMs, rest/minute%60, rest/1000%60)
}

// total adds up a channel.
func total(days []record.Day) (sum energy.Energy) {
	for _, d := range days {
		for _, h := range d.Hours {
			sum += h.Energy
		}
		sum += d.Again.Energy
	}
	return sum
}

// hours writes the hours of a day that have anything: energy, /minutes covered
// if not all, ~ if spread; + is the second run of an hour.
func hours(d *record.Day) string {
	var b strings.Builder
	one := func(name string, h record.Hour) {
		if h == (record.Hour{}) {
			return
		}
		fmt.Fprintf(&b, " %s:%d", name, h.Energy)
		if h.Covered != record.Whole {
			fmt.Fprintf(&b, "/%g", float64(h.Covered)/minute)
		}
		if h.Marks&record.Spread != 0 {
			b.WriteString("~")
		}
	}
	for h, v := range d.Hours {
		one(fmt.Sprint(h), v)
		if d.Turn > 0 && int(d.TurnAt) == h {
			one(fmt.Sprint(h, "+"), d.Again)
		}
	}
	if d.Turn < 0 {
		fmt.Fprintf(&b, " no %d", d.TurnAt)
	}
	return strings.TrimSpace(b.String())
}

// oddities writes them as "kind count lines".
func oddities(s *Sums) string {
	var out []string
	for _, o := range s.Oddities {
		out = append(out, strings.TrimSuffix(fmt.Sprint(o.Kind, " ", o.Count, " ", o.Lines), " []"))
	}
	return strings.Join(out, ", ")
}

// gapsOf writes gaps as "from – to" with the known energy.
func gapsOf(s *Sums) string {
	var out []string
	for _, g := range s.Gaps {
		text := stamp(g.From)[11:] + "–" + stamp(g.To)[11:]
		if g.Known {
			text += fmt.Sprintf(" %d", g.Energy)
		}
		out = append(out, text)
	}
	return strings.Join(out, ", ")
}

func check(t *testing.T, s Sums, day int, wantHours, wantGaps, wantOdd string) {
	t.Helper()
	if len(s.Channels[0]) <= day {
		t.Fatalf("%d days", len(s.Channels[0]))
	}
	if got := hours(&s.Channels[0][day]); got != wantHours {
		t.Errorf("hours %s, want %s", got, wantHours)
	}
	if got := gapsOf(&s); got != wantGaps {
		t.Errorf("gaps %s, want %s", got, wantGaps)
	}
	if got := oddities(&s); got != wantOdd {
		t.Errorf("oddities %s, want %s", got, wantOdd)
	}
}

func TestWhatReadingsCover(t *testing.T) {
	quarterHours := Options{Step: quarter}
	for _, c := range []struct {
		name              string
		quantity          Quantity
		o                 Options
		lines             string
		hours, gaps, odds string
	}{
		{"energy by its start", Energy, quarterHours, evenly(t, "2024-05-01 01:00", quarter, 6, 1), "1:10 2:11/30", "", ""},
		{"energy by its end", Energy, Options{Step: quarter, Ends: true}, evenly(t, "2024-05-01 01:00", quarter, 6, 1), "0:1/15 1:14 2:6/15", "", ""},
		{"stamps that are a little off", Energy, Options{Step: 10_000}, "2024-05-01 01:00:00 1\n2024-05-01 01:00:09 1\n2024-05-01 01:00:20 1\n2024-05-01 01:00:30 1", "1:4/0.6666666666666666", "", ""},
		{"a missing reading", Energy, quarterHours, "2024-05-01 01:00 1\n2024-05-01 01:15 1\n2024-05-01 01:45 1", "1:3/45", "01:30:00–01:45:00", ""},
		{"hours that end at half past", Energy, Options{Step: hourMs, Ends: true}, "2024-05-01 01:30 3\n2024-05-01 02:30 5", "0:1/30~ 1:4~ 2:3/30~", "", ""},
		{"power", Power, quarterHours, "2024-05-01 01:00 4\n2024-05-01 01:15 8\n2024-05-01 01:30 4\n2024-05-01 01:45 4", "1:5", "", ""},
		{"power sampled unevenly", Power, Options{Step: 10_000}, "2024-05-01 01:00:00 3600\n2024-05-01 01:00:09 3600\n2024-05-01 01:00:20 7200\n2024-05-01 01:00:30 0", "1:40/0.6666666666666666", "", ""},
		{"power by its end, unevenly", Power, Options{Step: 10_000, Ends: true}, "2024-05-01 01:00:10 3600\n2024-05-01 01:00:19 3600\n2024-05-01 01:00:30 7200\n2024-05-01 01:00:40 0", "1:41/0.6666666666666666", "", ""},
		{"power with a missing sample", Power, Options{Step: 10_000}, "2024-05-01 01:00:00 3600\n2024-05-01 01:00:20 3600\n2024-05-01 01:00:30 3600", "1:30/0.5", "01:00:10–01:00:20", ""},
		{"power without a spacing", Power, Options{}, "2024-05-01 01:00 4\n2024-05-01 01:30 8\n2024-05-01 03:00 8\n2024-05-01 03:10 0", "1:6 2:4/30 3:1/10", "02:30:00–03:00:00", ""},
		{"energy without a spacing", Energy, Options{}, "2024-05-01 01:00 4\n2024-05-01 01:30 8\n2024-05-01 05:00 8\n2024-05-01 05:10 1", "1:6~ 2:4~ 3:2/30~ 5:9/20", "03:30:00–05:00:00", ""},
		{"energy without a spacing, by its end", Energy, Options{Ends: true}, "2024-05-01 01:00 4\n2024-05-01 01:30 8\n2024-05-01 05:00 8", "0:4/30 1:8/30 3:4~ 4:4~", "01:30:00–03:00:00", ""},
		{"register", Register, quarterHours, "2024-05-01 01:00 100\n2024-05-01 01:15 101\n2024-05-01 01:30 103\n2024-05-01 01:45 103\n2024-05-01 02:00 110", "1:10", "", ""},
		{"register over a gap", Register, quarterHours, "2024-05-01 01:00 100\n2024-05-01 01:15 101\n2024-05-01 03:30 119", "1:7~ 2:8~ 3:4/30~", "01:15:00–03:30:00 18", ""},
		{"register without a spacing", Register, Options{}, "2024-05-01 01:00 100\n2024-05-01 01:50 105\n2024-05-01 02:10 107\n2024-05-01 06:10 111", "1:6 2:1~ 3:1~ 4:1~ 5:1~ 6:1/10~", "02:10:00–06:10:00 4", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			check(t, feed(t, Channel{Quantity: c.quantity}, c.o, c.lines), 0, c.hours, c.gaps, c.odds)
		})
	}
}

func TestWhatComesTwiceOrLate(t *testing.T) {
	day := evenly(t, "2024-05-01 00:00", hourMs, 6, 1)
	for _, c := range []struct {
		name        string
		lines       string
		gaps, odds  string
		total, days int
	}{
		{"again at once", day + "2024-05-01 05:00 6", "", "duplicate 1 [7]", 21, 1},
		{"again at once with another figure", day + "2024-05-01 05:00 7", "", "conflict 1 [7]", 21, 1},
		{"again later", day + "2024-05-01 02:00 3\n2024-05-01 03:00 9", "", "out-of-order 1 [7], duplicate 1 [7], conflict 1 [8]", 21, 1},
		{"between", day + "2024-05-01 05:30 7", "", "overlap 1 [7]", 21, 1},
		{"the newest first", "2024-05-01 03:00 4\n2024-05-01 02:00 3\n2024-05-01 01:00 2\n2024-05-01 00:00 1", "", "", 10, 1},
		{"a gap filled later", day + "2024-05-01 08:00 1\n2024-05-01 06:00 1\n2024-05-01 07:00 1", "", "out-of-order 1 [8]", 24, 1},
		{"a gap filled in part", day + "2024-05-01 09:00 1\n2024-05-01 07:00 1", "06:00:00–07:00:00, 08:00:00–09:00:00", "out-of-order 1 [8]", 23, 1},
		{"an earlier block after a later one", evenly(t, "2024-05-02 00:00", hourMs, 6, 1) + evenly(t, "2024-05-01 00:00", hourMs, 24, 1), "", "out-of-order 1 [7]", 321, 2},
		{"a stamp of an unset clock", "1970-01-01 00:00 5\n" + evenly(t, "2024-05-01 00:00", hourMs, 300, 0), "", "stray 1 [1]", 299 * 150, 13},
		{"a stamp of a wrong year", evenly(t, "2024-05-01 00:00", hourMs, 300, 0) + "2042-01-01 00:00 5\n" + evenly(t, "2024-05-13 12:00", hourMs, 12, 0), "", "out-of-order 1 [302], stray 1 [301]", 299*150 + 66, 13},
		{"a figure that nothing can be", day + "2024-05-01 06:00 4000000000000000000", "", "too-large 1 [7]", 21, 1},
		{"below zero", day + "2024-05-01 06:00 -1", "", "below-zero 1 [7]", 20, 1},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := feed(t, Channel{}, Options{Step: hourMs}, c.lines)
			if got := total(s.Channels[0]); got != energy.Energy(c.total) || len(s.Channels[0]) != c.days {
				t.Errorf("%d in %d days, want %d in %d", got, len(s.Channels[0]), c.total, c.days)
			}
			if got := gapsOf(&s); got != c.gaps {
				t.Errorf("gaps %s, want %s", got, c.gaps)
			}
			if got := oddities(&s); got != c.odds {
				t.Errorf("oddities %s, want %s", got, c.odds)
			}
		})
	}
}

func TestRegisters(t *testing.T) {
	const kWh = int64(energy.KilowattHour)
	line := func(hour int, tenths int64) string {
		return fmt.Sprintf("2024-05-01 %02d:00 %d\n", hour, tenths*kWh/10)
	}
	up := line(0, 1000) + line(1, 1005) + line(2, 1010)
	for _, c := range []struct {
		name    string
		modulus int64
		lines   string
		tenths  int64
		odds    string
	}{
		{"a reset", 0, up + line(3, 2) + line(4, 7), 10 + 2 + 5, "reset 1 [4]"},
		{"a roll-over that is known", 10_000, line(0, 9_985) + line(1, 9_990) + line(2, 9_995) + line(3, 0) + line(4, 5), 20, "roll-over 1 [4]"},
		{"a roll-over that fits", 0, line(0, 99_985) + line(1, 99_990) + line(2, 99_995) + line(3, 0) + line(4, 5), 20, "roll-over 1 [4]"},
		{"far from full: a reset", 0, line(0, 50_000) + line(1, 50_005) + line(2, 3) + line(3, 8), 5 + 3 + 5, "reset 1 [3]"},
		{"a step back", 0, up + line(3, 1009) + line(4, 1020), 20, "conflict 1 [4]"},
		{"another register", 0, up + line(3, 700) + line(4, 705) + line(5, 710) + line(6, 715), 10 + 5, "conflict 3 [4 5 6], reset 1 [6]"},
		{"the newest first", 0, line(4, 7) + line(3, 2) + line(2, 1010) + line(1, 1005) + line(0, 1000), 17, "reset 1 [3]"},
		{"late reads part a gap", 0, up + line(9, 1080) + line(4, 1030) + line(5, 1040), 80, "out-of-order 1 [5]"},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := feed(t, Channel{Quantity: Register, Modulus: energy.Energy(c.modulus * kWh / 10)}, Options{Step: hourMs}, c.lines)
			if got := total(s.Channels[0]); got != energy.Energy(c.tenths*kWh/10) {
				t.Errorf("%s, want %s", got, energy.Energy(c.tenths*kWh/10))
			}
			if got := oddities(&s); got != c.odds {
				t.Errorf("oddities %s, want %s", got, c.odds)
			}
		})
	}
	s := feed(t, Channel{Quantity: Register}, Options{Step: hourMs}, up+line(9, 1080)+line(4, 1030)+line(5, 1040))
	if got, want := gapsOf(&s), "02:00:00–04:00:00 2000000000, 05:00:00–09:00:00 4000000000"; got != want {
		t.Errorf("gaps %s, want %s", got, want)
	}
}
