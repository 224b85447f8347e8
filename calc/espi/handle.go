package espi

import (
	"splittally/calc/espi/xml"
)

// handler is the Reader as package xml sees it.
type handler Reader

// block is an IntervalBlock that is open.
type block struct {
	track         *track
	open          bool
	start, length int64 // of its interval, in seconds
	hasStart      bool
	untimed       []reading // readings without a time of their own
}

// maxUntimed is how many readings without times may wait for their block to end,
// or for their ReadingType: more than a day of seconds.
const maxUntimed = 100_000

// reading is an IntervalReading.
type reading struct {
	start, length int64 // in seconds
	figure        int64 // in its track's scale
	cost          int64
	hasStart      bool
	hasFigure     bool
	hasCost       bool
	isFiner       bool // the figure was rounded
	quality       int
}

// Start tells that an element begins.
func (h *handler) Start(name []byte, tag xml.Tag) {
	r := (*Reader)(h)
	e := elementOf(name)
	r.path[r.depth] = e
	r.depth++
	switch e {
	case intervalReading:
		r.reading = reading{quality: -1}
	case other, timePeriod, startElement, durationElement, valueElement, costElement, readingQuality, qualityElement:
	case entryElement:
		r.entry = entry{open: true}
	case linkElement:
		r.link(tag)
	case blockElement:
		r.beginBlock()
	case usagePointElement, meterReadingElement, readingTypeElement, localTimeElement, summaryElement:
		r.begin(e)
	case costDetail:
		if n := len(r.bills); n > 0 && len(r.bills[n-1].items) <= maxItems { // one more, which is not told
			r.bills[n-1].items = append(r.bills[n-1].items, item{})
		}
	}
	if r.depth == 1 {
		r.root = title(name)
	}
	r.known = r.known || e.tells()
}

// End tells that an element ends.
func (h *handler) End(text []byte) {
	r := (*Reader)(h)
	r.depth--
	e := r.path[r.depth]
	if e == other || r.depth == 0 {
		return
	}
	parent, around := r.path[r.depth-1], other
	if r.depth > 1 {
		around = r.path[r.depth-2]
	}
	switch {
	case r.block.open && r.inBlock(e, parent, text):
	case e == titleElement && parent == entryElement:
		r.entry.title = title(text)
	case e == entryElement:
		r.endEntry()
	default:
		r.field(e, parent, around, text)
	}
}

// inBlock takes an element that ends within a block, or the block itself.
func (r *Reader) inBlock(e, parent element, text []byte) bool {
	switch {
	case parent == timePeriod && e == startElement:
		r.reading.start, r.reading.hasStart = whole(text)
	case parent == timePeriod && e == durationElement:
		r.reading.length, _ = whole(text)
	case parent == intervalReading && e == valueElement:
		r.reading.figure, r.reading.isFiner, r.reading.hasFigure = scaled(text, r.block.track.scale(text))
	case parent == intervalReading && e == costElement:
		r.reading.cost, r.reading.hasCost = whole(text)
	case parent == readingQuality && e == qualityElement:
		r.reading.quality = number(text, -1)
	case parent == readingQuality || parent == timePeriod || e == timePeriod:
	case e == intervalReading:
		r.endReading()
	case parent == intervalElement && e == startElement:
		r.block.start, r.block.hasStart = whole(text)
	case parent == intervalElement && e == durationElement:
		r.block.length, _ = whole(text)
	case e == blockElement:
		r.endBlock()
	default:
		return false
	}
	return true
}

// beginBlock finds the series that a block belongs to.
func (r *Reader) beginBlock() { r.block = block{track: r.trackOf(), open: true} }

// endReading takes a reading that is complete.
func (r *Reader) endReading() {
	t, x := r.block.track, &r.reading
	switch {
	case x.hasStart:
		t.add(r, x)
	case r.waiting+len(r.block.untimed) < maxUntimed:
		r.block.untimed = append(r.block.untimed, *x)
	default:
		t.lost++
	}
}

// endBlock takes a block that is complete.
func (r *Reader) endBlock() {
	b := &r.block
	b.open = false
	if len(b.untimed) > 0 {
		if b.track.typed == nil { // how long they are may come later
			r.waiting += len(b.untimed)
			b.track.waiting = append(b.track.waiting, *b)
		} else {
			r.follow(b)
		}
		b.untimed = nil
	}
	if b.hasStart {
		b.track.begins(b.start)
		if !r.entry.hasBlock {
			r.entry.hasBlock, r.entry.blockStart = true, b.start
		}
	}
}

// follow adds the readings of a block that have no times: they follow one
// another from its beginning on, each as long as the ReadingType says, or else as
// its share of the block.
func (r *Reader) follow(b *block) {
	t, length := b.track, int64(0)
	if t.typed != nil {
		length = t.typed.length
	}
	if n := int64(len(b.untimed)); length == 0 && b.length%n == 0 {
		length = b.length / n
	}
	if !b.hasStart || length <= 0 {
		t.lost += len(b.untimed)
		return
	}
	for i := range b.untimed {
		x := &b.untimed[i]
		x.start, x.length = b.start+int64(i)*length, length
		t.add(r, x)
	}
}

// title gives a text that is shown, cut to a sensible length.
func title(text []byte) string {
	if len(text) > maxTitle {
		text = text[:maxTitle]
	}
	return xml.Text(text)
}
