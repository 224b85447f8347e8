package report

import (
	"encoding/csv"
	"strconv"
	"strings"
	"testing"
	"unicode"

	"pgregory.net/rapid"

	"splittally/calc"
)

// read reads a table as RFC 4180 has it: a head, rows as long as the head, lines
// that end in CRLF, behind a byte order mark.
func read(t *testing.T, name, table string) [][]string {
	t.Helper()
	bare, marked := strings.CutPrefix(table, "\ufeff")
	if !marked {
		t.Errorf("%s: no byte order mark", name)
	}
	if strings.Count(bare, "\n") != strings.Count(bare, "\r\n") || !strings.HasSuffix(bare, "\r\n") {
		t.Errorf("%s: lines that do not end in CRLF", name)
	}
	rows, err := csv.NewReader(strings.NewReader(bare)).ReadAll() // wants rows of one length
	if err != nil {
		t.Fatalf("%s: %v", name, err)
	}
	return rows
}

// column gives the cells below a head.
func column(t *testing.T, rows [][]string, head string) (out []string) {
	t.Helper()
	for i, h := range rows[0] {
		if h != head {
			continue
		}
		for _, row := range rows[1:] {
			out = append(out, row[i])
		}
		return out
	}
	t.Fatalf("no column %q in %q", head, rows[0])
	return nil
}

// Each figure is a number, each day a day, and the days of a bill add up to the
// bill's energy.
func TestTables(t *testing.T) {
	for name, c := range cases(t) {
		f := calc.Work(c)
		days, bills := read(t, name, DaysCSV(f)), read(t, name, BillsCSV(f))
		if len(bills) != 1+len(f.Periods) {
			t.Errorf("%s: %d rows for %d bills", name, len(bills)-1, len(f.Periods))
		}
		checkNumbers(t, name, days)
		checkNumbers(t, name, bills)
		for _, i := range f.Instruments {
			of := harmless(i.Name)
			sums := map[string]float64{}
			kWh, kind, bill := column(t, days, of+" kWh"), column(t, days, of+" kind"), column(t, days, "bill")
			for n := range kWh {
				v, _ := strconv.ParseFloat(kWh[n], 64)
				sums[bill[n]] += v
				if (kWh[n] == "") != (kind[n] == "missing") {
					t.Errorf("%s: a day that is %s has %q kWh", name, kind[n], kWh[n])
				}
			}
			for n, total := range column(t, bills, of+" kWh") {
				want, err := strconv.ParseFloat(total, 64)
				if got := sums[strconv.Itoa(n+1)]; err == nil && !overlaps(f, n) && (got-want > 1e-6 || want-got > 1e-6) {
					t.Errorf("%s: the days of bill %d of %s add up to %v, the bill says %v", name, n+1, i.Name, got, want)
				}
			}
		}
	}
}

func overlaps(f calc.Findings, n int) bool {
	for k, p := range f.Periods {
		if k != n && p.Span.Common(f.Periods[n].Span).Days() > 0 {
			return true
		}
	}
	return false
}

func checkNumbers(t *testing.T, name string, rows [][]string) {
	t.Helper()
	for i, head := range rows[0] {
		isWords := strings.HasSuffix(head, "kind") || strings.HasSuffix(head, "verdict") || head == "currency" || head == "bill"
		isDay := head == "date" || head == "from" || head == "to"
		for _, row := range rows[1:] {
			cell := row[i]
			_, err := strconv.ParseFloat(cell, 64)
			switch {
			case cell == "" || isWords:
			case isDay && (len(cell) != 10 || cell[4] != '-' || cell[7] != '-'):
				t.Errorf("%s: %q below %s is no day", name, cell, head)
			case !isDay && err != nil:
				t.Errorf("%s: %q below %s is no number", name, cell, head)
			}
		}
	}
}

