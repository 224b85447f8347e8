package sound

import (
	"strconv"

	"splittally/calc/figure"
	"splittally/calc/sound/mpeg"
)

// tally counts what an MP3 file holds.
type tally struct {
	size          int64 // of the file, 0 if not known
	tags          int64 // bytes of tags
	front, behind int64 // bytes of nothing known before the first and after the last frame
	between       int64 // and between frames
	frames        int   // with sound
	decoded       int
	infos         int     // frames that tell of the others
	counted       float64 // seconds that they tell of
	uncounted     bool    // one of them does not tell, or tells what cannot be
	bytes         int64   // of frames with sound
	heard         float64 // their seconds
	lowest, most  int     // bit rates in kbit/s
	mode          mpeg.Mode
	intensity     int     // frames with intensity stereo
	lost          float64 // seconds of silence in the place of sound
	cut           bool    // the file ends in a frame
	elsewhere     string  // what form of MPEG audio is left to the browser
	gaps, losses  places
	joins         places // where another recording begins
}

// places are moments of a recording.
type places struct {
	count int
	first float64 // seconds
}

func (p *places) add(at float64) {
	if p.count == 0 {
		p.first = at
	}
	p.count++
}

// words says where: "At 1.50 s", "At 3 places, the first at 1.50 s,".
func (p *places) words() string {
	if p.count == 1 {
		return "At " + seconds(p.first)
	}
	return "At " + strconv.Itoa(p.count) + " places, the first at " + seconds(p.first) + ","
}

// believed is how many seconds a file can say that it holds: a day.
const believed = 24 * 3600

// info counts a frame that tells how many others there are.
func (t *tally) info(i mpeg.Info, h mpeg.Header) {
	t.infos++
	long := float64(i.Frames) * h.Seconds()
	if long == 0 || long > believed {
		t.uncounted = true
		return
	}
	t.counted += long
}

// frame counts a frame of sound.
func (t *tally) frame(h mpeg.Header) {
	if t.frames == 0 {
		t.lowest, t.most, t.mode = h.Kbit, h.Kbit, h.Mode
	}
	if h.Intensity() {
		t.intensity++
	}
	t.frames++
	t.bytes += int64(h.Size())
	t.heard += h.Seconds()
	t.lowest, t.most = min(t.lowest, h.Kbit), max(t.most, h.Kbit)
}

// promised is how long the recording should be: as its first frame says, else by
// its size if the bit rate is constant, else 0.
func (t *tally) promised() float64 {
	switch {
	case t.infos > 0:
		if t.uncounted || t.infos != t.joins.count+1 {
			return 0
		}
		return t.counted
	case t.size > 0 && t.lowest == t.most && t.joins.count == 0:
		return float64(max(t.size-t.tags-t.front-t.behind, 0)) / float64(t.most*125)
	}
	return 0
}

func (t *tally) close(f *Found) {
	switch {
	case t.frames == 0:
		t.nothing(f)
		return
	case t.decoded == 0:
		f.refuse(Damaged, "The file has the form of MP3, but no frame of it can be decoded: it is damaged."+advice)
	}
	f.Format = t.format()
	f.Promised, f.Lost = t.promised(), t.lost
	t.tell(f)
}

// nothing is for a file without a frame of sound.
func (t *tally) nothing(f *Found) {
	if t.tags > 0 || t.infos > 0 {
		f.Format = "MP3"
		f.refuse(Damaged, "The file begins as MP3 files do, but no sound follows: only its beginning is there, or it is damaged."+advice)
		return
	}
	f.refuse(NotASound, "The file is no recording that can be read here: neither WAV nor MP3, nor any other form of sound that is known."+advice)
}

func (t *tally) format() string {
	rate := strconv.Itoa(t.most) + " kbit/s"
	if t.lowest != t.most {
		rate = figure.Plain(float64(t.bytes)/t.heard/125, 0) + " kbit/s on average"
	}
	return "MP3, " + rate + ", " + t.mode.Words()
}

// unsaidBytes is how many bytes of no sound before and behind it are no matter:
// tags that nobody knows.
const unsaidBytes = 1024

// tell says what is odd about the file.
func (t *tally) tell(f *Found) {
	if t.front > unsaidBytes {
		f.say("The first " + size(t.front) + " are no sound: the recording begins after them.")
	}
	if t.gaps.count > 0 {
		f.say(t.gaps.words() + " the file is damaged: " + size(t.between) + " are no frames of sound, and about " +
			seconds(f.Gaps) + " may be lost. No interval across them counts.")
	}
	if t.losses.count > 0 {
		f.say(figure.Counted(t.losses.count, "frame", "frames") + " could not be decoded (" + seconds(t.lost) +
			", the first at " + seconds(t.losses.first) + "): silence stands in the place.")
	}
	if t.intensity > 0 {
		f.say("The file is in intensity stereo, which is read without its directions: high tones are on the left alone. Their times are right.")
	}
	if t.joins.count > 0 {
		f.say(t.joins.words() + " another recording begins in the same file. No interval across it counts.")
	}
	if t.cut {
		f.say("The file ends within a frame of sound: its end is missing.")
	}
	if t.behind > unsaidBytes {
		f.say("The last " + size(t.behind) + " are no sound.")
	}
}

// size gives a number of bytes for show.
func size(bytes int64) string {
	if bytes < 10_000 {
		return figure.Counted(int(bytes), "byte", "bytes")
	}
	return figure.Plain(float64(bytes)/1000, 0) + " kB"
}
