package xml

import (
	"bytes"
	stdxml "encoding/xml"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode/utf16"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

// teller writes down what it is told, one element after the other.
type teller struct {
	b    strings.Builder
	open []string
}

func (h *teller) Start(name []byte, tag Tag) {
	h.open = append(h.open, string(name))
	fmt.Fprintf(&h.b, "<%s", name)
	tag.Each(func(n []byte, v string) bool {
		fmt.Fprintf(&h.b, " %s=%q", n, v)
		return false
	})
	h.b.WriteString(">")
}

func (h *teller) End(text []byte) {
	last := len(h.open) - 1
	fmt.Fprintf(&h.b, "%s</%s>", Text(text), h.open[last])
	h.open = h.open[:last]
}

// scanned gives what is told of a text that comes in pieces.
func scanned(pieces ...[]byte) string {
	h := &teller{}
	s := New(h)
	for _, p := range pieces {
		if s.Write(p) != nil {
			break
		}
	}
	if err := s.Close(); err != nil {
		fmt.Fprintf(&h.b, "\n%v", err)
	}
	return h.b.String()
}

// single gives a text byte by byte.
func single(text string) (pieces [][]byte) {
	for i := range len(text) {
		pieces = append(pieces, []byte{text[i]})
	}
	return pieces
}

var tellings = []struct{ name, text, want string }{
	{"elements", "<a><b>1</b><c/></a>", "<a><b>1</b><c></c></a>"},
	{"prefixes", `<x:a xmlns:x="urn:y"><x:b-c.d>1</x:b-c.d></x:a>`, `<a xmlns:x="urn:y"><b-c.d>1</b-c.d></a>`},
	{"blanks", "\n<a >\n <b >\t1 2 </b\n>\n</a>\n", "<a><b>1 2</b></a>"},
	{"attributes", `<a b = "1>2" c='"' d="&lt;&#65;"/>`, `<a b="1>2" c="\"" d="<A"></a>`},
	{"entities", "<a>&lt;&gt;&amp;&quot;&apos;&#65;&#x263a; &none; &#0; &</a>", `<a><>&"'A☺ &none; &#0; &</a>`},
	{"a comment within characters", "<a>1<!-- <b> -- > -->2</a>", "<a>12</a>"},
	{"no entity over a comment", "<a>&am<!-- -->p;</a>", "<a>&amp;</a>"},
	{"an instruction", "<?xml version='1.0'?><?go on > ?><a/>", "<a></a>"},
	{"CDATA", "<a> 1<![CDATA[<b>&lt;]] ]]]>&lt;</a>", "<a>1<b>&lt;]] ]<</a>"},
	{"characters between elements", "<a>1<b/>2</a>", "<a><b></b>2</a>"},
	{"no byte more than the mark", "\uFEFF<a>é</a>", "<a>é</a>"},
	{"Latin-1 without a declaration", "<a>\xe9</a>", "<a>é</a>"},
	{"Latin-1", "<?xml version='1.0' encoding='ISO-8859-1'?><a>\xc3\xa9</a>", "<a>Ã©</a>"},

	{"a second document", "<a/>\n <b/>", "<a></a>\nline 2, column 2: found “<b”, expected the end of the file: a second document begins here, and only the first is read"},
	{"characters after the document", "<a/>\né x", "<a></a>\nline 2, column 1: expected “<”: outside of the document only blanks may stand"},
	{"no markup", "time,kWh\n", "\nline 1, column 1: expected “<”: outside of the document only blanks may stand"},
	{"nothing", "", "\nline 1, column 1: expected an XML document; nothing is here"},
	{"cut off", "<a>\n<b>1", "<a><b>\nline 2, column 5: expected </b>; the file ends here, so its last part is missing"},
	{"cut off in a tag", "<a>\né<b", "<a>\nline 2, column 2: found “<”, expected the end of this tag; the file ends before it"},
	{"cut off in a comment", "<a>\n<!-- <b>", "<a>\nline 2, column 1: found “<!--”, expected the end of this comment (-->); the file ends before it"},
	{"wrong end", "<a>\n<b></a>", "<a><b>\nline 2, column 4: found “</a>”, expected </b>, the end of the element that is open"},
	{"end without beginning", "</a>", "\nline 1, column 1: found “</a>”, expected the beginning of an element before its end"},
	{"a bare sign", "<a>1 < 2</a>", "<a>\nline 1, column 6: found “< 2</a>”, expected the name of an element after “<”; the sign itself is written “&lt;”"},
	{"a document type", "<!DOCTYPE a [<!ENTITY b \"bb\">]><a>&b;</a>", "\nline 1, column 1: found “<!DOCTYPE a [”, expected a document without such declarations: they could make a small file fill all memory, so none is read"},
	{"a page of the web", "<!doctype HTML><html>", "\nline 1, column 1: found “<!doctype HTML>”, expected a feed; this is a page of the web"},
	{"four bytes a character", "\xff\xfe\x00\x00<\x00\x00\x00", "\nline 1, column 1: expected UTF-8, UTF-16 or Latin-1; this is in four bytes a character (UTF-32)"},
}

func TestWhatIsTold(t *testing.T) {
	for _, c := range tellings {
		t.Run(c.name, func(t *testing.T) {
			if got := scanned([]byte(c.text)); got != c.want {
				t.Errorf("in one piece: %s", cmp.Diff(c.want, got))
			}
			if got := scanned(single(c.text)...); got != c.want {
				t.Errorf("byte by byte: %s", cmp.Diff(c.want, got))
			}
		})
	}
}

func TestUTF16(t *testing.T) {
	const text = "<?xml version='1.0' encoding='UTF-16'?><a>é 😀</a>"
	want := "<a>é 😀</a>"
	for _, mark := range []string{"", "\uFEFF"} {
		var big, little []byte
		for _, u := range utf16.Encode([]rune(mark + text)) {
			big, little = append(big, byte(u>>8), byte(u)), append(little, byte(u), byte(u>>8))
		}
		for _, b := range [][]byte{big, little} {
			if got := scanned(b); got != want {
				t.Errorf("in one piece: %s", got)
			}
			if got := scanned(single(string(b))...); got != want {
				t.Errorf("byte by byte: %s", got)
			}
		}
	}
}

// TestLimits has texts that never end in one way or another.
func TestLimits(t *testing.T) {
	long := strings.Repeat("x", 3*MaxTag)
	for _, c := range []struct{ name, text, want string }{
		{"depth", strings.Repeat("<a>", MaxDepth+1), "line 1, column 193: found “<a”, expected elements nested no deeper than 64"},
		{"name", "<" + long + ">", "expected the end of this tag; it is longer than 64 KiB"},
		{"shorter name", "<" + long[:MaxName] + ">", "expected a name shorter than 256 bytes"},
		{"attribute", "<a b='" + long + "'>", "expected the end of this tag; it is longer than 64 KiB"},
		{"characters", "<a>" + long + "</a>", "<a>" + long[:MaxText] + "</a>"},
		{"CDATA", "<a><![CDATA[" + long + "]]></a>", "<a>" + long[:MaxText] + "</a>"},
		{"comment", "<a><!--" + long + "--></a>", "<a></a>"},
		{"instruction", "<a><?" + long + "?></a>", "<a></a>"},
	} {
		t.Run(c.name, func(t *testing.T) {
			whole := scanned([]byte(c.text))
			if !strings.HasSuffix(whole, c.want) {
				t.Errorf("in one piece: %.300s, want … %.200s", whole, c.want)
			}
			if got := scanned(single(c.text)...); got != whole {
				t.Errorf("byte by byte: %.300s, in one piece %.300s", got, whole)
			}
		})
	}
}

// TestMemoryIsBounded says what the package comment says.
func TestMemoryIsBounded(t *testing.T) {
	s := New(&teller{})
	piece := []byte(strings.Repeat("<a b='", 2000))
	for range 1000 {
		_ = s.Write(piece)
	}
	if kept := cap(s.carry) + cap(s.text) + cap(s.names) + cap(s.head); kept > 128*1024 {
		t.Errorf("%d bytes are kept, want no more than 128 KiB", kept)
	}
}

// cut cuts a text at random places.
func cut(t *rapid.T, text []byte) (pieces [][]byte) {
	at := 0
	for at < len(text) {
		n := rapid.IntRange(1, min(len(text)-at, rapid.SampledFrom([]int{1, 3, 40, 5000}).Draw(t, "most"))).Draw(t, "length")
		pieces = append(pieces, text[at:at+n])
		at += n
	}
	return pieces
}

// TestAnyChunks: what is told does not depend on where the text is cut.
func TestAnyChunks(t *testing.T) {
	part := rapid.SampledFrom([]string{
		"<a>", "</a>", "<b/>", "<x:c d='>' >", "</x:c>", "<!-- > -->", "<![CDATA[ ]] ]]>", "<?p ?>", "1", " ", "\n", "&amp;", "&", ";", "é", "<", "'", "]]>", "-->", "<!D>", "\x00", "\xff",
	})
	rapid.Check(t, func(t *rapid.T) {
		text := []byte("<r>" + strings.Join(rapid.SliceOfN(part, 0, 40).Draw(t, "parts"), "") + "</r>")
		if rapid.Bool().Draw(t, "Latin-1") {
			text = append([]byte("<?xml encoding='latin1'?>"), text...)
		}
		whole := scanned(text)
		if got := scanned(cut(t, text)...); got != whole {
			t.Fatalf("%q: %s", text, cmp.Diff(whole, got))
		}
	})
}

// standard tells a teller what Go's own reader finds, the reference.
func standard(text []byte) (string, error) {
	h := &teller{}
	d := stdxml.NewDecoder(bytes.NewReader(text))
	var run []byte
	for {
		token, err := d.Token()
		if errors.Is(err, io.EOF) {
			return h.b.String(), nil
		}
		if err != nil {
			return h.b.String(), err
		}
		switch token := token.(type) {
		case stdxml.StartElement:
			run = run[:0]
			h.Start([]byte(token.Name.Local), Tag{})
		case stdxml.CharData:
			run = append(run, token...)
		case stdxml.EndElement:
			h.End(trimmed(run))
			run = run[:0]
		}
	}
}

// namesOnly leaves out what standard does not tell.
type namesOnly struct{ teller }

func (h *namesOnly) Start(name []byte, _ Tag) { h.teller.Start(name, Tag{}) }

// TestAgainstStandardReader reads the trial feeds with both readers.
func TestAgainstStandardReader(t *testing.T) {
	root := os.Getenv("SPLITTALLY_TRIALS")
	if root == "" {
		t.Skip("SPLITTALLY_TRIALS does not name a folder of trial data")
	}
	files, _ := filepath.Glob(filepath.Join(root, "espi-*", "*.xml"))
	if len(files) == 0 {
		t.Fatal("no feeds among the trial data")
	}
	for _, file := range files {
		text, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		want, err := standard(text)
		h := &namesOnly{}
		s := New(h)
		wrong := s.Write(text)
		if wrong == nil {
			wrong = s.Close()
		}
		if (wrong == nil) != (err == nil) && !strings.HasSuffix(file, "1hrLP_32DaysM.xml") { // Go's reads a second document too
			t.Errorf("%s: %v, the standard reader says %v", filepath.Base(file), wrong, err)
		}
		if got := h.b.String(); got != want && wrong == nil {
			t.Errorf("%s: told differently", filepath.Base(file))
		}
	}
}

func FuzzScanner(f *testing.F) {
	for _, c := range tellings {
		f.Add([]byte(c.text), 3)
	}
	f.Fuzz(func(t *testing.T, text []byte, n int) {
		whole := scanned(text)
		n = max(1, n%50)
		var pieces [][]byte
		for rest := text; len(rest) > 0; {
			k := min(n, len(rest))
			pieces, rest = append(pieces, rest[:k]), rest[k:]
		}
		if got := scanned(pieces...); got != whole {
			t.Errorf("in pieces of %d: %s", n, cmp.Diff(whole, got))
		}
	})
}

// nothing is told and forgets.
type nothing struct{}

func (nothing) Start([]byte, Tag) {}
func (nothing) End([]byte)        {}

func BenchmarkScanner(b *testing.B) {
	reading := "\t\t<espi:IntervalReading>\n\t\t\t<espi:cost>1234</espi:cost>\n\t\t\t<espi:timePeriod>\n\t\t\t\t<espi:duration>900</espi:duration>\n\t\t\t\t<espi:start>1694736000</espi:start>\n\t\t\t</espi:timePeriod>\n\t\t\t<espi:value>151</espi:value>\n\t\t</espi:IntervalReading>\n"
	text := []byte("<feed>" + strings.Repeat(reading, 4000) + "</feed>")
	b.SetBytes(int64(len(text)))
	for b.Loop() {
		s := New(nothing{})
		for rest := text; len(rest) > 0; {
			n := min(len(rest), 1<<20)
			_ = s.Write(rest[:n])
			rest = rest[n:]
		}
		if err := s.Close(); err != nil {
			b.Fatal(err)
		}
	}
}
