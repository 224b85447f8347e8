package intake

import (
	"fmt"
	"strings"
	"testing"

	"splittally/calc/calendar"
	"splittally/calc/ledger"
)

// hoursOf writes a line for each of the hours named, with figures that neither
// rise nor fall: 0.001, 0.102, 0.003 … In a pattern, %s is the day, %02d the hour.
func hoursOf(heading, pattern, day string, hours ...int) string {
	var out strings.Builder
	out.WriteString(heading + "\n")
	for i, h := range hours {
		fmt.Fprintf(&out, pattern+",0.%03d\n", day, h, i+1+i%2*100)
	}
	return out.String()
}

// upTo gives the numbers from one to another, without one and with one twice,
// unless these are 0.
func upTo(from, to, without, twice int) []int {
	var out []int
	for h := from; h <= to; h++ {
		if h != without || without == 0 {
			out = append(out, h)
		}
		if h == twice && twice != 0 {
			out = append(out, h)
		}
	}
	return out
}

// brief gives the first slots of a ledger: from, to, energy, and + for a second
// run; and how many there are.
func brief(l ledger.Ledger, first int) string {
	var out []string
	for _, s := range l.Slots[:min(first, len(l.Slots))] {
		text := fmt.Sprintf("%d:%02d-%d:%02d %s", s.From/60, s.From%60, s.To/60, s.To%60, s.Energy.Decimal())
		if s.Again {
			text += "+"
		}
		out = append(out, text)
	}
	return fmt.Sprintf("%s; %d", strings.Join(out, ", "), len(l.Slots))
}

