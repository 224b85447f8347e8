package main

import "fmt"

// A feed of four years of quarter-hours, in the open standard's form (NAESB
// REQ.21): one block a day, each reading with its time, its cost and its quality.
const (
	feedDays   = 4*365 + 1
	feedOffset = -5 * 3600 // of the local clock, which is never changed
)

// feed writes it, about 30 MB.
func feed(w *counted) Truth {
	var t Truth
	put := func(format string, a ...any) { w.write(fmt.Appendf(nil, format, a...)) }
	put(feedHead)
	h := newHome()
	for day := range feedDays {
		midnight := int64(begin + day*86400 - feedOffset)
		put(blockHead, day, midnight)
		for quarter := range 96 {
			energy := h.next(quarter*900, 60) * 3 / 2 // Wh, at powerOfTenMultiplier 0
			cost := energy * 13
			local := int64(begin + day*86400 + quarter*900)
			if day%73 == 40 && quarter >= 30 && quarter < 30+day%11 {
				if quarter == 30 {
					t.Gaps = append(t.Gaps, [2]int64{local, local + int64(day%11)*900})
				}
				continue
			}
			put(reading, cost, midnight+int64(quarter)*900, energy)
			t.add(local, energy*1_000_000)
			t.Cost += cost
		}
		put(blockEnd)
	}
	put("</feed>\n")
	return t
}

const feedHead = `<?xml version="1.0" encoding="UTF-8"?>
<feed xmlns="http://www.w3.org/2005/Atom" xmlns:espi="http://naesb.org/espi">
	<id>urn:uuid:00000000-0000-4000-8000-000000000000</id>
	<title>An invented home</title>
	<updated>2028-03-01T00:00:00Z</updated>
	<entry>
		<id>urn:uuid:00000000-0000-4000-8000-000000000001</id>
		<link rel="self" href="/User/1/UsagePoint/1"/>
		<link rel="related" href="/User/1/UsagePoint/1/MeterReading"/>
		<link rel="related" href="/LocalTimeParameters/1"/>
		<title>Electricity</title>
		<content>
			<espi:UsagePoint>
				<espi:ServiceCategory><espi:kind>0</espi:kind></espi:ServiceCategory>
			</espi:UsagePoint>
		</content>
	</entry>
	<entry>
		<id>urn:uuid:00000000-0000-4000-8000-000000000002</id>
		<link rel="self" href="/LocalTimeParameters/1"/>
		<content>
			<espi:LocalTimeParameters>
				<espi:dstEndRule>00000000</espi:dstEndRule>
				<espi:dstOffset>0</espi:dstOffset>
				<espi:dstStartRule>00000000</espi:dstStartRule>
				<espi:tzOffset>-18000</espi:tzOffset>
			</espi:LocalTimeParameters>
		</content>
	</entry>
	<entry>
		<id>urn:uuid:00000000-0000-4000-8000-000000000003</id>
		<link rel="self" href="/User/1/UsagePoint/1/MeterReading/1"/>
		<link rel="up" href="/User/1/UsagePoint/1/MeterReading"/>
		<link rel="related" href="/User/1/UsagePoint/1/MeterReading/1/IntervalBlock"/>
		<link rel="related" href="/ReadingType/1"/>
		<content><espi:MeterReading/></content>
	</entry>
	<entry>
		<id>urn:uuid:00000000-0000-4000-8000-000000000004</id>
		<link rel="self" href="/ReadingType/1"/>
		<content>
			<espi:ReadingType>
				<espi:accumulationBehaviour>4</espi:accumulationBehaviour>
				<espi:commodity>1</espi:commodity>
				<espi:currency>840</espi:currency>
				<espi:dataQualifier>12</espi:dataQualifier>
				<espi:flowDirection>1</espi:flowDirection>
				<espi:intervalLength>900</espi:intervalLength>
				<espi:kind>12</espi:kind>
				<espi:phase>769</espi:phase>
				<espi:powerOfTenMultiplier>0</espi:powerOfTenMultiplier>
				<espi:timeAttribute>0</espi:timeAttribute>
				<espi:uom>72</espi:uom>
			</espi:ReadingType>
		</content>
	</entry>
`

const blockHead = `	<entry>
		<id>urn:uuid:00000000-0000-4000-8001-%012d</id>
		<link rel="self" href="/User/1/UsagePoint/1/MeterReading/1/IntervalBlock/%[1]d"/>
		<link rel="up" href="/User/1/UsagePoint/1/MeterReading/1/IntervalBlock"/>
		<content>
			<espi:IntervalBlock>
				<espi:interval>
					<espi:duration>86400</espi:duration>
					<espi:start>%d</espi:start>
				</espi:interval>
`

const reading = `				<espi:IntervalReading>
					<espi:cost>%d</espi:cost>
					<espi:timePeriod>
						<espi:duration>900</espi:duration>
						<espi:start>%d</espi:start>
					</espi:timePeriod>
					<espi:value>%d</espi:value>
				</espi:IntervalReading>
`

const blockEnd = `			</espi:IntervalBlock>
		</content>
	</entry>
`
