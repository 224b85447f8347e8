package words

import (
	"strings"
	"testing"
)

func TestFold(t *testing.T) {
	for word, want := range map[string]string{
		"Oct.": "oct", "März": "marz", "DÉCEMBRE": "decembre", "e\u0301t": "et", "n.d.": "n.d", "Årsmåling": "arsmaling", "Œuf": "oeuf", "": "",
	} {
		if got := Fold(word); got != want {
			t.Errorf("Fold(%q) = %q, want %q", word, got, want)
		}
	}
}

func TestMonthsOfTenLanguages(t *testing.T) {
	for language, names := range map[string]string{
		"English":    "January February March April May June July August September October November December",
		"German":     "Januar Februar März April Mai Juni Juli August September Oktober November Dezember",
		"French":     "janvier février mars avril mai juin juillet août septembre octobre novembre décembre",
		"Spanish":    "enero febrero marzo abril mayo junio julio agosto septiembre octubre noviembre diciembre",
		"Italian":    "gennaio febbraio marzo aprile maggio giugno luglio agosto settembre ottobre novembre dicembre",
		"Portuguese": "janeiro fevereiro março abril maio junho julho agosto setembro outubro novembro dezembro",
		"Dutch":      "januari februari maart april mei juni juli augustus september oktober november december",
		"Swedish":    "januari februari mars april maj juni juli augusti september oktober november december",
		"Danish":     "januar februar marts april maj juni juli august september oktober november december",
		"Norwegian":  "januar februar mars april mai juni juli august september oktober november desember",
	} {
		for i, name := range strings.Fields(names) {
			if got := Month(Fold(name)); got != i+1 {
				t.Errorf("%s: %s is month %d, want %d", language, name, got, i+1)
			}
		}
	}
}

func TestWeekdaysOfTenLanguages(t *testing.T) {
	for language, names := range map[string]string{
		"English":    "Sunday Monday Tuesday Wednesday Thursday Friday Saturday",
		"German":     "Sonntag Montag Dienstag Mittwoch Donnerstag Freitag Samstag",
		"French":     "dimanche lundi mardi mercredi jeudi vendredi samedi",
		"Spanish":    "domingo lunes martes miércoles jueves viernes sábado",
		"Italian":    "domenica lunedì martedì mercoledì giovedì venerdì sabato",
		"Portuguese": "domingo segunda-feira terça-feira quarta-feira quinta-feira sexta-feira sábado",
		"Dutch":      "zondag maandag dinsdag woensdag donderdag vrijdag zaterdag",
		"Swedish":    "söndag måndag tisdag onsdag torsdag fredag lördag",
		"Danish":     "søndag mandag tirsdag onsdag torsdag fredag lørdag",
	} {
		for i, name := range strings.Fields(names) {
			if got, ok := Weekday(Fold(name)); got != i || !ok {
				t.Errorf("%s: %s is weekday %d, want %d", language, name, got, i)
			}
		}
	}
}

func TestNoWordHasTwoLabels(t *testing.T) {
	seen := map[string]Label{}
	for _, l := range labelled {
		for word := range strings.FieldsSeq(l.words) {
			if other, twice := seen[word]; twice && other != l.label {
				t.Errorf("%q is listed under labels %d and %d", word, other, l.label)
			}
			seen[word] = l.label
			if Fold(word) != word {
				t.Errorf("%q is never found: it folds to %q", word, Fold(word))
			}
		}
	}
	for word := range units {
		if Fold(word) != word {
			t.Errorf("unit %q is never found: it folds to %q", word, Fold(word))
		}
	}
}

func TestMissing(t *testing.T) {
	for text := range missing {
		if Fold(text) != text {
			t.Errorf("%q is never found: it folds to %q", text, Fold(text))
		}
	}
	for _, text := range []string{"--", "—", "...", ".", "N/A", "no data", "N.D.", "", " ", "NaN", "#REF!", "k. A.", "Sans données"} {
		if !Missing(text) {
			t.Errorf("%q is not taken as missing", text)
		}
	}
	for _, text := range []string{"0", "12.4", "cloudy", "Oct", "-5", "no data at all for many days on end"} {
		if Missing(text) {
			t.Errorf("%q is taken as missing", text)
		}
	}
}
