// Package words knows the words that stand around readings in the languages
// people paste them in: names of months and weekdays, units, missing marks,
// and the labels of rows that are not days.
//
// Words are looked up folded: lower case, without accents, dots or blanks at
// their ends. Languages: English, German, French, Spanish, Italian, Portuguese,
// Dutch, Swedish, Danish and Norwegian.
package words

import (
	"strings"
)

// plainLetters maps the accented letters of the languages above to the letters
// they are looked up by.
var plainLetters = map[rune]string{
	'à': "a", 'á': "a", 'â': "a", 'ã': "a", 'ä': "a", 'å': "a", 'æ': "ae", 'ç': "c", 'è': "e", 'é': "e", 'ê': "e", 'ë': "e",
	'ì': "i", 'í': "i", 'î': "i", 'ï': "i", 'ñ': "n", 'ò': "o", 'ó': "o", 'ô': "o", 'õ': "o", 'ö': "o", 'ø': "o", 'œ': "oe",
	'ù': "u", 'ú': "u", 'û': "u", 'ü': "u", 'ý': "y", 'ÿ': "y", 'ß': "ss",
}

// Fold gives the form of a word under which it is looked up.
func Fold(word string) string {
	plain := true
	for i := 0; i < len(word); i++ {
		if b := word[i]; b >= 0x80 || b >= 'A' && b <= 'Z' {
			plain = false
			break
		}
	}
	if !plain {
		word = foldLetters(word)
	}
	return strings.Trim(word, ". ")
}

func foldLetters(word string) string {
	var out strings.Builder
	for _, c := range strings.ToLower(word) {
		if c >= '\u0300' && c <= '\u036f' {
			continue // an accent written as a character of its own
		}
		if plain, ok := plainLetters[c]; ok {
			out.WriteString(plain)
		} else {
			out.WriteRune(c)
		}
	}
	return out.String()
}

// Month gives the month, 1 to 12, that a folded word names; 0 if none.
func Month(folded string) int { return months[folded] }

// Weekday gives the day of the week, 0 for Sunday to 6, that a folded word
// names. A few words name a month as well, such as "mar".
func Weekday(folded string) (day int, ok bool) {
	day, ok = weekdays[folded]
	return day, ok
}

// index turns twelve or seven lists of names into a table.
func index(first int, lists ...string) map[string]int {
	table := make(map[string]int)
	for i, list := range lists {
		for name := range strings.FieldsSeq(list) {
			table[name] = first + i
		}
	}
	return table
}

var months = index(
	1,
	"january jan januar jaenner janner janvier janv enero ene gennaio genn gen janeiro januari jan",
	"february feb febr februar februari fevrier fevr fev febrero febbraio febb fevereiro",
	"march mar marts mrz marz maerz mars marzo marco maart mrt",
	"april apr avril avr abril abr aprile",
	"may mai mayo maggio magg mag maio mei maj",
	"june jun juni juin junio giugno giu junho",
	"july jul juli juillet juil julio luglio lug julho",
	"august aug aout agosto ago ag augustus augusti",
	"september sep sept septembre septiembre setiembre settembre sett set setembro",
	"october oct okt oktober octobre octubre ottobre ott outubro out",
	"november nov novembre noviembre novembro",
	"december dec dez dezember decembre diciembre dic dicembre dezembro des desember",
)

var weekdays = index(
	0,
	"sunday sun sonntag so dimanche dim domingo domenica dom zondag zo sondag son",
	"monday mon montag mo lundi lun lunes lunedi segunda segunda-feira seg maandag ma mandag man",
	"tuesday tue tues dienstag di mardi mar martes martedi terca terca-feira ter dinsdag tisdag tis tirsdag tir",
	"wednesday wed mittwoch mi mercredi mer miercoles mie mercoledi quarta quarta-feira qua woensdag wo onsdag ons",
	"thursday thu thur thurs donnerstag do jeudi jeu jueves jue giovedi gio quinta quinta-feira qui donderdag torsdag tor tors",
	"friday fri freitag fr vendredi ven viernes vie venerdi sexta sexta-feira sex vrijdag vr fredag fre",
	"saturday sat samstag sa sonnabend samedi sam sabado sab sabato zaterdag za lordag lor",
)
