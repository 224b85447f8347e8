package sound

import (
	"splittally/calc/figure"
	"splittally/calc/sound/mpeg"
)

// headLength is how many bytes are gathered before it is decided what a file is.
const headLength = 1024

// advice ends the sentences that refuse a file.
const advice = " Save the recording as WAV or MP3 and pick it again."

// form reads one form of recording.
type form interface {
	write(b []byte) bool // false: no more is wanted
	portion() int        // bytes to hand over at once
	end()                // no more bytes come
	tell(f *Found)       // what it came to, but for what output knows
}

// Reader reads one recording. What it finds does not depend on how the bytes
// are cut into chunks.
type Reader struct {
	options Options
	out     output
	head    []byte // until it is decided what the file is
	seen    int64  // bytes so far
	before  int64  // bytes of tags in front
	skip    int64  // bytes of them that are still to come
	tags    bool
	form    form // nil until decided
	enough  bool
}

// New makes a reader that hands its samples to sink.
func New(sink Sink, o Options) *Reader {
	return &Reader{options: o, out: output{sink: sink}, head: make([]byte, 0, headLength)}
}

// Portion is how many bytes to hand to Write at once, so that it takes some
// milliseconds in a browser; it changes as the file goes on.
func (r *Reader) Portion() int {
	switch {
	case r.form != nil:
		return r.form.portion()
	case r.skip > headLength:
		return int(min(r.skip, skipPortion))
	}
	return headLength
}

// skipPortion is how much to hand over of what is only passed.
const skipPortion = 256 << 10

// Write decodes what the bytes so far hold. False means that no more is wanted:
// Close says why.
func (r *Reader) Write(chunk []byte) bool {
	if r.enough {
		return false
	}
	r.seen += int64(len(chunk))
	for r.form == nil {
		n := int(min(r.skip, int64(len(chunk))))
		r.skip -= int64(n)
		chunk = chunk[n:]
		n = min(headLength-len(r.head), len(chunk))
		r.head = append(r.head, chunk[:n]...)
		chunk = chunk[n:]
		if len(r.head) < headLength {
			return true
		}
		if !r.passTag() {
			r.decide()
		}
	}
	if len(chunk) > 0 && !r.enough {
		r.enough = !r.form.write(chunk)
	}
	return !r.enough
}

// passTag passes an ID3v2 tag at the start of the head, as anything can follow
// it.
func (r *Reader) passTag() bool {
	length, _, ok := mpeg.ID3v2(r.head)
	if !ok {
		return false
	}
	r.tags = true
	if r.options.Bytes > 0 && r.before+length > r.options.Bytes {
		return false // it cannot be as long as it says: sound may follow at once
	}
	r.before += length
	n := copy(r.head, r.head[min(length, int64(len(r.head))):])
	r.skip = max(length-int64(len(r.head)), 0)
	r.head = r.head[:n]
	return true
}

// decide says what the file is, and hands it what was gathered.
func (r *Reader) decide() {
	switch kind := kindOf(r.head, r.tags); {
	case kind.refusal != "":
		r.form = &refused{kind}
		r.enough = true
		return
	case kind.wav:
		r.form = newWAV(&r.out, r.options.Bytes-r.before)
	default:
		r.form = newMP3(&r.out, r.options.Bytes, r.before)
	}
	r.enough = !r.form.write(r.head)
}

// Close says what the recording came to, after the last Write. It may come before
// the file's end.
func (r *Reader) Close() Found {
	f := Found{}
	if r.form == nil && !r.settle() {
		r.refuseNothing(&f)
		return f
	}
	whole := r.seen >= r.options.Bytes // or else the person did not wait for the end
	if whole {
		r.form.end()
	}
	f.Rate, f.Channels = r.out.first, r.out.firstChannels
	f.Read, f.Gaps = r.out.seconds(), r.out.gaps
	r.form.tell(&f)
	if r.out.full {
		f.refuse(TooLong, longer(f.Gaps))
	}
	if f.Why == "" {
		r.measure(&f, whole)
	}
	return f
}

// refuseNothing is for a file of which no byte came.
func (r *Reader) refuseNothing(f *Found) {
	if r.options.Bytes > 0 {
		f.refuse(Unread, "Nothing of the file could be read, though it is not empty ("+size(r.options.Bytes)+
			"). Perhaps it was moved, or is not on this device yet: pick it again.")
		return
	}
	f.refuse(Empty, "The file is empty: the recording was not stored."+advice)
}

func longer(gaps float64) string {
	if gaps > Longest/2 {
		return "The file is damaged over so long a stretch that with it the recording is longer than an hour: what comes after was not read."
	}
	return "The recording is longer than an hour: only the first hour was read."
}

// settle decides what a file is that ends before its head does. It is false if
// there is nothing of it.
func (r *Reader) settle() bool {
	for r.passTag() {
	}
	if len(r.head) == 0 && !r.tags {
		return false
	}
	r.decide()
	return true
}

// measure tells of a recording that is shorter than it says, or than is of use.
func (r *Reader) measure(f *Found, whole bool) {
	if missing := f.Promised - f.Read - f.Gaps; whole && missing > max(0.1, f.Promised/1000) {
		f.say("The file should hold " + seconds(f.Promised) + " of sound, but only " + seconds(f.Read) +
			" are there: it was cut short, perhaps while it was copied. What is there was read.")
	}
	if f.Read < 1 {
		f.say("There is less than a second of sound (" + seconds(f.Read) + "), too little to time pulses.")
	}
}

func seconds(s float64) string { return figure.Plain(s, 2) + " s" }

func (f *Found) say(sentence string) { f.Says = append(f.Says, sentence) }

// refuse says why there is no sound, or no more: before all else.
func (f *Found) refuse(why Refusal, sentence string) {
	f.Why = why
	f.Says = append([]string{sentence}, f.Says...)
}

// refused is the form of a file that is not read.
type refused struct{ kind kind }

func (r *refused) write([]byte) bool { return false }
func (r *refused) portion() int      { return headLength }
func (r *refused) end()              {}
func (r *refused) tell(f *Found) {
	f.Format = r.kind.name
	f.refuse(r.kind.refusal, r.kind.says)
}
