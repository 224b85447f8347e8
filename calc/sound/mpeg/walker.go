package mpeg

// Kind says what a piece of a file is.
type Kind uint8

// The kinds.
const (
	More  Kind = iota // nothing, until there are more bytes
	Frame             // a whole frame
	Free              // the first frame of a recording in the free format
	Cut               // a frame that the file ends in
	Tag               // a tag, which may go on beyond what was added so far
	Lost              // bytes of no frame and no tag
)

// Piece is a piece of a file.
type Piece struct {
	Kind   Kind
	At     int64  // where it begins, in bytes from the start of the file
	Length int64  // in bytes
	Header Header // of a frame
	Bytes  []byte // of a whole frame, until the next Add
	Last   bool   // of Lost: the file ends with it
}

// window is how much of a file is kept: what tells whether frames follow.
const window = 16 << 10

// Walker walks through the frames. Its zero value begins at a file's start. It
// says the same however the file is cut into chunks.
type Walker struct {
	Size int64 // of the file, 0 if not known: tags that end beyond it are not believed

	buffer   [window]byte
	from, to int   // what is left of it
	at       int64 // where in the file the rest begins
	skip     int64 // bytes of a tag that are still to come
	lyrics   bool  // in a tag whose end is looked for
	sung     int64 // bytes of it so far
	synced   bool  // a frame is expected
	found    bool  // there was a frame
	last     Header
	lost     int64 // bytes since the last frame or tag
}

// Start says where in the file the first byte added stands.
func (w *Walker) Start(at int64) { w.at = at }

// Add takes bytes and says how many: fewer than all if Next must be called
// first.
func (w *Walker) Add(b []byte) int {
	taken := 0
	if w.skip > 0 && w.from == w.to {
		taken = int(min(w.skip, int64(len(b))))
		w.skip -= int64(taken)
		w.at += int64(taken)
	}
	if w.from > 0 {
		w.to = copy(w.buffer[:], w.buffer[w.from:w.to])
		w.from = 0
	}
	n := copy(w.buffer[w.to:], b[taken:])
	w.to += n
	return taken + n
}

// Skipping is how many bytes to come are of a tag.
func (w *Walker) Skipping() int64 { return max(w.skip-int64(w.to-w.from), 0) }

// Astray is how many bytes there were since the last frame or tag.
func (w *Walker) Astray() int64 { return w.lost }

// Next gives the next piece. end says that no more bytes will be added; More
// then says that there is nothing left.
func (w *Walker) Next(end bool) Piece {
	for {
		var piece Piece
		var ok bool
		switch {
		case w.lyrics:
			piece, ok = w.sing(end)
		case w.skip > 0:
			ok = w.pass(end)
		case w.synced:
			piece, ok = w.follow(end)
		default:
			piece, ok = w.search(end)
		}
		if ok && (piece.Kind != More || !end) {
			return piece
		}
		if end && w.from == w.to {
			return w.rest()
		}
	}
}

// rest tells of the bytes at the end that were of no frame.
func (w *Walker) rest() Piece {
	if w.lost == 0 {
		return Piece{}
	}
	piece := w.astray()
	piece.Last = true
	return piece
}

// astray tells of the bytes of no frame before this.
func (w *Walker) astray() Piece {
	piece := Piece{Kind: Lost, At: w.at - w.lost, Length: w.lost}
	w.lost = 0
	return piece
}

func (w *Walker) drop(n int) {
	w.from += n
	w.at += int64(n)
}

// pass goes through the rest of a tag, and says whether it wants more bytes.
func (w *Walker) pass(end bool) bool {
	n := int(min(w.skip, int64(w.to-w.from)))
	w.drop(n)
	w.skip -= int64(n)
	if end {
		w.skip = 0
	}
	return w.skip > 0
}

// sing goes through a Lyrics3 tag to its end, which it tells as a tag.
func (w *Walker) sing(end bool) (Piece, bool) {
	n, done := lyricsLength(w.buffer[w.from:w.to], end)
	w.drop(n)
	w.sung += int64(n)
	if !done && !end {
		return Piece{}, true
	}
	piece := Piece{Kind: Tag, At: w.at - w.sung, Length: w.sung}
	w.lyrics, w.sung = false, 0
	return piece, true
}

// follow takes the next frame where one is expected. It is false if there is
// none.
func (w *Walker) follow(end bool) (Piece, bool) {
	b := w.buffer[w.from:w.to]
	if len(b) < HeaderLength {
		w.synced = !end
		return Piece{}, !end
	}
	h, ok := Parse(b)
	size := h.Size()
	if !ok || !h.Alike(w.last) || size == 0 {
		w.synced = false
		return Piece{}, false
	}
	piece := Piece{Kind: Frame, At: w.at, Length: int64(size), Header: h}
	if size > len(b) {
		if !end {
			return Piece{}, true
		}
		piece.Kind, piece.Length = Cut, int64(len(b))
		w.drop(len(b))
		return piece, true
	}
	piece.Bytes = b[:size:size]
	w.drop(size)
	w.last, w.found = h, true
	return piece, true
}
