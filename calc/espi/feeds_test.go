package espi

import (
	"bytes"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"splittally/calc/energy"
	"splittally/calc/record"
	"splittally/calc/zone"
)

var update = flag.Bool("update", false, "write the golden files anew")

// text writes down a result, record and all.
func text(result Result) string {
	var b strings.Builder
	for _, p := range result.Problems {
		fmt.Fprintf(&b, "problem: %v\n", p)
	}
	for _, n := range result.Notices {
		fmt.Fprintf(&b, "notice: %s\n", n)
	}
	for _, s := range result.Settings {
		fmt.Fprintf(&b, "setting %s: %s: %s (sure: %v) %s\n", s.ID, s.Label, s.Taken, s.Sure, s.Why)
		for _, c := range s.Choices {
			fmt.Fprintf(&b, "  %s: %s\n", c.ID, c.Label)
		}
	}
	for _, bill := range result.Bills {
		fmt.Fprintf(&b, "bill %s to %s: %s kWh, %s %s. %s\n", bill.From, bill.To, bill.KWh, bill.Total, bill.Currency, bill.Words)
	}
	for _, m := range result.Meters {
		fmt.Fprintf(&b, "meter: %s (usable: %v) %s\n", m.Name, m.Usable, m.Why)
		for _, c := range m.Costs {
			if c.Amount != "" {
				fmt.Fprintf(&b, "cost: %s %s of %d\n", c.Amount, c.Currency, c.Readings)
			}
		}
		fmt.Fprintln(&b, strings.Join(m.Heads, " | "))
		for _, r := range m.Rows {
			fmt.Fprintln(&b, strings.Join(r, " | "))
		}
		if m.Usable {
			b.WriteString(record.Format(m.Record))
		}
	}
	return b.String()
}

// ownZone is the person's own clock in these tests.
var ownZone = zone.Parameters{Offset: -18000, Summer: 3600, Start: 0x360E2000, End: 0xB40E2000}.Rules(2000, 2030)

func feeds(t testing.TB) map[string][]byte {
	t.Helper()
	names, _ := filepath.Glob("testdata/*.xml")
	if len(names) == 0 {
		t.Fatal("no feeds in testdata")
	}
	files := map[string][]byte{}
	for _, name := range names {
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		files[strings.TrimSuffix(filepath.Base(name), ".xml")] = text
	}
	return files
}

func TestFeeds(t *testing.T) {
	for name, feed := range feeds(t) {
		result, _ := readWith(feed, Options{Zone: ownZone}, 0)
		got := text(result)
		golden := filepath.Join("testdata", name+".txt")
		if *update {
			if err := os.WriteFile(golden, []byte(got), 0o644); err != nil {
				t.Fatal(err)
			}
		}
		want, err := os.ReadFile(golden)
		if err != nil {
			t.Fatal(err)
		}
		if diff := cmp.Diff(string(want), got); diff != "" {
			t.Errorf("%s: %s", name, diff)
		}
	}
}

// TestTotals has what each feed was made with, worked out by hand.
func TestTotals(t *testing.T) {
	const wh = energy.WattHour
	for _, c := range []struct {
		feed  string
		total []energy.Energy // of each channel of the first meter
		days  []energy.Energy // of the first
	}{
		// 25 hours of 1000 + 10k Wh from midnight on, on the day of 25 hours
		{"southern-register", []energy.Energy{(25*1000 + 10*300) * wh}, []energy.Energy{28_000 * wh}},
		// 20 half hours of 100 + k, 24 of 200 + k
		{"no-time-period", []energy.Energy{(2000 + 190 + 4800 + 276) * wh}, []energy.Energy{7266 * wh}},
		// 48 half hours of 300 + k and 500 + k, less the hours of sun, and of the night
		{"both-ways", []energy.Energy{(24*300 + 1128 - 660 - 300 - 300 - 21) * wh, (24*500 + 660) * wh}, nil},
		// k − 12 kWh and a quarter, away from zero
		{"nested", []energy.Energy{(-78_000 - 12*250 + 66_000 + 12*250) * wh}, nil},
		// 96 quarter hours of 100.1 + k/10 W
		{"power-type-last", []energy.Energy{(96*1001 + 4560) * wh / 10 / 4}, nil},
	} {
		result, _ := readWith(feeds(t)[c.feed], Options{Zone: ownZone}, 0)
		channels := result.Meters[0].Record.Channels
		if len(channels) != len(c.total) {
			t.Fatalf("%s: %d channels, want %d", c.feed, len(channels), len(c.total))
		}
		for i, want := range c.total {
			var got energy.Energy
			for k := range channels[i].Days {
				e, _ := channels[i].Days[k].Energy()
				if got += e; i == 0 && k < len(c.days) && e != c.days[k] {
					t.Errorf("%s, day %d: %v, want %v", c.feed, k, e, c.days[k])
				}
			}
			if got != want {
				t.Errorf("%s, channel %d: %v, want %v", c.feed, i, got, want)
			}
		}
	}
}