func TestSlotCases(t *testing.T) {
	for _, c := range []struct{ what, text, want string }{
		{
			"hours that end at 24:00",
			hoursOf("Date,Hour ending,kWh", "%s,%02d:00", "2024-01-17", upTo(1, 24, 0, 0)...),
			"0:00-1:00 0.001, 1:00-2:00 0.102, 2:00-3:00 0.003, 3:00-4:00 0.104; 24",
		},
		{
			"numbered on, in spring",
			hoursOf("Date,Hour ending,kWh", "%s,%02d:00", "2024-03-10", upTo(1, 24, 3, 0)...),
			"0:00-1:00 0.001, 1:00-2:00 0.102, 3:00-4:00 0.003, 4:00-5:00 0.104; 23",
		},
		{
			"by the clock, in spring",
			hoursOf("Date,Hour ending,kWh", "%s,%02d:00", "2024-03-10", upTo(1, 24, 2, 0)...),
			"0:00-1:00 0.001, 1:00-2:00 0.102, 3:00-4:00 0.003, 4:00-5:00 0.104; 23",
		},
		{
			"numbered on, in autumn",
			hoursOf("Date,Hour ending,kWh", "%s,%02d:00", "2024-11-03", upTo(1, 24, 0, 2)...),
			"0:00-1:00 0.001, 1:00-2:00 0.102, 1:00-2:00 0.003+, 2:00-3:00 0.104; 25",
		},
		{
			"by the clock, in autumn",
			hoursOf("Date,Hour ending,kWh", "%s,%02d:00", "2024-11-03", upTo(1, 24, 0, 1)...),
			"0:00-1:00 0.001, 1:00-2:00 0.102, 1:00-2:00 0.003+, 2:00-3:00 0.104; 25",
		},
		{
			"numbered hours, in autumn",
			hoursOf("Date,Hour,kWh", "%s,%d", "2024-10-27", upTo(0, 23, 0, 2)...),
			"0:00-1:00 0.001, 1:00-2:00 0.102, 2:00-3:00 0.003, 2:00-3:00 0.104+; 25",
		},
		{
			"hours across, a blank in the missing one",
			"Date" + each(24, func(i int) string { return fmt.Sprintf(",%d:00", i) }) + "\n2024-03-31" +
				each(24, func(i int) string {
					return map[bool]string{true: ",", false: fmt.Sprintf(",0.%03d", i+1+i%2*100)}[i == 2]
				}) + "\n",
			"0:00-1:00 0.001, 1:00-2:00 0.102, 3:00-4:00 0.104; 23",
		},
		{
			"starts that are a minute late at times",
			"time,kWh\n" + each(24, func(i int) string { return fmt.Sprintf("2024-01-17 %02d:%02d,0.%03d\n", i, i%5/4, i+1+i%2*100) }),
			"0:00-1:00 0.001, 1:00-2:00 0.102, 2:00-3:00 0.003; 24",
		},
		{
			"mean powers that leave a rest",
			"time,W\n" + each(72, func(i int) string { return fmt.Sprintf("2024-01-17 %02d:%02d,1\n", i/3, i%3*20) }),
			"0:00-0:20 0.000333333, 0:20-0:40 0.000333333, 0:40-1:00 0.000333334; 72",
		},
		{
			"a part of a day",
			hoursOf("start,kWh", "%s %02d:00", "2024-01-17", 5, 6, 7, 11),
			"5:00-6:00 0.001, 6:00-7:00 0.102, 7:00-8:00 0.003, 11:00-12:00 0.104; 4",
		},
		{
			"a read left out by the hour: the day is whole, but not its hours",
			"time,meter reading kWh\n" + each(25, func(i int) string {
				if i > 8 && i < 12 {
					return ""
				}
				return fmt.Sprintf("2024-01-%d %02d:00,%d.5\n", 17+i/24, i%24, 8400+i)
			}),
			"; 0",
		},
		{"four hours each", "start,kWh\n" + each(12, func(i int) string { return fmt.Sprintf("2024-01-%d %02d:00,1.5\n", 17+i/6, i%6*4) }), "; 0"},
		{"two hours each", "start,kWh\n" + each(24, func(i int) string { return fmt.Sprintf("2024-01-%d %02d:00,1.5\n", 17+i/12, i%12*2) }), "0:00-2:00 1.5; 24"},
		{"from half past to half past", "start,kWh\n" + each(24, func(i int) string { return fmt.Sprintf("2024-01-17 %02d:30,1.5\n", i) }), "; 0"},
		{"daily totals", "2024-01-17 9.1\n2024-01-18 8.2\n2024-01-19 9.3\n", "; 0"},
		{"daily totals with a time", "2024-01-17 00:00 9.1\n2024-01-18 00:00 8.2\n2024-01-19 00:00 9.3\n", "; 0"},
		{
			"parts of a tariff",
			"start,Peak,Off-peak\n" + each(24, func(i int) string { return fmt.Sprintf("2024-01-17 %02d:00,%d.%d,0.%d\n", i, i%2, i%5, i%7) }),
			"; 0",
		},
	} {
		r := Read(c.text, Options{Path: "m"})
		if len(r.Ledgers) != 1 {
			t.Errorf("%s: not one ledger\n%s", c.what, printed(r))
			continue
		}
		checkSlots(t, r.Ledgers[0])
		if got := brief(r.Ledgers[0], strings.Count(c.want, "-")); got != c.want {
			t.Errorf("%s:\n%s, want\n%s\n%s", c.what, got, c.want, printed(r))
		}
	}
}

func each(n int, text func(i int) string) string {
	var out strings.Builder
	for i := range n {
		out.WriteString(text(i))
	}
	return out.String()
}

// TestTotalOfPartsHasSlots reads a total beside the parts of a tariff: unlike
// parts that are added up, it has hours of its own.
func TestTotalOfPartsHasSlots(t *testing.T) {
	text := "start,Peak kWh,Off-peak kWh,Total kWh\n" + each(24, func(i int) string {
		return fmt.Sprintf("2024-01-17 %02d:00,0.%d,0.%d,0.%d\n", i, 1+i%4, 1+i%5, 2+i%4+i%5)
	})
	r := Read(text, Options{Path: "m"})
	if len(r.Ledgers) != 1 || len(r.Ledgers[0].On(calendar.Day(19739))) != 24 {
		t.Errorf("not one ledger of 24 hours\n%s", printed(r))
	}
}
