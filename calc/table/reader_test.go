package table

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	"splittally/calc/energy"
	"splittally/calc/record"
	"splittally/calc/series"
	"splittally/calc/zone"
)

// kWhLayout is a stamp and one figure in kWh, an hour each.
func kWhLayout(form Form, change func(*Layout)) Layout {
	l := Layout{
		Delimiter: ',', Decimal: '.', Step: hourLength,
		Stamp:   Stamp{Time: -1, Form: form},
		Columns: []Column{{}, {Used: true, Scale: energy.KilowattHour, Sign: 1, Role: record.Import}},
	}
	if change != nil {
		change(&l)
	}
	return l
}

// readText reads a text whole.
func readText(t *testing.T, l Layout, text string) Table {
	t.Helper()
	r := NewReader(l, &zone.Rules{Before: -5 * 3600})
	if err := r.Write([]byte(text)); err != nil {
		t.Fatal(err)
	}
	table, err := r.Close()
	if err != nil {
		t.Fatal(err)
	}
	return table
}

// firstHour gives the day and hour of the first reading, and its energy.
func (t *Table) firstHour(channel int) string {
	for k := range t.Channels[channel] {
		for h, v := range t.Channels[channel][k].Hours {
			if v.Covered > 0 {
				return fmt.Sprintf("%d days %02d h %s", k, h, v.Energy)
			}
		}
	}
	return "none"
}

func TestFormsOfStamps(t *testing.T) {
	for _, c := range []struct {
		name, stamp string
		layout      Layout
		want        string // day and hour; the day is 1 Mar 2024 if it is 0
	}{
		{"year first", "2024-03-01 05:00", kWhLayout(YearFirst, nil), "05"},
		{"with seconds and a fraction", "2024-03-01T05:00:00.0000000", kWhLayout(YearFirst, nil), "05"},
		{"compact", "202403010500", kWhLayout(YearFirst, nil), "05"},
		{"day first", "1/3/2024 5:00", kWhLayout(DayFirst, nil), "05"},
		{"day first, two digits of the year", "01.03.24 05:00", kWhLayout(DayFirst, nil), "05"},
		{"month first, afternoon", "3/1/2024 05:00:00 PM", kWhLayout(MonthFirst, nil), "17"},
		{"noon", "3/1/2024 12:00 PM", kWhLayout(MonthFirst, nil), "12"},
		{"midnight", "3/1/2024 12:00 AM", kWhLayout(MonthFirst, nil), "00"},
		{"name of the month", "1 Mar 2024 05:00", kWhLayout(DayFirst, nil), "05"},
		{"24:00 as an end", "2024-03-01 24:00", kWhLayout(YearFirst, func(l *Layout) { l.Ends = true }), "23"},
		{"offset", "2024-03-01T05:00:00-0600", kWhLayout(YearFirst, func(l *Layout) { l.Stamp.Zone = Offset }), "05"},
		{"a point of time", "2024-03-01T10:00:00Z", kWhLayout(YearFirst, func(l *Layout) { l.Stamp.Zone = Instant }), "05"},
		{"a point of time with an offset", "2024-03-01T12:00:00+02:00", kWhLayout(YearFirst, func(l *Layout) { l.Stamp.Zone = Instant }), "05"},
		{"Unix seconds", "1709287200", kWhLayout(Seconds, func(l *Layout) { l.Stamp.Zone = Instant }), "05"},
		{"Unix seconds with a fraction", "1709287200.0", kWhLayout(Seconds, func(l *Layout) { l.Stamp.Zone = Instant }), "05"},
		{"Unix milliseconds", "1709287200000", kWhLayout(Millis, func(l *Layout) { l.Stamp.Zone = Instant }), "05"},
		{"days of a spreadsheet", "45352.2083333", kWhLayout(Serial, nil), "05"},
	} {
		t.Run(c.name, func(t *testing.T) {
			table := readText(t, c.layout, c.stamp+",1.5\n")
			if got, want := table.First.String()+" "+table.firstHour(0), "2024-03-01 0 days "+c.want+" h 1.5 kWh"; got != want {
				t.Errorf("%s, want %s", got, want)
			}
		})
	}
	t.Run("date and time in two cells", func(t *testing.T) {
		l := kWhLayout(DayFirst, func(l *Layout) {
			l.Stamp.Time = 1
			l.Columns = []Column{{}, {}, {Used: true, Scale: energy.KilowattHour, Sign: 1}}
		})
		table := readText(t, l, "\"1/3/2024\", 5:00 ,\"1.5\"\n")
		if got := table.firstHour(0); got != "0 days 05 h 1.5 kWh" {
			t.Error(got)
		}
	})
	t.Run("numbers of hours", func(t *testing.T) {
		l := kWhLayout(YearFirst, func(l *Layout) {
			l.Stamp.Time, l.Stamp.Hours, l.Ends = 1, true, true
			l.Columns = []Column{{}, {}, {Used: true, Scale: energy.KilowattHour, Sign: 1}}
		})
		table := readText(t, l, "2024-03-01,24,1.5\n")
		if got := table.firstHour(0); got != "0 days 23 h 1.5 kWh" {
			t.Error(got)
		}
	})
}

