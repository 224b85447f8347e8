package mpeg

// Lengths of tags and of what has to be seen of one.
const (
	// TagHead is how many bytes tell a tag and its length.
	TagHead    = 32
	id3v1      = 128
	id3v1Plus  = 227 // an extension of it, which stands before it
	id3v2Head  = 10
	apeHead    = 32
	apeLongest = 16 << 20 // of what is believed
	lyricsEnd  = len("LYRICSEND")
)

// lyricsBegin begins a Lyrics3 tag, whose length stands only at its end.
const lyricsBegin = "LYRICSBEGIN"

// ID3v2 reads the head of an ID3v2 tag from at least ten bytes: how long it is,
// its head included. Trust is false if its length is not written as the format
// wants it, and then it is the length of the head alone.
func ID3v2(b []byte) (length int64, trust, ok bool) {
	if len(b) < id3v2Head || string(b[:3]) != "ID3" || b[3] == 0xff || b[4] == 0xff {
		return 0, false, false
	}
	size := 0
	for _, v := range b[6:10] {
		if v >= 0x80 {
			return id3v2Head, false, true
		}
		size = size<<7 | int(v)
	}
	length = int64(id3v2Head + size)
	if b[5]&0x10 != 0 { // a footer, as long as the head
		length += id3v2Head
	}
	return length, true, true
}

// tag is a tag by its first bytes: how long it is. lyrics is true if only its
// end will tell.
func tag(b []byte) (length int64, lyrics, ok bool) {
	if length, _, ok := ID3v2(b); ok {
		return length, false, true
	}
	switch {
	case has(b, "TAG+"):
		return id3v1Plus, false, true
	case has(b, "TAG"):
		return id3v1, false, true
	case has(b, lyricsBegin):
		return 0, true, true
	case has(b, "APETAGEX") && len(b) >= apeHead:
		return ape(b), false, true
	}
	return 0, false, false
}

// ape is the length of an APEv2 tag from its head on; a foot of one is met only
// if the tag has no head.
func ape(b []byte) int64 {
	size := int64(uint32(b[12]) | uint32(b[13])<<8 | uint32(b[14])<<16 | uint32(b[15])<<24)
	if isHead := b[23]&0x20 != 0; !isHead || size > apeLongest {
		return apeHead
	}
	return apeHead + size
}

func has(b []byte, start string) bool { return len(b) >= len(start) && string(b[:len(start)]) == start }
