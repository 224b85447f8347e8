package espi

import (
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"splittally/calc/calendar"
	"splittally/calc/energy"
	"splittally/calc/series"
	"splittally/calc/zone"
)

// Source of all codes and rules here: NAESB REQ.21 ESPI schema, usage.xsd version
// 0.7.20190408 (schema version 3.3.20190408), Apache-2.0. The figures of feeds are
// those of the sample files named beside them (EnergyOS/SGIP, Apache-2.0,
// synthetic data), typed from the files.

// feedOf makes a feed of one usage point, Eastern time, whose type and summary
// are given as elements and whose readings are start, duration, Wh and cost.
func feedOf(readingType, summary string, readings [][4]int64) []byte {
	var b strings.Builder
	b.WriteString(`<a:feed xmlns:a="http://www.w3.org/2005/Atom" xmlns="http://naesb.org/espi">`)
	entry := func(self, content string) {
		fmt.Fprintf(&b, "<a:entry><a:link rel='self' href='%s'/><a:link rel='related' href='T/1'/><a:content>%s</a:content></a:entry>\n", self, content)
	}
	entry("UsagePoint/1", "<UsagePoint><ServiceCategory><kind>0</kind></ServiceCategory></UsagePoint>")
	entry("LocalTimeParameters/1", "<LocalTimeParameters><dstEndRule>B40E2000</dstEndRule><dstOffset>3600</dstOffset><dstStartRule>360E2000</dstStartRule><tzOffset>-18000</tzOffset></LocalTimeParameters>")
	entry("UsagePoint/1/MeterReading/1", "<MeterReading/>")
	entry("T/1", "<ReadingType>"+readingType+"</ReadingType>")
	for i, r := range readings {
		entry(fmt.Sprintf("UsagePoint/1/MeterReading/1/IntervalBlock/%d", i), fmt.Sprintf(
			"<IntervalBlock><interval><duration>%d</duration><start>%d</start></interval><IntervalReading><cost>%d</cost>"+
				"<timePeriod><duration>%d</duration><start>%d</start></timePeriod><value>%d</value></IntervalReading></IntervalBlock>",
			r[1], r[0], r[3], r[1], r[0], r[2]))
	}
	if summary != "" {
		entry("UsagePoint/1/UsageSummary/1", "<UsageSummary>"+summary+"</UsageSummary>")
	}
	b.WriteString("</a:feed>")
	return []byte(b.String())
}

const deltaWh = "<accumulationBehaviour>4</accumulationBehaviour><commodity>1</commodity><currency>840</currency><flowDirection>1</flowDirection><uom>72</uom>"

// published reads a feed and gives its only meter, without anything odd.
func published(t *testing.T, feed []byte) (Result, Meter) {
	t.Helper()
	result, _ := readWith(feed, Options{}, 0)
	if len(result.Problems) > 0 || len(result.Meters) != 1 {
		t.Fatalf("problems %v, %d meters", result.Problems, len(result.Meters))
	}
	return result, result.Meters[0]
}

// between sums up the days of a meter's first channel from one to another, the
// last included.
func between(t *testing.T, m Meter, from, to calendar.Day) (sum energy.Energy) {
	t.Helper()
	c := m.Record.Channels[0]
	for i := range c.Days {
		if d := c.First + calendar.Day(i); d >= from && d <= to {
			e, err := c.Days[i].Energy()
			if err != nil {
				t.Fatal(err)
			}
			sum += e
		}
	}
	return sum
}

// Namespaces http://naesb.org/espi and http://www.w3.org/2005/Atom, under any
// prefix; children of an IntervalReading in the order cost, ReadingQuality,
// timePeriod, value, consumptionTier, tou, cpp; value and cost of 48 bits with a
// sign (Int48).
func TestPublishedReading(t *testing.T) {
	const most = 1<<47 - 1
	for _, prefix := range []string{"", "espi:", "ns0:"} {
		mark := strings.TrimSuffix(":"+prefix, ":")
		feed := strings.NewReplacer("P:", prefix, "M", mark).Replace(`<x:feed xmlns:x="http://www.w3.org/2005/Atom" xmlnsM="http://naesb.org/espi">` +
			`<P:ReadingType><P:uom>72</P:uom><P:powerOfTenMultiplier>-6</P:powerOfTenMultiplier></P:ReadingType><P:IntervalBlock><P:IntervalReading>` +
			`<P:cost>-12345</P:cost><P:ReadingQuality><P:quality>8</P:quality></P:ReadingQuality>` +
			`<P:timePeriod><P:duration>86400</P:duration><P:start>1333260000</P:start></P:timePeriod>` +
			fmt.Sprintf("<P:value>%d</P:value>", int64(most)) + `<P:consumptionTier>1</P:consumptionTier><P:tou>2</P:tou><P:cpp>3</P:cpp>` +
			`</P:IntervalReading></P:IntervalBlock></x:feed>`)
		feed = strings.ReplaceAll(feed, "P:", prefix)
		result, r := readWith([]byte(feed), Options{}, 0)
		if len(result.Problems) > 0 || len(r.tracks) != 1 {
			t.Fatalf("%q: %v, %d series", prefix, result.Problems, len(r.tracks))
		}
		// Start and duration in seconds: from 1333260000 to 1333346400.
		if x := r.tracks[0]; x.total != most*x.factor || x.cost != -12345 || x.qualities[8] != 1 || x.first != 1333260000 || x.end != 1333346400 {
			t.Errorf("%q: %+v", prefix, x)
		}
	}
}