// TestOrderOfEntries: what a feed comes to does not depend on the order of its
// entries, but for the names of clocks that are met too late.
func TestOrderOfEntries(t *testing.T) {
	for _, name := range []string{"southern-register", "no-time-period", "both-ways"} {
		feed := feeds(t)[name]
		prefix, end := "", "</feed>"
		if bytes.Contains(feed, []byte("<a:entry>")) {
			prefix, end = "a:", "</a:feed>"
		}
		open, close := []byte("<"+prefix+"entry>"), []byte("</"+prefix+"entry>\n")
		first := bytes.Index(feed, open)
		entries := bytes.SplitAfter(feed[first:bytes.LastIndex(feed, []byte(end))], close)
		entries = entries[:len(entries)-1]
		want, _ := readWith(feed, Options{Zone: ownZone}, 0)
		rapid.Check(t, func(t *rapid.T) {
			shuffled := bytes.Join(rapid.Permutation(entries).Draw(t, "entries"), nil)
			got, _ := readWith(append(append(append([]byte{}, feed[:first]...), shuffled...), end...), Options{Zone: ownZone}, 0)
			if diff := cmp.Diff(want.Meters[0].Record.Channels, got.Meters[0].Record.Channels); diff != "" {
				t.Fatalf("%s: %s", name, diff)
			}
		})
	}
}

// TestHalfHours: the hours of a clock that is half an hour off are exact if the
// feed says so before its readings, and told to be off if it says so after them.
func TestHalfHours(t *testing.T) {
	const clock = "<a:entry><a:link rel='self' href='LocalTimeParameters/1'/><a:content><LocalTimeParameters><dstOffset>0</dstOffset><tzOffset>-12600</tzOffset></LocalTimeParameters></a:content></a:entry>"
	var readings [][4]int64
	for k := range int64(48) {
		readings = append(readings, [4]int64{1330572600 + 1800*k, 1800, 100 + k, 0}) // from midnight on
	}
	whole := string(feedOf(deltaWh, "", readings))
	from := strings.Index(whole, "<a:entry><a:link rel='self' href='LocalTimeParameters/1'")
	to := from + strings.Index(whole[from:], "</a:entry>") + len("</a:entry>\n")
	for _, c := range []struct {
		feed string
		told bool
		hour energy.Energy // the first
	}{
		{whole[:from] + clock + whole[to:], false, 201 * energy.WattHour},
		{strings.Replace(whole[:from]+whole[to:], "</a:feed>", clock+"</a:feed>", 1), true, 100 * energy.WattHour},
	} {
		_, m := published(t, []byte(c.feed))
		told := strings.Contains(strings.Join(m.Record.Source.Said, " "), "30 minutes off")
		if got := m.Record.Channels[0].Days[0].Hours[0].Energy; told != c.told || got != c.hour {
			t.Errorf("told %v, first hour %v; want %v, %v", told, got, c.told, c.hour)
		}
	}
}

// TestAnyChunks: what a feed comes to does not depend on where it is cut.
func TestAnyChunks(t *testing.T) {
	for name, feed := range feeds(t) {
		whole, _ := readWith(feed, Options{Zone: ownZone}, 0)
		want := text(whole)
		if got, _ := readWith(feed, Options{Zone: ownZone}, 1); text(got) != want {
			t.Errorf("%s byte by byte: %s", name, cmp.Diff(want, text(got)))
		}
		rapid.Check(t, func(t *rapid.T) {
			r := NewReader(Options{Zone: ownZone})
			for rest := feed; len(rest) > 0; {
				n := rapid.IntRange(1, min(len(rest), 3000)).Draw(t, "length")
				if r.Write(rest[:n]) != nil {
					break
				}
				rest = rest[n:]
			}
			if got := text(r.Close()); got != want {
				t.Fatalf("%s: %s", name, cmp.Diff(want, got))
			}
		})
	}
}

func FuzzReader(f *testing.F) {
	for _, feed := range feeds(f) {
		f.Add(feed, 100)
	}
	f.Fuzz(func(t *testing.T, feed []byte, n int) {
		whole, _ := readWith(feed, Options{Zone: ownZone}, 0)
		pieces, _ := readWith(feed, Options{Zone: ownZone}, max(1, n%1000))
		if text(whole) != text(pieces) {
			t.Error(cmp.Diff(text(whole), text(pieces)))
		}
		for _, m := range whole.Meters {
			if _, problems := record.Parse(record.Format(m.Record)); m.Usable && len(problems) > 0 {
				t.Errorf("the record of %q cannot be read again: %v", m.Name, problems)
			}
		}
	})
}
