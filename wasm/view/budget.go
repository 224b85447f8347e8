package view

import (
	"math"
	"strconv"

	"splittally/calc/chart/markup"
	"splittally/calc/compare"
	"splittally/calc/say"
	"splittally/calc/uncertainty"
)

// budget shows what the uncertainty of an error is made of.
func (s *sheet) budget(p pair) piece {
	c := p.Compared
	if len(c.Budget) == 0 {
		return none
	}
	return s.folded("more", id("budget", p.period, p.instrument), "What the ± is made of", func() piece { return s.budgetTable(c) })
}

func (s *sheet) budgetTable(c compare.Comparison) piece {
	parts := c.Budget.Merged()
	shares := parts.Shares()
	heads := []string{"What could be wrong", "Adds, %", "Share"}
	var rows []piece
	for _, i := range byShare(shares) {
		rows = append(rows, partRow(parts[i], shares[i], heads))
	}
	said := "Standard uncertainty " + percent(say.Interval(c.Standard)) + ", times k = " + strconv.FormatFloat(c.Coverage, 'f', 2, 64) +
		" (" + freedom(c.DoF) + ", " + s.confidence() + "), gives ± " + percent(say.Interval(c.Expanded)) + "."
	if !math.IsInf(c.En, 0) {
		said += " Eₙ = error ÷ that = " + sign(strconv.FormatFloat(c.En, 'f', 2, 64)) + "; beyond ±1 they differ."
	}
	if c.Promise > 0 {
		said += " What the two instruments promise would alone be ± " + percent(say.Interval(c.Promise)) + "."
	}
	return join(table("narrow", "Uncertainty budget, in percent of the meter’s kWh", heads, tbody(rows...)), prose(said))
}

// byShare gives the indexes of the shares, the greatest first.
func byShare(shares []float64) []int {
	order := make([]int, len(shares))
	for i := range order {
		order[i] = i
		for j := i; j > 0 && shares[order[j]] > shares[order[j-1]]; j-- {
			order[j], order[j-1] = order[j-1], order[j]
		}
	}
	return order
}

func partRow(part uncertainty.Part, share float64, heads []string) piece {
	detail := "± " + say.Interval(part.HalfWidth) + say.Thin + part.Unit + ", " + distribution(part.Distribution)
	if part.Repeats > 1 {
		detail += ", " + strconv.Itoa(part.Repeats) + " times"
	}
	name := []piece{text(part.Name)}
	if part.Assumed {
		name = append(name, mark("mark", "assumed"))
	}
	name = append(name, gives(detail))
	if part.Remedy != "" {
		name = append(name, gives("To narrow it: "+part.Remedy+"."))
	}
	return tr(join(name...), num(heads[1], say.Interval(math.Abs(part.Standard))),
		cell{heads[2], join(bar(share), text(percent(strconv.FormatFloat(100*share, 'f', 0, 64)))), "num"})
}

// distribution names a distribution for show.
func distribution(d uncertainty.Distribution) string {
	if d == uncertainty.Student {
		return "Student’s t"
	}
	return string(d)
}

// bar draws a share of 1.
func bar(share float64) piece {
	width := 60 * math.Min(1, math.Max(0, share))
	return el("svg", class("bar"), attr("viewBox", "0 0 60 8"), attr("aria-hidden", "true"),
		el("rect", class("band"), markup.Num("width", 60), markup.Num("height", 8)),
		el("rect", class("solid"), markup.Num("width", width), markup.Num("height", 8)))
}

func freedom(dof float64) string {
	if math.IsInf(dof, 0) {
		return "nothing in it was estimated from data"
	}
	if dof > 1000 {
		return say.Degrees(dof) + " effective degrees of freedom"
	}
	return strconv.FormatFloat(dof, 'f', 0, 64) + " effective degrees of freedom"
}