// UomType, as far as energy and power of electricity are told from all else.
func TestPublishedUnits(t *testing.T) {
	for name, uom := range map[string]int{"Wh": 72, "W": 38, "volts": 29, "amperes": 5, "VA": 61, "var": 63, "VAh": 71, "varh": 73, "hertz": 33, "joules": 31} {
		if got := unitName(uom); got != name {
			t.Errorf("uom %d is %s, want %s", uom, got, name)
		}
		q, why := (&readingType{uom: uom, accumulation: 4}).quantity()
		if usable := why == ""; usable != (uom == 72 || uom == 38) || usable && (q == series.Power) != (uom == 38) {
			t.Errorf("uom %d: %v %q", uom, q, why)
		}
	}
}

// FlowDirectionType: 1 forward, 19 reverse, 4 net, 20 total, 0 not applicable.
func TestPublishedFlows(t *testing.T) {
	for flow, want := range map[int]string{
		0: "Electricity, delivered", 1: "Electricity, delivered", 4: "Electricity, net of what the home gave",
		19: "Electricity, received from the home", 20: "Electricity, both directions together",
	} {
		kind := strings.Replace(deltaWh, "<flowDirection>1<", fmt.Sprintf("<flowDirection>%d<", flow), 1)
		_, m := published(t, feedOf(kind, "", [][4]int64{{1330578000, 3600, 100, 0}}))
		if m.Name != want+", each hour" {
			t.Errorf("flow %d: %q, want %q", flow, m.Name, want)
		}
		if isExport := m.Record.Channels[0].Role == "export"; isExport != (flow == 19) {
			t.Errorf("flow %d: %s", flow, m.Record.Channels[0].Role)
		}
	}
}

// CommodityType 1 is electricity, 7 natural gas; MeasurementKind 12 energy, 37
// power, 8 demand.
func TestPublishedCommodities(t *testing.T) {
	if serviceOf(1) != electricity || serviceName(serviceOf(7)) != "Gas" {
		t.Error("commodities 1 and 7 are electricity and gas")
	}
	for kind, uom := range map[int]int{12: wattHours, 37: watts, 8: watts} {
		if (&readingType{uom: uom, kind: kind}).contradicts() || !(&readingType{uom: watts + wattHours - uom, kind: kind}).contradicts() {
			t.Errorf("kind %d belongs to the unit %d", kind, uom)
		}
	}
}

// QualityOfReading: 0 valid, 7 manually edited, 8 estimated using a reference day,
// 9 estimated using linear interpolation, 10 questionable, 11 derived, 12
// projected, 13 mixed, 14 raw, 15 normalized for weather, 16 other, 17 validated,
// 18 verified, 19 revenue quality.
func TestPublishedQualities(t *testing.T) {
	for quality, want := range map[int]bool{
		0: false, 7: true, 8: true, 9: true, 10: false, 11: false, 12: true, 13: true,
		14: false, 15: false, 16: false, 17: false, 18: false, 19: false,
	} {
		if got := estimated(quality); got != want {
			t.Errorf("quality %d is estimated: %v, want %v", quality, got, want)
		}
		if said := strings.Contains(qualityName(quality), "estimated"); said != (quality == 8 || quality == 9) {
			t.Errorf("quality %d is called %q", quality, qualityName(quality))
		}
	}
}

