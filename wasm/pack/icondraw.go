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
	img := image.NewRGBA(image.Rect(0, 0, side, side))
	unit := 2 * fine * side * tenth
	margin := (iconSize / 2) * (10 - tenth) * 2 * fine * side // the drawing shrinks around its middle
	scaled := make([]shape, len(shapes))
	for i, s := range shapes {
		scaled[i] = s
		scaled[i].points = make([]image.Point, len(s.points))
		for k, at := range s.points {
			scaled[i].points[k] = at.Mul(unit).Add(image.Pt(margin, margin))
		}
		scaled[i].width, scaled[i].dash, scaled[i].radius = s.width*unit, s.dash*unit, s.radius*unit
		if tenth < 10 {
			scaled[i].radius = 0
		}
	}
	whole := iconSize * 2 * fine * side * 10
	for y := range side {
		for x := range side {
			var sum [4]int
			for k := range fine * fine {
				at := image.Pt((2*(x*fine+k%fine)+1)*iconSize*10, (2*(y*fine+k/fine)+1)*iconSize*10)
				c := colourAt(scaled, at, whole)
				for n, v := range [4]uint8{c.R, c.G, c.B, c.A} {
					sum[n] += int(v)
				}
			}
			for n := range sum { // colours are 0 where nothing is, as image.RGBA wants them
				img.Pix[img.PixOffset(x, y)+n] = uint8((sum[n] + fine*fine/2) / (fine * fine))
			}
		}
	}
	return img
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
