//go:build !js

package e2e

import (
	"bytes"
	"flag"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"maps"
	"os"
	"path/filepath"
	"slices"
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
	}{{"phone", 360, "#findings", 1200}, {"desk", 1280, "html", 1200}, {"meter", 360, `[data-group="timing"] [data-list="runs"] > :nth-child(2)`, 1200}} {
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
				fewerColours(t, path)
			})
		}
	}
}

// fewerColours writes a picture anew with the 96 colours that it has most of,
// which nobody can tell from the original, in less than half of the bytes.
func fewerColours(t *testing.T, path string) {
	t.Helper()
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	full, err := png.Decode(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	often := map[color.Color]int{}
	each(full.Bounds(), func(x, y int) { often[full.At(x, y)]++ })
	byCount := slices.SortedFunc(maps.Keys(often), func(a, b color.Color) int { return often[b] - often[a] })
	palette := color.Palette(byCount[:min(96, len(byCount))])
	nearest := map[color.Color]uint8{}
	for c := range often {
		nearest[c] = uint8(palette.Index(c))
	}
	few := image.NewPaletted(full.Bounds(), palette)
	each(full.Bounds(), func(x, y int) { few.SetColorIndex(x, y, nearest[full.At(x, y)]) })
	var out bytes.Buffer
	if err := (&png.Encoder{CompressionLevel: png.BestCompression}).Encode(&out, few); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, out.Bytes(), 0o644); err != nil {
		t.Fatal(err)
	}
}

func each(r image.Rectangle, f func(x, y int)) {
	for y := r.Min.Y; y < r.Max.Y; y++ {
		for x := r.Min.X; x < r.Max.X; x++ {
			f(x, y)
		}
	}
}
