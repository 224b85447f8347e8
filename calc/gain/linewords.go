package gain

import (
	"math"
	"strconv"

	"splittally/calc/figure"
)

// lineWords says what a check of the lines comes to.
func (s *sheet) lineWords(c LineCheck) (words []string) {
	rule := "the two legs must add up to"
	if s.out.Service != Split {
		rule = "two phases a third of a turn apart give"
	}
	if r := c.Reference; r.Given {
		said := "By the multimeter " + volt(r.Found) + " between the lines, where " + rule + " " + volt(r.FromLegs) + ": "
		if r.Agrees {
			said += "they agree within " + volt(r.Expanded) + "."
		} else {
			said += "off by " + offBy(r) + ", which can be " + volt(r.Expanded) + " at most. Were all read between the right points, within a minute?"
		}
		words = append(words, said)
	}
	if m := c.Monitor; m.Given {
		said := "By the monitor " + volt(m.Found) + " between the lines, and its own legs give " + volt(m.FromLegs) + ": "
		if m.Agrees {
			said += "they agree within " + volt(m.Expanded) + "."
		} else {
			said += "off by " + offBy(m) + ", which can be " + volt(m.Expanded) + " at most. The monitor does not make one from the other, and its legs are not set alike with its lines."
		}
		words = append(words, said)
	}
	if g := c.Gain; g.Given {
		said := "Between the lines the volts would have to be multiplied by " + factor(g.Found) + ", by the legs by " + factor(g.FromLegs) + ": "
		if g.Agrees {
			said += "the same within " + figure.Percent(figure.Interval(g.Expanded)) + "."
		} else {
			said += "they differ by " + figure.Percent(figure.Signed(g.Difference, g.Expanded)) + ", more than " + figure.Percent(figure.Interval(g.Expanded)) + ". One of the readings is not what it seems, or the monitor’s inputs are not alike."
		}
		words = append(words, said)
	}
	return words
}

func volt(v float64) string { return figure.Plain(v, 1) + figure.Thin + "V" }

func factor(f float64) string { return strconv.FormatFloat(f, 'f', 4, 64) }

func offBy(a Agreement) string { return volt(math.Abs(a.Difference)) }
