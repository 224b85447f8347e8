// Package unpack gives back the engine that wasm/pack packed: first the text
// that was packed as .lzma, and of that the module that was written alike.
//
// In the browser it is WebAssembly of some 4 kB. Package little makes it of this
// source, and says which Go it knows; there is no runtime of Go in it. That is
// faster than JavaScript where it counts, in the first second of a page. Here it
// is a Go package like any other, for the tests. What is damaged panics.
//
// Whoever calls puts bytes into Packed, where Room says, and calls Unpack until
// that returns 0; and so on, until none are left. Then Check.
package unpack

const (
	// So much text is unpacked at once, as a browser changes over to faster code
	// only from one call to the next.
	stride = 1 << 16
	// What is being read may reach so far beyond what is there yet.
	slack = 32
	large = 1 << 28
)

// Packed is where packed bytes are put, and Text what they are unpacked to.
var (
	Packed [1 << 16]byte
	Text   []byte

	have, at   uint32 // bytes in Packed, and how many of them are read
	size, done uint32 // of Text: all of it, and how much is there
)

// Room makes room in Packed and returns where it begins.
func Room() uint32 {
	left := have - at
	for i := uint32(0); i < left; i++ {
		Packed[i] = Packed[at+i]
	}
	at = 0
	have = left
	return left
}

// Unpack goes on for a while after more bytes have been put into Packed, or with
// more = 0. It returns 1 if it can go on without any others. At the last all have
// come.
func Unpack(more, last uint32) uint32 {
	have += more
	stop := have - enough // up to where it is safe to read
	if last == 1 {
		stop = have
	} else if have < head+enough {
		return 0
	}
	if size == 0 {
		begin()
	}
	decode(least(size, done+stride), stop)
	restore()
	if done == size && at < have {
		panic("more has come than was packed")
	}
	if done < size && at <= stop {
		return 1
	}
	return 0
}

// Check panics unless all has come and is as it must be.
func Check() {
	if size == 0 || done != size || at != have || code != 0 {
		panic("the packed form is damaged")
	}
	checkModule()
}

func least(a, b uint32) uint32 {
	if a < b {
		return a
	}
	return b
}