func TestFigures(t *testing.T) {
	for _, c := range []struct {
		cell    string
		decimal byte
		group   byte
		want    string // "" is no figure
		odd     string
	}{
		{"1.5", '.', 0, "1.5 kWh", ""},
		{"0.000000001", '.', 0, "0.000000001 kWh", ""},
		{"0.0000000015", '.', 0, "0.000000002 kWh", "finer 1"},
		{"0.0000000025", '.', 0, "0.000000002 kWh", "finer 1"},
		{"1.3e-05", '.', 0, "0.000013 kWh", ""},
		{"1.3E+02", '.', 0, "130 kWh", ""},
		{"+7", '.', 0, "7 kWh", ""},
		{"-7", '.', 0, "-7 kWh", "below-zero 1"},
		{"−7", '.', 0, "-7 kWh", "below-zero 1"},
		{"1,234.5", '.', ',', "1234.5 kWh", ""},
		{"1.234,5", ',', '.', "1234.5 kWh", ""},
		{"1 234,5", ',', ' ', "1234.5 kWh", ""},
		{"1’234.5", '.', '\'', "1234.5 kWh", ""},
		{"12,5", ',', 0, "12.5 kWh", ""},
		{" 12.5 kWh ", '.', 0, "12.5 kWh", ""},
		{"850 Wh", '.', 0, "0.85 kWh", ""},
		{"12.3600000000000001", '.', 0, "12.36 kWh", "finer 1"},
		{"1234567890123456789", '.', 0, "", "too-large 1"},
		{"5 °C", '.', 0, "", "no-figure 1"},
		{"", '.', 0, "", "no-figure 1"},
		{"nan", '.', 0, "", "no-figure 1"},
		{"Null", '.', 0, "", "no-figure 1"},
		{"--", '.', 0, "", "no-figure 1"},
		{"1.2.3", '.', 0, "", "no-figure 1"},
	} {
		t.Run(c.cell, func(t *testing.T) {
			l := kWhLayout(YearFirst, func(l *Layout) { l.Decimal, l.Group, l.Delimiter = c.decimal, c.group, ';' })
			// The rows before and behind keep the hour company, whatever it is.
			table := readText(t, l, "2024-03-01 04:00;0\n2024-03-01 05:00;"+c.cell+"\n2024-03-01 06:00;0\n")
			h := table.Channels[0][0].Hours[5]
			if got := h.Energy.String(); h.Covered > 0 && got != c.want || (h.Covered > 0) != (c.want != "") {
				t.Errorf("%s, covered %d, want %s", got, h.Covered, c.want)
			}
			if got := table.oddities(); got != c.odd {
				t.Errorf("oddities %s, want %s", got, c.odd)
			}
		})
	}
}

func TestLines(t *testing.T) {
	l := kWhLayout(YearFirst, func(l *Layout) { l.Skip = 1 })
	for _, end := range []string{"\n", "\r\n", "\r"} {
		text := strings.ReplaceAll("time,kWh\n2024-03-01 00:00,1\n\n# a comment\n2024-03-01 01:00,2\ntime,kWh\n2024-03-01 02:00\n2024-03-01 03:00,4\nTotal,7", "\n", end)
		table := readText(t, l, text)
		if got := fmt.Sprint(table.Lines, table.Rows, table.Oddities, len(table.Gaps)); got != "9 3 [{unreadable 3 [4 6 9] } {no-figure 1 [7] 02:00 on 1 Mar 2024}] 1" {
			t.Errorf("%q: %s", end, got)
		}
	}
}

func TestFiguresInTwoDirections(t *testing.T) {
	l := kWhLayout(YearFirst, func(l *Layout) { l.Columns[1].Apart, l.Columns[1].Sign = true, -1 })
	table := readText(t, l, "2024-03-01 00:00,-2\n2024-03-01 01:00,3\n2024-03-01 02:00,-0.5\n")
	if got := fmt.Sprint(table.Made, table.sums(0, 0), table.sums(1, 0)); got != "[{1 import 0.05 kWh true} {1 export 0.05 kWh true}] map[:2.5] map[:3]" {
		t.Error(got)
	}
}

