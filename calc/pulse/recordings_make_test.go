//go:build !js

package pulse_test

import (
	"fmt"
	"math"
	"math/rand/v2"
)

// beat is one pulse of the meter and what is heard of it.
type beat struct {
	pulse float64 // seconds at which its energy was full
	sound float64 // seconds at which its sound begins, later or earlier by a hand
	heard bool
	twice float64 // seconds at which it sounds again, 0 if it does not
}

// recording is samples with their truth.
type recording struct {
	scene    scene
	seed     uint64
	rate     int
	channels [][]float64
	beats    []beat // none if it holds no pulses
	snr      float64
	form     string
	tells    string // what was drawn, for a person
}

// clean says whether the 0.2 % is promised: nothing lacks, no hand, 40 dB.
func (rec recording) clean() bool {
	s := rec.scene
	return rec.snr >= 40 && !s.hand && s.missing == 0 && s.doubled == 0 && s.second == "" && !s.gain && !s.clip
}

const longest = 600 // seconds

// make draws a recording of the scene.
func (s scene) make(seed uint64) recording {
	r := rand.New(rand.NewPCG(seed, 6))
	rec := recording{scene: s, seed: seed, snr: between(r, s.least, s.most), form: pick(r, s.forms)}
	sound, ground, load := pick(r, s.sounds), pick(r, s.grounds), pick(r, s.loads)
	if ground == "silence" {
		rec.snr = 60 // quantization at least
	}
	pace := math.Exp(between(r, math.Log(s.slow), math.Log(min(s.fast, fastest[sound]))))
	count := between(r, 14, 30) * max(1, math.Sqrt(pace/2))
	seconds := min(max(count/pace, 5), longest)
	rec.rate = rateFor(seconds, rec.form, s.rates, r)
	if rec.form != "wav" {
		seconds = min(seconds, max(25, 10/pace))
	}
	for len(rec.beats) < 8 {
		at := pulsesOf(loadOf(load, pace, seconds, r), between(r, 0.1, 1))
		for len(at) > 0 && at[0] < 0.08 {
			at = at[1:]
		}
		for len(at) > 0 && at[len(at)-1] > longest-2 {
			at = at[:len(at)-1]
		}
		rec.beats = s.beats(at, r)
	}
	end := rec.beats[len(rec.beats)-1].sound + between(r, 0.2, 1.2)
	one := rec.play(sound, end, r)
	rec.mix(one, groundOf(ground, len(one), rec.rate, r), r)
	rec.tells = fmt.Sprintf("%s in %s, %.0f dB, %s, %.3g/s, %.0f s at %d Hz, %d pulses, %s",
		sound, ground, rec.snr, load, pace, end, rec.rate, len(rec.beats), rec.form)
	return rec
}

// fastest is how many of a sound a second a person or a meter makes.
var fastest = map[string]float64{"click": 20, "tap": 8, "clap": 3, "beep": 5}

// rateFor draws a sample rate, a low one for long recordings: what is tried here
// is time, not patience.
func rateFor(seconds float64, form string, rates []int, r *rand.Rand) int {
	rate := pick(r, rates)
	budget := 2_000_000.0
	if form != "wav" {
		budget = 1_500_000
	}
	for _, lower := range rates {
		if seconds*float64(rate) > budget && lower < rate {
			rate = lower
			break
		}
	}
	return rate
}

// beats says of each pulse how it is heard. Where a share is to lack or to sound
// twice, one does at least; the first two and the last two are always heard, as
// nobody can tell that the first of all pulses lacks.
func (s scene) beats(at []float64, r *rand.Rand) []beat {
	all := make([]beat, len(at))
	late := between(r, 0.02, 0.06)
	for i := range at {
		room := roomOf(at, i)
		b := beat{pulse: at[i], sound: at[i], heard: true}
		if s.hand {
			b.sound += 0.15 + min(late, room/8)*max(-2.5, min(2.5, r.NormFloat64()))
		}
		all[i] = b
	}
	inner := len(all) - 4
	if inner < 1 {
		return all
	}
	for range faults(s.missing, inner) {
		all[2+r.IntN(inner)].heard = false
	}
	for range faults(s.doubled, inner) {
		b := &all[2+r.IntN(inner)]
		room := roomOf(at, 2)
		for i := range at {
			room = min(room, roomOf(at, i))
		}
		gap := between(r, 0.08, 0.2)
		if gap > 0.45*room {
			gap = between(r, 0.3, 0.45) * room
		}
		b.twice = b.sound + gap
	}
	return all
}

func faults(share float64, of int) int {
	if share == 0 {
		return 0
	}
	return max(1, int(math.Round(share*float64(of))))
}

// roomOf is the shorter of the intervals beside the i-th of some times.
func roomOf(at []float64, i int) float64 {
	room := math.Inf(1)
	if i > 0 {
		room = at[i] - at[i-1]
	}
	if i+1 < len(at) {
		room = min(room, at[i+1]-at[i])
	}
	return room
}

// play makes the sounds of the beats, each at a whole sample; a beat's sound is
// set to that sample's time. Their mean square is about 1, see levelled.
func (rec *recording) play(kind string, end float64, r *rand.Rand) []float64 {
	fs := float64(rec.rate)
	x := make([]float64, int(end*fs))
	least := math.Inf(1)
	for i := 1; i < len(rec.beats); i++ {
		least = min(least, rec.beats[i].sound-rec.beats[i-1].sound)
	}
	sound := makerOf(kind, rec.rate, 0.3*least, rec.snr < 12, r)
	spread := 1.5
	if rec.scene.hand {
		spread = 3
	}
	slope := 12 * sign(r)
	second := second{
		after: min(between(r, 0.04, 0.15), 0.4*least), level: decibels(-between(r, 6, 14)),
	}
	for i := range rec.beats {
		b := &rec.beats[i]
		loud := between(r, -spread, spread)
		if rec.scene.fade {
			loud += slope * (b.sound/end - 0.5)
		}
		rec.strike(x, b, second, func() []float64 { return scaled(sound(r), decibels(loud)) })
	}
	return x
}

// second is how the second sound of each pulse comes, if a scene has one.
type second struct{ after, level float64 }

// strike adds what is heard of one beat.
func (rec *recording) strike(x []float64, b *beat, other second, sound func() []float64) {
	fs := float64(rec.rate)
	at := int(math.Round(b.sound * fs))
	b.sound = float64(at) / fs
	if !b.heard {
		return
	}
	first := sound()
	add(tail(x, at), first, 1)
	switch rec.scene.second {
	case "soft":
		add(tail(x, at+int(other.after*fs)), sound(), other.level)
	case "edge":
		add(tail(x, at+int(other.after*fs)), first, -1)
	}
	if b.twice > 0 {
		add(tail(x, int(b.twice*fs)), sound(), 1)
	}
}

func decibels(d float64) float64 { return math.Pow(10, d/20) }
