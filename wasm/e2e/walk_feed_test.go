//go:build !js

package e2e

import (
	"fmt"
	"strings"
	"testing"
)

// twoMeters is a feed of two electricity meters: a day of hours of 100 Wh, and
// one of 300 Wh.
func twoMeters() string {
	var b strings.Builder
	b.WriteString(`<?xml version="1.0"?><feed xmlns="http://www.w3.org/2005/Atom" xmlns:e="http://naesb.org/espi">`)
	entry := func(self, related, content string) {
		fmt.Fprintf(&b, `<entry><link rel="self" href="%s"/><link rel="related" href="%s"/><content>%s</content></entry>`, self, related, content)
	}
	for meter, wh := range []int{100, 300} {
		point := fmt.Sprintf("/UsagePoint/%d", meter)
		kind := fmt.Sprintf("/ReadingType/%d", meter)
		entry(point, point+"/MeterReading", `<e:UsagePoint><e:ServiceCategory><e:kind>0</e:kind></e:ServiceCategory></e:UsagePoint>`)
		entry(point+"/MeterReading/1", kind, `<e:MeterReading/>`)
		entry(kind, "", `<e:ReadingType><e:accumulationBehaviour>4</e:accumulationBehaviour><e:flowDirection>1</e:flowDirection><e:intervalLength>3600</e:intervalLength><e:powerOfTenMultiplier>0</e:powerOfTenMultiplier><e:uom>72</e:uom></e:ReadingType>`)
		var block strings.Builder
		block.WriteString(`<e:IntervalBlock><e:interval><e:duration>86400</e:duration><e:start>1704844800</e:start></e:interval>`)
		for h := range 24 {
			fmt.Fprintf(&block, `<e:IntervalReading><e:timePeriod><e:duration>3600</e:duration><e:start>%d</e:start></e:timePeriod><e:value>%d</e:value></e:IntervalReading>`, 1704844800+3600*h, wh)
		}
		entry(point+"/MeterReading/1/IntervalBlock/1", "", block.String()+`</e:IntervalBlock>`)
	}
	b.WriteString(`</feed>`)
	return b.String()
}

// A feed with several meters asks which one is meant, and one that tells of
// bills hands them over, with readings or without.
func TestFileFeed(t *testing.T) {
	p := open(t, look{form: singleFile, width: 360})
	p.upload(pickFile, written(t, "two.xml", []byte(twoMeters())))
	p.waitFor(fileCard, "which one is it?")
	p.waitFor(fileCard, "2.4")
	p.fits()
	p.tap(`[data-candidate="1"]`)
	p.waitFor(fileCard, "7.2")
	p.until("the choice to hold", func() bool {
		return evaluate[bool](p, find(`[data-candidate="1"]`)+`.checked`) && p.count(fileCard+" fieldset .mark") == 0
	})
	p.upload(pickFile, "../../calc/espi/testdata/summaries.xml")
	p.waitFor(fileCard, "2 billing periods")
	p.waitFor(fileCard, "7.2")
	p.tap(`[data-do="use-bill"][data-bill="0"]`)
	p.waitFor("#page-notice", "It is bill 1 now")
	p.waitFor(fileCard, "among the bills")
	p.tap(`[data-do="use-bill"][data-bill="1"]`)
	p.waitFor("#page-notice", "It is bill 2 now")
	if first, second := p.value("#periods-0-kwh"), p.value("#periods-1-kwh"); first != "412.3" || second != "398.765" {
		t.Errorf("the bills have %q and %q kWh", first, second)
	}
	p.until("no bill to be used again", func() bool { return p.count(`[data-do="use-bill"]`) == 0 })
	p.waitFor(fileCard, "7.2")
}