func TestTheOtherOrderOfDates(t *testing.T) {
	text := "01/03/2024 00:00,1\n02/03/2024 00:00,1\n13/03/2024 00:00,1\n"
	r := NewReader(kWhLayout(MonthFirst, nil), nil)
	var order *OrderError
	if err := r.Write([]byte(text)); !errors.As(err, &order) || order.Line != 3 || order.Other != DayFirst || order.Found != "13/03/2024 00:00" {
		t.Fatal(err)
	}
	if err := r.Write([]byte("01/03/2024 00:00,1\n")); err != order {
		t.Error("goes on after an error:", err)
	}
	if table := readText(t, kWhLayout(DayFirst, nil), text); !table.Decided {
		t.Error("13/03 does not decide the order")
	}
	if table := readText(t, kWhLayout(DayFirst, nil), text[:38]); table.Decided {
		t.Error("01/03 and 02/03 decide the order")
	}
}

func TestNoLines(t *testing.T) {
	long := strings.Repeat("5", MaxLine)
	for _, size := range []int{1 << 10, 1 << 20} {
		r := NewReader(kWhLayout(YearFirst, nil), nil)
		text := "2024-03-01 00:00,1\n2024-03-01 01:00," + long + "\n2024-03-01 02:00,1\n"
		var err error
		for at := 0; at < len(text) && err == nil; at += size {
			err = r.Write([]byte(text[at:min(at+size, len(text))]))
		}
		var line *LineError
		if !errors.As(err, &line) || line.Line != 2 {
			t.Errorf("chunks of %d: %v", size, err)
		}
		if cap(r.carry) > 2*MaxLine {
			t.Error("keeps", cap(r.carry))
		}
		if table, _ := r.Close(); table.Rows != 1 {
			t.Errorf("chunks of %d: %d rows", size, table.Rows)
		}
	}
}

// FuzzReader reads anything in any layout: it must not panic, and must come to
// the same however the text is cut.
func FuzzReader(f *testing.F) {
	f.Add([]byte("2024-03-01 00:00,0.0123\n2024-03-01 00:01,0.0124\n"), uint16(0), uint8(3))
	f.Add([]byte("1/3/2024;00:15;1.234,5\r\n1/3/2024;00:30;\r\n"), uint16(0x1235), uint8(1))
	f.Add([]byte("1709287200,5\r1709287260,7\r\n\n1709287320,-3"), uint16(0x8403), uint8(200))
	f.Add([]byte("3/10/2024 1:00:00 AM,12345.6789,\"1 kWh\",-7\n3/10/2024 3:00:00 AM,12345.9789, nan ,9e3\n"), uint16(0x0342), uint8(9))
	f.Fuzz(func(t *testing.T, data []byte, how uint16, most uint8) {
		bit := func(n int) bool { return how>>n&1 > 0 }
		l := Layout{
			Delimiter: ",;\t "[how&3], Decimal: '.', Step: [4]int64{0, 1000, minuteLength, hourLength}[how>>2&3],
			Stamp: Stamp{Time: -1, Form: Form(how >> 4 & 7 % 6), Zone: Zone(how >> 7 & 3 % 3)}, Ends: bit(9),
		}
		l.Columns = make([]Column, 2+how>>10&3)
		if bit(12) && len(l.Columns) > 2 {
			l.Stamp.Time, l.Decimal = 1, ','
		}
		for c := range l.Columns {
			l.Columns[c] = Column{Used: c > l.Stamp.Time, Scale: 1e9, Sign: 1, Quantity: series.Quantity((int(how>>13) + c) % 3), Apart: bit(15) && c > 2}
		}
		want, wantErr := slowly(data, l)
		r := NewReader(l, &summer)
		var err error
		for rest := data; len(rest) > 0 && err == nil; {
			n := min(len(rest), int(most)+1)
			err = r.Write(rest[:n])
			rest = rest[n:]
		}
		got, _ := r.Close()
		if fmt.Sprint(err) != fmt.Sprint(wantErr) || err == nil && fmt.Sprintf("%+v", got) != fmt.Sprintf("%+v", want) {
			t.Fatalf("%+v\nin chunks %+v %v\nby lines  %+v %v", l, got, err, want, wantErr)
		}
	})
}
