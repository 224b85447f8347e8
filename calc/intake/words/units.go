package words

import (
	"strings"

	"splittally/calc/energy"
)

// Unit is what stands behind or before a number.
type Unit uint8

// The units that are told apart.
const (
	NoUnit Unit = iota
	WattHour
	KilowattHour
	MegawattHour
	GigawattHour
	Watt
	Kilowatt
	Megawatt
	Money // an amount in any currency
	Other // a percentage, a temperature, a count of something
)

// Name gives the unit as it is written.
func (u Unit) Name() string {
	return [...]string{"", "Wh", "kWh", "MWh", "GWh", "W", "kW", "MW", "money", "another quantity"}[u]
}

// IsEnergy says whether u is a unit of energy.
func (u Unit) IsEnergy() bool { return u >= WattHour && u <= GigawattHour }

// IsPower says whether u is a unit of power.
func (u Unit) IsPower() bool { return u >= Watt && u <= Megawatt }

// Size gives one u as an energy; for a unit of power, what it uses in an hour.
// It is 0 for money, other quantities and no unit.
func (u Unit) Size() energy.Energy {
	return [...]energy.Energy{
		0, energy.WattHour, energy.KilowattHour, energy.MegawattHour, 1000 * energy.MegawattHour,
		energy.WattHour, energy.KilowattHour, energy.MegawattHour, 0, 0,
	}[u]
}

// UnitOf gives the unit that a folded word is. Letter case is no help: people
// write KWH and kwh, and a mWh (milliwatt-hour) is of no use in a household.
func UnitOf(folded string) Unit {
	if u := units[folded]; u != 0 || !measured[folded] {
		return u
	}
	return Other
}

// Measured says whether a folded word is a unit of something else than
// electric energy and nothing but that, even where it stands without a number.
func Measured(folded string) bool { return measured[folded] }

var measured = func() map[string]bool {
	table := make(map[string]bool, 60)
	for word := range strings.FieldsSeq("mm cm km/h kmh kph mph m/s hpa mbar kva kvah vah kvar kvarh varh mj gj kj m3 m³ ft3 ft³ cbm ccf hcf " +
		"therm therms thm btu kbtu mmbtu gal gallon gallons liter litre liters litres litros litri kg lb lbs hz ppm") {
		table[word] = true
	}
	return table
}()

// Price says whether a text names an amount of money for each unit of energy.
func Price(text string) bool {
	folded := Fold(text)
	for _, per := range []string{" per kwh", " pro kwh", " je kwh", " par kwh", " por kwh", " al kwh", " za kwh"} {
		if strings.Contains(folded, per) {
			return true
		}
	}
	before, _, ok := strings.Cut(folded, "/kwh")
	if !ok {
		before, _, ok = strings.Cut(folded, "/ kwh")
	}
	if !ok {
		return false
	}
	before = strings.TrimRight(before, " ")
	word := before[strings.LastIndexAny(before, " ([")+1:]
	return units[word] == Money || LabelOf(word) == Cost || word == "c" || word == "p" || word == "rp" || word == "rate" || word == "ore" || word == "gr"
}

var units = map[string]Unit{
	"wh": WattHour, "watthours": WattHour, "watthour": WattHour, "watt-hours": WattHour, "wattstunden": WattHour, "w·h": WattHour, "w-h": WattHour, "w.h": WattHour,
	"kwh": KilowattHour, "kw·h": KilowattHour, "kw-h": KilowattHour, "kw.h": KilowattHour, "kw*h": KilowattHour, "kwhr": KilowattHour, "kwhrs": KilowattHour, "kwhs": KilowattHour,
	"kw-hr": KilowattHour, "kw/h": KilowattHour, "kwh/day": KilowattHour, "kwh/d": KilowattHour, "kwh/tag": KilowattHour, "kwh/jour": KilowattHour, "kwh/dia": KilowattHour,
	"kilowatthours": KilowattHour, "kilowatthour": KilowattHour, "kilowatt-hours": KilowattHour, "kilowatt-hour": KilowattHour, "kilowattstunden": KilowattHour,
	"kilowattheures": KilowattHour, "квтч": KilowattHour, "квт·ч": KilowattHour, "wh/day": WattHour, "wh/d": WattHour,
	"mwh": MegawattHour, "mw·h": MegawattHour, "mw-h": MegawattHour, "mw.h": MegawattHour, "megawatthours": MegawattHour, "megawatt-hours": MegawattHour, "gwh": GigawattHour,
	"w": Watt, "watt": Watt, "watts": Watt, "kw": Kilowatt, "kilowatt": Kilowatt, "kilowatts": Kilowatt, "mw": Megawatt, "megawatt": Megawatt, "megawatts": Megawatt,
	"$": Money, "€": Money, "£": Money, "¥": Money, "₹": Money, "us$": Money, "a$": Money, "ca$": Money, "c$": Money, "r$": Money, "nz$": Money, "¢": Money,
	"usd": Money, "eur": Money, "gbp": Money, "chf": Money, "sek": Money, "nok": Money, "dkk": Money, "cad": Money, "aud": Money, "nzd": Money, "inr": Money, "zar": Money,
	"kr": Money, "rs": Money, "sfr": Money, "zl": Money, "pln": Money, "kc": Money, "czk": Money, "huf": Money, "ft": Money, "lei": Money, "ron": Money, "tl": Money, "try": Money, "руб": Money, "円": Money, "元": Money, "원": Money, "euro": Money, "euros": Money, "dollars": Money, "dollar": Money, "cents": Money, "cent": Money, "ct": Money, "cts": Money, "pence": Money,
	"%": Other, "°": Other, "°c": Other, "°f": Other, "c": Other, "f": Other, "v": Other, "volt": Other, "volts": Other, "a": Other, "amp": Other, "amps": Other, "va": Other, "var": Other,
	"h": Other, "hr": Other, "hrs": Other, "hour": Other, "hours": Other, "min": Other, "mins": Other, "minutes": Other, "s": Other, "sec": Other,
	"day": Other, "days": Other, "guests": Other, "guest": Other, "people": Other, "persons": Other, "personen": Other, "tage": Other, "jours": Other, "dias": Other, "giorni": Other, "dagen": Other, "dagar": Other,
	"km": Other, "mi": Other, "miles": Other, "l": Other, "loads": Other, "times": Other, "x": Other,
}
