package view

import (
	"strconv"
	"strings"

	"rsc.io/qr/coding"

	"splittally/calc/chart/markup"
)

// quiet is the white border of a QR code in modules: ISO/IEC 18004, 6.3.8.
const quiet = 4

// QR draws a text as a QR code, to be read off a screen; "" if the text is too
// long for one, or there is none. It has the least error correction: a screen is clean, and fewer
// modules are easier to read.
func QR(content, label string) string {
	code, ok := qrOf(content)
	if !ok || content == "" {
		return ""
	}
	side := strconv.Itoa(code.Size + 2*quiet)
	return el("svg", class("qr"), attr("role", "img"), attr("aria-label", label), attr("viewBox", "0 0 "+side+" "+side), attr("shape-rendering", "crispEdges"),
		el("path", class("qr-white"), attr("d", "M0 0h"+side+"v"+side+"h-"+side+"z")),
		el("path", class("qr-black"), attr("d", modules(code)))).(markup.Markup).String()
}

// NoCode is what stands in the place of a code that can't be drawn.
const NoCode = "<p>The link is too long for a QR code. Save a file and send that to the phone.</p>"

func qrOf(content string) (*coding.Code, bool) {
	text := coding.String(content)
	version := coding.Version(coding.MinVersion)
	for text.Bits(version) > 8*version.DataBytes(coding.L) {
		if version++; version > coding.MaxVersion {
			return nil, false
		}
	}
	// Any mask is valid. What a link is made of is as good as random, so none is
	// needed against large areas of one colour.
	plan, err := coding.NewPlan(version, coding.L, 0)
	if err != nil {
		return nil, false
	}
	code, err := plan.Encode(text)
	return code, err == nil
}

// modules gives the dark modules as a path, a stroke for each run in a row.
func modules(code *coding.Code) string {
	var b strings.Builder
	for y := range code.Size {
		for x := 0; x < code.Size; x++ {
			run := 0
			for code.Black(x+run, y) { // nothing is black beyond the edge
				run++
			}
			if run > 0 {
				n := strconv.Itoa(run)
				b.WriteString("M" + strconv.Itoa(x+quiet) + " " + strconv.Itoa(y+quiet) + "h" + n + "v1h-" + n + "z")
				x += run
			}
		}
	}
	return b.String()
}
