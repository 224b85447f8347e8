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
	'ą': "a", 'ă': "a", 'ć': "c", 'č': "c", 'ď': "d", 'ę': "e", 'ě': "e", 'ğ': "g", 'ı': "i", 'ł': "l", 'ń': "n", 'ň': "n", 'ő': "o", 'ř': "r",
	'ś': "s", 'š': "s", 'ş': "s", 'ș': "s", 'ť': "t", 'ț': "t", 'ţ': "t", 'ů': "u", 'ű': "u", 'ź': "z", 'ż': "z", 'ž': "z",
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

// index turns twelve or seven lists of names into a table of about size names.
func index(first, size int, lists ...string) map[string]int {
	table := make(map[string]int, size)
	for i, list := range lists {
		for name := range strings.FieldsSeq(list) {
			table[name] = first + i
		}
	}
	return table
}

var months = index(
	1, 300,
	"january jan januar jaenner janner janvier janv enero ene gennaio genn gen janeiro januari styczen stycznia leden ledna januara tammikuu tammikuuta ianuarie ocak январь января",
	"february feb febr februar februari fevrier fevr fev febrero febbraio febb fevereiro luty lutego unor unora februara helmikuu helmikuuta februarie subat февраль февраля",
	"march mar marts mrz marz maerz mars marzo marco maart mrt marzec marca marec brezen brezna maaliskuu maaliskuuta marcius martie mart март марта",
	"april apr avril avr abril abr aprile kwiecien kwietnia duben dubna aprila huhtikuu huhtikuuta aprilis aprilie nisan апрель апреля",
	"may mai mayo maggio magg mag maio mei maj maja kveten kvetna toukokuu toukokuuta majus mayis май мая",
	"june jun juni juin junio giugno giu junho czerwiec czerwca cerven cervna juna kesakuu kesakuuta junius iunie haziran июнь июня",
	"july jul juli juillet juil julio luglio lug julho lipiec lipca cervenec cervence jula heinakuu heinakuuta julius iulie temmuz июль июля",
	"august aug aout agosto ago ag augustus augusti sierpien sierpnia srpen srpna augusta elokuu elokuuta augusztus agustos август августа",
	"september sep sept septembre septiembre setiembre settembre sett set setembro wrzesien wrzesnia zari septembra syyskuu syyskuuta szeptember szept septembrie eylul сентябрь сентября",
	"october oct okt oktober octobre octubre ottobre ott outubro out pazdziernik pazdziernika paz rijen rijna oktobra lokakuu lokakuuta octombrie ekim октябрь октября",
	"november nov novembre noviembre novembro listopad listopada listopadu novembra marraskuu marraskuuta noiembrie kasim ноябрь ноября",
	"december dec dez dezember decembre diciembre dic dicembre dezembro des desember grudzien grudnia prosinec prosince decembra joulukuu joulukuuta decembrie aralik декабрь декабря",
)

var weekdays = index(
	0, 200,
	"sunday sun sonntag so dimanche dim domingo domenica dom zondag zo sondag son niedziela nedele nedela sunnuntai vasarnap duminica pazar воскресенье вс",
	"monday mon montag mo lundi lun lunes lunedi segunda segunda-feira seg maandag ma mandag man poniedzialek pondeli pondelok maanantai hetfo luni pazartesi понедельник пн",
	"tuesday tue tues dienstag di mardi mar martes martedi terca terca-feira ter dinsdag tisdag tis tirsdag tir wtorek utery utorok tiistai kedd sali вторник вт",
	"wednesday wed mittwoch mi mercredi mer miercoles mie mercoledi quarta quarta-feira qua woensdag wo onsdag ons sroda streda keskiviikko szerda miercuri carsamba среда ср",
	"thursday thu thur thurs donnerstag do jeudi jeu jueves jue giovedi gio quinta quinta-feira qui donderdag torsdag tor tors czwartek ctvrtek stvrtok torstai csutortok joi persembe четверг чт",
	"friday fri freitag fr vendredi ven viernes vie venerdi sexta sexta-feira sex vrijdag vr fredag fre piatek patek piatok perjantai pentek vineri cuma пятница пт",
	"saturday sat samstag sa sonnabend samedi sam sabado sab sabato zaterdag za lordag lor sobota lauantai szombat sambata cumartesi суббота сб",
)
