//go:build !js

package pulse_test

// scene is a kind of recording: what may be drawn for it.
type scene struct {
	name       string
	sounds     []string // of makerOf
	grounds    []string // of groundOf
	loads      []string // of loadOf
	least      float64  // dB, see levelled
	most       float64
	slow, fast float64  // pulses per second
	rates      []int    // samples per second
	forms      []string // "wav", "mp3-32" (mono, kbit/s), "mp3-128" (stereo)
	channels   []string // "mono", "both", "one"

	hand    bool    // a hand at each flash, 20 to 60 ms late or early
	missing float64 // share of pulses that are not heard
	doubled float64 // share that sound twice
	second  string  // "soft": each has a softer second sound; "edge": the light going off is as loud
	fade    bool    // the loudness falls or rises by 12 dB
	gain    bool    // automatic gain
	clip    bool    // cut off 6 to 12 dB above full scale
	open    bool    // what the project has not promised: shown, not asserted
}

// What scenes draw from unless they say otherwise.
var (
	anySound  = []string{"click", "tap", "clap", "beep"}
	anyGround = []string{"white", "pink", "rumble", "hum", "speech", "babble", "fridge"}
	anyLoad   = []string{"constant", "wander", "drift", "steps", "cycling"}
	still     = []string{"constant", "wander"}
	anyRate   = []int{8000, 16000, 22050, 44100, 48000}
	wav       = []string{"wav"}
	mono      = []string{"mono"}
	anyWay    = []string{"mono", "both", "one"}
)

