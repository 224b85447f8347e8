package table

import (
	"testing"

	"splittally/calc/intake/words"
)

func TestReadHeading(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name string
		unit words.Unit
		has  tag
		not  tag
	}{
		{"Energy (kWh)", words.KilowattHour, ofEnergy, ofPower | ofOther},
		{"use [W]", words.Watt, ofUse, ofOther},
		{"kW", words.Kilowatt, 0, ofOther | ofPerhaps},
		{"Wh_total", words.WattHour, ofTotal, ofOther},
		{"KWH/hh (per half hour)", words.KilowattHour, 0, ofOther},
		{"gridImportKWh", words.KilowattHour, ofImport | ofGrid, ofExport},
		{"gridExportKWh", words.KilowattHour, ofExport, ofImport},
		{"energyUsedWh", words.WattHour, ofUse | ofEnergy, 0},
		{"kWhImport", words.KilowattHour, ofImport, 0},
		{"Energy to grid (Wh)", words.WattHour, ofExport, ofImport},
		{"from the grid, W", words.Watt, ofImport, ofExport},
		{"PV-Erzeugung [kWh]", words.KilowattHour, ofProduction, 0},
		{"Netzbezug", 0, ofImport, 0},
		{"Einspeisung", 0, ofExport, 0},
		{"Teruglevering (kWh)", words.KilowattHour, ofExport, ofImport},
		{"Énergie soutirée", 0, ofImport | ofEnergy, 0},
		{"Förbrukning kWh", words.KilowattHour, ofUse, 0},
		{"general_supply_kwh", words.KilowattHour, ofImport, ofProduction},
		{"Voltage (V)", words.Other, ofOther, 0},
		{"Power factor", 0, ofOther, 0},
		{"Reactive power (kvar)", words.Other, ofOther, 0},
		{"Outdoor temperature", 0, ofOther, 0},
		{"Current (A)", words.Other, ofPerhaps, 0},
		{"Cost ($)", words.Money, ofOther, 0},
		{"ct/kWh", words.Money, ofOther, 0},
		{"Gas (kWh)", words.KilowattHour, ofOther, 0},
		{"Water heater (kWh)", words.KilowattHour, 0, ofOther},
		{"Battery discharge (W)", words.Watt, ofOther, 0},
		{"interval_end_datetime", 0, ofEnd, ofStart},
		{"Hour beginning", 0, ofStart | ofHour, ofEnd},
		{"von", 0, ofStart, ofEnd},
		{"reading_datetime", 0, ofReading, ofStart | ofEnd},
		{"Time (UTC)", 0, ofUTC, 0},
		{"Standard meter", 0, 0, ofTotal},
	} {
		h := readHeading(c.name)
		if h.unit != c.unit || h.tags&c.has != c.has || h.tags&c.not != 0 {
			t.Errorf("%q: unit %q tags %b, want %q with %b and without %b", c.name, h.unit.Name(), h.tags, c.unit.Name(), c.has, c.not)
		}
	}
}

func TestLegOf(t *testing.T) {
	t.Parallel()
	for name, want := range map[string]byte{
		"Leg A": 'a', "Leg 2 (kWh)": 'b', "L1 [W]": 'a', "P_L3 (W)": 'c', "phase 2": 'b', "Line 1 kW": 'a', "leg1": 'a', "P2 (W)": 'b', "Phase C": 'c',
		"Total": 0, "Kitchen": 0, "Pool pump": 0,
	} {
		if h := readHeading(name); h.leg != want {
			t.Errorf("%q is leg %q, want %q", name, h.leg, want)
		}
	}
}
