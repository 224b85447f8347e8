//go:build !js

package e2e

import (
	"bytes"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"testing"
	"unicode/utf16"

	"github.com/chromedp/chromedp"
)

// Files that are no readings, or broken ones, give a clear sentence, and take no
// more memory than others. What was there before still is.
func TestHostileFiles(t *testing.T) {
	p := open(t, look{form: singleFile, width: 360})
	p.upload(pickFile, written(t, "barn.csv", minutes(10)))
	p.waitFor(fileCard, "10 days")
	noise := make([]byte, 3<<20)
	random := rand.New(rand.NewPCG(1, 2))
	for i := range noise {
		noise[i] = byte(random.UintN(256))
	}
	g := watchMemory(t, p.ctx)
	for _, c := range []struct {
		name string
		data []byte
		want string
	}{
		{"noise.csv", noise, "of another kind"},
		{"line.csv", bytes.Repeat([]byte("2024-03-01 00:00 0.1 "), 50<<20/21), "gave no readings"},
		{"page.xml", []byte("<html><body>Please sign in</body></html>"), "a page of the web"},
		{"other.xml", []byte(`<?xml version="1.0"?><garden><bed plants="3"/></garden>`), "gave no readings"},
		{"bomb.xml", []byte(`<?xml version="1.0"?><!DOCTYPE a [<!ENTITY b "x"><!ENTITY c "&b;&b;">]><a>&c;</a>`), "gave no readings"},
		{"sheet.xlsx", append([]byte("PK\x03\x04"), noise[:4000]...), "save the sheet as CSV"},
		{"nothing.csv", nil, "empty"},
	} {
		p.upload(pickFile, written(t, c.name, c.data))
		p.waitFor(fileCard, "“"+c.name+"”")
		p.until(c.name+" to be read", func() bool { return p.count(".going") == 0 })
		p.waitFor(fileCard, c.want)
		p.waitFor(fileCard, "10 days")
		p.fits()
		t.Logf("%s, %d bytes: the page says %q", c.name, len(c.data), p.text(fileCard+" .trouble"))
	}
	g.stop()
	t.Logf("they took %.1f MB above the page's own, and left %.1f MB", float64(g.above())/1e6, float64(g.after)/1e6)
	var wide bytes.Buffer
	wide.WriteString("\xff\xfe")
	for _, unit := range utf16.Encode([]rune(string(minutes(11)))) {
		wide.Write([]byte{byte(unit), byte(unit >> 8)})
	}
	p.upload(pickFile, written(t, "wide.csv", wide.Bytes()))
	p.waitFor(fileCard, "11 days")
}

// The card of a file has no barriers that the checker sees, is easy to tap, and
// fits a phone, in all of its states.
func TestFileBarriers(t *testing.T) {
	checker, err := os.ReadFile(filepath.FromSlash(axe))
	if err != nil {
		t.Fatalf("axe-core is not installed; make test installs it (%v)", err)
	}
	path := written(t, "north shed 2024.csv", minutes(366))
	long := written(t, "long.csv", bytes.Repeat(minutes(366), 12))
	for _, width := range []int{360, 1280} {
		for _, dark := range []bool{false, true} {
			t.Run(fmt.Sprintf("width=%d,dark=%v", width, dark), func(t *testing.T) {
				p := open(t, look{form: singleFile, width: width, dark: dark})
				evaluate[chromedp.Void](p, string(checker))
				look := func(what string) {
					t.Helper()
					p.frame()
					p.violations(what)
					p.targets(what)
					p.fits()
					if *shots != "" {
						p.picture(filepath.Join(*shots, fmt.Sprintf("file %s %d %v.png", what, width, dark)), fileCard,
							evaluate[float64](p, find(fileCard)+`.getBoundingClientRect().height + 60`))
					}
				}
				p.upload(pickFile, path)
				p.waitFor(fileCard, "366 days")
				p.unfoldIn(fileCard)
				look("read")
				p.upload(pickFile, written(t, "page.csv", []byte("<html>no</html>")))
				p.waitFor(fileCard, "a page of the web")
				look("refused")
				p.upload(pickFile, long)
				p.waitFor(fileCard, "Reading “long.csv”")
				p.waitFor(fileCard, "The first readings")
				look("reading")
				p.tap("#monitors-0-file-stop")
				p.waitFor(fileCard, "was not read to its end")
				p.reload()
				p.waitFor(fileCard, "366 days")
				evaluate[chromedp.Void](p, string(checker))
				p.unfoldIn(fileCard)
				look("reloaded")
			})
		}
	}
}
