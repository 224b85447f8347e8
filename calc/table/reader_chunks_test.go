package table

import (
	"bytes"
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"splittally/calc/calendar"
	"splittally/calc/series"
	"splittally/calc/zone"
)

// summer is a clock of the north, for the years of the tests.
var summer = zone.Rules{Before: 3600, Changes: []zone.Change{
	{At: 1711846800, Offset: 7200}, {At: 1729990800, Offset: 3600}, // 2024-03-31 01:00Z, 2024-10-27 01:00Z
	{At: 1743296400, Offset: 7200}, {At: 1761440400, Offset: 3600},
}}

// drawTable draws a table with much that is odd in it, and its layout.
func drawTable(t *rapid.T) ([]byte, Layout) {
	step := rapid.SampledFrom([]int64{1000, 10_000, minuteLength, 15 * minuteLength, 30 * minuteLength, hourLength}).Draw(t, "step")
	form := rapid.IntRange(0, 5).Draw(t, "form")
	columns := rapid.IntRange(1, 3).Draw(t, "columns")
	end := rapid.SampledFrom([]string{"\n", "\r\n", "\r"}).Draw(t, "end")
	newest := rapid.Bool().Draw(t, "newest")
	lead := rapid.Bool().Draw(t, "lead")
	l := Layout{
		Delimiter: ',', Decimal: '.', Quoted: true, Step: step, Ends: rapid.Bool().Draw(t, "ends"), Newest: newest,
		Stamp: Stamp{Time: -1, Form: YearFirst},
	}
	if form == 3 {
		l.Delimiter, l.Decimal = ';', ','
	}
	d := string(l.Delimiter)
	if lead {
		l.Columns = append(l.Columns, Column{Name: "nr"})
		l.Stamp.Date = 1
	}
	l.Columns = append(l.Columns, Column{Name: "time"})
	switch form {
	case 1:
		l.Stamp.Zone = Offset
	case 2:
		l.Stamp.Form = MonthFirst
	case 3:
		l.Stamp.Form, l.Stamp.Time = DayFirst, len(l.Columns)
		l.Columns = append(l.Columns, Column{Name: "clock"})
	case 4:
		l.Stamp.Form, l.Stamp.Zone = Seconds, Instant
	case 5:
		l.Stamp.Zone = Instant
	}
	for range columns {
		l.Columns = append(l.Columns, Column{
			Used: rapid.Bool().Draw(t, "used") || len(l.Columns) == l.Stamp.Date+1, Scale: 1e9, Sign: rapid.SampledFrom([]int{1, 1, -1}).Draw(t, "sign"),
			Quantity: rapid.SampledFrom([]series.Quantity{0, 1, 2}).Draw(t, "quantity"), Apart: rapid.IntRange(0, 5).Draw(t, "apart") == 0,
		})
	}
	begin, _ := calendar.Date(2024, 3, 30)
	if rapid.Bool().Draw(t, "autumn") {
		begin, _ = calendar.Date(2024, 10, 26)
	}
	at, off := int64(begin)*dayLength+rapid.Int64Range(0, 50).Draw(t, "from")*hourLength, int64(0)
	n := rapid.IntRange(1, 300).Draw(t, "rows")
	sum := 0
	var rows []string
	for i := range n {
		switch rapid.IntRange(0, 60).Draw(t, "odd") {
		case 0:
			at += step * rapid.Int64Range(1, 5).Draw(t, "gap")
		case 1:
			at -= step * rapid.Int64Range(1, 5).Draw(t, "back")
		case 2:
			rows = append(rows, "", "total"+d+"5")
		case 3:
			at += rapid.Int64Range(0, step/1000).Draw(t, "late") * 1000
		case 4:
			at -= step
		case 5:
			off = hourLength - off
		}
		row := ""
		if lead {
			row = fmt.Sprint(i) + d
		}
		y, m, day := calendar.Day(at / dayLength).Date()
		h, min, s := at/hourLength%24, at/minuteLength%60, at/1000%60
		switch form {
		case 0, 5:
			row += fmt.Sprintf("%d-%02d-%02d %02d:%02d:%02d", y, m, day, h, min, s)
			if form == 5 {
				row += "Z"
			}
		case 1:
			row += fmt.Sprintf("%d-%02d-%02dT%02d:%02d:%02d+%02d:00", y, m, day, h, min, s, off/hourLength)
		case 2:
			row += fmt.Sprintf("%d/%d/%d %d:%02d:%02d %cM", m, day, y, (h+11)%12+1, min, s, "AP"[h/12])
		case 3:
			row += fmt.Sprintf("%02d.%02d.%d;%02d:%02d:%02d", day, m, y, h, min, s)
		case 4:
			row += fmt.Sprint(at / 1000)
		}
		for range columns {
			sum += rapid.IntRange(0, 3000).Draw(t, "tenths")
			f := fmt.Sprintf("%d.%04d", sum/10000, sum%10000)
			switch rapid.IntRange(0, 80).Draw(t, "figure") {
			case 0:
				f = ""
			case 1:
				f = "-" + f
			case 2:
				f = `"` + f + `"`
			case 3:
				f = " " + f + " "
			case 4:
				f = f + " kWh"
			case 5:
				f = "1.3e-05"
			case 6:
				f = "n/a"
			case 7:
				f = "0.00000000012345"
			case 8:
				f = "1234567890123.5"
			}
			if l.Decimal == ',' {
				f = strings.ReplaceAll(f, ".", ",")
			}
			row += d + f
		}
		rows = append(rows, row)
		at += step
	}
	if newest {
		for i := range len(rows) / 2 {
			rows[i], rows[len(rows)-1-i] = rows[len(rows)-1-i], rows[i]
		}
	}
	return []byte(strings.Join(rows, end) + rapid.SampledFrom([]string{"", end}).Draw(t, "last")), l
}

// slowly reads a table line by line, with none of the shorter ways.
func slowly(data []byte, l Layout) (Table, error) {
	r := NewReader(l, &summer)
	r.odd = true
	err := r.Write(data)
	table, _ := r.Close()
	return table, err
}

func TestWhereChunksAreCutDoesNotMatter(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		data, l := drawTable(t)
		want, _ := slowly(data, l)
		r := NewReader(l, &summer)
		rest := data
		most := rapid.SampledFrom([]int{1, 7, 100, 1000, 100_000}).Draw(t, "most")
		for len(rest) > 0 {
			n := min(len(rest), rapid.IntRange(1, most).Draw(t, "cut"))
			chunk := bytes.Clone(rest[:n])
			if err := r.Write(chunk); err != nil {
				t.Fatal(err)
			}
			clear(chunk) // nothing may be kept of it
			rest = rest[n:]
		}
		got, err := r.Close()
		if err != nil {
			t.Fatal(err)
		}
		if d := cmp.Diff(want, got); d != "" {
			t.Fatalf("read in chunks (+) and line by line (−):\n%s\n%+v\n%s", d, l, data)
		}
	})
}
