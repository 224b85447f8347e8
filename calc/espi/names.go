package espi

// element is an element that matters.
type element uint8

const (
	other element = iota
	feedElement
	entryElement
	linkElement
	titleElement

	usagePointElement
	meterReadingElement
	readingTypeElement
	blockElement
	localTimeElement
	summaryElement

	serviceCategory
	kindElement

	intervalElement
	intervalReading
	timePeriod
	startElement
	durationElement
	valueElement
	costElement
	readingQuality
	qualityElement

	accumulation
	commodityElement
	currencyElement
	dataQualifier
	defaultQuality
	flowDirection
	intervalLength
	phaseElement
	multiplier
	uomElement

	tzOffset
	dstOffset
	dstStartRule
	dstEndRule

	billingPeriod
	billLastPeriod
	costAdditional
	overallLastPeriod
	currentOverall
	costDetail
	amountElement
	noteElement
	itemKind
)

// elementOf gives the element of a name, which is without its prefix.
func elementOf(name []byte) element {
	switch string(name) { // does not allocate
	case "feed":
		return feedElement
	case "entry":
		return entryElement
	case "link":
		return linkElement
	case "title":
		return titleElement
	case "UsagePoint":
		return usagePointElement
	case "MeterReading":
		return meterReadingElement
	case "ReadingType":
		return readingTypeElement
	case "IntervalBlock":
		return blockElement
	case "LocalTimeParameters":
		return localTimeElement
	case "UsageSummary", "ElectricPowerUsageSummary":
		return summaryElement
	case "ServiceCategory":
		return serviceCategory
	case "kind":
		return kindElement
	case "interval":
		return intervalElement
	case "IntervalReading":
		return intervalReading
	case "timePeriod":
		return timePeriod
	case "start":
		return startElement
	case "duration":
		return durationElement
	case "value":
		return valueElement
	case "cost":
		return costElement
	case "ReadingQuality":
		return readingQuality
	case "quality":
		return qualityElement
	case "accumulationBehaviour":
		return accumulation
	case "commodity":
		return commodityElement
	case "currency":
		return currencyElement
	case "dataQualifier":
		return dataQualifier
	case "defaultQuality":
		return defaultQuality
	case "flowDirection":
		return flowDirection
	case "intervalLength":
		return intervalLength
	case "phase":
		return phaseElement
	case "powerOfTenMultiplier":
		return multiplier
	case "uom":
		return uomElement
	case "tzOffset":
		return tzOffset
	case "dstOffset":
		return dstOffset
	case "dstStartRule":
		return dstStartRule
	case "dstEndRule":
		return dstEndRule
	case "billingPeriod":
		return billingPeriod
	case "billLastPeriod":
		return billLastPeriod
	case "costAdditionalLastPeriod":
		return costAdditional
	case "overallConsumptionLastPeriod":
		return overallLastPeriod
	case "currentBillingPeriodOverAllConsumption":
		return currentOverall
	case "costAdditionalDetailLastPeriod":
		return costDetail
	case "amount":
		return amountElement
	case "note":
		return noteElement
	case "itemKind":
		return itemKind
	}
	return other
}

// tells says whether an element alone shows that a text is ESPI.
func (e element) tells() bool {
	return e >= usagePointElement && e <= serviceCategory || e == intervalReading
}
