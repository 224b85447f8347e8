package interval_test

import (
	"bytes"
	"fmt"
	"strings"
	"testing"
	"unicode/utf16"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"splittally/calc/calendar"
	"splittally/calc/interval"
	"splittally/calc/record"
)

// quarters makes two days of quarter hours of an invented shed.
func quarters(form func(i int) string) []byte { return days(2, form) }

func days(n int, form func(i int) string) []byte {
	var b strings.Builder
	b.WriteString("Time,Shed (kWh)\n")
	for i := range n * 96 {
		fmt.Fprintf(&b, "%s,0.%03d\n", form(i), 100+i%7)
	}
	return []byte(b.String())
}

// iso is the time of quarter i, from 1 March 2024 on.
func iso(i int) string {
	return calendar.Day(19_783+i/96).String() + fmt.Sprintf(" %02d:%02d", i%96/4, i%4*15)
}

// utf16Of writes a text in UTF-16.
func utf16Of(text []byte, big, mark bool) []byte {
	var out []byte
	put := func(u uint16) {
		if big {
			out = append(out, byte(u>>8), byte(u))
		} else {
			out = append(out, byte(u), byte(u>>8))
		}
	}
	if mark {
		put(0xFEFF)
	}
	for _, u := range utf16.Encode([]rune(string(text))) {
		put(u)
	}
	return out
}

func TestEncodings(t *testing.T) {
	plain := quarters(iso)
	want := record.Format(only(t, read(t, "shed.csv", plain, interval.Options{})))
	for name, data := range map[string][]byte{
		"UTF-8 with a mark": append([]byte("\xEF\xBB\xBF"), plain...),
		"UTF-16 little":     utf16Of(plain, false, true), "UTF-16 big": utf16Of(plain, true, true),
		"UTF-16 little, no mark": utf16Of(plain, false, false), "UTF-16 big, no mark": utf16Of(plain, true, false),
	} {
		r := only(t, read(t, "shed.csv", data, interval.Options{}))
		r.Source.Bytes = int64(len(plain))
		if diff := cmp.Diff(want, record.Format(r)); diff != "" {
			t.Errorf("%s: (-UTF-8 +%s)\n%s", name, name, diff)
		}
	}
	latin := bytes.Replace(plain, []byte("Shed"), []byte("H\xFCtte"), 1)
	if got := only(t, read(t, "shed.csv", latin, interval.Options{})).Channels[0].Name; !strings.HasPrefix(got, "Hütte") {
		t.Errorf("a heading in Latin-1 came out as %q", got)
	}
}

// TestAnyChunks: what a file comes to does not depend on where its chunks end.
func TestAnyChunks(t *testing.T) {
	files := map[string][]byte{
		"columns": quarters(iso), "UTF-16": utf16Of(quarters(iso), false, true),
		"text": []byte("Day,kWh\r\n2024-03-01,11.5\r\n2024-03-02,12.25\r\n2024-03-03,9\r\n"),
		"feed": []byte(feed), "binary": {0, 1, 2, 3, 4, 5, 6, 7, 8, 9},
		"far": days(120, iso),
	}
	want := map[string]interval.Found{}
	for name, data := range files {
		want[name] = read(t, name, data, interval.Options{})
	}
	rapid.Check(t, func(rt *rapid.T) {
		name := rapid.SampledFrom([]string{"columns", "UTF-16", "text", "feed", "binary", "far"}).Draw(rt, "file")
		data := files[name]
		most := rapid.SampledFrom([]int{1, 3, 50, 5000, 200_000}).Draw(rt, "most")
		if name == "far" && most < 50 {
			most = 5000 // a quarter of a million chunks take too long
		}
		r := interval.New(interval.Options{File: name, Bytes: int64(len(data))})
		for len(data) > 0 {
			n := min(len(data), rapid.IntRange(1, most).Draw(rt, "chunk"))
			if r.Write(data[:n]) != nil {
				break
			}
			data = data[n:]
		}
		if diff := cmp.Diff(want[name], r.Close()); diff != "" {
			rt.Fatalf("%s (-64 kB chunks +drawn):\n%s", name, diff)
		}
	})
}

// feed is an invented ESPI feed of four hours.
const feed = `<?xml version="1.0" encoding="UTF-8"?>
<a:feed xmlns:a="http://www.w3.org/2005/Atom" xmlns:e="http://naesb.org/espi">
<a:entry><a:link rel="self" href="UsagePoint/1"/><a:content><e:UsagePoint><e:ServiceCategory><e:kind>0</e:kind></e:ServiceCategory></e:UsagePoint></a:content></a:entry>
<a:entry><a:link rel="self" href="UsagePoint/1/MeterReading/1"/><a:link rel="related" href="ReadingType/1"/><a:content><e:MeterReading/></a:content></a:entry>
<a:entry><a:link rel="self" href="ReadingType/1"/><a:content><e:ReadingType><e:accumulationBehaviour>4</e:accumulationBehaviour><e:commodity>1</e:commodity><e:flowDirection>1</e:flowDirection><e:intervalLength>3600</e:intervalLength><e:kind>12</e:kind><e:powerOfTenMultiplier>0</e:powerOfTenMultiplier><e:uom>72</e:uom></e:ReadingType></a:content></a:entry>
<a:entry><a:link rel="self" href="UsagePoint/1/MeterReading/1/IntervalBlock/1"/><a:link rel="up" href="UsagePoint/1/MeterReading/1/IntervalBlock"/><a:content><e:IntervalBlock><e:interval><e:duration>14400</e:duration><e:start>1709251200</e:start></e:interval>
<e:IntervalReading><e:timePeriod><e:duration>3600</e:duration><e:start>1709251200</e:start></e:timePeriod><e:value>512</e:value></e:IntervalReading>
<e:IntervalReading><e:timePeriod><e:duration>3600</e:duration><e:start>1709254800</e:start></e:timePeriod><e:value>498</e:value></e:IntervalReading>
<e:IntervalReading><e:timePeriod><e:duration>3600</e:duration><e:start>1709258400</e:start></e:timePeriod><e:value>733</e:value></e:IntervalReading>
<e:IntervalReading><e:timePeriod><e:duration>3600</e:duration><e:start>1709262000</e:start></e:timePeriod><e:value>257</e:value></e:IntervalReading>
</e:IntervalBlock></a:content></a:entry></a:feed>`

