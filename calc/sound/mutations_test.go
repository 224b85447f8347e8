package sound

import (
	"bytes"
	"flag"
	"math/rand/v2"
	"testing"
)

var mutations = flag.Int("mutations", 1000, "how many damaged files to read")

// TestMutations reads many damaged files: none may break the reader, or make it
// contradict itself.
func TestMutations(t *testing.T) {
	t.Parallel()
	files := samplesOfAll(t)
	n := *mutations
	if testing.Short() {
		n /= 10
	}
	random := rand.New(rand.NewPCG(6, 2026))
	refused := map[Refusal]int{}
	for i := range n {
		file := mutate(random, files)
		sink, f := read(t, file)
		if t.Failed() {
			t.Fatalf("damaged file %d: %+v", i, f)
		}
		if most := float64(len(file)) / 100; f.Read > most+1 { // 8 kbit/s are 1000 bytes a second
			t.Errorf("damaged file %d: %v s of %d bytes", i, f.Read, len(file))
		}
		if f.Why == "" && len(sink.parts) == 0 {
			t.Errorf("damaged file %d: nothing read, nothing said", i)
		}
		refused[f.Why]++
	}
	t.Logf("by refusal: %v", refused)
}

// mutate damages one of the files.
func mutate(random *rand.Rand, files [][]byte) []byte {
	file := append([]byte(nil), files[random.IntN(len(files))]...)
	for range 1 + random.IntN(4) {
		if len(file) == 0 {
			return file
		}
		at := random.IntN(len(file))
		switch random.IntN(7) {
		case 0: // bits flipped anywhere
			for range 1 + random.IntN(100) {
				file[random.IntN(len(file))] ^= 1 << random.IntN(8)
			}
		case 1: // cut short
			file = file[:at]
		case 2: // without its start
			file = file[at:]
		case 3: // with the end of another
			other := files[random.IntN(len(files))]
			file = append(file[:at], other[random.IntN(len(other)):]...)
		case 4: // a head damaged
			for range 1 + random.IntN(8) {
				file[random.IntN(min(len(file), 64))] = byte(random.Uint32())
			}
		case 5: // headers of frames damaged
			for i := at; i+1 < len(file); i++ {
				if file[i] == 0xff && file[i+1] >= 0xe0 && random.IntN(3) == 0 {
					file[min(i+1+random.IntN(6), len(file)-1)] ^= 1 << random.IntN(8)
				}
			}
		case 6: // bytes put in
			more := make([]byte, random.IntN(3000))
			for i := range more {
				more[i] = byte(random.Uint32()) | byte(-(random.IntN(2) & i % 2)) // often 0xff
			}
			file = append(file[:at:at], append(more, file[at:]...)...)
		}
	}
	return file
}

// FuzzReader holds that no file breaks the reader, and that it does not depend on
// how the file is cut into chunks.
func FuzzReader(f *testing.F) {
	const most = 6000 // bytes, so that many files are tried
	for _, file := range samplesOfAll(f) {
		f.Add(file[:min(len(file), most)], uint16(100))
	}
	f.Add(append([]byte{0xff, 0xf3, 0x90, 0x40}, bytes.Repeat([]byte{0xa5}, 413)...), uint16(1))
	f.Fuzz(func(t *testing.T, file []byte, cut uint16) {
		file = file[:min(len(file), most)]
		read(t, file)
		want := outcome(file, func() int { return len(file) })
		if got := outcome(file, func() int { return int(cut) }); got != want {
			t.Errorf("cut by %d %s, at once %s", cut, got, want)
		}
	})
}
