package cause

// step is something that can be done, and what each cause says that it would
// show. Causes that are not in it would show nothing new, all alike.
type step struct {
	words string
	panel bool
	done  func(*frame) bool // it was done already
	shows map[ID]string
}

// nbsp keeps a number and its unit together.
const nbsp = "\u00a0"

// steps are what can be done, the cheapest first.
func steps() []step {
	return []step{
		{
			words: "Read the bill again: the printed number of days, a mark such as E at a read, the words “adjusted” or “loss factor”, the multiplier.",
			shows: map[ID]string{Dates: "days", Estimated: "a mark", Losses: "a loss factor"},
		},
		{
			words: "Look on the bill for a credit, a net, or a share of panels elsewhere, and whether its two reads differ by the energy that it charges.",
			shows: map[ID]string{Net: "a credit"},
		},
		{
			words: "Look whether a rate changed where the one bill ends and the next begins, and whether a read is printed for that day.",
			shows: map[ID]string{Split: "no read"},
		},
		{
			words: "Look at the unit beside the figures on the monitor’s own screen or in its file.",
			shows: map[ID]string{Unit: "the unit"},
		},
		{
			words: "Look at the monitor’s own history of the odd and the missing days, hour by hour.",
			shows: map[ID]string{PartDays: "lost hours", Doubled: "a day twice", Fill: "the missing figures", Unit: "the unit"},
		},
		{
			words: "Switch one of the entered circuits on, and watch whether the monitor’s watts rise by as much.",
			shows: map[ID]string{Circuits: "no rise"},
		},
		{
			words: "Look at a sunny noon with little on, and again after dark: a wrong sign, or a net where use is meant, shows at once.",
			shows: map[ID]string{Solar: "by day only"},
		},
		{
			words: "Time the meter under “Timing the utility’s meter” while you read the monitor’s watts, once with much on and once with little: a gain is a percentage of both, a constant power is the same watts in both.",
			done:  func(f *frame) bool { return f.Timed.Given },
			shows: map[ID]string{
				Chance: "agree", Hour: "agree", Dates: "agree", Estimated: "agree", Losses: "agree", Fill: "agree", PartDays: "agree", Doubled: "agree",
				Split: "agree", Net: "agree", Unit: "agree",
				Gain: "a percentage", Legs: "a percentage", Clamp: "a percentage", Offset: "watts", Circuits: "watts",
			},
		},
		{
			words: "Read the meter yourself twice, some days apart, note the hours, and hold the difference against the monitor over the same hours.",
			shows: map[ID]string{
				Chance: "agree", Hour: "agree", Dates: "agree", Estimated: "agree", Losses: "agree", Fill: "agree", PartDays: "agree", Doubled: "agree",
				Split: "agree", Net: "agree",
				Gain: "the same percentage", Legs: "the same percentage", Offset: "the same power", Circuits: "the same power", Clamp: "off", Unit: "off", Solar: "off",
			},
		},
		{
			words: "Switch a known load of 1 to 2" + nbsp + "kW on and off on a socket of each leg, with a meter at its plug, and type in what the monitor showed before and after.",
			done:  func(f *frame) bool { return f.Checks.Power.Given },
			shows: map[ID]string{Gain: "off on both", Legs: "off as checked", Clamp: "off on one leg", Offset: "right", Circuits: "right", Losses: "right", Chance: "right", Other: "right"},
		},
		{
			words: "Measure the volts of each leg at a socket, with the monitor’s volts beside them.",
			panel: true,
			done:  func(f *frame) bool { return f.Checks.Volts.Given },
			shows: map[ID]string{Legs: "volts off", Gain: "volts right", Clamp: "volts right"},
		},
		{
			words: "Have an electrician look at the clamps and at what leaves before them.",
			panel: true,
			shows: map[ID]string{Clamp: "a clamp", Circuits: "a circuit", Offset: "a circuit", Solar: "the solar clamp"},
		},
		{
			words: "Wait for the next bill, best one of quite different use, and keep the hours of the reads.",
			shows: map[ID]string{Chance: "zero", Gain: "percent", Legs: "percent", Offset: "watts", Estimated: "a catch-up", Dates: "once", Hour: "zero", Other: "anything"},
		},
	}
}

// decide gives the cheapest step that tells the first of the open causes from
// most of what the others weigh; failing that, from any.
func (f *frame) decide(open []Explanation) Step {
	if len(open) < 2 {
		return Step{}
	}
	first := open[0].ID
	total := 0.0
	for _, e := range open[1:] {
		total += e.Probability
	}
	var any Step
	for _, s := range steps() {
		if s.done != nil && s.done(f) {
			continue
		}
		got, split := s.step(), 0.0
		for _, e := range open[1:] {
			if s.shows[e.ID] != s.shows[first] {
				got.Separates = append(got.Separates, e.ID)
				split += e.Probability
			}
		}
		if split >= total/2 {
			return got
		}
		if len(any.Separates) == 0 && len(got.Separates) > 0 {
			any = got
		}
	}
	return any
}

// checkFor gives the cheapest step in which a cause would show itself.
func (f *frame) checkFor(id ID) Step {
	for _, s := range steps() {
		if s.shows[id] != "" && (s.done == nil || !s.done(f)) {
			return s.step()
		}
	}
	return Step{}
}

func (s step) step() Step { return Step{Words: s.words, Panel: s.panel} }
