package outage

import (
	"fmt"
	"strconv"

	"splittally/calc/figure"
)

// The numbers of the rules in the package comment.
const (
	wentOn     = 0.2 // of what is usual: a register that advanced by more went on
	stoodStill = 0.02
	surely     = 2 // standard deviations by which what is usual has to stand out from nothing
	manyGaps   = 6
	flickers   = 30 * minute
	restart    = 15 * minute
	longGap    = 3 * hour
)

// judge says what an event looks like, and why.
func (e *event) judge() (Kind, string) {
	if kind, why := e.byRegister(); kind != "" {
		return kind, why
	}
	all := e.to() - e.from()
	switch {
	case e.late:
		return Connection, "The reading after it holds about " + kWh(e.usual) + " more than usual, which is what the gap should have brought: it was sent later, in one."
	case len(e.gaps) >= manyGaps && all > flickers:
		return Connection, fmt.Sprintf("Readings came through now and then between %d gaps over %s, which a supply does not do for so long.", len(e.gaps), Words(all))
	case len(e.gaps) >= 2 && len(e.gaps) < manyGaps && all <= flickers && e.last() <= restart && e.lastIsLongest():
		return Power, fmt.Sprintf("%d gaps in a row, the last of %s the longest: the supply flickered, then the instrument started anew.", len(e.gaps), Words(e.last()))
	case e.length >= longGap:
		return Connection, "It lasted " + Words(e.length) + ", longer than most interruptions of a supply; if the power was off all the same, nothing was used."
	case len(e.gaps) == 1 && e.length <= restart:
		return Untold, "A single gap of " + Words(e.length) + " can be lost readings, a restart or a short interruption."
	}
	return Untold, "Neither its length of " + Words(e.length) + " nor the readings around it tell a lost connection from an interruption of the supply."
}

// byRegister judges by what a register did meanwhile; the kind is empty if that
// tells nothing.
func (e *event) byRegister() (Kind, string) {
	sum, known := e.register()
	if !known {
		return "", ""
	}
	advanced := sum.KilowattHours()
	switch clear := e.hasUsual && e.usual > surely*e.standard; {
	case clear && advanced >= wentOn*e.usual, !e.hasUsual && advanced > 0:
		return Connection, "The register went on by " + kWh(advanced) + ": the instrument measured all the while and only its readings were lost."
	case clear && advanced <= stoodStill*e.usual:
		return Power, "The register stood still where about " + kWh(e.usual) + " are usual: the instrument had no power, and perhaps the home had none."
	case clear:
		return Untold, "The register went on by " + kWh(advanced) + ", far less than the " + kWh(e.usual) + " that are usual: it may have counted for a part of the time only."
	}
	return "", ""
}

func (e *event) lastIsLongest() bool {
	for _, g := range e.gaps[:len(e.gaps)-1] {
		if g.Length >= e.last() {
			return false
		}
	}
	return true
}

func kWh(x float64) string {
	places := 1
	if x < 1 {
		places = 3
	}
	return figure.Plain(x, places) + figure.Thin + "kWh"
}

// Words gives a length in milliseconds for show, in its two largest units:
// "40 seconds", "12 minutes", "3 hours 20 minutes", "2 days 4 hours".
func Words(length int64) string {
	switch {
	case length < minute:
		return figure.Counted(int((length+999)/1000), "second", "seconds")
	case length < hour:
		return two(length/minute, "minute", length%minute/1000, "second")
	case length < day:
		return two(length/hour, "hour", length%hour/minute, "minute")
	}
	return two(length/day, "day", length%day/hour, "hour")
}

func two(a int64, large string, b int64, small string) string {
	text := counted(a, large)
	if b > 0 {
		text += " " + counted(b, small)
	}
	return text
}

func counted(n int64, unit string) string {
	if n == 1 {
		return "1 " + unit
	}
	return strconv.FormatInt(n, 10) + " " + unit + "s"
}
