package sound

// output hands samples to a sink, counts them, and ends after the longest time.
type output struct {
	sink           Sink
	rate, channels int
	began          bool
	first          int     // the rate of the first part
	firstChannels  int     // and its channels
	before         float64 // seconds of the parts before this
	samples        int64   // of this part
	gaps           float64 // seconds
	full           bool    // there was more than the longest time, gaps included
}

func (o *output) begin(rate, channels int) {
	o.before, o.samples = o.seconds(), 0
	if !o.began {
		o.began, o.first, o.firstChannels = true, rate, channels
	}
	o.rate, o.channels = rate, channels
	o.sink.Begin(rate, channels)
}

func (o *output) take(left, right []float32) {
	room := int64((Longest-o.before-o.gaps)*float64(o.rate)+0.5) - o.samples
	if int64(len(left)) > room {
		o.full = true
		left = left[:max(room, 0)]
		if right != nil {
			right = right[:len(left)]
		}
	}
	if len(left) == 0 {
		return
	}
	o.samples += int64(len(left))
	o.sink.Take(left, right)
}

// gap counts towards the longest time too: how long it was is guessed, and what
// draws or keeps a recording must have room for all of it.
func (o *output) gap(seconds float64) {
	if room := max(0, Longest-o.seconds()-o.gaps); seconds > room {
		o.full = true
		seconds = room
	}
	o.gaps += seconds
	o.sink.Gap(seconds)
}

// seconds is how much the sink got.
func (o *output) seconds() float64 {
	if o.rate == 0 {
		return o.before
	}
	return o.before + float64(o.samples)/float64(o.rate)
}