func TestFeed(t *testing.T) {
	r := only(t, read(t, "feed.xml", []byte(feed), interval.Options{}))
	if got := all(r.Channels[0]).String(); got != "2" || r.Source.Rows != 4 {
		t.Errorf("%s kWh of %d readings, want 2 of 4", got, r.Source.Rows)
	}
}

// TestOrderFarDown: dates that the head does not decide are read anew when a
// row shows their order; rows of both orders are a problem.
func TestOrderFarDown(t *testing.T) {
	var b strings.Builder
	b.WriteString("Time,House (kWh)\n")
	row := func(day, minute int) { fmt.Fprintf(&b, "%02d/03/2024 %02d:%02d,0.010\n", day, minute/60, minute%60) }
	for day := 1; day <= 13; day++ {
		for minute := range 1440 {
			row(day, minute)
		}
	}
	f := read(t, "house.csv", []byte(b.String()), interval.Options{Settings: map[string]string{"order": "month-first"}})
	r := only(t, f)
	if got := r.Channels[0].First.String(); got != "2024-03-01" || r.Source.Rows != 13*1440 {
		t.Errorf("%d readings from %s", r.Source.Rows, got)
	}
	b.WriteString("03/14/2024 00:00,0.010\n")
	f = read(t, "house.csv", []byte(b.String()), interval.Options{})
	if len(f.Problems) != 1 || f.Problems[0].Line < 12*1440 || len(f.Records) != 1 {
		t.Errorf("both orders: %v, %d records", f.Problems, len(f.Records))
	}
}

// endless writes up to so many bytes of a repeated text, and gives how many were
// taken.
func endless(r *interval.Reader, piece string, most int) int {
	chunk := bytes.Repeat([]byte(piece), 1+(1<<16)/len(piece))
	n := 0
	for ; n < most; n += len(chunk) {
		if r.Write(chunk) != nil {
			break
		}
	}
	return n
}

// TestHostileFiles: a clear word for each, after few bytes.
func TestHostileFiles(t *testing.T) {
	for _, c := range []struct{ name, begins, piece, want string }{
		{"no line ends", "", "a", "readings within days"},
		{"no line ends, zeros", "", "\x00", "a text"},
		{"digits without end", "", "7", "readings within days"},
		{"a table whose line has no end", string(days(70, iso)), "9", "lines of at most 64 kB"},
		{"tags without end", "<feed>", "<a>", ""},
		{"a tag without end", "<feed ", "a", ""},
		{"prose", "", "It rained all day and nobody wrote anything down.\n", "readings within days"},
		{"a spreadsheet", "PK\x03\x04", "\x00\x01\x02", "save the sheet as CSV"},
		{"a page", "<!DOCTYPE html><html>", "<p>Sign in</p>", "a page of the web"},
		{"JSON", "{\"a\":", "[1,", "JSON"},
		{"packed", "\x1F\x8B\x08", "\x01\x7F", "gzip"},
		{"an entity bomb", `<!DOCTYPE feed [<!ENTITY a "aaaa"><!ENTITY b "&a;&a;">]><feed>&b;`, "&b;", ""},
	} {
		r := interval.New(interval.Options{File: c.name})
		taken := 0
		if r.Write([]byte(c.begins)) == nil {
			taken = endless(r, c.piece, 100<<20)
		}
		f := r.Close()
		if len(f.Problems) == 0 || !strings.Contains(f.Problems[0].String(), c.want) || taken > 8<<20 {
			t.Errorf("%s: after %d bytes %v", c.name, taken, f.Problems)
		}
	}
	for _, empty := range []string{"", "\n\n", "\ufeff", " "} {
		if f := read(t, "empty.csv", []byte(empty), interval.Options{}); len(f.Problems) != 1 {
			t.Errorf("%q: %v", empty, f.Problems)
		}
	}
}

func FuzzReader(f *testing.F) {
	f.Add(quarters(iso), 7)
	f.Add([]byte(feed), 100)
	f.Add(utf16Of(quarters(iso), true, true), 33)
	f.Add([]byte("Day;kWh\n1.3.2024;11,5\n"), 1)
	f.Fuzz(func(t *testing.T, data []byte, cut int) {
		whole := interval.New(interval.Options{})
		_ = whole.Write(data)
		want := whole.Close()
		cut = max(0, min(cut, len(data)))
		parts := interval.New(interval.Options{})
		if parts.Write(data[:cut]) == nil {
			_ = parts.Write(data[cut:])
		}
		if diff := cmp.Diff(want, parts.Close()); diff != "" {
			t.Fatalf("cut at %d:\n%s", cut, diff)
		}
		for _, c := range want.Records {
			if _, problems := record.Parse(record.Format(c.Record)); len(problems) > 0 {
				t.Fatalf("the record can't be read again: %v", problems)
			}
		}
	})
}
