package changes

import (
	"strconv"
	"strings"
)

// fields are the fields of a case in the order of the page: path, the words that
// the page has for it, unit, and what its choices are called.
const fields = `monitors.*.name|its name
monitors.*.accuracy|stated accuracy|± %
monitors.*.readings|daily totals
monitors.*.record|file of readings
monitors.*.method|way to fill missing days||line=a straight line across the gap;like-days=the mean of the same weekday nearby;mean=the mean of the period;near-days=a mean of the days around, nearer ones counting more;ratio=another monitor’s figure, times the usual ratio
monitors.*.setting|its overall setting now
periods.*.from|from
periods.*.to|to
periods.*.kwh|energy billed|kWh
periods.*.days|days printed
periods.*.previous|previous read
periods.*.present|present read
periods.*.multiplier|meter multiplier
periods.*.digits|digits of the register
periods.*.estimated|the bill marks the present read as estimated
periods.*.loss-factor|loss factor
periods.*.loss-included|do the billed kWh hold the losses?||yes=yes, already added;no=no, as metered
periods.*.apart|on other circuits|kWh
periods.*.produced|solar produced|kWh
periods.*.exported|exported|kWh
periods.*.read-hour|hour of the read
periods.*.convention|which dates belong||both-belong=both dates;last-excluded=not the last: from read to read;first-excluded=not the first
periods.*.lines.*.name|line, as printed
periods.*.lines.*.amount|amount
periods.*.total|total, as printed
periods.*.solve|find what is not known||loss-factor=the loss factor
periods.*.uses.*.name|time-of-use period
periods.*.uses.*.amount|its kWh|kWh
checks.service|service||split=split phase: two legs and a neutral;single=single phase: one line and a neutral;three=three phases;two-of-three=two legs of three phases, such as 120/208 V
checks.legs.*.name|its name
checks.legs.*.share|share of the energy|%
checks.legs.*.setting|its setting now
checks.legs.*.pairs.*.reference|multimeter|V
checks.legs.*.pairs.*.monitor|monitor|V
checks.legs.*.steps.*.before|monitor before|W
checks.legs.*.steps.*.after|monitor after|W
checks.legs.*.steps.*.load|plug-in meter|W
checks.legs.*.amps.*.reference|clamp meter|A
checks.legs.*.amps.*.monitor|monitor|A
checks.lines.*.reference|multimeter|V
checks.lines.*.monitor|monitor|V
checks.voltmeter.percent|of the reading|± %
checks.voltmeter.digits|plus counts
checks.clampmeter.percent|of the reading|± %
checks.clampmeter.digits|plus counts
checks.plugmeter.percent|of the reading|± %
checks.plugmeter.digits|plus counts
checks.drop|lost on the way, at most|V
checks.power-factor|power factor
timing.shows|what you count||lamp=flashes of the test lamp;disc=turns of the disc;block=steps of the moving block
timing.constant|meter constant
timing.per|it says||wh=Wh for each (Kh);imp=how many for each kWh
timing.multiplier|meter multiplier
timing.hand|scatter of your hand|s
timing.runs.*.how|how you count||taps=by tapping along;sound=from a recording
timing.runs.*.turns|how many
timing.runs.*.seconds|in what time|s
timing.runs.*.marks|the pulses
timing.runs.*.watts|the monitor’s watts meanwhile
timing.runs.*.begins|clock time at which it began
price.per-kwh|price per kWh
price.currency|currency
price.fixed|fixed charge for each bill
price.tax|tax on all of it|%
plans.*.name|its name
plans.*.currency|currency
plans.*.rows.*.kind|what it is||energy=a price per kWh;tiers=a price by energy used (tiers);times=a price by the hour (time of use);fixed=a fixed charge;demand=a charge for highest power;export=a credit for energy sent out;netting=energy sent out, taken off;discount=a discount;tax=a tax;minimum=a least amount
plans.*.rows.*.name|printed name
plans.*.rows.*.price|price or percent
plans.*.rows.*.per|for each||period=billing period;day=day;month=month;15=15 minutes;30=30 minutes;60=60 minutes
plans.*.rows.*.basis|on which kWh||metered=as metered;adjusted=with the losses;losses=the losses alone
plans.*.rows.*.on|on which rows
plans.*.rows.*.steps.*.up-to|up to|kWh
plans.*.rows.*.steps.*.price|price per kWh
plans.*.rows.*.bands.*.name|name
plans.*.rows.*.bands.*.price|price per kWh
plans.*.rows.*.bands.*.hours|hours
plans.*.rows.*.bands.*.days|days
plans.*.rows.*.from|season’s first day
plans.*.rows.*.to|its last day
plans.*.rows.*.since|holds from
plans.*.rows.*.until|holds until
plans.*.round|what is rounded||line=each line;total=the total alone
plans.*.half|half a coin goes||up=up;even=to the even digit;down=down: cut off
plans.*.places|decimals
plans.*.inclusive|tax in the prices|%
plans.*.region|public holidays of||AU=Australia, national;CA-ON=Canada, Ontario;FR=France;DE=Germany, national;GB-ENG=Great Britain, England and Wales;IE=Ireland;NZ=New Zealand, national;US=United States, federal;US-NERC=United States, six holidays of the power trade (NERC)
plans.*.dates|holidays of your own
confidence|confidence of every ±|%
meter.class|accuracy of the utility’s meter|± %
meter.readings|its daily totals
meter.record|file of its own readings
title|a title for this case
note|notes`

