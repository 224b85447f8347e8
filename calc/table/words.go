package table

import (
	"strings"

	"splittally/calc/intake"
	"splittally/calc/intake/words"
)

// tag is what the words of a heading speak of.
type tag uint32

// The tags of headings.
const (
	ofImport     tag = 1 << iota // taken from the grid
	ofExport                     // fed into it
	ofProduction                 // made in the home
	ofUse                        // used, from wherever
	ofTotal                      // of the whole home, or a sum
	ofGrid                       // the grid, whichever way
	ofNet                        // one direction less the other
	ofPower
	ofEnergy
	ofRegister // a counter that runs on
	ofTime     // energy of one time of use
	ofOther    // no energy, whatever its unit
	ofPerhaps  // no energy, unless it has a unit of energy or power
	ofExtreme  // the least or the most, not the mean
	ofStart
	ofEnd
	ofReading // the time at which a meter was read
	ofUTC
	ofHour
)

// stems lists for each tag the beginnings, middles and ends of words that speak
// of it, "=" before those that must be whole words. They are folded. Languages
// as in package words; common practice, no source.
var stems = [...]struct {
	tag   tag
	stems string
}{
	{ofImport, "import bezug soutir pobor pobran preliev prelev uttag afname withdraw =main =mains =purchased =bought =delivered =levering =uttak =supply =drawn"},
	{ofExport, "export oddan einspeis inject injec injet feedin teruglever vertid exceden immess immission inmatning innmating " +
		"=returned =return =received surplus =sold uberschuss outflow =reverse ruckspeis rucklief"},
	{ofProduction, "solar produ erzeug generat generac geracao generaz photovolt fotovolt =pv opwek =yield ertrag inverter wechselricht =sol"},
	{ofUse, "usage usado =use =used consum consomm verbrauch verbruik forbruk forbrug demand =load =house =home household haushalt zuzyc spotreb kulutus"},
	{ofTotal, "total gesamt =whole =sum =all =summe =totaal =overall =general =psum =ptot =ptotal"},
	{ofGrid, "=grid netz reseau =rete =utility =red =elnat =stromnetz =net"},
	{ofNet, "=net =netto =saldo =balance bidirect =nett"},
	{ofPower, "power leistung puissanc potenc potenz vermogen effekt =watt =watts =p"},
	{ofEnergy, "energ =arbeit wirkarbeit"},
	{ofRegister, "cumul kumul acumul lifetime zahlerstand zaehlerstand =stand =index accum =pt register =meter =counter reading releve lectura lettura compteur zahler =total_increasing odometer"},
	{ofTime, "peak offpeak =t1 =t2 =t3 =hp =hc =ht =nt tarif =day =night =tag =nacht =jour =nuit =creuses =pleines =normal =laag =dal =low =high =dia =noche =punta =valle =llano shoulder =f1 =f2 =f3"},
	{ofOther, "batter akku speicher =soc =gas reactive reaktiv blind apparent schein =kvar =kva =kvarh =va =var price preis =cost =costs kosten =co2 carbon " +
		"eigenverb selbst autocons autocon zelf =self forecast budget temperat frequen =hz =pf =dpf =apf humid =rssi =q =s =qt =st voltage spannung =rate"},
	{ofPerhaps, "volt tension current ampere =amp =amps =temp =water =wasser factor cosphi =cos =phi =u =v =i =f weather =quality =status =flag =signal =year =month =count =nr =no =id"},
	{ofExtreme, "=max =min =maximum =minimum =highest =lowest"},
	{ofReading, "reading =read ablesung lectura releve lettura"},
	{ofUTC, "=utc =gmt =zulu"},
	{ofHour, "=hour =stunde =heure =hora =ora =uur =timme =he =hourending"},
}

// heading is the heading of a column.
type heading struct {
	name string // as written
	unit words.Unit
	tags tag
	leg  byte // 'a', 'b' or 'c'; 0 if it names no leg
	// plain are the words that speak of none of this, joined: what tells two
	// columns of one kind apart.
	plain string
}

func (h *heading) has(t tag) bool { return h.tags&t != 0 }

// readHeading reads one heading.
func readHeading(name string) heading {
	h := heading{name: name}
	if words.Price(name) {
		h.tags, h.unit = ofOther, words.Money
		return h
	}
	tokens := headingTokens(name)
	for i, t := range tokens {
		if h.takesUnit(t, i == len(tokens)-1) {
			continue
		}
		folded := words.Fold(t.text)
		tags := tagsOf(folded) | labelTags(words.LabelOf(folded))
		if len(folded) == 2 && folded[0] == 'p' && folded[1] >= '1' && folded[1] <= '3' {
			h.leg, tags = folded[1]-'1'+'a', ofPower // P1, the power of a phase
		}
		if tags == 0 {
			h.plain += folded + " "
		}
		h.tags |= tags
	}
	h.phrases(tokens)
	if intake.IsLeg(name) {
		h.leg = legOf(name)
	}
	return h
}

