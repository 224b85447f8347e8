package espi

import (
	"bytes"
	"fmt"
	"testing"

	"splittally/calc/zone"
)

// quarterHours makes a feed of days of quarter hours, a block a day.
func quarterHours(days int) []byte {
	var b bytes.Buffer
	b.WriteString(`<?xml version="1.0" encoding="UTF-8"?>
<feed xmlns="http://www.w3.org/2005/Atom" xmlns:espi="http://naesb.org/espi">
	<entry><link rel="self" href="/UsagePoint/1"/><content><espi:UsagePoint><espi:ServiceCategory><espi:kind>0</espi:kind></espi:ServiceCategory></espi:UsagePoint></content></entry>
	<entry><link rel="self" href="/LocalTimeParameters/1"/><content><espi:LocalTimeParameters><espi:dstEndRule>B40E2000</espi:dstEndRule><espi:dstOffset>3600</espi:dstOffset><espi:dstStartRule>360E2000</espi:dstStartRule><espi:tzOffset>-18000</espi:tzOffset></espi:LocalTimeParameters></content></entry>
	<entry><link rel="self" href="/UsagePoint/1/MeterReading/1"/><link rel="related" href="/ReadingType/1"/><content><espi:MeterReading/></content></entry>
	<entry><link rel="self" href="/ReadingType/1"/><content><espi:ReadingType><espi:accumulationBehaviour>4</espi:accumulationBehaviour><espi:powerOfTenMultiplier>0</espi:powerOfTenMultiplier><espi:uom>72</espi:uom></espi:ReadingType></content></entry>
`)
	start := 1_700_006_400
	for day := range days {
		fmt.Fprintf(&b, `	<entry>
		<id>urn:uuid:00000000-0000-4000-8001-%012d</id>
		<link rel="self" href="/UsagePoint/1/MeterReading/1/IntervalBlock/%[1]d"/>
		<link rel="up" href="/UsagePoint/1/MeterReading/1/IntervalBlock"/>
		<content>
			<espi:IntervalBlock>
				<espi:interval>
					<espi:duration>86400</espi:duration>
					<espi:start>%d</espi:start>
				</espi:interval>
`, day, start)
		for k := range 96 {
			fmt.Fprintf(&b, `				<espi:IntervalReading>
					<espi:cost>%d</espi:cost>
					<espi:ReadingQuality>
						<espi:quality>17</espi:quality>
					</espi:ReadingQuality>
					<espi:timePeriod>
						<espi:duration>900</espi:duration>
						<espi:start>%d</espi:start>
					</espi:timePeriod>
					<espi:value>%d</espi:value>
				</espi:IntervalReading>
`, 1000+k, start, 100+(day*7+k*13)%900)
			start += 900
		}
		b.WriteString("			</espi:IntervalBlock>\n		</content>\n	</entry>\n")
	}
	b.WriteString("</feed>\n")
	return b.Bytes()
}

func BenchmarkReader(b *testing.B) {
	feed := quarterHours(365)
	b.SetBytes(int64(len(feed)))
	b.ReportAllocs()
	for b.Loop() {
		r := NewReader(Options{Zone: zone.Rules{Name: "UTC"}})
		for rest := feed; len(rest) > 0; {
			n := min(len(rest), 1<<20)
			if err := r.Write(rest[:n]); err != nil {
				b.Fatal(err)
			}
			rest = rest[n:]
		}
		if result := r.Close(); len(result.Meters) != 1 || result.Meters[0].Record.Source.Rows != 365*96 {
			b.Fatal("not all was read")
		}
	}
}
