package espi

import (
	"strings"

	"splittally/calc/espi/xml"
)

// address stands for where something is, as a hash of its path: 64 bits of
// thousands of paths are never alike by chance. 0 is none.
type address uint64

// addressOf gives the address of a path. Host and slashes at the ends do not
// count, since feeds mix whole addresses and relative ones.
func addressOf(path string) address {
	if path == "" {
		return 0
	}
	h := uint64(14695981039346656037) // FNV-1a
	for i := range len(path) {
		h = (h ^ uint64(path[i])) * 1099511628211
	}
	return address(h | 1)
}

// pathOf gives the path of a link.
func pathOf(href string) string {
	if i := strings.Index(href, "://"); i >= 0 {
		href = href[i+3:]
		slash := strings.IndexByte(href, '/')
		if slash < 0 {
			return ""
		}
		href = href[slash:]
	}
	return strings.Trim(href, "/ ")
}

// tailOf gives the end of a path from the last element of a name on, with what
// follows it: "UsagePoint/01" of "a/b/UsagePoint/01/MeterReading". It is empty
// if there is none.
func tailOf(path, name string) string {
	i := strings.LastIndex(path, name+"/")
	if i < 0 || i > 0 && path[i-1] != '/' {
		return ""
	}
	end := i + len(name) + 1
	if slash := strings.IndexByte(path[end:], '/'); slash >= 0 {
		return path[i : end+slash]
	}
	return path[i:]
}

// ownerOf gives the path before the last element of a name: whom something
// belongs to. It is empty if the name is not in it.
func ownerOf(path string, names ...string) string {
	for _, name := range names {
		if i := strings.LastIndex(path, "/"+name); i > 0 {
			return path[:i]
		}
	}
	return ""
}

// place is where an entry is, and what it points at.
type place struct {
	self, up  string // paths
	related   []address
	types     []string // of the related paths, the ends that name a ReadingType
	title     string
	isNested  bool // it stands within another object, not in an entry
	pointNear int  // the usage point that was met last, −1 if none
	meterNear int  // the meter reading that was met last
}

// has says whether p points at a path.
func (p *place) has(path string) bool {
	if path == "" {
		return false
	}
	a := addressOf(path)
	for _, r := range p.related {
		if r == a {
			return true
		}
	}
	return false
}

// entry is an Atom entry that is open.
type entry struct {
	place
	open       bool
	objects    []object // that it holds
	blockStart int64    // of its first block
	hasBlock   bool
}

// object points at something in one of the reader's lists.
type object struct {
	is    element
	index int
}

// link takes a link of an entry.
func (r *Reader) link(tag xml.Tag) {
	if !r.entry.open {
		return
	}
	rel, _ := tag.Attribute("rel")
	href, _ := tag.Attribute("href")
	path := pathOf(href)
	switch {
	case path == "":
	case rel == "self":
		r.entry.self = path
	case rel == "up":
		r.entry.up = path
	case rel == "related" && r.links < maxLinks:
		r.links++
		r.entry.related = append(r.entry.related, addressOf(path))
		if tail := tailOf(path, "ReadingType"); tail != "" && len(r.entry.types) < 8 {
			r.entry.types = append(r.entry.types, tail)
		}
	case rel == "related":
		r.dropped++
	}
}

// endEntry gives the objects of an entry its links, which may stand after them.
func (r *Reader) endEntry() {
	e := &r.entry
	for _, o := range e.objects {
		p := r.placeOf(o)
		near, meter := p.pointNear, p.meterNear
		*p = e.place
		p.pointNear, p.meterNear = near, meter
	}
	if e.hasBlock && r.block.track != nil {
		r.block.track.titled(e.title, e.blockStart)
	}
	if len(e.objects) == 0 { // a block's links are of no use any more
		r.links -= len(e.related)
	}
	*e = entry{}
}

func (r *Reader) placeOf(o object) *place {
	switch o.is {
	case usagePointElement:
		return &r.points[o.index].place
	case meterReadingElement:
		return &r.meters[o.index].place
	case readingTypeElement:
		return &r.types[o.index].place
	case localTimeElement:
		return &r.clocks[o.index].place
	}
	return &r.bills[o.index].place
}
