package link

import "strings"

// table lists the fields of a case by their paths, a * for each place in a
// list. A link says how many of them its writer knew, so new fields are only
// ever added at the end: then every link ever made still means the same. A field
// that is not here goes by its name, which costs more characters.
const table = "title note today " +
	"monitors.*.name monitors.*.accuracy monitors.*.method monitors.*.setting monitors.*.readings monitors.*.record " +
	"meter.class meter.readings meter.record " +
	"periods.*.from periods.*.to periods.*.days periods.*.kwh periods.*.apart periods.*.produced periods.*.exported " +
	"periods.*.lines.*.name periods.*.lines.*.amount periods.*.uses.*.name periods.*.uses.*.amount " +
	"periods.*.total periods.*.solve periods.*.previous periods.*.present periods.*.multiplier periods.*.digits " +
	"periods.*.estimated periods.*.loss-factor periods.*.loss-included periods.*.read-hour periods.*.convention " +
	"checks.service checks.drop checks.power-factor checks.voltmeter.percent checks.voltmeter.digits " +
	"checks.clampmeter.percent checks.clampmeter.digits checks.plugmeter.percent checks.plugmeter.digits " +
	"checks.legs.*.name checks.legs.*.share checks.legs.*.setting checks.legs.*.pairs.*.reference " +
	"checks.legs.*.pairs.*.monitor checks.legs.*.amps.*.reference checks.legs.*.amps.*.monitor " +
	"checks.legs.*.steps.*.before checks.legs.*.steps.*.after checks.legs.*.steps.*.load " +
	"checks.lines.*.reference checks.lines.*.monitor " +
	"timing.shows timing.constant timing.per timing.multiplier timing.hand timing.runs.*.how timing.runs.*.turns " +
	"timing.runs.*.seconds timing.runs.*.marks timing.runs.*.watts timing.runs.*.begins " +
	"price.per-kwh price.fixed price.tax price.currency " +
	"plans.*.name plans.*.currency plans.*.round plans.*.half plans.*.places plans.*.inclusive plans.*.region plans.*.dates " +
	"plans.*.rows.*.kind plans.*.rows.*.name plans.*.rows.*.price plans.*.rows.*.per plans.*.rows.*.basis plans.*.rows.*.on " +
	"plans.*.rows.*.from plans.*.rows.*.to plans.*.rows.*.since plans.*.rows.*.until " +
	"plans.*.rows.*.steps.*.up-to plans.*.rows.*.steps.*.price " +
	"plans.*.rows.*.bands.*.name plans.*.rows.*.bands.*.price plans.*.rows.*.bands.*.days plans.*.rows.*.bands.*.hours " +
	"confidence answers.*.question answers.*.choice"

// vocabulary are the texts that fields are chosen from and that need few bits.
// It too is only ever added to at the end, and only in a new version, as its
// words teach the letters of other texts beforehand.
const vocabulary = "yes|no|energy|tiers|times|fixed|demand|export|netting|discount|tax|minimum|period|day|month|15|30|60|" +
	"metered|adjusted|losses|workdays|all|rest|holidays|Sat, Sun|split|single|three|taps|sound|disc|lamp|block|wh|imp|" +
	"line|total|up|even|down|near-days|like-days|mean|ratio|both-belong|last-excluded|first-excluded|loss-factor|" +
	"two-of-three|US|US-NERC|CA-ON|GB-ENG|IE|AU|NZ|DE|FR|USD|EUR|GBP|CAD|AUD|NZD|CHF|$|€|£|legs|apart|" +
	"Leg A|Leg B|Leg C|L1|L2|L3|Energy|Daily charge|Fixed charge|Delivery charge|Energy charge|Sales tax|Tax|" +
	"Customer charge|Supply|Distribution|Peak|Off-peak|On-peak|Night|Day|kWh|decimals|thousands|daily|start|end|" +
	"wh-per|per-wh|first|last|unknown|metered-energy|answered"

// place is what is known of a place of the document: the places in it, and what
// was learnt of the texts there.
type place struct {
	name   string
	places []*place // of a group
	item   *place   // of a list
	texts  texts
	known  bool // it is in the table
}

// fields gives the table's first n paths as places; n is below 0 for all.
func fields(n int) (root *place, known int) {
	root = &place{}
	paths := strings.Fields(table)
	if n < 0 || n > len(paths) {
		n = len(paths)
	}
	for _, path := range paths[:n] {
		at := root
		for _, step := range strings.Split(path, ".") {
			at = at.child(step)
			at.known = true
		}
	}
	return root, n
}

// child gives the place of a name, a new one if there is none yet.
func (p *place) child(name string) *place {
	if name == "*" {
		if p.item == nil {
			p.item = &place{name: name}
		}
		return p.item
	}
	for _, c := range p.places {
		if c.name == name {
			return c
		}
	}
	c := &place{name: name}
	p.places = append(p.places, c)
	return c
}
