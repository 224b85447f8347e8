package view

import (
	"strconv"

	"splittally/calc"
	"splittally/calc/chart"
	"splittally/calc/fit"
	"splittally/calc/say"
)

// lineOver shows the line monitor = offset + gain · meter over the bills,
// and folded the one over days.
func (s *sheet) lineOver(i int, inst calc.Instrument) piece {
	var out []piece
	if inst.IsFitted {
		out = append(out, s.fittedLine(id("line", i), i, inst.Name, "bill", inst.Fitted))
	}
	if inst.IsDaily {
		out = append(out, s.folded("more", id("daily", i), "Gain and offset over the meter’s days", func() piece {
			return s.fittedLine(id("line-days", i), i, inst.Name, "day", inst.Daily)
		}))
	}
	return join(out...)
}

// fittedLine draws a line with its points; each is a bill or a day.
func (s *sheet) fittedLine(id string, instrument int, name, each string, f calc.Fitted) piece {
	words := say.Line(f.Line, f.Watts)
	c := chart.Against{
		ID: id, Title: name + " against the meter, " + each + " by " + each,
		Words: capital(say.Counted(len(f.Points), each, each+"s")) + ", one mark for each. " + words,
		Ink:   chart.Ink(instrument), Name: name,
		Offset: f.Line.Offset.Value, Gain: f.Line.Gain.Value, IsLaid: f.Line.Known,
	}
	for _, p := range f.Points {
		c.Dots = append(c.Dots, chart.Dot{Meter: p.Meter, Monitor: p.Monitor, MeterBar: p.MeterDoubt, MonitorBar: p.MonitorDoubt})
	}
	caption := "One mark for each " + each + ", with its standard uncertainty both ways. Solid: the line through them. Dashed: where both would count alike."
	parts := []piece{el("figure", chart.Scatter(c), el("figcaption", text(caption)))}
	parts = append(parts, prose(words), said(say.LineMeans(f.Line)), said(say.LineFits(f.Line, s.f.Confidence, each == "day")))
	if f.Line.Known {
		parts = append(parts, lineTable(f))
	}
	return join(parts...)
}

// lineTable sets the two ways to lay the line side by side.
func lineTable(f calc.Fitted) piece {
	heads := []string{"The line", "Offset, kWh a day", "Gain"}
	row := func(name, detail string, l fit.Line) piece {
		offset, gain := "—", "—"
		if l.Known {
			offset, gain = say.Signed(l.Offset.Value, l.Offset.Expanded)+say.PlusMinus+say.Interval(l.Offset.Expanded), say.Factor(l.Gain)
		}
		return row(heads, join(text(name), gives(detail)), offset, gain)
	}
	detail := "takes the meter’s figures as exact"
	if f.Ordinary.Known {
		detail += "; the monitor’s lie " + strconv.FormatFloat(f.Ordinary.Residual, 'g', 2, 64) + " kWh a day about it"
	}
	return table("wide", "Two ways to lay it", heads, tbody(
		row("Both uncertain", "weighs each mark by what is known of it, both ways", f.Line),
		row("Least squares", detail, f.Ordinary)))
}
