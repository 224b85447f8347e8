package view

import (
	"image"
	"image/color"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/makiuchi-d/gozxing"
	"github.com/makiuchi-d/gozxing/qrcode"
)

// What is drawn is read back by a general decoder of QR codes.
func TestQRIsRead(t *testing.T) {
	for _, n := range []int{1, 40, 700, 1200, 2900} {
		content := "http://127.0.0.1:8765/#" + strings.Repeat("aZ09bY18", n/8)
		svg := QR(content, "a link")
		bitmap, err := gozxing.NewBinaryBitmapFromImage(painted(t, svg))
		if err != nil {
			t.Fatal(err)
		}
		read, err := qrcode.NewQRCodeReader().Decode(bitmap, map[gozxing.DecodeHintType]any{gozxing.DecodeHintType_PURE_BARCODE: true})
		if err != nil {
			t.Errorf("%d characters: %v", len(content), err)
			continue
		}
		if read.GetText() != content {
			t.Errorf("%d characters: read as %.60q", len(content), read.GetText())
		}
	}
	if got := QR("", "none"); got != "" {
		t.Errorf("no text gave %.80q", got)
	}
	if got := QR(strings.Repeat("a", 2954), "too long"); got != "" { // ISO/IEC 18004, table 7: 40-L holds 2,953 bytes
		t.Errorf("a text too long for any code gives %.60q", got)
	}
}

var (
	sideOf = regexp.MustCompile(`viewBox="0 0 (\d+)`)
	runOf  = regexp.MustCompile(`M(\d+) (\d+)h(\d+)v1h-`)
)

// painted draws the SVG's dark runs, four pixels to a module.
func painted(t *testing.T, svg string) image.Image {
	t.Helper()
	const scale = 4
	side := atoi(t, sideOf.FindStringSubmatch(svg)[1])
	img := image.NewGray(image.Rect(0, 0, side*scale, side*scale))
	for i := range img.Pix {
		img.Pix[i] = 255
	}
	for _, m := range runOf.FindAllStringSubmatch(svg, -1) {
		x, y, n := atoi(t, m[1]), atoi(t, m[2]), atoi(t, m[3])
		for py := range scale {
			for px := range scale * n {
				img.SetGray(x*scale+px, y*scale+py, color.Gray{})
			}
		}
	}
	return img
}

func atoi(t *testing.T, s string) int {
	t.Helper()
	n, err := strconv.Atoi(s)
	if err != nil {
		t.Fatal(err)
	}
	return n
}
