package espi

import (
	"strconv"

	"splittally/calc/series"
)

// Codes of the standard that matter (NAESB REQ.21 ESPI, usage.xsd version
// 0.7.20190408). What a code of AccumulationKind means is from memory.
const (
	watts     = 38 // uom
	wattHours = 72

	bulkQuantity         = 1 // accumulationBehaviour
	continuousCumulative = 2
	cumulative           = 3
	summation            = 9

	forward = 1 // flowDirection
	net     = 4
	reverse = 19
	total   = 20

	maximum = 8 // dataQualifier, from memory
	minimum = 9

	electricity = 0 // ServiceCategory kind

	demandKind = 8 // kind
	energyKind = 12
	powerKind  = 37
)

// contradicts says whether the kind of a type is not that of its unit, which is
// believed.
func (t *readingType) contradicts() bool {
	switch t.kind {
	case energyKind:
		return t.uom == watts
	case powerKind, demandKind:
		return t.uom == wattHours
	}
	return false
}

// qualityName gives a quality of reading (QualityOfReading), as what readings are.
func qualityName(quality int) string {
	switch quality {
	case 0:
		return "valid"
	case 7:
		return "edited by hand"
	case 8:
		return "estimated by a reference day"
	case 9:
		return "estimated by linear interpolation"
	case 10:
		return "questionable"
	case 11:
		return "derived"
	case 12:
		return "projected"
	case 13:
		return "mixed"
	case 14:
		return "raw"
	case 15:
		return "normalised for weather"
	case 17:
		return "validated"
	case 18:
		return "verified"
	case 19:
		return "of revenue quality"
	}
	return "of quality " + strconv.Itoa(quality)
}

// quantity gives what the figures of a type are; why is not empty if no record
// can be made of them.
func (t *readingType) quantity() (q series.Quantity, why string) {
	switch t.uom {
	case watts:
		if t.qualifier == maximum || t.qualifier == minimum {
			return series.Power, "it has the largest or smallest powers and not the mean ones"
		}
		return series.Power, ""
	case wattHours:
		switch t.accumulation {
		case bulkQuantity, continuousCumulative, cumulative, summation:
			return series.Register, ""
		}
		return series.Energy, ""
	case -1:
		return series.Energy, "the feed does not say what its figures are"
	case noUnit:
		return series.Energy, "the power of ten of its figures makes no sense"
	}
	return series.Energy, "its figures are in " + unitName(t.uom) + ", which is no energy of electricity"
}

// unitName gives a unit of measure (UomType).
func unitName(uom int) string {
	switch uom {
	case noUnit, -1, 0:
		return "of no known unit"
	case 5:
		return "amperes"
	case 29:
		return "volts"
	case 31:
		return "joules"
	case 33:
		return "hertz"
	case watts:
		return "W"
	case 42:
		return "cubic metres"
	case 61:
		return "VA"
	case 63:
		return "var"
	case 71:
		return "VAh"
	case wattHours:
		return "Wh"
	case 73:
		return "varh"
	case 119:
		return "cubic feet"
	case 132:
		return "Btu"
	case 134:
		return "litres"
	case 169:
		return "therms"
	}
	return "a unit with the number " + strconv.Itoa(uom)
}

// serviceName gives what a ServiceCategory kind stands for (ServiceKind, from
// memory but for electricity and gas).
func serviceName(kind int) string {
	switch kind {
	case electricity:
		return "Electricity"
	case 1:
		return "Gas"
	case 2:
		return "Water"
	case 3:
		return "Time"
	case 4:
		return "Heat"
	case 5:
		return "Refuse"
	case 6:
		return "Sewerage"
	case 7:
		return "Rates"
	case 8:
		return "Television"
	case 9:
		return "Internet"
	}
	return "A service with the number " + strconv.Itoa(kind)
}

// serviceOf gives the ServiceCategory kind that a commodity belongs to (CommodityType); −1 if that
// does not tell.
func serviceOf(commodity int) int {
	switch commodity {
	case 1, 2:
		return electricity
	case 7:
		return 1
	case 9:
		return 2
	}
	return -1
}

// flowName gives the direction of a flow, as part of a name.
func flowName(flow int) string {
	switch flow {
	case reverse:
		return "received from the home"
	case net:
		return "net of what the home gave"
	case total:
		return "both directions together"
	}
	return "delivered"
}

// estimated says whether a quality of reading (QualityOfReading) is that of an
// estimate: 7 manually edited, 8 by a reference day, 9 by interpolation, 12
// projected, 13 a mixture.
func estimated(quality int) bool {
	return quality >= 7 && quality <= 9 || quality == 12 || quality == 13
}

// currencyName gives the code of ISO 4217 for its number; empty if it is none
// that is known here.
func currencyName(number int) string {
	switch number {
	case 36:
		return "AUD"
	case 124:
		return "CAD"
	case 392:
		return "JPY"
	case 410:
		return "KRW"
	case 484:
		return "MXN"
	case 554:
		return "NZD"
	case 826:
		return "GBP"
	case 840:
		return "USD"
	case 978:
		return "EUR"
	}
	return ""
}

// itemName gives the kind of an additional cost (ItemKind).
func itemName(kind int) string {
	switch kind {
	case 1:
		return "generation fee"
	case 2:
		return "delivery fee"
	case 3:
		return "usage fee"
	case 4:
		return "administrative fee"
	case 5:
		return "tax"
	case 6:
		return "generation credit"
	case 7:
		return "delivery credit"
	case 8:
		return "administrative credit"
	case 9:
		return "payment"
	case 10:
		return "information"
	}
	return "item"
}
