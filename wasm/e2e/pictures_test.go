//go:build !js

package e2e

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

var pictures = flag.Bool("pictures", false, "write the README's pictures into the repository")

// TestPictures takes the README's pictures of the worked example. Without
// -pictures (make pictures) they are taken all the same, which checks that each
// look is as wide as its window, and thrown away.
func TestPictures(t *testing.T) {
	program(t, "chromium")
	readme, err := os.ReadFile("../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	for _, place := range []struct {
		name   string
		width  int
		from   string // the picture begins at the top of this element
		height float64
	}{{"phone", 360, "#findings", 1200}, {"desk", 1280, "html", 1200}} {
		for _, scheme := range []string{"light", "dark"} {
			name := fmt.Sprintf("testdata/pictures/%s-%s.png", place.name, scheme)
			t.Run(name, func(t *testing.T) {
				if !strings.Contains(string(readme), name) {
					t.Errorf("README.md does not show %s", name)
				}
				path := filepath.Join(work, name)
				if *pictures {
					path = filepath.Join("../..", name)
				}
				p := open(t, look{form: singleFile, width: place.width, dark: scheme == "dark"})
				p.tap(`[data-do="show-example"]`)
				p.waitFor("#findings", "%")
				p.picture(path, place.from, place.height)
			})
		}
	}
}
