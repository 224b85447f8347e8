package espi

import "slices"

// linkedMeter gives the MeterReading of a track as links tell it, −1 if none
// does.
func (r *Reader) linkedMeter(t *track) int {
	if t.key == "" {
		return t.meter // without links, blocks follow their MeterReading
	}
	for i := range r.meters {
		m := &r.meters[i]
		if m.self == t.key || m.has(t.key) {
			return i
		}
	}
	for i := range r.meters {
		if sameTail(r.meters[i].self, t.key, "UsagePoint", "MeterReading") {
			return i
		}
	}
	return -1
}

// meterOf gives the MeterReading of a track once all are known. If there is one
// track and one MeterReading, they need no links.
func (r *Reader) meterOf(t *track) int {
	if i := r.linkedMeter(t); i >= 0 {
		return i
	}
	if len(r.meters) == 1 && len(r.tracks) == 1 {
		return 0
	}
	return -1
}

// linkedType gives the ReadingType that something points at, −1 if it points at
// none.
func (r *Reader) linkedType(p *place) int {
	for i := range r.types {
		if p.has(r.types[i].self) {
			return i
		}
	}
	for i := range r.types {
		if tail := tailOf(r.types[i].self, "ReadingType"); tail != "" && slices.Contains(p.types, tail) {
			return i
		}
	}
	for i := range r.types { // nested in the same object
		if t := &r.types[i]; t.isNested && p.isNested && t.meterNear >= 0 && &r.meters[t.meterNear].place == p {
			return i
		}
	}
	return -1
}

// typeOf gives the ReadingType of a track once all are known. One alone needs no
// link, nor do several that say the same.
func (r *Reader) typeOf(meter int) *readingType {
	if meter >= 0 {
		if i := r.linkedType(&r.meters[meter].place); i >= 0 {
			return &r.types[i]
		}
	}
	for i := range r.types {
		a, b := r.types[0], r.types[i]
		a.place, b.place = place{}, place{}
		if !sameType(a, b) {
			return nil
		}
	}
	if len(r.types) == 0 {
		return nil
	}
	return &r.types[0]
}

func sameType(a, b readingType) bool {
	return a.accumulation == b.accumulation && a.commodity == b.commodity && a.flow == b.flow &&
		a.uom == b.uom && a.power == b.power && a.qualifier == b.qualifier && a.currency == b.currency
}

// pointOf gives the UsagePoint of a MeterReading; −1 if nothing tells it.
func (r *Reader) pointOf(meter int) int {
	if meter < 0 {
		return r.onlyPoint()
	}
	m := &r.meters[meter]
	return r.pointFor(&m.place, ownerOf(m.self, "MeterReading"), ownerOf(m.up, "MeterReading"))
}

// pointFor gives the UsagePoint whose path is one of owners, or that p and it
// point at one another.
func (r *Reader) pointFor(p *place, owners ...string) int {
	for i := range r.points {
		u := &r.points[i]
		if u.self != "" && (slices.Contains(owners, u.self) || p.has(u.self)) || u.has(p.self) || u.has(p.up) {
			return i
		}
	}
	for _, owner := range owners {
		for i := range r.points {
			if sameTail(r.points[i].self, owner, "UsagePoint") {
				return i
			}
		}
	}
	if p.isNested && p.pointNear >= 0 {
		return p.pointNear
	}
	return r.onlyPoint()
}

func (r *Reader) onlyPoint() int {
	if len(r.points) == 1 {
		return 0
	}
	return -1
}

// clockOf gives the LocalTimeParameters of a UsagePoint, or the first ones of the
// feed; nil if there are none.
func (r *Reader) clockOf(point int) *localTime {
	if point >= 0 {
		for i := range r.clocks {
			if r.points[point].has(r.clocks[i].self) {
				return &r.clocks[i]
			}
		}
	}
	if len(r.clocks) == 0 {
		return nil
	}
	return &r.clocks[0]
}

// sameTail says whether two paths end alike from elements of all names on.
func sameTail(a, b string, names ...string) bool {
	for _, name := range names {
		if tail := tailOf(a, name); tail == "" || tail != tailOf(b, name) {
			return false
		}
	}
	return true
}
