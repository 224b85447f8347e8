package onset_test

import (
	"math/rand/v2"
	"testing"

	"splittally/calc/onset"
)

// noisyPulses is some minutes in stereo: noise, and a click each 0.8 s.
func noisyPulses(minutes int) (left, right []float32) {
	rng := rand.New(rand.NewPCG(1, 1))
	n := minutes * 60 * 44100
	left, right = make([]float32, n), make([]float32, n)
	for i := range left {
		left[i], right[i] = float32(0.01*rng.NormFloat64()), float32(0.01*rng.NormFloat64())
	}
	for at := 20000; at+400 < n; at += 35280 {
		for i := range 400 {
			v := float32(rng.NormFloat64()) * 0.4 * float32(400-i) / 400
			left[at+i] += v
			right[at+i] += v
		}
	}
	return left, right
}

const minutes = 10

// BenchmarkTake is the time for a pair of samples while they come.
func BenchmarkTake(b *testing.B) {
	left, right := noisyPulses(minutes)
	for b.Loop() {
		f := onset.New()
		f.Begin(44100, 2)
		for i := 0; i+1152 <= len(left); i += 1152 {
			f.Take(left[i:i+1152], right[i:i+1152])
		}
	}
	b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/float64(len(left)), "ns/pair")
}

// BenchmarkSearch is the time for a pair of samples of what follows.
func BenchmarkSearch(b *testing.B) {
	left, right := noisyPulses(minutes)
	steps := 0
	b.ReportMetric(0, "ns/op")
	for b.Loop() {
		b.StopTimer()
		f := onset.New()
		f.Begin(44100, 2)
		for i := 0; i+1152 <= len(left); i += 1152 {
			f.Take(left[i:i+1152], right[i:i+1152])
		}
		f.End()
		b.StartTimer()
		for !f.Step() {
			steps++
		}
	}
	b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/float64(len(left)), "ns/pair")
	b.ReportMetric(float64(steps)/float64(b.N), "steps")
}
