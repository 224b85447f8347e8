package espi

import (
	"strconv"

	"splittally/calc/zone"
)

// usagePoint is a place where something is delivered.
type usagePoint struct {
	place
	service int // ServiceCategory kind: 0 electricity, 1 gas, 2 water …; −1 if not told
}

// meterReading is a set of readings of one kind.
type meterReading struct{ place }

// readingType says what figures are. Numbers that it does not tell are −1, but
// power and length, which are 0.
type readingType struct {
	place
	accumulation int
	commodity    int
	currency     int
	qualifier    int
	quality      int // of readings that tell none
	flow         int
	kind         int
	phase        int
	uom          int
	power        int   // of ten, by which figures are multiplied
	length       int64 // of an interval in seconds
}

// localTime is LocalTimeParameters.
type localTime struct {
	place
	zone.Parameters
}

// maxPower is the largest power of ten that is believed, either way: the
// standard's go from −12 to 9. noUnit stands for the unit of figures with
// another.
const (
	maxPower = 12
	noUnit   = -2
)

// quantity is a figure with its unit.
type quantity struct {
	value int64
	power int
	uom   int
	has   bool
}

// item is an additional cost.
type item struct {
	kind   int
	note   string
	amount int64
}

// summary is a UsageSummary or ElectricPowerUsageSummary.
type summary struct {
	place
	start, length int64 // of the billing period, in seconds
	commodity     int
	currency      int
	bill          int64 // in hundred-thousandths of the currency
	additional    int64
	hasBill       bool
	hasAdditional bool
	last, current quantity
	items         []item
}

// maxItems is how many additional costs of a summary are told.
const maxItems = 40

// begin makes an object of an element that begins.
func (r *Reader) begin(e element) {
	r.full = r.objects >= maxObjects
	if r.full {
		r.dropped++
		return
	}
	r.objects++
	p := place{isNested: !r.entry.open, pointNear: len(r.points) - 1, meterNear: len(r.meters) - 1}
	o := object{is: e}
	switch e {
	case usagePointElement:
		o.index = len(r.points)
		r.points = append(r.points, usagePoint{place: p, service: -1})
	case meterReadingElement:
		o.index = len(r.meters)
		r.meters = append(r.meters, meterReading{p})
	case readingTypeElement:
		o.index = len(r.types)
		r.types = append(r.types, readingType{
			place: p, accumulation: -1, commodity: -1, currency: -1, qualifier: -1, quality: -1, flow: -1, kind: -1, phase: -1, uom: -1,
		})
	case localTimeElement:
		o.index = len(r.clocks)
		r.clocks = append(r.clocks, localTime{place: p})
	case summaryElement:
		o.index = len(r.bills)
		r.bills = append(r.bills, summary{place: p, commodity: -1, currency: -1})
	}
	if r.entry.open {
		r.entry.objects = append(r.entry.objects, o)
	}
}

// field takes a field of an object: e is its element, within parent, which is
// within around.
func (r *Reader) field(e, parent, around element, text []byte) {
	switch {
	case r.full:
	case parent == readingTypeElement && len(r.types) > 0:
		r.types[len(r.types)-1].field(e, text)
	case parent == serviceCategory && e == kindElement:
		r.service = number(text, -1)
		if around == usagePointElement && len(r.points) > 0 {
			r.points[len(r.points)-1].service = r.service
		}
	case parent == localTimeElement && len(r.clocks) > 0:
		r.clocks[len(r.clocks)-1].field(e, text)
	case len(r.bills) == 0:
	case parent == summaryElement || around == summaryElement:
		r.bills[len(r.bills)-1].field(e, parent, text)
	}
}

func (t *readingType) field(e element, text []byte) {
	n := number(text, -1)
	switch e {
	case accumulation:
		t.accumulation = n
	case commodityElement:
		t.commodity = n
	case currencyElement:
		t.currency = n
	case dataQualifier:
		t.qualifier = n
	case defaultQuality:
		t.quality = n
	case flowDirection:
		t.flow = n
	case kindElement:
		t.kind = n
	case phaseElement:
		t.phase = n
	case uomElement:
		if t.uom != noUnit {
			t.uom = n
		}
	case multiplier:
		t.power = number(text, 0)
		if t.power < -maxPower || t.power > maxPower {
			t.power, t.uom = 0, noUnit
		}
	case intervalLength:
		t.length = max(0, int64(n))
	}
}

func (l *localTime) field(e element, text []byte) {
	switch e {
	case tzOffset:
		l.Offset = number(text, 0)
	case dstOffset:
		l.Summer = number(text, 0)
	case dstStartRule:
		l.Start = code(text)
	case dstEndRule:
		l.End = code(text)
	}
}

// field takes a field of a summary, or of a part of it that parent is.
func (s *summary) field(e, parent element, text []byte) {
	n, isNumber := whole(text)
	switch {
	case parent == overallLastPeriod:
		s.last.field(e, n, isNumber)
	case parent == currentOverall:
		s.current.field(e, n, isNumber)
	case parent == costDetail && len(s.items) > 0:
		s.items[len(s.items)-1].field(e, n, text)
	case parent == billingPeriod && e == startElement:
		s.start = n
	case parent == billingPeriod && e == durationElement:
		s.length = n
	case parent != summaryElement || !isNumber:
	case e == billLastPeriod:
		s.bill, s.hasBill = n, true
	case e == costAdditional:
		s.additional, s.hasAdditional = n, true
	case e == currencyElement:
		s.currency = int(n)
	case e == commodityElement:
		s.commodity = int(n)
	}
}

func (q *quantity) field(e element, n int64, isNumber bool) {
	switch {
	case !isNumber:
	case e == valueElement:
		q.value, q.has = n, true
	case e == multiplier && n >= -maxPower && n <= maxPower:
		q.power = int(n)
	case e == multiplier:
		q.uom = noUnit
	case e == uomElement && q.uom != noUnit:
		q.uom = int(n)
	}
}

func (i *item) field(e element, n int64, text []byte) {
	switch e {
	case amountElement:
		i.amount = n
	case itemKind:
		i.kind = int(n)
	case noteElement:
		i.note = title(text)
	}
}

// whole reads a whole number.
func whole(text []byte) (n int64, ok bool) {
	digits := text
	minus := len(digits) > 0 && digits[0] == '-'
	if minus || len(digits) > 0 && digits[0] == '+' {
		digits = digits[1:]
	}
	if len(digits) == 0 || len(digits) > 18 {
		return 0, false
	}
	for _, c := range digits {
		if c < '0' || c > '9' {
			return 0, false
		}
		n = n*10 + int64(c-'0')
	}
	if minus {
		n = -n
	}
	return n, true
}

// number reads a small whole number, or gives otherwise.
func number(text []byte, otherwise int) int {
	n, ok := whole(text)
	if !ok || n > 1<<31-1 || n < -1<<31 {
		return otherwise
	}
	return int(n)
}

// code reads the code of a rule of summer time, eight hexadecimal digits. What is
// none means that there is no summer time.
func code(text []byte) uint32 {
	n, err := strconv.ParseUint(string(text), 16, 32)
	if err != nil {
		return 1<<32 - 1
	}
	return uint32(n)
}
