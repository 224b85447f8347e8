package correct

import (
	"strconv"
	"strings"

	"splittally/calc/compare"
	"splittally/calc/figure"
)

// wordsOfBills says what the factor was found on and how it does elsewhere.
func (c *Correction) wordsOfBills() string {
	text := "Found on " + bills(c.Found)
	if len(c.Found) == 1 {
		text += " alone"
	}
	if out := c.guesses(); len(out) > 0 {
		text += ", without " + bills(out) + ", which would rest on an estimated read"
	}
	text += "."
	if c.anyHeldOut() {
		return text + " Each bill judged by a factor that was found on other bills: " + c.verdicts() + "."
	}
	return text + " It fits by construction what it was found on, so only the next bill can judge it."
}

// wordsOfChecks says how the gains of the legs do on the bills.
func (c *Correction) wordsOfChecks(isWhole bool) string {
	text := "Found by the checks of the legs, on no bill."
	if len(c.Judged) == 0 {
		return text + " There is no bill yet to judge it on."
	}
	text += " Judged on the bills: " + c.verdicts()
	if !isWhole {
		text += " (the checks did not see all that makes the gain, so the monitor’s stated accuracy still counts)"
	}
	return text + "."
}

// wordsOfPulses says how the factor of the timed minutes does on the bills.
func (c *Correction) wordsOfPulses() string {
	text := "Found by timing the meter, on no bill, and at the loads of those minutes alone."
	if len(c.Judged) == 0 {
		return text + " There is no bill yet to judge it on."
	}
	return text + " Judged on the bills: " + c.verdicts() + "."
}

// anyHeldOut says whether a bill was judged by others.
func (c *Correction) anyHeldOut() bool {
	for _, j := range c.Judged {
		if j.HeldOut && !c.isGuess(j) {
			return true
		}
	}
	return false
}

// isGuess says whether the factor was found on bills and not on this one, as
// it rests on an estimated read.
func (c *Correction) isGuess(j Judged) bool {
	for _, found := range c.Found {
		if found == j.Period {
			return false
		}
	}
	return c.Basis == FromBills
}

// guesses lists the periods that were left out.
func (c *Correction) guesses() (out []int) {
	for _, j := range c.Judged {
		if c.isGuess(j) {
			out = append(append(out, j.Period), j.With...)
		}
	}
	return out
}

// verdicts lists the bills by verdict, those left out for a guess apart.
func (c *Correction) verdicts() string {
	var said []string
	differ := false
	for _, group := range []struct {
		verdict   compare.Verdict
		one, many string
	}{
		{compare.Agree, " agrees", " agree"},
		{compare.DifferHigh, " still reads high", " still read high"},
		{compare.DifferLow, " still reads low", " still read low"},
		{compare.CannotTell, " can’t be told yet", " can’t be told yet"},
	} {
		names, n := c.named(group.verdict)
		if n == 0 {
			continue
		}
		words := group.many
		if n == 1 {
			words = group.one
		}
		said = append(said, names+words)
		differ = differ || group.verdict == compare.DifferHigh || group.verdict == compare.DifferLow
	}
	text := strings.Join(said, ", ")
	if differ && c.Basis == FromBills {
		text += "; that is more than rounding, reads and filled days explain, while how much of a stated accuracy varies from bill to bill is not known"
	}
	return text
}

// named names the judged bills with a verdict, and counts them, joined ones
// as one.
func (c *Correction) named(v compare.Verdict) (names string, n int) {
	var alone []int
	var together []string
	for _, j := range c.Judged {
		switch {
		case j.Verdict != v || !j.HeldOut || c.isGuess(j):
		case len(j.With) > 0:
			together = append(together, bills(append([]int{j.Period}, j.With...))+" together")
		default:
			alone = append(alone, j.Period)
		}
	}
	n = len(alone) + len(together)
	if len(alone) > 0 {
		together = append([]string{bills(alone)}, together...)
	}
	return strings.Join(together, " and "), n
}

// bills names periods by their indexes: "bill 1", "bills 1, 2 and 4".
func bills(indexes []int) string {
	var names []string
	for _, i := range indexes {
		names = append(names, strconv.Itoa(i+1))
	}
	if len(names) == 1 {
		return "bill " + names[0]
	}
	return "bills " + figure.Listed(names)
}

// how says how to go about the change.
func (c *Correction) how() string {
	text := "Change it on a day when the meter is read and note that day: a bill that holds both settings judges neither."
	text += " Watch the monitor’s watts under a steady load: if they fall when the setting rises, divide the old setting by the factor instead."
	if len(c.Settings) > 1 {
		text += " Set either the legs or the overall setting, not both."
	}
	return text
}
