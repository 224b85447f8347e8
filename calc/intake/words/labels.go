package words

import (
	"strings"
)

// Label is what a word makes of the row that it stands in.
type Label uint8

// The labels of rows and columns.
const (
	NoLabel    Label = iota
	Total            // the sum of the rows
	Average          // their mean or median
	Extreme          // their least or greatest
	Count            // how many they are
	Week             // the figure is of a week
	Ending           // the date is the last of what the figure covers
	Starting         // the date is the first
	DateName         // heads a column of dates or times
	Cost             // heads a column of money
	Weather          // heads a column of temperatures and other things that go with energy
	Ordinal          // heads a column of row numbers
	Note             // heads a column of remarks
	Register         // says that figures are register reads
	Today            // the day of the copy, which is not over
	Yesterday        // the day before it
	Estimate         // the figure was not read
	YearName         // heads a column of years
	MonthName        // heads a column of months
	HourName         // heads a column of numbered hours
	Difference       // heads a column of differences between others
)

// labelled lists the words of each label. No word stands in two lists.
var labelled = [...]struct {
	label Label
	words string
}{
	{Total, "total totals sum summe gesamt gesamtsumme insgesamt zwischensumme somme suma somma totale totali soma totaal som " +
		"summa totalt ialt subtotal sous-total totaux totales overall razem lacznie celkem soucet spolu yhteensa osszesen toplam итого всего сумма 合計 小計 合计 总计"},
	{Average, "average avg mean median durchschnitt mittel mittelwert schnitt moyenne moy media promedio gemiddelde gemiddeld " +
		"genomsnitt medel medelvarde gennemsnit gjennomsnitt snitt mediana srednia prumer priemer keskiarvo atlag ortalama среднее 平均"},
	{Extreme, "min max minimum maximum lowest highest minimo maximo massimo hoogste laagste kleinster grosster hogsta lagsta"},
	{Count, "count anzahl nombre numero antal antall aantal"},
	{Difference, "difference diff delta differenz abweichung ecart diferencia differenza verschil skillnad avvik deviation variance goal target budget forecast neighbors neighbours prognose ziel objectif"},
	{Week, "week wk weekly w/c wc woche kalenderwoche semaine semana settimana vecka uge uke"},
	{Ending, "ending end ended until bis fin fine ende einde slut slutt to thru through hasta fino ate tot til till"},
	{Starting, "start starting from begin beginning commencing von ab debut inizio inicio desde dal van vanaf fra"},
	{DateName, "date day time datum tag zeit uhrzeit jour fecha dia data giorno dag tid tidspunkt dato " +
		"timestamp datetime period interval zeitpunkt zeitstempel horodatage tijd when read_at weekday wochentag"},
	{Cost, "cost costs price amount bill charge charges kosten preis betrag cout prix montant coste costo precio importe prezzo " +
		"importo custo preco valor prijs bedrag kostnad pris belopp belob belop usd eur gbp chf sek nok dkk cad aud dollars euros money koszt kwota cena castka hinta maksu fiyat tutar стоимость 料金 電気料金 金額 金额 费用 电费 요금"},
	{Weather, "temp temperature temperatur temperatura temperature(c) humidity hdd cdd weather wetter meteo voltage volts " +
		"amps spannung frequency rain wind snow sunshine clouds regen niederschlag schnee sonnenstunden pluie vent neige lluvia viento pioggia vento neve regn vind pressure dewpoint luftfeuchte luftfeuchtigkeit humidite humedad umidita pogoda teplota lampotila people persons personen occupants guests pf cos"},
	{Ordinal, "# no nr n° nº row id zeile ligne fila riga linha rij rad"},
	{Note, "note notes remark remarks comment comments bemerkung bemerkungen notiz kommentar commentaire remarque nota notas " +
		"observaciones observacoes commento opmerking merknad bemaerkning anmarkning status quality flag"},
	{Register, "register reading readings meter index cumulative lifetime counter zahlerstand zaehlerstand zahler stand " +
		"compteur releve contador lectura contatore lettura contatori leitura meterstand matarstallning malerstand " +
		"maaleraflaesning cumulated kumuliert cumule acumulado cumulativo"},
	{Today, "today heute aujourd'hui hoy oggi hoje vandaag idag"},
	{Estimate, "estimated estimate est geschatzt schatzung schatzwert estime estimee estimado estimada stimato stimata geschat uppskattat anslaet anslatt"},
	{YearName, "year jahr annee ano anno jaar ar"},
	{MonthName, "month monat mois mes mese maand manad maned"},
	{HourName, "hour stunde heure hora ora uur timme time_of_day he hourending hour_ending"},
	{Yesterday, "yesterday gestern hier ayer ieri ontem gisteren igar"},
}

var labels = func() map[string]Label {
	table := make(map[string]Label, 500)
	for _, l := range labelled {
		for word := range strings.FieldsSeq(l.words) {
			table[word] = l.label
		}
	}
	return table
}()

// LabelOf gives the label that a folded word is.
func LabelOf(folded string) Label { return labels[folded] }

// missing has the folded texts; of dots alone nothing is left.
var missing = func() map[string]bool {
	table := make(map[string]bool, 160)
	for text := range strings.SplitSeq("|-|--|---|----|–|––|—|——|−|…|?|??|???|*|x|n/a|na|n.a|n. a|n/d|nd|n.d|no data|nodata|no_data|no-data|"+
		"null|nil|nan|none|missing|blank|unknown|lost|empty|offline|outage|power cut|power out|power outage|blackout|down|error|err|fault|"+
		"neant|rien|no reading|no readings|no value|no entry|no record|not read|not available|not recorded|unavailable|not measured|tbd|pending|"+
		"#n/a|#na|#value!|#ref!|#div/0!|#num!|#null!|#nv|#wert!|keine daten|keine angabe|kein wert|fehlt|fehlend|k.a|k. a|ausfall|stromausfall|"+
		"sans donnees|pas de donnees|aucune donnee|donnee manquante|manquant|manquante|absent|panne|sin datos|sin dato|s/d|falta|perdido|no disponible|"+
		"nessun dato|dati mancanti|mancante|sem dados|sem dado|em falta|ausente|geen data|geen gegevens|ontbreekt|nvt|n.v.t|"+
		"ingen data|saknas|mangler|data saknas|uppgift saknas|wi-fi down|wifi down|no wifi|no signal|gap", "|") {
		table[text] = true
	}
	return table
}()

// Missing says whether a text stands for a figure that is not known. The empty
// text does.
func Missing(text string) bool {
	text = strings.TrimSpace(text)
	if len(text) > 24 {
		return false
	}
	return missing[Fold(text)]
}
