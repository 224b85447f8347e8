package rhythm_test

import (
	"encoding/binary"
	"math"
	"testing"

	"splittally/calc/rhythm"
)

// FuzzJudge hands over marks at any times, also none at all, in any order.
func FuzzJudge(f *testing.F) {
	f.Add([]byte{})
	f.Add(binary.LittleEndian.AppendUint64(make([]byte, 24), math.Float64bits(math.NaN())))
	f.Add(make([]byte, 200))
	f.Fuzz(func(t *testing.T, b []byte) {
		var marks []rhythm.Mark
		var o rhythm.Options
		for ; len(b) >= 10; b = b[10:] {
			at := math.Float64frombits(binary.LittleEndian.Uint64(b))
			if b[8]&1 == 0 {
				at = float64(int(b[0])+int(b[1])<<8) / 100
			}
			m := rhythm.Mark{At: at, Sure: float64(b[9]) / 255}
			switch b[8] >> 1 & 15 {
			case 1:
				m.Told = rhythm.Struck
			case 2:
				m.Told = rhythm.Added
			case 3:
				o.Breaks = append(o.Breaks, at)
			case 4:
				m.Sure = at
			case 5:
				o.Timing = at
			}
			marks = append(marks, m)
		}
		r := rhythm.Judge(marks, o)
		if len(r.Uses) != len(marks) || len(r.Chances) != len(marks) || r.Least > r.Most {
			t.Errorf("%d uses, %d chances of %d marks, %d to %d intervals", len(r.Uses), len(r.Chances), len(marks), r.Least, r.Most)
		}
	})
}