// Currency: numbers of ISO 4217.
func TestPublishedCurrencies(t *testing.T) {
	for number, want := range map[int]string{124: "CAD", 840: "USD", 826: "GBP", 978: "EUR", 36: "AUD", 0: ""} {
		if got := currencyName(number); got != want {
			t.Errorf("currency %d is %q, want %q", number, got, want)
		}
	}
}

// UnitMultiplierKind: 720 with kilo (3) in Wh is 720 000 Wh.
func TestPublishedMultiplier(t *testing.T) {
	_, m := published(t, feedOf(deltaWh+"<powerOfTenMultiplier>3</powerOfTenMultiplier>", "", [][4]int64{{1333260000, 3600, 720, 0}}))
	if got := between(t, m, 0, 1<<20); got != 720_000*energy.WattHour {
		t.Errorf("%v, want 720 000 Wh", got)
	}
}

// LocalTimeParameters: tzOffset −18000 without daylight time and dstOffset 3600
// are Eastern time; dstStartRule 360E2000 is the second Sunday of March, 02:00.
func TestPublishedLocalTime(t *testing.T) {
	want := zone.Rule{Month: 3, Operator: 3, Weekday: 7, Day: 0, Hour: 2, Second: 0}
	if got, ok := zone.DecodeRule(0x360E2000); !ok || got != want {
		t.Errorf("%+v, want %+v", got, want)
	}
	_, r := readWith(feedOf(deltaWh, "", nil), Options{}, 0)
	if diff := cmp.Diff(zone.Parameters{Offset: -18000, Summer: 3600, Start: 0x360E2000, End: 0xB40E2000}, r.clocks[0].Parameters); diff != "" {
		t.Error(diff)
	}
}

// ItemKind.
func TestPublishedItems(t *testing.T) {
	for i, want := range []string{
		"generation fee", "delivery fee", "usage fee", "administrative fee", "tax",
		"generation credit", "delivery credit", "administrative credit", "payment", "information",
	} {
		if got := itemName(i + 1); got != want {
			t.Errorf("item kind %d is %q, want %q", i+1, got, want)
		}
	}
}

// daily are the readings of 1dayLP_45Days.xml: start, duration, Wh, cost.
var daily = [][4]int64{
	{1330578000, 86400, 57751, 539919},
	{1330664400, 86400, 58672, 548528},
	{1330750800, 86400, 73680, 448878},
	{1330837200, 86400, 80417, 489925},
	{1330923600, 86400, 56943, 532368},
	{1331010000, 86400, 66270, 619563},
	{1331096400, 86400, 62161, 581145},
	{1331182800, 86400, 63833, 596781},
	{1331269200, 86400, 56060, 524109},
	{1331355600, 86400, 68374, 416553},
	{1331442000, 82800, 73284, 449456},
	{1331524800, 86400, 57033, 533210},
	{1331611200, 86400, 63900, 597404},
	{1331697600, 86400, 60911, 569462},
	{1331784000, 86400, 62570, 584975},
	{1331870400, 86400, 66396, 620737},
	{1331956800, 86400, 82841, 504687},
	{1332043200, 86400, 81882, 498850},
	{1332129600, 86400, 67080, 627134},
	{1332216000, 86400, 61008, 570372},
	{1332302400, 86400, 62687, 586063},
	{1332388800, 86400, 63278, 591591},
	{1332475200, 86400, 65458, 611971},
	{1332561600, 86400, 71573, 436042},
	{1332648000, 86400, 70309, 428342},
	{1332734400, 86400, 56575, 528923},
	{1332820800, 86400, 55816, 521825},
	{1332907200, 86400, 56444, 527699},
	{1332993600, 86400, 61822, 577979},
	{1333080000, 86400, 66336, 620182},
	{1333166400, 86400, 74542, 454131},
	{1333252800, 86400, 77694, 473336},
	{1333339200, 86400, 60883, 569202},
	{1333425600, 86400, 59619, 557385},
	{1333512000, 86400, 63519, 593845},
	{1333598400, 86400, 63070, 589648},
	{1333684800, 86400, 57671, 539169},
	{1333771200, 86400, 76261, 464606},
	{1333857600, 86400, 80636, 491254},
	{1333944000, 86400, 62300, 582452},
	{1334030400, 86400, 67241, 628637},
	{1334116800, 86400, 64449, 602537},
	{1334203200, 86400, 57572, 538246},
	{1334289600, 86400, 61458, 574579},
	{1334376000, 86400, 79725, 485705},
}

