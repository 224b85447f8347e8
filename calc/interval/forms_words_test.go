package interval_test

import "splittally/calc/record"

// formsWords are the headings of one language as exports have them.
type formsWords struct {
	tag                     string
	time, from, to          []string
	date, clock             []string
	energy, power, register []string
	imports, exports, made  []string
}

var formsLanguages = []formsWords{
	{
		"en",
		[]string{"Time", "Timestamp", "Date/Time", "datetime", "Date and time", "Date"},
		[]string{"Start", "Start time", "From", "Interval start", "period_start", "Start Date/Time"},
		[]string{"End", "End time", "Interval end", "interval_end", "Period ending", "Time (period ending)"},
		[]string{"Date", "Read date", "Day"},
		[]string{"Time", "Clock"},
		[]string{"Usage", "Consumption", "Energy", "Electricity use", "Grid import", "Energy used"},
		[]string{"Power", "Mean power", "Demand", "Load", "use"},
		[]string{"Meter reading", "Register", "Total energy", "Cumulative energy", "Meter register"},
		[]string{"Import", "Grid import", "From grid", "Energy delivered"},
		[]string{"Export", "Grid export", "To grid", "Returned to grid", "Feed-in"},
		[]string{"Solar", "PV", "Solar production", "Generation"},
	},
	{
		"de",
		[]string{"Zeit", "Zeitstempel", "Datum/Uhrzeit", "Zeitpunkt"},
		[]string{"Von", "Beginn", "Startzeit"},
		[]string{"Bis", "Ende", "Endzeit"},
		[]string{"Datum", "Tag"},
		[]string{"Uhrzeit", "Zeit"},
		[]string{"Verbrauch", "Bezug", "Energie", "Netzbezug"},
		[]string{"Leistung", "Wirkleistung"},
		[]string{"Zählerstand", "Stand"},
		[]string{"Bezug", "Netzbezug"},
		[]string{"Einspeisung", "Netzeinspeisung"},
		[]string{"Erzeugung", "PV", "Solar"},
	},
	{
		"fr",
		[]string{"Horodatage", "Date et heure", "Date"},
		[]string{"Début", "Date de début"},
		[]string{"Fin", "Date de fin"},
		[]string{"Date", "Jour"},
		[]string{"Heure"},
		[]string{"Consommation", "Énergie", "Soutirage"},
		[]string{"Puissance", "Puissance moyenne"},
		[]string{"Index", "Relevé"},
		[]string{"Soutirage", "Consommation"},
		[]string{"Injection"},
		[]string{"Production", "Production solaire"},
	},
	{
		"es",
		[]string{"Fecha y hora", "Fecha"},
		[]string{"Inicio", "Desde"},
		[]string{"Fin", "Hasta"},
		[]string{"Fecha", "Día"},
		[]string{"Hora"},
		[]string{"Consumo", "Energía"},
		[]string{"Potencia"},
		[]string{"Lectura", "Lectura del contador"},
		[]string{"Consumo", "Importación"},
		[]string{"Exportación", "Vertido"},
		[]string{"Producción", "Generación"},
	},
	{
		"it",
		[]string{"Data e ora", "Data"},
		[]string{"Inizio", "Da"},
		[]string{"Fine", "A"},
		[]string{"Data", "Giorno"},
		[]string{"Ora", "Orario"},
		[]string{"Consumo", "Energia", "Prelievo"},
		[]string{"Potenza"},
		[]string{"Lettura"},
		[]string{"Prelievo", "Consumo"},
		[]string{"Immissione"},
		[]string{"Produzione", "Fotovoltaico"},
	},
	{
		"nl",
		[]string{"Tijdstip", "Datum en tijd", "Datum"},
		[]string{"Van", "Begin"},
		[]string{"Tot", "Einde"},
		[]string{"Datum"},
		[]string{"Tijd"},
		[]string{"Verbruik", "Afname"},
		[]string{"Vermogen"},
		[]string{"Meterstand", "Stand"},
		[]string{"Verbruik", "Afname"},
		[]string{"Teruglevering", "Injectie"},
		[]string{"Opwek", "Productie"},
	},
	{
		"pt",
		[]string{"Data e hora", "Data"},
		[]string{"Início", "De"},
		[]string{"Fim", "Até"},
		[]string{"Data"},
		[]string{"Hora"},
		[]string{"Consumo", "Energia"},
		[]string{"Potência"},
		[]string{"Leitura"},
		[]string{"Consumo"},
		[]string{"Injeção", "Exportação"},
		[]string{"Produção"},
	},
	{
		"sv",
		[]string{"Tidpunkt", "Datum och tid", "Tid"},
		[]string{"Från", "Start"},
		[]string{"Till", "Slut"},
		[]string{"Datum"},
		[]string{"Tid", "Klockslag"},
		[]string{"Förbrukning", "Energi", "Uttag"},
		[]string{"Effekt"},
		[]string{"Mätarställning"},
		[]string{"Uttag", "Förbrukning"},
		[]string{"Inmatning"},
		[]string{"Produktion", "Sol"},
	},
	{
		"da",
		[]string{"Tidspunkt", "Dato og tid"},
		[]string{"Fra", "Start"},
		[]string{"Til", "Slut"},
		[]string{"Dato"},
		[]string{"Tid", "Klokkeslæt"},
		[]string{"Forbrug", "Energi"},
		[]string{"Effekt"},
		[]string{"Målerstand", "Måleraflæsning"},
		[]string{"Forbrug"},
		[]string{"Eksport", "Levering til nettet"},
		[]string{"Produktion"},
	},
	{
		"pl",
		[]string{"Data i godzina", "Data"},
		[]string{"Od", "Początek"},
		[]string{"Do", "Koniec"},
		[]string{"Data"},
		[]string{"Godzina", "Czas"},
		[]string{"Zużycie", "Energia", "Pobór"},
		[]string{"Moc"},
		[]string{"Stan licznika", "Odczyt"},
		[]string{"Pobór", "Zużycie"},
		[]string{"Oddanie"},
		[]string{"Produkcja"},
	},
}

// formsRoles are sets of columns of figures that one file has.
var formsRoles = [][]record.Role{
	{record.Import, record.Export},
	{record.Import, record.Export, record.Production},
	{record.Import, record.Production},
	{record.LegA, record.LegB},
	{record.LegA, record.LegB, record.LegC},
	{record.Import, record.Circuit, record.Circuit, record.Circuit},
}

var formsLegs = [][]string{{"L1", "L2", "L3"}, {"Leg A", "Leg B", "Leg C"}, {"Phase 1", "Phase 2", "Phase 3"}, {"Phase A", "Phase B", "Phase C"}}

var formsCircuits = []string{"Fridge", "Oven", "Dryer", "Heat pump", "Garage", "Lights"}

// formsExtras are columns that are neither times nor energies.
var formsExtras = []string{"Temperature (°C)", "Outdoor temp", "Price (ct/kWh)", "Cost ($)", "Voltage (V)", "Frequency (Hz)", "Status", "Meter", "Note", "Quality"}