// formulas are cells that a spreadsheet would reckon with or act on: those of
// OWASP's page on CSV injection (owasp.org/www-community/attacks/CSV_Injection),
// from memory, and more that are meant to get past a guard.
var formulas = []string{
	`=1+1`, `+1+1`, `-1+1`, `@SUM(1)`, "\t=1+1", "\r=1+1", "\n=1+1", ` =1+1`, "\u00a0=1+1", "\u3000=1+1", "\u200b=1+1", "\ufeff=1+1",
	`＝1+1`, `＋1`, `－1`, `＠x`, `=cmd|' /C calc'!A0`, `=HYPERLINK("http://b.invalid","x")`, `"=1+1`, `'=1+1`, `a;=1+1`, "a\t=1+1", "a\r\n=1+1", `a",=1+1,"`, `a",=1+1`,
	`|x`, `%0A=1`, `−1`, "\u202e=1", "\x00=1", `;=1`, `,=1`,
}

// No cell from a person begins as a formula does, whether the spreadsheet parts
// cells by commas, by semicolons or by tabs.
func TestNoFormulas(t *testing.T) {
	for _, bad := range formulas {
		c := spoiled(t, bad, func(int) bool { return false })
		for i := range c.Monitors {
			c.Monitors[i].Name = bad
		}
		c.Price.Currency = bad
		f := calc.Work(c)
		for i := range f.Instruments {
			f.Instruments[i].Name = bad
		}
		for i := range f.Accounts {
			f.Accounts[i].Currency.Code = bad
		}
		for _, table := range []string{DaysCSV(f), BillsCSV(f)} {
			for _, row := range read(t, bad, table) {
				for _, cell := range row {
					checkHarmless(t, bad, cell)
				}
			}
			for _, parted := range []rune{';', '\t'} {
				for _, line := range strings.Split(strings.TrimPrefix(table, "\ufeff"), "\r\n") {
					for _, cell := range strings.Split(line, string(parted)) {
						checkHarmless(t, bad, cell)
					}
				}
			}
		}
	}
}

func checkHarmless(t *testing.T, bad, cell string) {
	t.Helper()
	if _, err := strconv.ParseFloat(cell, 64); err == nil {
		return // a number of ours
	}
	bare := strings.TrimLeftFunc(cell, func(r rune) bool {
		return unicode.IsSpace(r) || unicode.IsControl(r) || unicode.Is(unicode.Cf, r) || r == '"'
	})
	if bare != "" && strings.ContainsRune("=+-@＝＋－＠", []rune(bare)[0]) {
		t.Errorf("%q gives the cell %q", bad, cell)
	}
}

func TestHarmless(t *testing.T) {
	for typed, want := range map[string]string{
		"Hallway monitor": "Hallway monitor", "": "", "2nd meter": "2nd meter", "a=b": "a=b", "e-mail @ home": "e-mail @ home",
		"=x": "'=x", " -x": "'-x", "a;b": "a,b", "«+»": "«+»",
	} {
		if got := harmless(typed); got != want {
			t.Errorf("harmless(%q) = %q, want %q", typed, got, want)
		}
	}
	rapid.Check(t, func(rt *rapid.T) {
		typed := rapid.StringOf(rapid.OneOf(rapid.Rune(), rapid.SampledFrom([]rune("=+-@\t\r\n ;,\"'＝＋－＠\u200b\u00a0")))).Draw(rt, "typed")
		s := newSheet()
		s.name(typed, " kWh")
		s.end()
		for _, row := range read(t, typed, s.b.String()) {
			checkHarmless(t, typed, row[0])
		}
		if t.Failed() {
			rt.FailNow()
		}
	})
}

// A minus of ours stays a number, without an apostrophe.
func TestNegativeNumbersStayNumbers(t *testing.T) {
	c := cases(t)["a-constant-load-unseen"]
	rows := read(t, "bills", BillsCSV(calc.Work(c)))
	if got := column(t, rows, "Meter-room clamps error %")[0]; got != "-26.857" {
		t.Errorf("the error of the first bill is %q, want -26.857", got)
	}
}
