package tariff

import (
	"encoding/csv"
	"os"
	"path/filepath"
	"testing"
)

// The delivery part of a real meter's bills: a service charge, a price per kWh
// and a tax of 5.5 % on both. One plan must give every printed line of the
// nine bills before the price changed, to the cent. The price is not printed;
// 0.077711 is the only one of six decimals that fits all nine.
func TestBillsOfARealMeter(t *testing.T) {
	folder := os.Getenv("SPLITTALLY_TRIALS")
	if folder == "" {
		t.Skip("SPLITTALLY_TRIALS names no folder of trial records")
	}
	f, err := os.Open(filepath.Join(folder, "meter-vs-bill", "M5_bills.csv"))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil || len(rows) < 10 {
		t.Fatalf("%d rows, %v", len(rows), err)
	}
	flat := Flat{PerKWh: "0.077711", Fixed: "21.47", Tax: "5.5", Currency: "USD"}
	for _, row := range rows[1:10] {
		b := bill(t, flat, row[3])
		equal(t, "bill "+row[0]+", delivery", b.Lines[0].Amount, row[6])
		equal(t, "bill "+row[0]+", service", b.Lines[1].Amount, row[5])
		equal(t, "bill "+row[0]+", tax", b.Lines[2].Amount, row[7])
	}
}
