package sound

import (
	"bytes"
	"strings"
)

// kind is what a file is by its first bytes.
type kind struct {
	wav     bool
	refusal Refusal // "" if it is read here
	name    string  // in words
	says    string
}

// mark is what files of one kind begin with.
type mark struct {
	at   int
	text string
	kind kind
}

// recordingOf is a kind that the browser may decode.
func recordingOf(name string) kind {
	return kind{refusal: Elsewhere, name: name, says: "The file is a recording in the form " + name +
		", which is left to the browser. If it cannot decode it:" + advice}
}

// other is a kind that is no recording.
func other(name string) kind {
	return kind{refusal: NotASound, name: name, says: "The file is " + name +
		", no recording. A WAV or MP3 file is wanted: pick the recording itself."}
}

// marks are in order: the first that fits counts. What files begin with is
// common practice, from memory, but for RIFF (see wav.go).
var marks = []mark{
	{0, "fLaC", recordingOf("FLAC")},
	{0, "OggS", recordingOf("Ogg")},
	{0, "\x1aE\xdf\xa3", recordingOf("WebM or Matroska")},
	{0, "caff", recordingOf("Core Audio")},
	{0, "#!AMR", recordingOf("AMR")},
	{0, "#!SILK", recordingOf("SILK")},
	{0, "ADIF", recordingOf("AAC")},
	{0, ".snd", recordingOf("AU")},
	{0, "wvpk", recordingOf("WavPack")},
	{0, "\x30\x26\xb2\x75\x8e\x66\xcf\x11", recordingOf("Windows Media")},
	{0, "FLV\x01", recordingOf("Flash video")},
	{8, "AIFF", recordingOf("AIFF")},
	{8, "AIFC", recordingOf("AIFF")},
	{0, "riff\x2e\x91\xcf\x11", kind{
		refusal: Unknown, name: "Wave64",
		says: "The file is a recording in the form Wave64, which neither this page nor a browser decodes." + advice,
	}},
	{8, "WEBP", other("a picture")},
	{8, "AVI ", recordingOf("AVI")},
	{8, "RMID", other("a MIDI file, which holds notes")},
	{0, "MThd", other("a MIDI file, which holds notes")},
	{4, "ftypheic", other("a picture")},
	{4, "ftypavif", other("a picture")},
	{4, "ftypmif1", other("a picture")},
	{4, "ftypM4A", recordingOf("M4A")},
	{4, "ftypM4B", recordingOf("M4A")},
	{4, "ftyp3g", recordingOf("3GP")},
	{4, "ftypqt", recordingOf("QuickTime")},
	{4, "ftyp", recordingOf("MP4")},
	{4, "moov", recordingOf("QuickTime")},
	{4, "mdat", recordingOf("QuickTime")},
	{0, "%PDF", other("a PDF document")},
	{0, "\x89PNG\r\n\x1a\n", other("a picture")},
	{0, "\xff\xd8\xff", other("a picture")},
	{0, "GIF8", other("a picture")},
	{0, "II*\x00", other("a picture")},
	{0, "MM\x00*", other("a picture")},
	{0, "PK\x03\x04", other("a ZIP archive or an office document")},
	{0, "\x1f\x8b", other("a packed file (gzip)")},
	{0, "7z\xbc\xaf\x27\x1c", other("a 7-Zip archive")},
	{0, "Rar!\x1a", other("a RAR archive")},
	{0, "BZh", other("a packed file (bzip2)")},
	{0, "\xfd7zXZ\x00", other("a packed file (xz)")},
	{0, "\x28\xb5\x2f\xfd", other("a packed file (zstd)")},
	{0, "\x7fELF", other("a program")},
	{0, "SQLite format 3", other("a database")},
	{0, "\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1", other("an office document")},
}

// kindOf says what a file is by its head. tagged is true if there was a tag of
// MP3 before it.
func kindOf(head []byte, tagged bool) kind {
	if k, ok := riffKind(head); ok {
		return k
	}
	for _, m := range marks {
		if len(head) > m.at && bytes.HasPrefix(head[m.at:], []byte(m.text)) {
			return m.kind
		}
	}
	if adts(head) {
		return recordingOf("AAC")
	}
	if !tagged {
		return textKind(head)
	}
	return kind{}
}

// riffKind is that of a file in the form RIFF or one of its kin.
func riffKind(head []byte) (kind, bool) {
	if len(head) < 12 {
		return kind{}, false
	}
	switch string(head[:4]) {
	case "RIFF", "RIFX", "RF64", "BW64":
		if string(head[8:12]) == "WAVE" {
			return kind{wav: true}, true
		}
	}
	return kind{}, false
}

// adts says whether frames of AAC begin here: a second must follow the first.
func adts(b []byte) bool {
	sync := func(b []byte) bool { return len(b) >= 6 && b[0] == 0xff && b[1]&0xf6 == 0xf0 && b[2]>>2&15 < 13 }
	if !sync(b) {
		return false
	}
	length := int(b[3]&3)<<11 | int(b[4])<<3 | int(b[5])>>5
	return length >= 7 && (length >= len(b) || sync(b[length:]))
}

// textKind tells text from sound: it has no control characters, which no file of
// sound is without.
func textKind(head []byte) kind {
	text := string(head)
	if wide := wideText(head); wide != "" {
		text = wide
	}
	for _, c := range []byte(text) {
		if c < ' ' && !strings.ContainsRune("\t\n\r\f\x1a\x1b", rune(c)) || c >= 0xfe || c == 0x7f {
			return kind{}
		}
	}
	start := strings.ToLower(strings.TrimLeft(strings.TrimPrefix(text, "\ufeff"), " \t\r\n"))
	switch {
	case start == "":
		return kind{refusal: NotASound, name: "blanks", says: "The file holds blanks alone, no recording." + advice}
	case strings.HasPrefix(start, "<!doctype html"), strings.HasPrefix(start, "<html"):
		return other("a web page, perhaps saved in the place of the recording")
	case strings.HasPrefix(start, "<?xml"), strings.HasPrefix(start, "<svg"):
		return other("an XML file")
	case start[0] == '{', strings.HasPrefix(start, "[{"), strings.HasPrefix(start, `["`):
		return other("a file of data (JSON)")
	case strings.HasPrefix(start, `{\rtf`):
		return other("a text document")
	}
	return other("a text")
}

// wideText is text of two bytes a letter, as its mark says, if it is English
// enough; else "".
func wideText(b []byte) string {
	if len(b) < 8 || !bytes.HasPrefix(b, []byte("\xff\xfe")) && !bytes.HasPrefix(b, []byte("\xfe\xff")) {
		return ""
	}
	low := int(b[0] & 1) // 1: the low byte comes first
	var text []byte
	for i := 2; i+1 < len(b); i += 2 {
		if b[i+low] != 0 {
			return ""
		}
		text = append(text, b[i+1-low])
	}
	return string(text)
}