// places are what the groups and lists are called; one with a small letter goes
// behind what it is in.
const places = `monitors.*|Monitor
meter|The utility’s meter
periods.*|Bill
periods.*.lines.*|line
periods.*.uses.*|time-of-use period
checks|Checks at the legs
checks.legs.*|Leg
checks.legs.*.pairs.*|volts
checks.legs.*.amps.*|amperes
checks.legs.*.steps.*|load step
checks.lines.*|Volts between two lines
checks.voltmeter|Multimeter, AC volts
checks.clampmeter|Clamp meter, AC amperes
checks.plugmeter|Plug-in meter, watts
timing|Timing the utility’s meter
timing.runs.*|Run
price|What a kilowatt-hour costs
plans.*|Tariff
plans.*.rows.*|row
plans.*.rows.*.steps.*|tier
plans.*.rows.*.bands.*|period`

// wordsOf gives the columns of a table's line behind a path, which is written
// with a * for each place in a list.
func wordsOf(table, path string) []string {
	_, rest, ok := strings.Cut("\n"+table, "\n"+path+"|")
	if !ok {
		return []string{""}
	}
	line, _, _ := strings.Cut(rest, "\n")
	return strings.Split(line, "|")
}

// general writes * for the numbers in a path.
func general(path string) string {
	steps := strings.Split(path, ".")
	for i, step := range steps {
		if isNumber(step) {
			steps[i] = "*"
		}
	}
	return strings.Join(steps, ".")
}

func isNumber(step string) bool { return step != "" && strings.Trim(step, "0123456789") == "" }

// where says in words where a path leads, without the field itself: “Bill 2, line 3”.
func where(path string) string {
	said := ""
	steps := strings.Split(path, ".")
	for i := range steps {
		word := wordsOf(places, general(strings.Join(steps[:i+1], ".")))[0]
		if word == "" {
			continue
		}
		if n, err := strconv.Atoi(steps[i]); err == nil {
			word += " " + strconv.Itoa(n+1)
		}
		if said != "" && word[0] >= 'a' {
			word = said + ", " + word
		}
		said = word
	}
	if said == "" {
		said = "The case"
	}
	return said
}

// what says in words what a field is.
func what(path string) string {
	if said := wordsOf(fields, general(path))[0]; said != "" {
		return said
	}
	return path[strings.LastIndexByte(path, '.')+1:] // a field of a later version
}

// shown writes the text of a field as the page shows it: a choice by its name, a
// figure with its unit.
func shown(path, text string) string {
	columns := wordsOf(fields, general(path))
	if text == "" || len(columns) < 2 {
		return text
	}
	if len(columns) > 2 {
		for _, choice := range strings.Split(columns[2], ";") {
			if id, name, _ := strings.Cut(choice, "="); id == text {
				return name
			}
		}
	}
	if unit := columns[1]; unit != "" && strings.Trim(text, "-0123456789.,") == "" {
		if strings.HasPrefix(unit, "±") {
			return "± " + text + " %"
		}
		return text + " " + unit
	}
	return text
}

// order gives the names of the fields of a group, in the order of the page.
func order(group string) (names []string) {
	prefix := "\n"
	if group != "" {
		prefix += general(group) + "."
	}
	seen := " "
	for rest := "\n" + fields; ; {
		var ok bool
		if _, rest, ok = strings.Cut(rest, prefix); !ok {
			return names
		}
		name := rest[:strings.IndexAny(rest, ".|")]
		if !strings.Contains(seen, " "+name+" ") {
			seen += name + " "
			names = append(names, name)
		}
	}
}
