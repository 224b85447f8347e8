package words

import (
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
func UnitOf(folded string) Unit { return units[folded] }

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
	"kr": Money, "rs": Money, "sfr": Money, "euro": Money, "euros": Money, "dollars": Money, "dollar": Money, "cents": Money, "cent": Money, "ct": Money, "cts": Money, "pence": Money,
	"%": Other, "°": Other, "°c": Other, "°f": Other, "c": Other, "f": Other, "v": Other, "volt": Other, "volts": Other, "a": Other, "amp": Other, "amps": Other, "va": Other, "kva": Other, "var": Other, "hz": Other,
	"h": Other, "hr": Other, "hrs": Other, "hour": Other, "hours": Other, "min": Other, "mins": Other, "minutes": Other, "s": Other, "sec": Other,
	"day": Other, "days": Other, "guests": Other, "guest": Other, "people": Other, "persons": Other, "personen": Other, "tage": Other, "jours": Other, "dias": Other, "giorni": Other, "dagen": Other, "dagar": Other,
	"km": Other, "mi": Other, "miles": Other, "m3": Other, "m³": Other, "l": Other, "gal": Other, "kg": Other, "therms": Other, "btu": Other, "loads": Other, "times": Other, "x": Other,
}
