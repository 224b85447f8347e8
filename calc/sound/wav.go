package sound

// wavForm reads WAV: chunks of a name of four letters, a size and as many
// bytes, and one more if they are odd (IBM and Microsoft: Multimedia Programming
// Interface and Data Specifications 1.0, 1991, chapters 2 and 3); also RIFX,
// whose numbers have the highest byte first, and RF64 and BW64, whose sizes of 64
// bits stand in a chunk of their own (EBU Tech 3306, ITU-R BS.2088).
type wavForm struct {
	out     *output
	bytes   int64 // of the file, 0 if not known
	at      int64 // of the next byte
	big     bool
	wide    int64 // bytes of sound by the chunk of 64-bit sizes, 0 if there is none
	gather  [headRoom]byte
	got     int
	step    wavStep
	skip    int64 // bytes to pass before the next chunk
	body    int64 // bytes of the chunk whose start is gathered
	layout  layout
	known   bool // there was a layout
	samples samples

	start    int64 // where the sound begins
	promised int64 // its bytes, -1 for all that comes
	left     int64 // of them
	streamed bool  // its size was not written
	sounded  bool
	stray    int64 // bytes after it that are no chunk
	why      Refusal
	says     string
}

const headRoom = 40 // bytes of the longest chunk that is looked at

// wavStep is what comes next.
type wavStep uint8

const (
	wavHead    wavStep = iota // the file's first twelve bytes
	wavChunk                  // a chunk's name and size
	wavFormat                 // the start of the chunk "fmt "
	wavSizes                  // the start of the chunk "ds64"
	wavNothing                // the size of the sound is 0: a chunk, or sound all the same
	wavSound
	wavStray // what is no chunk
)

// unsaid is from where on a size of sound says nothing: programs that write
// while they record leave it like this (common practice, no source).
const unsaid = 0x7fff0000

func newWAV(out *output, size int64) *wavForm {
	return &wavForm{out: out, bytes: max(size, 0)}
}

func (w *wavForm) portion() int {
	if w.skip > headLength {
		return int(min(w.skip, skipPortion))
	}
	if w.step != wavSound {
		return headLength
	}
	return min(max(8192*w.layout.block, 16<<10), 64<<10)
}

func (w *wavForm) write(b []byte) bool {
	for len(b) > 0 && w.why == "" && !w.out.full {
		b = b[w.take(b):]
	}
	return w.why == "" && !w.out.full
}

// take takes some of the bytes.
func (w *wavForm) take(b []byte) int {
	switch {
	case w.skip > 0:
		n := int(min(w.skip, int64(len(b))))
		w.skip -= int64(n)
		w.at += int64(n)
		return n
	case w.step == wavSound:
		return w.sound(b)
	case w.step == wavStray:
		w.stray += int64(len(b))
		return len(b)
	}
	need := w.need()
	n := copy(w.gather[w.got:need], b)
	w.got += n
	w.at += int64(n)
	if w.got == need {
		w.got = 0
		w.gathered(w.gather[:need])
	}
	return n
}

// need is how many bytes the step looks at.
func (w *wavForm) need() int {
	switch w.step {
	case wavHead:
		return 12
	case wavFormat, wavSizes:
		return int(min(w.body, headRoom))
	}
	return 8
}

// gathered goes on with the bytes that a step wanted.
func (w *wavForm) gathered(b []byte) {
	switch w.step {
	case wavHead:
		w.big = string(b[:4]) == "RIFX"
		w.step = wavChunk
	case wavChunk:
		w.chunk(string(b[:4]), int64(w.number(b[4:8])))
	case wavNothing:
		w.nothing(b)
	case wavFormat:
		w.format(b)
		w.rest(len(b))
	case wavSizes:
		if len(b) >= 16 {
			w.wide = int64(w.number(b[8:12])) | int64(w.number(b[12:16]))<<32
		}
		w.rest(len(b))
	}
}

// rest passes what is left of a chunk of which n bytes were gathered.
func (w *wavForm) rest(n int) {
	w.skip = w.body - int64(n) + w.body&1
	w.step = wavChunk
}

// chunk goes by a chunk's name.
func (w *wavForm) chunk(name string, size int64) {
	w.body = size
	switch {
	case w.sounded && !printable(name):
		w.step, w.stray = wavStray, 8
	case name == "fmt " && !w.known && size >= 16:
		w.step = wavFormat
	case name == "ds64" && size >= 16:
		w.step = wavSizes
	case name == "data" && !w.sounded:
		w.data(size)
	default:
		w.skip = size + size&1
	}
}

// data begins the sound.
func (w *wavForm) data(size int64) {
	if !w.known {
		w.refuse(Damaged, "The WAV file does not say how its sound is written: its chunk “fmt ” is missing."+advice)
		return
	}
	if size == 0xffffffff && w.wide > 0 {
		size = w.wide
	}
	if w.start = w.at; size == 0 {
		w.step = wavNothing
		return
	}
	w.begin(size)
}

// begin begins sound of a number of bytes.
func (w *wavForm) begin(size int64) {
	w.promised, w.left, w.step, w.sounded = size, size, wavSound, true
	w.streamed = size == 0 || size >= unsaid && (w.bytes == 0 || w.start+size > w.bytes)
	if w.streamed {
		w.left = 1<<62 - 1
		w.promised = max(w.bytes-w.start, 0)
	}
	w.samples.init(w.layout)
	w.out.begin(w.layout.rate, min(w.layout.channels, 2))
}

// nothing decides by the eight bytes after a chunk of sound of no bytes whether
// it is empty, or was written by a program that could not say its size.
func (w *wavForm) nothing(b []byte) {
	switch string(b[:4]) {
	case "LIST", "fact", "cue ", "bext", "iXML", "id3 ", "ID3 ", "JUNK", "PAD ", "smpl", "PEAK", "_PMX":
		w.sounded = true
		w.out.begin(w.layout.rate, min(w.layout.channels, 2))
		w.step = wavChunk
		w.chunk(string(b[:4]), int64(w.number(b[4:8])))
		return
	}
	w.begin(0)
	w.samples.write(w.out, b)
}

// sound takes bytes of sound.
func (w *wavForm) sound(b []byte) int {
	n := int(min(w.left, int64(len(b))))
	w.samples.write(w.out, b[:n])
	w.left -= int64(n)
	w.at += int64(n)
	if w.left == 0 {
		w.skip, w.step = w.promised&1, wavChunk
	}
	return n
}
