package gain

import (
	"github.com/shopspring/decimal"

	"splittally/calc/number"
	"splittally/calc/uncertainty"
)

// DropSource is the volts lost between the panel and the socket, one cause in
// all legs as far as gains are added up. Where gains are compared with each
// other it is not: no two sockets lose the same.
const DropSource = "panel-to-socket-drop"

// drop is the most volts that are lost between the panel and the socket.
type drop struct {
	volts float64
	given bool
}

// assumedLoss is the portion of a load's power that is assumed to be lost at
// most in the wiring to its socket (common practice, no source).
const assumedLoss = 0.02

func (s *sheet) readDrop(typed string) {
	f := field{most: decimal.NewFromInt(20), units: voltUnits}
	if number.IsBlank(typed) {
		return
	}
	ways := f.read(typed)
	if len(ways) == 0 {
		s.problem(s.path+".drop", typed, "the volts lost at most between the panel and the socket, from 0 to 20, such as 1.5")
		return
	}
	s.drop = drop{ways[0].value, true}
}

// dropParts is what the drop does to a gain of volts. The monitor is in the
// panel and the multimeter at a socket, so the reference reads low by anything
// from 0 to the drop D. Nobody knows by how much, so it is not corrected, and
// the doubt holds the bias as well: the root mean square of a quantity anywhere
// from 0 to D alike is √(D²/12 + (D/2)²) = D/√3, that of a rectangle of
// half-width D (JCGM 100:2008 4.3.8 and F.2.4.5, from memory).
func (s *sheet) dropParts(monitor float64) []uncertainty.Part {
	if !s.drop.given || s.drop.volts == 0 {
		return nil
	}
	return []uncertainty.Part{uncertainty.Evaluate(uncertainty.Part{
		Source: DropSource, Name: "Volts lost between the panel and the socket", HalfWidth: s.drop.volts, Unit: "V",
		Distribution: uncertainty.Rectangular, Sensitivity: 100 / monitor,
		Reducible: true, Remedy: "measure at a socket whose circuit carries no load",
	})}
}

// lossParts is what the wiring does to a gain of power: the monitor sees the
// load and what the wires to it lose, P · D/V; treated as dropParts. A load
// always makes some drop, so where nobody stated one it is assumed.
func (s *sheet) lossParts(load, rise, legVolts float64) []uncertainty.Part {
	p := uncertainty.Part{
		Source: DropSource, Name: "Watts lost between the panel and the socket", HalfWidth: assumedLoss * load, Unit: "W",
		Distribution: uncertainty.Rectangular, Sensitivity: 100 / rise, Assumed: true,
		Reducible: true, Remedy: "use a socket close to the panel, and say how many volts it loses while the load is on",
	}
	if s.drop.given {
		p.HalfWidth, p.Assumed = load*s.drop.volts/legVolts, false
	}
	if p.HalfWidth == 0 {
		return nil
	}
	return []uncertainty.Part{uncertainty.Evaluate(p)}
}

// withoutCommonDrop gives a budget for comparing gains.
func withoutCommonDrop(b uncertainty.Budget) uncertainty.Budget {
	b = b.Merged()
	for i := range b {
		if b[i].Source == DropSource {
			b[i].Source = ""
		}
	}
	return b
}
