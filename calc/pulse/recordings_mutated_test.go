//go:build !js

package pulse_test

import (
	"encoding/binary"
	"fmt"
	"math/rand/v2"
	"testing"
)

// TestMutatedRecordings sends damaged files down the whole road: no panic, and an
// end (listen bounds the steps).
func TestMutatedRecordings(t *testing.T) {
	if testing.Short() {
		t.Skip("takes some seconds")
	}
	whole := wholes(t)
	const groups, each = 10, 100
	for g := range groups {
		t.Run(fmt.Sprint(g), func(t *testing.T) {
			t.Parallel()
			for i := range each {
				seed := uint64(g*each + i)
				r := rand.New(rand.NewPCG(seed, 8))
				file := mutated(whole, r)
				survive(t, seed, file, func(int) int { return 1 + r.IntN(8192) })
			}
		})
	}
}

func survive(t *testing.T, seed uint64, file []byte, portion func(int) int) {
	t.Helper()
	defer func() {
		if p := recover(); p != nil {
			t.Errorf("mutation %d, %d bytes: panic: %v", seed, len(file), p)
		}
	}()
	listen(t, file, portion)
}

// wholes are small recordings of each form, two or three seconds long.
func wholes(t *testing.T) [][]byte {
	t.Helper()
	small := scene{
		sounds: []string{"click"}, grounds: []string{"pink"}, loads: []string{"constant"},
		least: 25, most: 40, slow: 8, fast: 12, channels: mono,
	}
	var files [][]byte
	for i, of := range []struct {
		form, way string
		rate      int
	}{
		{"wav", "mono", 8000},
		{"wav", "both", 16000},
		{"mp3-32", "mono", 22050},
		{"mp3-32", "mono", 16000},
		{"mp3-128", "both", 44100},
	} {
		small.forms, small.channels, small.rates = []string{of.form}, []string{of.way}, []int{of.rate}
		rec := small.make(uint64(i))
		for k := range rec.channels {
			rec.channels[k] = rec.channels[k][:min(len(rec.channels[k]), 2*of.rate)]
		}
		files = append(files, rec.file(t))
	}
	return files
}

// mutated damages one of some files in one to four ways.
func mutated(whole [][]byte, r *rand.Rand) []byte {
	file := append([]byte{}, pick(r, whole)...)
	for range 1 + r.IntN(4) {
		if len(file) < 8 {
			break
		}
		file = damaged(file, whole, r)
	}
	return file
}

func damaged(file []byte, whole [][]byte, r *rand.Rand) []byte {
	from := r.IntN(len(file) - 4)
	to := from + r.IntN(len(file)-from)
	switch r.IntN(9) {
	case 0: // single bytes
		for range 1 + r.IntN(50) {
			file[r.IntN(len(file))] = byte(r.Uint32())
		}
	case 1: // its head
		for range 1 + r.IntN(6) {
			file[r.IntN(min(len(file), 64))] = byte(r.Uint32())
		}
	case 2: // cut short
		return file[:to]
	case 3: // a piece lacks
		return append(file[:from:from], file[to:]...)
	case 4: // a piece comes twice
		return append(file[:to:to], file[from:]...)
	case 5: // something else in between
		piece := make([]byte, r.IntN(2000))
		for i := range piece {
			piece[i] = byte(r.Uint32())
		}
		return append(append(file[:from:from], piece...), file[from:]...)
	case 6: // nothing in between
		clear(file[from:to])
	case 7: // another file's rest
		other := pick(r, whole)
		return append(file[:from:from], other[r.IntN(len(other)):]...)
	case 8: // an extreme number
		binary.LittleEndian.PutUint32(file[from/2*min(1, r.IntN(2)):], pick(r, []uint32{0, 1, 0x7fffffff, 0x80000000, 0xffffffff}))
	}
	return file
}
