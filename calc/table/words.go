package table

import (
	"strings"

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
	{ofExport, "export eksport oddan einspeis inject injec injet feedin teruglever vertid exceden immess immission inmatning innmating " +
		"=returned =return =received surplus =sold uberschuss outflow =reverse ruckspeis rucklief"},
	{ofProduction, "solar produ erzeug generat generac geracao generaz photovolt fotovolt =pv opwek =yield ertrag inverter wechselricht =sol"},
	{ofUse, "usage usado =use =used consum consomm verbrauch verbruik forbruk forbrug demand =load =house =home household haushalt zuzyc spotreb kulutus"},
	{ofTotal, "total gesamt =whole =sum =all =summe =totaal =overall =general =psum =ptot =ptotal"},
	{ofGrid, "=grid netz reseau =rete =utility =red =elnat =stromnetz =net"},
	{ofNet, "=net =netto =saldo =balance bidirect =nett"},
	{ofPower, "power leistung puissanc potenc potenz vermogen effekt =watt =watts =p =moc"},
	{ofEnergy, "energ =arbeit wirkarbeit"},
	{ofRegister, "cumul kumul acumul lifetime zahlerstand zaehlerstand =stand =index accum =pt register =meter =counter reading releve lectura lettura compteur zahler =total_increasing odometer matarstalln leitura malerstand maleraflaes meterstand licznik odczyt"},
	{ofTime, "peak offpeak =t1 =t2 =t3 =hp =hc =ht =nt tarif =day =night =tag =nacht =jour =nuit =creuses =pleines =normal =laag =dal =low =high =dia =noche =punta =valle =llano shoulder =f1 =f2 =f3"},
	{ofOther, "batter akku speicher =soc =gas reactive reaktiv blind apparent schein =kvar =kva =kvarh =va =var price preis =cost =costs kosten =co2 carbon " +
		"eigenverb selbst autocons autocon zelf =self forecast budget temperat frequen =hz =pf =dpf =apf humid =rssi =q =s =qt =st voltage spannung =rate"},
	{ofPerhaps, "volt tension current ampere =amp =amps =temp =water =wasser factor cosphi =cos =phi =u =v =i =f weather =quality =status =flag =signal =year =month =count =nr =no =id"},
	{ofExtreme, "=max =min =maximum =minimum =highest =lowest"},
	{ofStart, "=beginn =startzeit =startdatum =poczatek =fran"},
	{ofEnd, "=endzeit =enddatum =koniec =fim"},
	{ofReading, "reading =read ablesung lectura releve lettura"},
	{ofUTC, "=utc =gmt =zulu"},
	{ofHour, "=hour =stunde =heure =hora =ora =uur =timme =he =hourending"},
}

// aloneTags gives the tags of words that speak of starts and ends only where they
// are the whole heading, or all of it but the words for date and time: in other
// headings they are but "of".
func aloneTags(tokens []token) tag {
	var tags tag
	for _, t := range tokens {
		switch word := words.Fold(t.text); word {
		case "de", "da", "od":
			tags |= ofStart
		case "a", "do", "ate", "ao":
			tags |= ofEnd
		case "data", "hora", "ora", "godzina", "czas":
		default:
			return 0
		}
	}
	if len(tokens) > 2 || len(tokens) == 2 && tokens[1].text == words.Fold(tokens[1].text) && aloneTags(tokens[1:]) != 0 {
		return 0
	}
	return tags
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
