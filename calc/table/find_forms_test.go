package table

import (
	"fmt"
	"strings"
	"testing"

	"splittally/calc/record"
	"splittally/calc/series"
)

// formHead writes n rows under a heading.
func formHead(heading string, n int, row func(i int) string) []byte {
	var b strings.Builder
	if heading != "" {
		b.WriteString(heading + "\n")
	}
	for i := range n {
		b.WriteString(row(i) + "\n")
	}
	return []byte(b.String())
}

func findForm(t *testing.T, head []byte) (Layout, map[string]Setting) {
	t.Helper()
	l, settings, err := Find(head, false, nil)
	if err != nil {
		t.Fatalf("%.200s: %v", head, err)
	}
	of := map[string]Setting{}
	for _, s := range settings {
		of[s.ID] = s
	}
	return l, of
}

// TestEndColumns: a second column of times is the end of each interval, and
// never a figure.
func TestEndColumns(t *testing.T) {
	unix := func(i int) string { return fmt.Sprintf("%d,%d,0.%03d", 1648209600+300*i, 1648209900+300*i, 40+i%7) }
	clock := func(i int) string {
		at := func(i int) string { return fmt.Sprintf("2024-03-%02d %02d:%02d", 5+i/96, i%96/4, i%4*15) }
		return fmt.Sprintf("%s,%s,0.%03d", at(i+30), at(i+31), 40+i%7)
	}
	serial := func(i int) string {
		return fmt.Sprintf("%.10f,%.10f,0.%03d", 45000.5+float64(i)/96, 45000.5+float64(i+1)/96, 40+i%7)
	}
	for name, head := range map[string][]byte{
		"Unix times": formHead("Desde,Fin,Energía [kWh]", 100, unix), "Unix times, no heading": formHead("", 100, unix),
		"clock times, no heading": formHead("", 100, clock), "serial days": formHead("Inizio,Fine,Consumo (kWh)", 100, serial),
	} {
		l, settings := findForm(t, head)
		if s, asked := settings["column.1.role"]; asked || l.Columns[1].Used || !l.Columns[2].Used || l.Ends || !settings["stamps"].Sure {
			t.Errorf("%s: %+v, stamps %+v, %+v", name, l, settings["stamps"], s)
		}
	}
}

// TestStampWords: headings that say start or end, in several languages; de, da
// and the like only where they stand alone.
func TestStampWords(t *testing.T) {
	for heading, want := range map[string]string{
		"Beginn": "start", "Startzeit": "start", "Początek": "start", "Från": "start", "De": "start", "Da": "start", "Od data": "start",
		"Fim": "end", "Endzeit": "end", "Koniec": "end", "Do": "end", "A": "end", "Até": "end",
		"Data da leitura": "", "Data": "", "Hora": "",
	} {
		_, settings := findForm(t, formHead(heading+",kWh", 60, func(i int) string {
			return fmt.Sprintf("2024-03-%02dT%02d:30:00,0.%03d", 5+i/24, i%24, 100+i%9)
		}))
		if s := settings["stamps"]; s.Sure != (want != "") || s.Sure && s.Taken != want {
			t.Errorf("%s: %s, sure %v; want %q", heading, s.Taken, s.Sure, want)
		}
	}
}

// TestRoleWords: which way the energy of a column went.
func TestRoleWords(t *testing.T) {
	for heading, want := range map[string]record.Role{
		"Eksport (kWh)": record.Export, "Levering til nettet in kWh": record.Export, "Energy delivered to grid (kWh)": record.Export,
		"Fotovoltaico": record.Production, "Energia fotovoltaica": record.Production,
		"Energy delivered (kWh)": record.Import, "Levering (kWh)": record.Import,
	} {
		l, settings := findForm(t, formHead("Time,"+heading, 60, func(i int) string {
			return fmt.Sprintf("2024-03-%02dT%02d:30:00,0.%03d", 5+i/24, i%24, 100+i%9)
		}))
		if c := l.Columns[1]; c.Role != want || !settings["column.1.role"].Sure || c.Apart {
			t.Errorf("%s: %s (%v)", heading, c.Role, settings["column.1.role"])
		}
	}
}

