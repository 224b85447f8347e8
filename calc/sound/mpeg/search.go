package mpeg

import "bytes"

// answer is what a few bytes say of a question.
type answer uint8

const (
	no answer = iota
	yes
	wait // more bytes will tell
)

func sure(is bool) answer {
	if is {
		return yes
	}
	return no
}

// search looks for the next frame or tag. It is false where Next is to go on,
// and true with More where more bytes are wanted.
func (w *Walker) search(end bool) (Piece, bool) {
	b := w.buffer[w.from:w.to]
	if w.lost == 0 {
		if len(b) < TagHead && !end {
			return Piece{}, true
		}
		if piece, ok := w.tag(b); ok || w.lyrics {
			return piece, ok
		}
	}
	for {
		i := bytes.IndexByte(b, 0xff)
		if i < 0 || end && len(b)-i < HeaderLength {
			i = len(b)
		}
		w.leave(i)
		b = b[i:]
		if len(b) < HeaderLength {
			return Piece{}, true
		}
		h, ok := Parse(b)
		if !ok {
			w.leave(1)
			b = b[1:]
			continue
		}
		switch w.begins(b, h, end) {
		case wait:
			return Piece{}, true
		case yes:
			return w.settle(h)
		}
		w.leave(1)
		b = b[1:]
	}
}

// leave counts bytes as of no frame.
func (w *Walker) leave(n int) {
	w.lost += int64(n)
	w.drop(n)
}

// settle takes a frame's beginning as found. In the free format nothing follows
// it, as nobody walks on.
func (w *Walker) settle(h Header) (Piece, bool) {
	if w.lost > 0 {
		// The same bytes are looked at once more, and then nothing is lost.
		return w.astray(), true
	}
	if h.Kbit == 0 {
		piece := Piece{Kind: Free, At: w.at, Header: h}
		w.drop(w.to - w.from)
		return piece, true
	}
	w.synced = true
	w.last = h
	return Piece{}, false
}

// tag begins to pass a tag.
func (w *Walker) tag(b []byte) (Piece, bool) {
	length, lyrics, ok := tag(b)
	if !ok {
		return Piece{}, false
	}
	if w.Size > 0 && w.at+length > w.Size && has(b, "ID3") {
		length = id3v2Head // what it says of its length is wrong: sound may follow at once
	}
	if lyrics {
		w.lyrics = true
		return Piece{}, false
	}
	w.skip = length
	return Piece{Kind: Tag, At: w.at, Length: length}, true
}

// begins says whether frames begin with b, of which h is the header. One header
// is found in any sound by chance, so others must follow where it says: one if
// the recording went on like this before, else two.
func (w *Walker) begins(b []byte, h Header, end bool) answer {
	if h.Kbit == 0 {
		if w.found {
			return no
		}
		return free(b, end)
	}
	want := 3
	if w.found {
		if h.Alike(w.last) {
			want = 2
		} else if h.Layer != 3 {
			return no
		}
	}
	return chain(b, h, want, end)
}

// chain says whether a number of frames like h follow one another from the start
// of b, or fewer before a tag or the end of the file.
func chain(b []byte, h Header, want int, end bool) answer {
	at := 0
	for seen := range want {
		b := b[at:]
		if len(b) < HeaderLength {
			if end {
				return sure(seen > 0)
			}
			return wait
		}
		next, ok := Parse(b)
		if !ok || !next.Alike(h) || next.Size() == 0 {
			if len(b) < TagHead && !end {
				return wait
			}
			_, _, isTag := tag(b)
			return sure(seen > 0 && isTag)
		}
		if seen == want-1 {
			break
		}
		if next.Size() > len(b) {
			if end {
				return sure(seen > 0)
			}
			return wait
		}
		at += next.Size()
	}
	return yes
}

// freeLongest is the longest frame in the free format, at 640 kbit/s and 32 kHz.
const freeLongest = 2881

// free says whether frames in the free format begin with b: the same header
// comes again, and once more after as many bytes.
func free(b []byte, end bool) answer {
	if len(b) < 2*freeLongest+HeaderLength+1 && !end {
		return wait
	}
	for d := HeaderLength + 9; d <= freeLongest && d+HeaderLength <= len(b); d++ {
		if !twin(b, b[d:]) {
			continue
		}
		for next := 2*d - 1; next <= 2*d+1 && next+HeaderLength <= len(b); next++ {
			if twin(b, b[next:]) {
				return yes
			}
		}
	}
	return no
}

// twin compares headers but for padding, private bit and mode extension.
func twin(a, b []byte) bool {
	return a[0] == b[0] && a[1] == b[1] && a[2]&^3 == b[2]&^3 && a[3]&^0x30 == b[3]&^0x30
}

// lyricsLength says how many bytes of a Lyrics3 tag can be passed, and whether
// its end is among them.
func lyricsLength(b []byte, end bool) (n int, done bool) {
	for i := 0; i+lyricsEnd <= len(b); i++ {
		if has(b[i:], "LYRICS200") || has(b[i:], "LYRICSEND") {
			return i + lyricsEnd, true
		}
	}
	if end {
		return len(b), false
	}
	return max(len(b)-lyricsEnd+1, 0), false
}