// 1dayLP_45Days.xml: the billing period from 1330578000 on lasts 2588400 s, 30 days
// of which one has 23 hours (82800 s from 1331442000 on). Its summary has 1951364
// Wh for the period and 1006640 since. The readings of the period cost 16284673
// hundred-thousandths, with 4525000 besides that is 20809673; the bill says
// 20810000, 208.10 dollars.
func TestPublishedDailyRollUp(t *testing.T) {
	result, m := published(t, feedOf(deltaWh, "<billingPeriod><duration>2588400</duration><start>1330578000</start></billingPeriod>"+
		"<billLastPeriod>20810000</billLastPeriod><costAdditionalLastPeriod>4525000</costAdditionalLastPeriod><currency>840</currency>"+
		"<overallConsumptionLastPeriod><powerOfTenMultiplier>0</powerOfTenMultiplier><uom>72</uom><value>1951364</value></overallConsumptionLastPeriod>", daily))
	b := result.Bills[0]
	if b.From != "2012-03-01" || b.To != "2012-03-30" || b.KWh != "1951.364" || b.Total != "208.10" || b.Currency != "USD" {
		t.Errorf("%+v", b)
	}
	from, _ := calendar.ParseISO(b.From)
	to, _ := calendar.ParseISO(b.To)
	if got := between(t, m, from, to); got != 1_951_364*energy.WattHour || to-from+1 != 30 {
		t.Errorf("the period's days have %v, want 1951364 Wh", got)
	}
	if got := between(t, m, to+1, 1<<20); got != 1_006_640*energy.WattHour {
		t.Errorf("the days since have %v, want 1006640 Wh", got)
	}
	short := m.Record.Channels[0].Days[10]
	if short.Length() != 82800_000 || short.Covered() != 82800_000 {
		t.Errorf("11 March has %d ms, %d of them covered, want 82800 s", short.Length(), short.Covered())
	}

	var inPeriod [][4]int64
	for _, r := range daily {
		if r[0] < 1330578000+2588400 {
			inPeriod = append(inPeriod, r)
		}
	}
	_, m = published(t, feedOf(deltaWh, "", inPeriod))
	if c := m.Costs[0]; c.Amount != "162.84673" || c.Currency != "USD" || c.Readings != 30 {
		t.Errorf("%+v, want 162.84673 USD of 30 readings", c)
	}
	if sum := (16284673 + 4525000 + 500) / 1000; sum != 20810000/1000 { // to the cent
		t.Errorf("%d cents, want 20810", sum)
	}
}

// Electric.xml: 4702205 Wh in 2592000 s, then 1262848 Wh in 950400 s; they cost
// 37535756 and 15232385, and 37535756 + 1346000 is printed as 388.82.
func TestPublishedMonths(t *testing.T) {
	result, m := published(t, feedOf(deltaWh, "<billingPeriod><duration>2592000</duration><start>1333252800</start></billingPeriod>"+
		"<billLastPeriod>38882000</billLastPeriod><costAdditionalLastPeriod>1346000</costAdditionalLastPeriod><currency>840</currency>"+
		"<overallConsumptionLastPeriod><powerOfTenMultiplier>0</powerOfTenMultiplier><uom>72</uom><value>4702205</value></overallConsumptionLastPeriod>",
		[][4]int64{{1333252800, 2592000, 4702205, 37535756}, {1335844800, 950400, 1262848, 15232385}}))
	b := result.Bills[0]
	from, _ := calendar.ParseISO(b.From)
	to, _ := calendar.ParseISO(b.To)
	if got := between(t, m, from, to); got != 4_702_205*energy.WattHour || b.KWh != "4702.205" || b.Total != "388.82" {
		t.Errorf("%v in the period of %+v", got, b)
	}
	if got := between(t, m, to+1, 1<<20); got != 1_262_848*energy.WattHour {
		t.Errorf("%v since, want 1262848 Wh", got)
	}
}

// hourlyForMonthMar.xml: March 2011 in Eastern time lasts 2674800 s from 1298955600
// on, so it has 743 hours and not 744, and 2278213 Wh in all.
func TestPublishedMarch(t *testing.T) {
	files, _ := trials(t)
	_, m := published(t, files["hourlyForMonthMar.xml"])
	hours := int64(0)
	for i := range m.Record.Channels[0].Days {
		hours += m.Record.Channels[0].Days[i].Covered() / 3_600_000
	}
	if got := between(t, m, 0, 1<<20); m.Record.Source.Rows != 743 || hours != 743 || hours*3600 != 2674800 || got != 2_278_213*energy.WattHour {
		t.Errorf("%d readings, %d hours, %v", m.Record.Source.Rows, hours, got)
	}
}
