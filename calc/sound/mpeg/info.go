package mpeg

// Info is a frame without sound that says how long the recording is.
type Info struct {
	Kind   string // Xing, Info or VBRI
	Frames int    // that follow; 0 if it does not say
}

// ReadInfo says whether a whole frame of layer III is one. Their forms are in no
// standard: Xing's and Info's stand where the main data would begin, VBRI's 32
// bytes after the header (common practice, no source).
func ReadInfo(h Header, frame []byte) (Info, bool) {
	for _, at := range [...]int{h.MainStart(), HeaderLength + h.SideLength()} {
		if at+12 > len(frame) {
			continue
		}
		b := frame[at:]
		if kind := string(b[:4]); kind == "Xing" || kind == "Info" {
			info := Info{Kind: kind}
			if b[7]&1 != 0 { // the number of frames is there
				info.Frames = number(b[8:12])
			}
			return info, true
		}
	}
	const at = HeaderLength + 32
	if at+18 <= len(frame) && string(frame[at:at+4]) == "VBRI" {
		return Info{Kind: "VBRI", Frames: number(frame[at+14 : at+18])}, true
	}
	return Info{}, false
}

// number reads four bytes, the highest first.
func number(b []byte) int {
	return int(uint32(b[0])<<24 | uint32(b[1])<<16 | uint32(b[2])<<8 | uint32(b[3]))
}