// scenes are the kinds of recordings that the project promises to do.
var scenes = []scene{
	{name: "clean", sounds: anySound, grounds: []string{"silence", "white", "pink"}, loads: anyLoad, least: 50, most: 60, slow: 0.1, fast: 20, rates: anyRate, forms: wav, channels: anyWay},
	{name: "clean mp3", sounds: anySound, grounds: []string{"white", "pink"}, loads: still, least: 40, most: 60, slow: 0.2, fast: 5, rates: []int{22050, 44100, 48000}, forms: []string{"mp3-32", "mp3-128"}, channels: anyWay},
	{name: "white", sounds: anySound, grounds: []string{"white"}, loads: still, least: 6, most: 30, slow: 0.2, fast: 10, rates: anyRate, forms: wav, channels: mono},
	{name: "pink", sounds: anySound, grounds: []string{"pink"}, loads: anyLoad, least: 6, most: 30, slow: 0.2, fast: 10, rates: anyRate, forms: wav, channels: mono},
	{name: "rumble", sounds: anySound, grounds: []string{"rumble"}, loads: anyLoad, least: 6, most: 30, slow: 0.2, fast: 10, rates: anyRate, forms: wav, channels: mono},
	{name: "mains hum", sounds: anySound, grounds: []string{"hum"}, loads: anyLoad, least: 6, most: 30, slow: 0.2, fast: 10, rates: anyRate, forms: wav, channels: mono},
	{name: "lamp ripple", sounds: []string{"click"}, grounds: []string{"ripple"}, loads: anyLoad, least: 6, most: 30, slow: 0.2, fast: 20, rates: anyRate, forms: wav, channels: mono},
	{name: "speech", sounds: anySound, grounds: []string{"speech"}, loads: still, least: 6, most: 30, slow: 0.2, fast: 5, rates: anyRate, forms: wav, channels: mono},
	{name: "babble", sounds: anySound, grounds: []string{"babble"}, loads: still, least: 6, most: 30, slow: 0.2, fast: 5, rates: anyRate, forms: wav, channels: mono},
	{name: "fridge", sounds: anySound, grounds: []string{"fridge"}, loads: anyLoad, least: 6, most: 30, slow: 0.2, fast: 10, rates: anyRate, forms: wav, channels: mono},
	{name: "missing", sounds: anySound, grounds: anyGround, loads: still, least: 15, most: 40, slow: 0.2, fast: 10, rates: anyRate, forms: wav, channels: mono, missing: 0.02},
	{name: "doubled", sounds: anySound, grounds: anyGround, loads: still, least: 15, most: 40, slow: 0.2, fast: 10, rates: anyRate, forms: wav, channels: mono, doubled: 0.02},
	{name: "both faults", sounds: anySound, grounds: anyGround, loads: anyLoad, least: 8, most: 40, slow: 0.2, fast: 20, rates: anyRate, forms: wav, channels: anyWay, missing: 0.02, doubled: 0.02},
	{name: "release", sounds: []string{"click", "tap"}, grounds: anyGround, loads: still, least: 15, most: 50, slow: 0.2, fast: 4, rates: anyRate, forms: wav, channels: mono, second: "soft"},
	{name: "hand", sounds: []string{"tap", "clap", "beep"}, grounds: []string{"pink", "rumble"}, loads: anyLoad, least: 15, most: 50, slow: 0.1, fast: 2, rates: anyRate, forms: wav, channels: mono, hand: true},
	{name: "hand, faults", sounds: []string{"tap", "clap"}, grounds: anyGround, loads: still, least: 10, most: 40, slow: 0.1, fast: 2, rates: anyRate, forms: wav, channels: mono, hand: true, missing: 0.02, doubled: 0.02},
	{name: "loads", sounds: anySound, grounds: anyGround, loads: []string{"drift", "steps", "cycling"}, least: 18, most: 50, slow: 0.1, fast: 15, rates: anyRate, forms: wav, channels: mono},
	{name: "automatic gain", sounds: anySound, grounds: anyGround, loads: still, least: 10, most: 40, slow: 0.2, fast: 10, rates: anyRate, forms: wav, channels: mono, gain: true},
	{name: "clipped", sounds: anySound, grounds: anyGround, loads: still, least: 10, most: 50, slow: 0.2, fast: 10, rates: anyRate, forms: wav, channels: mono, clip: true},
	{name: "fading", sounds: anySound, grounds: []string{"white", "pink", "rumble", "hum"}, loads: still, least: 18, most: 40, slow: 0.2, fast: 10, rates: anyRate, forms: wav, channels: mono, fade: true},
	{name: "slow", sounds: anySound, grounds: anyGround, loads: still, least: 12, most: 40, slow: 0.02, fast: 0.1, rates: []int{8000}, forms: wav, channels: mono},
	{name: "fast", sounds: []string{"click", "tap"}, grounds: anyGround, loads: anyLoad, least: 10, most: 50, slow: 5, fast: 20, rates: anyRate, forms: wav, channels: mono},
	{name: "mp3 32 mono", sounds: anySound, grounds: anyGround, loads: still, least: 6, most: 40, slow: 0.2, fast: 10, rates: []int{16000, 22050, 44100, 48000}, forms: []string{"mp3-32"}, channels: mono},
	{name: "mp3 128 stereo", sounds: anySound, grounds: anyGround, loads: still, least: 6, most: 40, slow: 0.2, fast: 10, rates: []int{44100, 48000}, forms: []string{"mp3-128"}, channels: []string{"both", "one"}},
	{name: "anything", sounds: anySound, grounds: anyGround, loads: anyLoad, least: 6, most: 40, slow: 0.1, fast: 20, rates: []int{16000, 22050, 44100}, forms: []string{"wav", "mp3-32", "mp3-128"}, channels: anyWay, missing: 0.02, doubled: 0.02},
	{name: "edges", sounds: []string{"click"}, grounds: anyGround, loads: still, least: 15, most: 50, slow: 0.2, fast: 4, rates: anyRate, forms: wav, channels: mono, second: "edge", open: true},
}

// empties are recordings without pulses, for which there must be no number.
var empties = []string{"silence", "white", "pink", "rumble", "hum", "speech", "babble", "fridge", "music", "crackle", "footsteps", "chores"}
