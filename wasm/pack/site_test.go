//go:build !js

package main

import (
	"bytes"
	"crypto/sha256"
	"encoding/base64"
	"encoding/hex"
	"encoding/json"
	"image/png"
	"regexp"
	"strings"
	"testing"
)

var withHash = regexp.MustCompile(`^([\w-]+)\.([0-9a-f]{12})(\.\w+)$`)

// Every file but three has the hash of its content in its name, and the page
// names no other.
func TestNamesCarryHashes(t *testing.T) {
	files, err := small(t).site([]byte("single"))
	if err != nil {
		t.Fatal(err)
	}
	for name, data := range files {
		if name == "index.html" || name == "sw.js" || name == "splittally.html" {
			continue
		}
		m := withHash.FindStringSubmatch(name)
		if sum := sha256.Sum256(data); m == nil || m[2] != hex.EncodeToString(sum[:])[:12] {
			t.Errorf("%s does not carry the hash of its content, %x", name, sum)
		}
		if m != nil && files[m[1]+m[3]] != nil {
			t.Errorf("%s is there under its plain name, too", name)
		}
	}
	for _, plain := range []string{`"boot.js"`, `"style.css"`, `"engine.bin"`, `"manifest.webmanifest"`, `"icon.svg"`} {
		if strings.Contains(string(files["index.html"]), plain) {
			t.Errorf("the page names %s", plain)
		}
	}
}

// The worker lists every file of the site but itself, each with what a browser
// will compare it with: Subresource Integrity, section 3.1.
func TestWorkerListsTheSite(t *testing.T) {
	files, err := small(t).site([]byte("single"))
	if err != nil {
		t.Fatal(err)
	}
	m := regexp.MustCompile(`build = (".*"), needed = (\[.*\]), besides = (\[.*\]);`).FindSubmatch(files["sw.js"])
	if m == nil {
		t.Fatalf("the worker has no lists:\n%s", files["sw.js"])
	}
	var build string
	var needed, besides [][2]string
	for i, to := range []any{&build, &needed, &besides} {
		if err := json.Unmarshal(m[1+i], to); err != nil {
			t.Fatal(err)
		}
	}
	if !strings.Contains(string(files["index.html"]), `data-build="`+build+`"`) {
		t.Errorf("the worker is of build %s, the page of another", build)
	}
	if len(besides) != 1 || besides[0][0] != "splittally.html" {
		t.Errorf("besides are %v, want the single file", besides)
	}
	listed := map[string]bool{"sw.js": true}
	for _, f := range append(needed, besides...) {
		name := f[0]
		if name == "./" {
			name = "index.html"
		}
		listed[name] = true
		if sum := sha256.Sum256(files[name]); f[1] != "sha256-"+base64.StdEncoding.EncodeToString(sum[:]) {
			t.Errorf("%s: the worker expects %s, the file has %x", name, f[1], sum)
		}
	}
	for name := range files {
		if !listed[name] {
			t.Errorf("the worker does not keep %s", name)
		}
	}
}

// Whatever changes, pages and workers of two builds are told apart.
func TestBuildsAreToldApart(t *testing.T) {
	build := func(change func(p *parts), single string) string {
		p := small(t)
		change(&p)
		files, err := p.site([]byte(single))
		if err != nil {
			t.Fatal(err)
		}
		m := regexp.MustCompile(`data-build="([0-9a-f]{12})"`).FindSubmatch(files["index.html"])
		if m == nil {
			t.Fatalf("the page has no build:\n%s", files["index.html"])
		}
		return string(m[1])
	}
	same := func(*parts) {}
	first := build(same, "single")
	if again := build(same, "single"); again != first {
		t.Errorf("the same files are build %s and %s", first, again)
	}
	for name, other := range map[string]string{
		"engine":      build(func(p *parts) { p.engine = append(p.engine[:1:1], []byte("another")) }, "single"),
		"style":       build(func(p *parts) { p.style += " " }, "single"),
		"page":        build(func(p *parts) { p.page += " " }, "single"),
		"worker":      build(func(p *parts) { p.worker += " " }, "single"),
		"offline":     build(func(p *parts) { p.offline += " " }, "single"),
		"manifest":    build(func(p *parts) { p.manifest += " " }, "single"),
		"single file": build(same, "another"),
	} {
		if other == first {
			t.Errorf("another %s makes no other build", name)
		}
	}
}

func TestWorkerRefuses(t *testing.T) {
	p := small(t)
	p.worker = strings.Replace(p.worker, `"(needed)"`, "[]", 1)
	_, err := p.site(nil)
	checkRefusal(t, err, `sw.js: "(needed)" stands there 0 times`)
}

// The pictures are what the drawing is: paper in the corners where it should be,
// and its colours where its parts are.
func TestIcons(t *testing.T) {
	icons, err := small(t).icons()
	if err != nil {
		t.Fatal(err)
	}
	const paper, ink, brass, nothing = 0xf6efdf, 0x3a2233, 0xb8862f, -1
	// smallIcon is a brass plank from (8, 16) to (56, 48) on 64 units.
	for _, want := range []struct {
		name              string
		side, corner      int
		edge, within, out int // in thousandths of the side, along the middle: stroke, plank, paper
	}{
		{"icon-192.png", 192, nothing, 125, 150, 100},
		{"icon-512.png", 512, nothing, 125, 150, 100},
		{"icon-512-maskable.png", 512, paper, 200, 220, 180},
		{"icon-180.png", 180, paper, 163, 185, 140},
	} {
		var found bool
		for _, i := range icons {
			if i.name != want.name {
				continue
			}
			found = true
			img, err := png.Decode(bytes.NewReader(i.data))
			if err != nil {
				t.Fatal(err)
			}
			if b := img.Bounds(); b.Dx() != want.side || b.Dy() != want.side {
				t.Errorf("%s is %v", i.name, b)
			}
			for at, colour := range map[[2]int]int{{0, 0}: want.corner, {want.edge, 500}: ink, {want.within, 500}: brass, {want.out, 500}: paper, {500, 500}: brass} {
				r, g, b, a := img.At(at[0]*want.side/1000, at[1]*want.side/1000).RGBA()
				got := int(r>>8)<<16 | int(g>>8)<<8 | int(b>>8)
				if a == 0 {
					got = nothing
				}
				if got != colour {
					t.Errorf("%s at %v: %06x, want %06x", i.name, at, got, colour)
				}
			}
		}
		if !found {
			t.Errorf("no %s", want.name)
		}
	}
}

func TestIconRefuses(t *testing.T) {
	for old, c := range map[string]struct{ new, want string }{
		"M8 16H56V48H8Z":   {"M8 16C8 16 9 9 1 1Z", "want M, L, H, V and Z"},
		`"#b8862f"`:        {`"gold"`, "six hexadecimal digits"},
		"<g ":              {`<circle r="3"/><g `, "one group of paths"},
		`0 0 64 64`:        {`0 0 32 32`, "square of 64 units"},
		`stroke="#3a2233"`: {"", "six hexadecimal digits"},
	} {
		p := small(t)
		p.icon = strings.Replace(p.icon, old, c.new, 1)
		_, err := p.icons()
		checkRefusal(t, err, c.want)
	}
}
