//go:build js && wasm

package page

import (
	"strconv"
	"strings"
	"syscall/js"

	"splittally/calc/interval"
	"splittally/wasm/form"
	"splittally/wasm/view"
)

// job reads one file for a spot. One is read at a time; a second for the same
// spot takes its place, and one for another spot waits.
type job struct {
	spot     *spot
	file     js.Value
	name     string
	settings map[string]string
	again    *kept // read before, with other settings
	packed   bool
	isSecond bool // it began once more, as a row asked for it

	reader *interval.Reader
	early  *interval.Found
	stream *stream
	total  float64 // bytes that there will be; 0 if nobody knows
	moved  float64 // when the bar was moved last
}

// lineUp begins a job, or lets it wait.
func (p *page) lineUp(j *job) {
	if j.spot.job != nil {
		p.stop(j.spot.job)
	}
	j.spot.job, j.spot.tried = j, nil
	p.jobs = append(p.jobs, j)
	unfoldAround(j.spot.field)
	if len(p.jobs) == 1 {
		p.begin(j)
	}
	p.drawFiles()
}

// begin opens the file of a job.
func (p *page) begin(j *job) {
	p.announce("Reading “" + j.name + "”.")
	size := j.file.Get("size").Float()
	j.total = size
	bytes := j.file.Call("stream")
	if j.packed {
		unpack := js.Global().Get("DecompressionStream")
		if unpack.IsUndefined() {
			p.leave(j)
			p.trial(j.spot, j.name, "“"+j.name+"” is packed (gzip), and this browser cannot unpack it. Unpack it first, then pick the file that comes out.", interval.Found{})
			return
		}
		bytes = bytes.Call("pipeThrough", unpack.New("gzip"))
		j.total = 0
		p.unpackedSize(j, size)
	}
	j.reader = interval.New(interval.Options{File: j.name, Bytes: int64(size), Zone: p.clock(), Settings: j.settings})
	j.stream = &stream{
		p:     p,
		write: func(chunk []byte) bool { return p.feed(j, chunk) },
		turn:  func() { p.move(j) },
		end:   func() { p.finish(j) },
	}
	j.stream.start(bytes)
}

// unpackedSize finds how much a packed file will come to, for the bar alone: its
// last four bytes tell it (RFC 1952, section 2.3.1), unless it has several parts
// or 4 GB.
func (p *page) unpackedSize(j *job, packed float64) {
	p.bytesOf(j.file.Call("slice", -4), func(b []byte, _ string) {
		if len(b) < 4 {
			return
		}
		size := float64(uint32(b[0]) | uint32(b[1])<<8 | uint32(b[2])<<16 | uint32(b[3])<<24)
		if size >= packed && size < 1032*packed { // deflate packs no better
			j.total = size
		}
	})
}

// feed hands bytes to the engine, and shows what the head of the file tells as
// soon as it is known.
func (p *page) feed(j *job, chunk []byte) bool {
	err := j.reader.Write(chunk)
	if j.early == nil {
		if found, ok := j.reader.Early(); ok {
			j.early = &found
			p.drawFiles()
		}
	}
	return err == nil
}

// moveEvery is how many milliseconds lie between two moves of the bar.
const moveEvery = 100

// move shows how far a job is.
func (p *page) move(j *job) {
	if at := now(); at-j.moved < moveEvery {
		return
	} else {
		j.moved = at
	}
	bar, far, ok := p.progress(j.card(p))
	if !ok {
		return
	}
	read := strconv.FormatFloat(j.stream.read/1e6, 'f', 1, 64) + " MB"
	if j.total == 0 {
		far.Set("textContent", read)
		return
	}
	part := min(j.stream.read/j.total, 1)
	bar.Set("value", part)
	far.Set("textContent", strconv.Itoa(int(100*part))+" % of "+strconv.FormatFloat(j.total/1e6, 'f', 1, 64)+" MB")
}

// progress gives the bar of a card and the words beside it, if it has them.
func (p *page) progress(card string) (bar, far js.Value, ok bool) {
	bar, far = p.doc.Underlying().Call("getElementById", card+"-bar"), p.doc.Underlying().Call("getElementById", card+"-far")
	return bar, far, !bar.IsNull() && !far.IsNull()
}

// beside is the path of what stands beside a field.
func beside(path, name string) string { return path[:strings.LastIndexByte(path, '.')+1] + name }

// card is the id of the card that a job shows in.
func (j *job) card(p *page) string {
	return form.ID(beside(placeOf(j.spot.field, "data-field"), "file"))
}

func (j *job) shown(p *page) *view.Going {
	g := &view.Going{Name: j.name, Early: j.early}
	if p.jobs[0] != j {
		g.Waits = p.jobs[0].name
	}
	return g
}

// stop ends a job; what was there before still is.
func (p *page) stop(j *job) {
	if j.stream != nil {
		j.stream.stop()
	}
	p.leave(j)
}

// leave takes a job out of the line and begins the next.
func (p *page) leave(j *job) {
	j.spot.job = nil
	wasFirst := len(p.jobs) > 0 && p.jobs[0] == j
	var rest []*job
	for _, other := range p.jobs {
		if other != j {
			rest = append(rest, other)
		}
	}
	if p.jobs = rest; wasFirst && len(rest) > 0 {
		p.begin(rest[0])
	}
}

// stopAll ends all jobs, when another case takes the page.
func (p *page) stopAll() {
	for len(p.jobs) > 0 {
		p.stop(p.jobs[len(p.jobs)-1])
	}
	for _, s := range p.spots {
		s.tried = nil
	}
	for _, e := range p.ears {
		p.stopListening(e)
		e.tried = nil
	}
	p.letGo()
}