// token is a word of a heading.
type token struct {
	text    string
	bracket bool // it stood in brackets, as units do
}

// headingTokens cuts a heading into words: at anything but letters and digits,
// and where a small letter stands before a capital, but not within kWh.
func headingTokens(name string) []token {
	var tokens []token
	depth := 0
	add := func(text string) {
		for text != "" {
			n := humpOf(text)
			tokens = append(tokens, token{text[:n], depth > 0})
			text = text[n:]
		}
	}
	from := -1
	for i, c := range name {
		letter := c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' || c >= '0' && c <= '9' || c == '%' || c == '°' || c == '$' || c == '€' || c == '£' || c > 0xbf
		if letter && from < 0 {
			from = i
		}
		if !letter && from >= 0 {
			add(name[from:i])
			from = -1
		}
		switch c {
		case '(', '[', '{':
			depth++
		case ')', ']', '}':
			depth = max(0, depth-1)
		}
	}
	if from >= 0 {
		add(name[from:])
	}
	return tokens
}

// humpOf gives the length of the first word of a run such as gridImport.
func humpOf(text string) int {
	for i := 1; i < len(text); i++ {
		small := text[i-1] >= 'a' && text[i-1] <= 'z'
		capital := text[i] >= 'A' && text[i] <= 'Z'
		if small && capital && words.UnitOf(words.Fold(text[:min(len(text), 3)])) == 0 && (i > 1 || text[0] != 'k') {
			return i
		}
		if small && capital && i == 3 {
			return i // kWhImport
		}
	}
	return len(text)
}

// takesUnit takes a word for the unit if it is one. Single letters, which name
// other things too, must stand in brackets or last.
func (h *heading) takesUnit(t token, last bool) bool {
	folded := words.Fold(t.text)
	u := words.UnitOf(folded)
	switch {
	case u.IsEnergy(), u.IsPower() && (len(folded) > 1 || t.bracket || last):
		if !h.unit.IsEnergy() {
			h.unit = u
		}
		return true
	case u == words.Money, u == words.Other && (t.bracket || len(folded) > 2 && words.Measured(folded) || folded == "%" || folded == "°c" || folded == "°f"):
		if h.unit == 0 {
			h.unit = u
		}
		return true
	}
	return false
}

// tagsOf gives the tags of a folded word.
func tagsOf(word string) tag {
	var tags tag
	for i := range stems {
		list := stems[i].stems
		for list != "" {
			stem, rest, _ := strings.Cut(list, " ")
			list = rest
			if stem[0] == '=' && word == stem[1:] || stem[0] != '=' && strings.Contains(word, stem) {
				tags |= stems[i].tag
				break
			}
		}
	}
	return tags
}

// labelTags gives the tags that a label of package words amounts to.
func labelTags(l words.Label) tag {
	switch l {
	case words.Total:
		return ofTotal
	case words.Ending:
		return ofEnd
	case words.Starting:
		return ofStart
	case words.Cost, words.Difference:
		return ofOther
	case words.Weather, words.Ordinal, words.Note, words.Count:
		return ofPerhaps
	case words.Extreme:
		return ofExtreme
	}
	return 0
}

// phrases mends what single words get wrong: from grid, to grid, feed in, power
// factor, off-peak.
func (h *heading) phrases(tokens []token) {
	text := ""
	for _, t := range tokens {
		text += " " + words.Fold(t.text)
	}
	text += " "
	for _, p := range [...]struct {
		phrase string
		tags   tag
	}{
		{" to grid ", ofExport}, {" to the grid ", ofExport}, {" to utility ", ofExport}, {" feed in ", ofExport}, {" fed in ", ofExport},
		{" sent to ", ofExport}, {" from grid ", ofImport}, {" from the grid ", ofImport}, {" from utility ", ofImport},
		{" power factor ", ofOther}, {" cos phi ", ofOther}, {" self use ", ofOther}, {" ev ", 0},
	} {
		if strings.Contains(text, p.phrase) {
			h.tags |= p.tags
		}
	}
	if h.has(ofExport) && h.has(ofImport) {
		h.tags = h.tags&^(ofExport|ofImport) | ofNet
	}
}

// legOf gives the leg that a heading names: A or 1, B or 2, C or 3.
func legOf(name string) byte {
	var leg byte
	for _, part := range strings.FieldsFunc(words.Fold(name), func(r rune) bool { return strings.ContainsRune(" _-.,()[]#", r) }) {
		if !intake.IsLeg(part) && len(part) > 1 {
			continue
		}
		switch part[len(part)-1] {
		case 'a', '1', 'r':
			leg = 'a'
		case 'b', '2', 's':
			leg = 'b'
		case 'c', '3', 't':
			leg = 'c'
		}
	}
	return leg
}
