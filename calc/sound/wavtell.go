package sound

import "splittally/calc/figure"

func (w *wavForm) refuse(why Refusal, says string) { w.why, w.says = why, says }

// number reads two or four bytes.
func (w *wavForm) number(b []byte) uint32 {
	var value uint32
	for i := range b {
		if w.big {
			value = value<<8 | uint32(b[i])
		} else {
			value |= uint32(b[i]) << (8 * i)
		}
	}
	return value
}

func printable(name string) bool {
	for _, c := range []byte(name) {
		if c < ' ' || c > '~' {
			return false
		}
	}
	return true
}

func (w *wavForm) end() {}

func (w *wavForm) tell(f *Found) {
	f.Format = w.layout.words()
	switch {
	case w.why != "":
		f.refuse(w.why, w.says)
		return
	case w.out.samples == 0:
		f.refuse(Damaged, "The WAV file holds no sound: "+w.missing()+" Perhaps the recorder was stopped before it could store anything."+advice)
		return
	}
	f.Promised = float64(w.promised/int64(w.layout.block)) / float64(w.layout.rate)
	if w.layout.channels > 2 {
		f.say("It has " + figure.Counted(w.layout.channels, "channel", "channels") + ", of which the first two are used.")
	}
	if w.streamed {
		f.say("The file does not say how long it is, as its recorder did not finish it: all of it was read.")
	}
	w.samples.tell(f)
	if w.stray > 0 {
		f.say("After the sound " + size(w.stray) + " follow that belong to nothing.")
	}
}

// missing says where a file without sound ends.
func (w *wavForm) missing() string {
	if w.sounded || w.step == wavNothing {
		return "the chunk “data” is empty."
	}
	return "it ends before the chunk “data”."
}
