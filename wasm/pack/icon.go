package main

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"strconv"
	"strings"
)

// iconSize is the side of static/icon.svg in its own units.
const iconSize = 64

// icons draws static/icon.svg as the pictures that an installed page needs.
// Systems cut a maskable picture to a shape of their own, at worst to a circle of
// 80 % of its width (Web Application Manifest, "icon masks"); so the drawing is
// made smaller there and its paper fills the square. The same is done for the
// picture that takes rounded corners from the system.
func (p parts) icons() ([]file, error) {
	shapes, err := readShapes(p.icon)
	if err != nil {
		return nil, fmt.Errorf("icon.svg: %w", err)
	}
	var all []file
	for _, i := range []struct {
		name  string
		side  int
		tenth int // tenths of its size that the drawing has; below 10 the paper fills the square
	}{{"icon-192.png", 192, 10}, {"icon-512.png", 512, 10}, {"icon-512-maskable.png", 512, 8}, {"icon-180.png", 180, 9}} {
		var b bytes.Buffer
		if err := png.Encode(&b, draw(shapes, i.side, i.tenth)); err != nil {
			return nil, err
		}
		all = append(all, file{i.name, b.Bytes()})
	}
	return all, nil
}

// A shape is a closed polygon to fill, lines to draw, or both. Coordinates are
// units of the drawing.
type shape struct {
	points []image.Point
	radius int // of rounded corners: the shape is then the whole square
	fill   color.RGBA
	stroke color.RGBA
	width  int  // of the stroke
	dash   int  // length of dashes and of the gaps between them; 0: none
	closed bool // the stroke returns to the first point
}

// drawing is what readShapes knows of SVG.
type drawing struct {
	ViewBox string `xml:"viewBox,attr"`
	Rect    struct {
		Width  int    `xml:"width,attr"`
		Height int    `xml:"height,attr"`
		Radius int    `xml:"rx,attr"`
		Fill   string `xml:"fill,attr"`
	} `xml:"rect"`
	Group struct {
		Stroke string `xml:"stroke,attr"`
		Width  int    `xml:"stroke-width,attr"`
		Join   string `xml:"stroke-linejoin,attr"`
		Paths  []line `xml:"path"`
	} `xml:"g"`
	Other []struct{ XMLName xml.Name } `xml:",any"`
}

type line struct {
	D      string `xml:"d,attr"`
	Fill   string `xml:"fill,attr"`
	Stroke string `xml:"stroke,attr"`
	Dashes string `xml:"stroke-dasharray,attr"`
}

// readShapes reads what the icon is made of: one square with rounded corners,
// and paths of straight lines. What it doesn't know it refuses.
func readShapes(svg string) ([]shape, error) {
	var d drawing
	if err := xml.Unmarshal([]byte(svg), &d); err != nil {
		return nil, err
	}
	if d.ViewBox != "0 0 64 64" || d.Rect.Width != iconSize || d.Rect.Height != iconSize || d.Group.Join != "round" || len(d.Other) > 0 {
		return nil, fmt.Errorf("want a square of %d units and one group of paths with round joins", iconSize)
	}
	paper, err := colour(d.Rect.Fill)
	if err != nil {
		return nil, err
	}
	shapes := []shape{{radius: d.Rect.Radius, fill: paper}}
	for _, l := range d.Group.Paths {
		if l.Stroke == "" {
			l.Stroke = d.Group.Stroke
		}
		s, err := l.shape(d.Group.Width)
		if err != nil {
			return nil, err
		}
		shapes = append(shapes, s)
	}
	return shapes, nil
}

func (l line) shape(width int) (s shape, err error) {
	s.width = width
	if s.points, s.closed, err = polygon(l.D); err != nil {
		return s, err
	}
	if s.stroke, err = colour(l.Stroke); err != nil {
		return s, err
	}
	if l.Dashes != "" {
		gap := 0
		if n, _ := fmt.Sscan(l.Dashes, &s.dash, &gap); n != 2 || gap != s.dash || s.dash <= 0 {
			return s, fmt.Errorf("dashes %q: want two equal lengths", l.Dashes)
		}
	}
	if l.Fill != "" {
		s.fill, err = colour(l.Fill)
	}
	return s, err
}

func colour(text string) (color.RGBA, error) {
	n, err := strconv.ParseUint(strings.TrimPrefix(text, "#"), 16, 24)
	if err != nil || len(text) != 7 {
		return color.RGBA{}, fmt.Errorf("colour %q: want six hexadecimal digits behind #", text)
	}
	return color.RGBA{R: uint8(n >> 16), G: uint8(n >> 8), B: uint8(n), A: 255}, nil
}

// polygon reads a path of the commands M, L, H, V and Z with whole numbers.
func polygon(d string) (points []image.Point, closed bool, err error) {
	wrong := fmt.Errorf("path %q: want M, L, H, V and Z with whole numbers", d)
	var at image.Point
	for rest := d; rest != ""; {
		command := rest[0]
		end := 1 + strings.IndexAny(rest[1:]+"M", "MLHVZ")
		var numbers []int
		for _, word := range strings.Fields(rest[1:end]) {
			n, err := strconv.Atoi(word)
			if err != nil {
				return nil, false, wrong
			}
			numbers = append(numbers, n)
		}
		rest = rest[end:]
		switch {
		case command == 'H' && len(numbers) == 1:
			at.X = numbers[0]
		case command == 'V' && len(numbers) == 1:
			at.Y = numbers[0]
		case (command == 'L' || command == 'M' && points == nil) && len(numbers) == 2:
			at = image.Pt(numbers[0], numbers[1])
		case command == 'Z' && len(numbers) == 0 && rest == "":
			return points, true, nil
		default:
			return nil, false, wrong
		}
		points = append(points, at)
	}
	return points, false, nil
}