// TestRegisterInBlocks: the reads of a register stand in blocks of days that are
// out of order; it is a register all the same.
func TestRegisterInBlocks(t *testing.T) {
	for name, days := range map[string][]int{"later first": {2, 3, 0, 1}, "mixed": {2, 0, 3, 1}, "newest block last": {1, 0, 2, 3}} {
		l, settings := findForm(t, formHead("Time,Total energy in kWh", 96, func(i int) string {
			at := days[i/24]*24 + i%24
			return fmt.Sprintf("2024-03-%02d %02d:00,%d.%03d", 15+at/24, at%24, 39425+at/3, at*37%333+at%3*333)
		}))
		if c := l.Columns[1]; c.Quantity != series.Register || !settings["column.1.kind"].Sure {
			t.Errorf("%s: %+v, %+v", name, c, settings["column.1.kind"])
		}
	}
}

// TestFiguresLikeTimes: figures that could be the days of a spreadsheet stand
// before the times; times of a spreadsheet have the only decimal marks.
func TestFiguresLikeTimes(t *testing.T) {
	l, _ := findForm(t, formHead("Register (kWh);Date/Time", 60, func(i int) string {
		return fmt.Sprintf("38122.%03d;09/%d/2023 %02d:00", 100+i*9, 27+i/24, i%24)
	}))
	if l.Stamp.Date != 1 || !l.Columns[0].Used || l.Columns[0].Quantity != series.Register {
		t.Errorf("%+v", l)
	}
	l, _ = findForm(t, formHead("Zeit;Leistung (W)", 60, func(i int) string {
		return strings.Replace(fmt.Sprintf("%.10f", 45000.25+float64(i)/96), ".", ",", 1) + fmt.Sprintf("|%d", 60+i%9*31)
	}))
	if l.Decimal != ',' || l.Stamp.Form != Serial {
		t.Errorf("%+v", l)
	}
}

// TestRegisterBesideSerials: reads of a register stand before the times of a
// spreadsheet, and could be such.
func TestRegisterBesideSerials(t *testing.T) {
	l, _ := findForm(t, formHead("Consumo_kWh,Data", 60, func(i int) string {
		return fmt.Sprintf("40943.%03d,%.10f", 100+i*9, 44765+float64(i)/24)
	}))
	if l.Stamp.Date != 1 || l.Stamp.Form != Serial || l.Columns[0].Quantity != series.Register {
		t.Errorf("%+v", l)
	}
}

// TestFigureLikeDay: the first read of a register has the digits of a day; its
// row is one of readings, and the heading above it is read.
func TestFigureLikeDay(t *testing.T) {
	l, _ := findForm(t, formHead("Time;Wh", 60, func(i int) string {
		return fmt.Sprintf("%d;%d,%06d", 1489705200000+i*3_600_000, 21330420+i*400+i*i%37, i*7919%1_000_000)
	}))
	if l.Skip != 1 || l.Columns[1].Name != "Wh" || l.Columns[1].Quantity != series.Register {
		t.Errorf("%+v", l)
	}
}

// TestIdleColumn: a column without a unit that is zero as far as the head goes may
// run further down the file, so its being left out is not sure.
func TestIdleColumn(t *testing.T) {
	head := formHead("Time,Grid import,Heat pump", 60, func(i int) string {
		return fmt.Sprintf("2024-03-%02dT%02d:30:00,0.%03d,0", 5+i/24, i%24, 100+i%9)
	})
	if _, settings := findForm(t, head); settings["column.2.role"].Sure {
		t.Errorf("%+v", settings["column.2.role"])
	}
}

// TestLateByASecond: rows two hours apart, some by seconds more.
func TestLateByASecond(t *testing.T) {
	l, _ := findForm(t, formHead("Start,Energy (kWh)", 60, func(i int) string {
		return fmt.Sprintf("2024-03-%02d %02d:00:%02d,0.%03d", 5+i/12, i%12*2, i*i%41, 400+i*i%97)
	}))
	if l.Step != 2*hourLength {
		t.Errorf("%+v", l)
	}
}
