package coder

import (
	"bytes"
	"math/big"
	"math/rand/v2"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

// call is one thing that is written or read.
type call struct {
	Kind   int
	Number uint64
	Signed int64
	Bit    int
	Text   string
}

// run makes all calls, and gives what came of them.
func run(c *Coder, calls []call) []call {
	var sizes [3]Size
	var signed [3]Signed
	var chances [3]Chance
	out := make([]call, len(calls))
	for i, k := range calls {
		out[i].Kind = k.Kind
		switch k.Kind / 3 {
		case 0:
			out[i].Number = c.Number(&sizes[k.Kind%3], k.Number)
		case 1:
			out[i].Signed = c.Signed(&signed[k.Kind%3], k.Signed)
		case 2:
			out[i].Bit = c.Bit(&chances[k.Kind%3], k.Bit)
		default:
			out[i].Text = c.Text(k.Text)
		}
	}
	return out
}

func TestWhatIsWrittenIsRead(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		draw := rapid.Custom(func(t *rapid.T) call {
			k := call{Kind: rapid.IntRange(0, 9).Draw(t, "kind")}
			switch k.Kind / 3 {
			case 0:
				k.Number = rapid.Uint64Range(0, 1<<63-1).Draw(t, "number") >> rapid.IntRange(0, 62).Draw(t, "shift")
			case 1:
				k.Signed = rapid.Int64Range(-1<<62+1, 1<<62-1).Draw(t, "signed") >> rapid.IntRange(0, 61).Draw(t, "shift")
			case 2:
				k.Bit = rapid.IntRange(0, 1).Draw(t, "bit")
			default:
				k.Text = rapid.String().Draw(t, "text")
			}
			return k
		})
		calls := rapid.SliceOf(draw).Draw(t, "calls")
		prime := rapid.String().Draw(t, "prime")
		w := NewWriter(1 << 30)
		w.Prime(prime)
		run(w, calls)
		packed := w.Bytes()
		r := NewReader(packed, 1<<30)
		r.Prime(prime)
		if diff := cmp.Diff(calls, run(r, calls)); diff != "" || r.Broken || r.Past() {
			t.Fatal(diff)
		}
	})
}

// A reader takes no notice of what it is given.
func TestReaderIgnoresItsArguments(t *testing.T) {
	calls := []call{{Kind: 0, Number: 77}, {Kind: 3, Signed: -5}, {Kind: 6, Bit: 1}, {Kind: 9, Text: "peak"}}
	w := NewWriter(1 << 20)
	run(w, calls)
	empty := []call{{Kind: 0}, {Kind: 3}, {Kind: 6}, {Kind: 9}}
	if diff := cmp.Diff(calls, run(NewReader(w.Bytes(), 1<<20), empty)); diff != "" {
		t.Error(diff)
	}
}

// What is alike costs little: a thousand bits of which one in fifty is 1 have
// 142 bits of information (Shannon's entropy, 0.1414 for each).
func TestNearTheEntropy(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 1))
	w := NewWriter(1 << 20)
	var p Chance
	for range 1000 {
		bit := 0
		if r.IntN(50) == 0 {
			bit = 1
		}
		w.Bit(&p, bit)
	}
	if n := 8 * len(w.Bytes()); n > 190 {
		t.Errorf("%d bits", n)
	}
}

func TestBudget(t *testing.T) {
	w := NewWriter(1 << 20)
	w.Text(strings.Repeat("a", 5000))
	r := NewReader(w.Bytes(), 4000)
	if r.Text(""); !r.Broken {
		t.Error("more was read than the budget allows")
	}
	if w := NewWriter(10); w.Text("a longer text") != "" || !w.Broken {
		t.Error("more was written than the budget allows")
	}
}

func TestLetters(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := rapid.SliceOfN(rapid.Byte(), 0, 200).Draw(t, "bytes")
		text := ToLetters(b)
		back, ok := FromLetters(text)
		if !ok || !bytes.Equal(b, back) {
			t.Fatalf("%x is %q, and back %x", b, text, back)
		}
		if !utf8.ValidString(text) || strings.Trim(text, letters) != "" {
			t.Fatalf("%q", text)
		}
	})
}

// A block is one number in base 62; math/big writes it with digits of its own.
func TestLettersAreBase62(t *testing.T) {
	r := rand.New(rand.NewPCG(4, 4))
	for n := 1; n <= blockBytes; n++ {
		b := make([]byte, n)
		for i := range b {
			b[i] = byte(r.IntN(256))
		}
		want := new(big.Int).SetBytes(b).Text(62)
		got := strings.Map(func(c rune) rune {
			if c >= 'A' {
				c ^= 'a' - 'A' // big.Int has the small letters first
			}
			return c
		}, ToLetters(b))
		if strings.TrimLeft(got, "0") != strings.TrimLeft(want, "0") {
			t.Errorf("%x: %s, want %s", b, got, want)
		}
		most := bytes.Repeat([]byte{255}, n)
		if back, ok := FromLetters(ToLetters(most)); !ok || !bytes.Equal(most, back) {
			t.Errorf("%x does not come back", most)
		}
	}
	for _, bad := range []string{"z", strings.Repeat("z", blockChars), "0-", "0é"} {
		if _, ok := FromLetters(bad); ok {
			t.Errorf("%q was taken", bad)
		}
	}
}

func TestCount(t *testing.T) {
	for _, n := range []int{0, 1, 61, 62, 14_776_335} {
		if got := Counted(Count(n, 4)); got != n {
			t.Errorf("%d came back as %d", n, got)
		}
	}
	if Counted("1 34") != -1 {
		t.Error("a blank was counted")
	}
}

func FuzzFromLetters(f *testing.F) {
	f.Add("tally1")
	f.Fuzz(func(t *testing.T, text string) {
		if b, ok := FromLetters(text); ok && ToLetters(b) != text {
			t.Errorf("%q came back as %q", text, ToLetters(b))
		}
	})
}
