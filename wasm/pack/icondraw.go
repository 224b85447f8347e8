package main

import (
	"image"
	"image/color"
)

// fine is how many points of a pixel are looked at, across and down.
const fine = 4

// draw paints the shapes into a square. All is whole numbers, or single products
// of floats, which are the same on every machine: in a space where a unit of the
// drawing has 2·fine·side·tenth parts, the points of the picture are whole.
func draw(shapes []shape, side, tenth int) *image.RGBA {
	c := canvas{shapes: scaled(shapes, side, tenth), whole: iconSize * 2 * fine * side * 10}
	img := image.NewRGBA(image.Rect(0, 0, side, side))
	above := c.corners(0, side)
	for y := range side {
		below := c.corners(y+1, side)
		for x := range side {
			colour := above[x]
			if above[x+1] != colour || below[x] != colour || below[x+1] != colour { // a sliver that reaches no corner is not seen
				colour = c.mixed(x, y)
			}
			img.SetRGBA(x, y, colour)
		}
		above = below
	}
	return img
}

// scaled gives the shapes as large as the picture is. The drawing shrinks around
// its middle, and where it does, its paper has no corners.
func scaled(shapes []shape, side, tenth int) []shape {
	unit := 2 * fine * side * tenth
	margin := (iconSize / 2) * (10 - tenth) * 2 * fine * side
	out := make([]shape, len(shapes))
	for i, s := range shapes {
		points := make([]image.Point, len(s.points))
		for k, at := range s.points {
			points[k] = at.Mul(unit).Add(image.Pt(margin, margin))
		}
		s.points, s.width, s.dash, s.radius = points, s.width*unit, s.dash*unit, s.radius*unit
		if tenth < 10 {
			s.radius = 0
		}
		out[i] = s
	}
	return out
}

// A canvas is what a picture is painted from.
type canvas struct {
	shapes []shape
	whole  int // its side
}

// at gives the colour at a point that lies so many fine steps, doubled, from the
// first corner.
func (c canvas) at(x, y int) color.RGBA {
	return colourAt(c.shapes, image.Pt(x, y).Mul(iconSize*10), c.whole)
}

// corners gives the colours at the upper corners of a row of pixels.
func (c canvas) corners(y, side int) []color.RGBA {
	row := make([]color.RGBA, side+1)
	for x := range row {
		row[x] = c.at(2*fine*x, 2*fine*y)
	}
	return row
}

// mixed gives the mean colour of a pixel. Where nothing is all is 0, as
// image.RGBA wants it.
func (c canvas) mixed(x, y int) color.RGBA {
	var sum [4]int
	for k := range fine * fine {
		one := c.at(2*(x*fine+k%fine)+1, 2*(y*fine+k/fine)+1)
		for n, v := range [4]uint8{one.R, one.G, one.B, one.A} {
			sum[n] += int(v)
		}
	}
	mean := func(n int) uint8 { return uint8((sum[n] + fine*fine/2) / (fine * fine)) }
	return color.RGBA{R: mean(0), G: mean(1), B: mean(2), A: mean(3)}
}

// colourAt gives the colour of the topmost shape at a point.
func colourAt(shapes []shape, at image.Point, whole int) color.RGBA {
	var c color.RGBA
	for i, s := range shapes {
		if i == 0 {
			if inSquare(at, whole, s.radius) {
				c = s.fill
			}
			continue
		}
		if s.fill.A > 0 && inside(s.points, at) {
			c = s.fill
		}
		if onStroke(s, at) {
			c = s.stroke
		}
	}
	return c
}

// inSquare says whether a point lies in the square with rounded corners.
func inSquare(at image.Point, whole, radius int) bool {
	dx, dy := max(radius-at.X, at.X-(whole-radius), 0), max(radius-at.Y, at.Y-(whole-radius), 0)
	return dx*dx+dy*dy <= radius*radius
}

// inside counts the edges to the right of a point.
func inside(points []image.Point, at image.Point) bool {
	in := false
	for i, a := range points {
		b := points[(i+1)%len(points)]
		if (a.Y > at.Y) == (b.Y > at.Y) {
			continue
		}
		if left := cross(b.Sub(a), at.Sub(a)) > 0; left == (b.Y > a.Y) {
			in = !in
		}
	}
	return in
}

func cross(a, b image.Point) int { return a.X*b.Y - a.Y*b.X }
func dot(a, b image.Point) int   { return a.X*b.X + a.Y*b.Y }

// onStroke says whether a point is at most half the width from a line. Lines end
// square where the path does, round where two meet.
func onStroke(s shape, at image.Point) bool {
	for i, a := range s.points {
		if i == len(s.points)-1 && !s.closed {
			break
		}
		b := s.points[(i+1)%len(s.points)]
		along, out := b.Sub(a), at.Sub(a)
		length2, part := dot(along, along), dot(along, out)
		if part >= 0 && part <= length2 {
			c := float64(cross(along, out))
			if 4*(c*c) <= float64(s.width*s.width)*float64(length2) && onDash(s, along, out) {
				return true
			}
		}
		if s.closed && 4*dot(out, out) <= s.width*s.width {
			return true
		}
	}
	return false
}

// onDash says whether the foot of a point lies on a dash. Only lines along an
// axis are dashed in the icon.
func onDash(s shape, along, out image.Point) bool {
	return s.dash == 0 || (out.X*sign(along.X)+out.Y*sign(along.Y))/s.dash%2 == 0
}

func sign(n int) int {
	switch {
	case n < 0:
		return -1
	case n > 0:
		return 1
	}
	return 0
}
