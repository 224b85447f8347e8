//go:build !js

package pulse_test

import (
	"bytes"
	"encoding/binary"
	"math"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"testing"
)

// mix lays sound over background at the recording's signal to noise, in as many
// channels as it has, and does to it what a recorder does. Both have a mean
// square of 1 where they are.
func (rec *recording) mix(sound, ground []float64, r *rand.Rand) {
	way := pick(r, rec.scene.channels)
	noise := decibels(-rec.snr)
	one := make([]float64, len(sound))
	for i := range one {
		one[i] = sound[i] + noise*ground[i]
	}
	rec.channels = [][]float64{one}
	if way != "mono" {
		rec.channels = append(rec.channels, rec.other(way, sound, ground, noise, r))
	}
	if way == "one" && r.IntN(2) == 0 {
		rec.channels[0], rec.channels[1] = rec.channels[1], rec.channels[0]
	}
	if rec.scene.gain {
		automatic(rec.channels, float64(rec.rate), r)
	}
	peak := 0.0
	for _, c := range rec.channels {
		for _, v := range c {
			peak = max(peak, math.Abs(v))
		}
	}
	level := decibels(-between(r, 1, 20)) / max(peak, 1e-9)
	if rec.scene.clip {
		level = decibels(between(r, 6, 12)) / max(peak, 1e-9)
	}
	for _, c := range rec.channels {
		scaled(c, level)
	}
}

// other is the second channel: the same background a third of a millisecond
// later with a noise of its own, and the pulses, unless only one has them.
func (rec *recording) other(way string, sound, ground []float64, noise float64, r *rand.Rand) []float64 {
	late := rec.rate / 3000
	x := make([]float64, len(sound))
	for i := range x {
		if i >= late {
			x[i] = ground[i-late]
		}
		x[i] = noise * (0.95*x[i] + 0.3*r.NormFloat64())
		if way == "both" {
			x[i] += 0.8 * sound[i]
		}
	}
	return x
}

// automatic is a recorder's gain: it follows the loudness, quickly down and
// slowly up, and takes back 70 to 90 % of what it hears, in decibels.
func automatic(channels [][]float64, fs float64, r *rand.Rand) {
	attack, release := between(r, 0.002, 0.01), between(r, 0.2, 1)
	share, floor := between(r, 0.7, 0.9), 0.01
	down, up := 1-math.Exp(-1/(attack*fs)), 1-math.Exp(-1/(release*fs))
	level := floor
	for i := range channels[0] {
		now := 0.0
		for _, c := range channels {
			now = max(now, math.Abs(c[i]))
		}
		if now > level {
			level += down * (now - level)
		} else {
			level += up * (now - level)
		}
		gain := math.Pow(max(level, floor), -share)
		for _, c := range channels {
			c[i] *= gain
		}
	}
}

// wave writes channels as a WAV file of 16 bits; what is too loud is cut off.
func wave(channels [][]float64, rate int) []byte {
	n, wide := len(channels[0]), len(channels)
	size := n * wide * 2
	out := make([]byte, 0, 44+size)
	out = append(out, "RIFF"...)
	out = binary.LittleEndian.AppendUint32(out, uint32(36+size))
	out = append(out, "WAVEfmt "...)
	out = binary.LittleEndian.AppendUint32(out, 16)
	out = binary.LittleEndian.AppendUint16(out, 1)
	out = binary.LittleEndian.AppendUint16(out, uint16(wide))
	out = binary.LittleEndian.AppendUint32(out, uint32(rate))
	out = binary.LittleEndian.AppendUint32(out, uint32(rate*wide*2))
	out = binary.LittleEndian.AppendUint16(out, uint16(wide*2))
	out = binary.LittleEndian.AppendUint16(out, 16)
	out = append(out, "data"...)
	out = binary.LittleEndian.AppendUint32(out, uint32(size))
	for i := range n {
		for _, c := range channels {
			v := math.Round(c[i] * 32767)
			out = binary.LittleEndian.AppendUint16(out, uint16(int16(min(max(v, -32768), 32767))))
		}
	}
	return out
}

// file is the recording as a phone would hand it over.
func (rec recording) file(t testing.TB) []byte {
	t.Helper()
	switch rec.form {
	case "mp3-32":
		return lame(t, wave(rec.channels, rec.rate), "-m", "m", "-b", "32")
	case "mp3-128":
		return lame(t, wave(rec.channels, rec.rate), "-m", "j", "-b", "128")
	}
	return wave(rec.channels, rec.rate)
}

// lame encodes a WAV file as MP3 of constant bit rate.
func lame(t testing.TB, wav []byte, options ...string) []byte {
	t.Helper()
	path, err := exec.LookPath("lame")
	if err != nil {
		t.Fatal("lame is not installed: run make test, which installs it")
	}
	name := filepath.Join(t.TempDir(), "recording.wav")
	if err := os.WriteFile(name, wav, 0o600); err != nil {
		t.Fatal(err)
	}
	var out, complaint bytes.Buffer
	c := exec.Command(path, append(append([]string{"--quiet", "--cbr"}, options...), name, "-")...)
	c.Stdout, c.Stderr = &out, &complaint
	if err := c.Run(); err != nil {
		t.Fatalf("lame: %v: %s", err, complaint.Bytes())
	}
	return out.Bytes()
}
