package link

import (
	"hash/crc32"
	"math/rand/v2"
	"reflect"
	"regexp"
	"strings"
	"testing"
	"unicode"

	"github.com/google/go-cmp/cmp"

	"splittally/calc"
	"splittally/calc/document"
	"splittally/calc/link/coder"
)

// allFields gives the paths of all fields of a case, * for each place in a list.
func allFields() (paths []string) {
	var c calc.Case
	var fill func(v reflect.Value)
	fill = func(v reflect.Value) {
		switch v.Kind() {
		case reflect.String:
			v.SetString("1")
		case reflect.Slice:
			v.Set(reflect.MakeSlice(v.Type(), 1, 1))
			fill(v.Index(0))
		case reflect.Struct:
			for i := range v.NumField() {
				fill(v.Field(i))
			}
		}
	}
	fill(reflect.ValueOf(&c).Elem())
	number := regexp.MustCompile(`\.[0-9]+`)
	for path := range document.Flatten(document.Write(c.Fields)).Texts {
		paths = append(paths, number.ReplaceAllString(path, ".*"))
	}
	return paths
}

// wrapped makes a whole link of what is packed.
func wrapped(packed []byte) string {
	sum := crc32.ChecksumIEEE(packed)
	body := coder.ToLetters(append([]byte{byte(sum >> 24), byte(sum >> 16), byte(sum >> 8), byte(sum)}, packed...))
	return mark + string(version) + coder.Count(len(body), countLength) + body
}

// A field that the table lacks goes by its name, wherever it stands.
func TestUnknownFieldsGoAlong(t *testing.T) {
	var root document.Node
	text := func(s string) document.Node { return document.Node{Text: s} }
	root.Put([]string{"title"}, text("x"))
	root.Put([]string{"colour"}, text("plum"))
	root.Put([]string{"monitors", "0", "name"}, text("one"))
	root.Put([]string{"monitors", "0", "ratio"}, text("12."))
	root.Put([]string{"monitors", "1", "ratio"}, text("2026-03-01"))
	root.Put([]string{"seal", "number"}, text("77"))
	root.Put([]string{"visits", "0", "day"}, text("2026-03-01"))
	root.Put([]string{"visits", "1", "notes", "0", "text"}, text("a"))
	w := &walk{Coder: coder.NewWriter(budget)}
	w.all(&root)
	r := &walk{Coder: coder.NewReader(w.Bytes(), budget)}
	var back document.Node
	r.all(&back)
	if diff := cmp.Diff(document.Flatten(root), document.Flatten(back)); diff != "" || r.Broken {
		t.Error(diff)
	}
	if _, err := Read(wrapped(w.Bytes())); err == nil {
		t.Error("a case was made of fields that no case has")
	}
}

func TestChecksumIsThatOfTheStandard(t *testing.T) {
	for _, text := range []string{"", "123456789", strings.Repeat("\xff\x00", 99)} {
		if got, want := checksum([]byte(text)), crc32.ChecksumIEEE([]byte(text)); got != want {
			t.Errorf("%q: %x, want %x", text, got, want)
		}
	}
}

func TestRefusals(t *testing.T) {
	link := Write(twoMonths(2), Options{})
	swapped := []byte(link)
	swapped[40], swapped[41] = swapped[41], swapped[40]
	more := &walk{Coder: coder.NewWriter(budget)}
	more.Number(&coder.Size{}, 900)
	for _, c := range []struct{ name, link, want string }{
		{"nothing", "", "no case of Split Tally"},
		{"another page's", "#section-2", "no case of Split Tally"},
		{"the mark alone", "tally", "cut off near its beginning"},
		{"the head alone", link[:headLength], "cut off: it has 10 of"},
		{"half", link[:len(link)/2], "cut off: it has"},
		{"all but one", link[:len(link)-1], "cut off: it has"},
		{"a later version", "tally2" + link[6:], "newer version"},
		{"fields of a later version", wrapped(more.Bytes()), "newer version"},
		{"two letters swapped", string(swapped), "damaged"},
		{"its own length wrong", link[:6] + "0001" + link[10:], "damaged"},
		{"nothing in it", wrapped(nil), "what it holds is no case"},
		{"nonsense in it", wrapped([]byte("hello, this is no case at all")), "what it holds is no case"},
		{"far too long", link + strings.Repeat("a", MaxLength), "longer than any"},
	} {
		got, err := Read(c.link)
		if err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v, want %q", c.name, err, c.want)
		}
		if diff := cmp.Diff(calc.Case{}, got); diff != "" {
			t.Errorf("%s: a refused link left something: %s", c.name, diff)
		}
	}
	for _, around := range []string{"#" + link, " " + link + "\n", link + ").", link + "and_more"} {
		if _, err := Read(around); err != nil {
			t.Errorf("%q: %v", around[len(around)-8:], err)
		}
	}
	if !Is("#tally9zzz") || Is("#top") || Is("") {
		t.Error("what is meant to be a link is not told")
	}
}

// Every letter of a link counts: none can be another, and none can lack.
func TestDamageIsSeen(t *testing.T) {
	link := Write(twoMonths(1), Options{})
	want, _ := Read(link)
	for i := range len(link) {
		b := []byte(link)
		b[i] = "0zA"[i%3]
		if string(b) == link {
			continue
		}
		if c, err := Read(string(b)); err == nil && !cmp.Equal(want, c) {
			t.Errorf("letter %d can be another", i)
		}
		if _, err := Read(link[:i]); err == nil {
			t.Errorf("%d letters are enough", i)
		}
	}
}

// checkHostile reads what may be anything: there is no panic, no large case, and
// no sign in it that does something else than show.
func checkHostile(t *testing.T, link string) {
	t.Helper()
	c, err := Read(link)
	if err != nil {
		return
	}
	size := 0
	for path, text := range document.Flatten(document.Write(c.Fields)).Texts {
		size += len(path) + len(text)
		for _, r := range text {
			if r != '\n' && r != '\t' && (unicode.Is(unicode.Cc, r) || unicode.Is(unicode.Cf, r)) {
				t.Fatalf("%s holds %q", path, r)
			}
		}
	}
	if size > 40<<20 {
		t.Fatalf("%d characters come of %d", size, len(link))
	}
}

func TestMutatedLinks(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for name, c := range cases(t) {
		packed, err := open(Write(c, Options{Names: true, Hours: true}))
		if err != nil {
			t.Fatal(name, err)
		}
		for range 20 {
			b := append([]byte(nil), packed...)
			for range 1 + r.IntN(4) {
				b[r.IntN(len(b))] ^= byte(1 << r.IntN(8))
			}
			checkHostile(t, wrapped(b))
			checkHostile(t, wrapped(b[:r.IntN(len(b))]))
		}
	}
}

// FuzzRead is given what is packed in a link whose sum is right.
func FuzzRead(f *testing.F) {
	for _, c := range []calc.Case{{}, twoMonths(2), {Monitors: []calc.Monitor{{Record: drawnRecord(3)}}}} {
		packed, err := open(Write(c, Options{Names: true, Hours: true}))
		if err != nil {
			f.Fatal(err)
		}
		f.Add(packed)
	}
	f.Fuzz(func(t *testing.T, packed []byte) { checkHostile(t, wrapped(packed)) })
}

// FuzzText is given a text that may or may not be a link.
func FuzzText(f *testing.F) {
	f.Add(Write(twoMonths(2), Options{}))
	f.Add("tally1")
	f.Fuzz(checkHostile)
}
