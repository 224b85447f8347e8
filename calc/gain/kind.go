package gain

import "splittally/calc/uncertainty"

// Sources of doubt that all legs share: the same instrument is off by the same
// everywhere.
const (
	VoltmeterSource  = "voltmeter-accuracy"
	ClampmeterSource = "clampmeter-accuracy"
	PlugmeterSource  = "plugmeter-accuracy"
)

// kind is one kind of check. All three are the same work: a reference and the
// monitor, several times, come to a gain and its budget.
type kind struct {
	list   string // its list in a leg's path
	noun   string // one of them, as in "pair 3"
	fields []field

	instrument         string // its accuracy's path
	source             string
	assumed            accuracy // percent and digits where nobody stated them (common practice, no source)
	assumedWords       string
	accuracyName       string
	accuracyRemedy     string
	spreadName         string
	spreadRemedy       string
	roundsMonitor      string
	roundsReference    string
	monitorRepeats     int // how many of the monitor's figures make one value
	wander             wander
	oddFloor, oddSlack float64 // see oddOnes
	implausible        string
}

// wander is what is assumed to have changed between the two looks where a
// single pair can't show it (common practice, no source, unless said).
type wander struct {
	name      string
	halfWidth float64
	unit      string // "%" of the value, or the unit of the monitor's value
	code      string // of the notice
	words     string
}

// Indexes of kinds.
const (
	volts = iota
	amps
	steps
	kindCount
)

var kinds = [kindCount]kind{
	volts: {
		list: "pairs", noun: "pair", fields: voltFields,
		instrument: "voltmeter", source: VoltmeterSource, assumed: accuracy{percent: 1, digits: 3},
		assumedWords: "The multimeter's accuracy on AC volts is assumed to be 1.0 % of the reading and 3 digits, as is common for hand-held ones. Its manual states it.",
		accuracyName: "Multimeter's stated accuracy", accuracyRemedy: "use a multimeter with a better accuracy on AC volts",
		spreadName: "Spread of the pairs", spreadRemedy: "take more pairs of volts",
		roundsMonitor: "Rounding of the monitor's volts", roundsReference: "Rounding of the multimeter's volts", monitorRepeats: 1,
		// A week of one-minute volts of a Canadian home (AMPds2) moved by 0.29 %
		// from one minute to the next, as a root mean square, which is that of
		// ± 0.5 % alike; two looks at once are closer than a minute.
		wander: wander{
			"Line volts between the two looks", 0.4, "%", "one-pair",
			"one pair can't show how steady the volts are. ±0.4 % is assumed; take at least three pairs.",
		},
		oddFloor:    0.003,
		implausible: "the two are further apart than a wrong gain is likely to make them. Were both read between the same two points? Volts between two lines are about twice those to neutral in a split-phase home, 1.73 times in a three-phase one.",
	},
	amps: {
		list: "amps", noun: "current pair", fields: ampFields,
		instrument: "clampmeter", source: ClampmeterSource, assumed: accuracy{percent: 2, digits: 5},
		assumedWords: "The clamp meter's accuracy on AC amperes is assumed to be 2 % of the reading and 5 digits, as is common for hand-held ones. Its manual states it.",
		accuracyName: "Clamp meter's stated accuracy", accuracyRemedy: "use a clamp meter with a better accuracy, and measure at a larger current",
		spreadName: "Spread of the current pairs", spreadRemedy: "take more current pairs while the load is steady",
		roundsMonitor: "Rounding of the monitor's amperes", roundsReference: "Rounding of the clamp meter's amperes", monitorRepeats: 1,
		wander: wander{
			"Current between the two looks", 2, "%", "one-current-pair",
			"one current pair can't show how steady the current is. ±2 % is assumed; take at least three while a large load is on.",
		},
		oddFloor:    0.02,
		implausible: "the two currents are further apart than a wrong gain is likely to make them. Is each clamp closed, around the same single conductor, and is the monitor set to the clamp's ratio?",
	},
	steps: {
		list: "steps", noun: "step", fields: stepFields,
		instrument: "plugmeter", source: PlugmeterSource, assumed: accuracy{percent: 2, digits: 2},
		assumedWords: "The plug-in meter's accuracy is assumed to be 2 % of the reading and 2 digits, as is common. Its manual states it.",
		accuracyName: "Plug-in meter's stated accuracy", accuracyRemedy: "use a plug-in meter with a better accuracy",
		spreadName: "Spread of the steps", spreadRemedy: "switch the load on more often, or a larger one",
		roundsMonitor: "Rounding of the monitor's watts, before and after", roundsReference: "Rounding of the plug-in meter's watts", monitorRepeats: 2,
		wander: wander{
			"Rest of the home between the two looks", 50, "W", "one-step",
			"one step can't show how the rest of the home changed meanwhile. ±50 W is assumed; take at least three.",
		},
		oddFloor: 0.02, oddSlack: 50,
		implausible: "the step and the load are further apart than a wrong gain is likely to make them. Is the load on this leg alone, and was nothing else switched meanwhile? A load between two legs shows one half on each.",
	},
}

// part begins a part of the kind's budget.
func (w wander) part(gain, monitor float64) uncertainty.Part {
	p := uncertainty.Part{Name: w.name, HalfWidth: w.halfWidth, Unit: w.unit, Distribution: uncertainty.Rectangular, Assumed: true, Reducible: true}
	if w.unit != "%" {
		p.Sensitivity = -100 * gain / monitor
	}
	return p
}
