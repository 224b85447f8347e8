package link

import (
	"strconv"
	"strings"
	"sync"
	"unicode"

	"splittally/calc/document"
	"splittally/calc/intake"
	"splittally/calc/intake/words"
	"splittally/calc/pulse"
)

// cleaner takes out of a document what a link is not to hold.
type cleaner struct {
	names   bool
	neutral map[string]string // what words of names became, by the word folded
	next    int               // the number of the next
}

// begin counts on from the neutral words that are there.
func (k *cleaner) begin(n *document.Node) {
	for _, m := range n.Names {
		k.begin(&m.Node)
	}
	for i := range n.Items {
		k.begin(&n.Items[i])
	}
	for _, word := range strings.FieldsFunc(n.Text, func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) }) {
		if isNeutral(word) {
			number, _ := strconv.Atoi(word[1:])
			k.next = max(k.next, number)
		}
	}
}

// node cleans what is at a path; field is the last name of it.
func (k *cleaner) node(n *document.Node, path, field string) {
	switch {
	case n.Kind == document.Group:
		kept := n.Names[:0]
		for _, m := range n.Names {
			k.node(&m.Node, path+"."+m.Name, m.Name)
			if m.Node.Kind != document.Leaf || m.Node.Text != "" {
				kept = append(kept, m)
			}
		}
		n.Names = kept
	case n.Kind == document.List && len(n.Items) > 0 && n.Items[0].Kind != document.Leaf:
		for i := range n.Items {
			k.node(&n.Items[i], path, field)
		}
	default:
		*n = document.Node{Text: k.text(path, field, lined(*n))}
	}
}

// text cleans one text. Pasted ones are left to readings and hours.
func (k *cleaner) text(path, field, text string) string {
	switch field {
	case "readings", "record":
		return "" // put in anew
	case "marks":
		return k.marks(text)
	case "watts":
		return wattsOnly(text)
	}
	text = printable(text)
	switch {
	case k.names:
		return text
	case path == ".title", path == ".note", path == ".monitors.name", path == ".plans.name":
		return ""
	case path == ".checks.legs.name":
		if !isLegName(text) {
			return ""
		}
		return text
	case field == "name", field == "on":
		return k.neutralName(text)
	case strings.HasPrefix(path, ".answers."):
		if strings.IndexFunc(text, func(r rune) bool { return r > '~' || r <= ' ' }) >= 0 {
			return ""
		}
		return text
	case !telling(text, shortest(field)):
		return ""
	}
	return text
}

// shown makes all texts of a document printable.
func shown(n *document.Node) {
	for i := range n.Names {
		shown(&n.Names[i].Node)
	}
	for i := range n.Items {
		shown(&n.Items[i])
	}
	n.Text = printable(n.Text)
}

// printable leaves out characters that do something else than show, such as
// those that turn the direction of writing round.
func printable(text string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case r == '\n', r == '\t':
			return r
		case r == unicode.ReplacementChar, unicode.Is(unicode.Cc, r), unicode.Is(unicode.Cf, r), r == '\u2028', r == '\u2029':
			return -1
		}
		return r
	}, text)
}

// marks gives the pulses of a recording, without the name of its file unless
// names go along. What is no such text is left out.
func (k *cleaner) marks(text string) string {
	m, _ := pulse.Parse(text)
	if !k.names {
		m.File, m.Says = "", nil
		if !telling(m.Format, 3) {
			m.Format = ""
		}
	}
	if len(m.Marks) == 0 {
		return ""
	}
	return printable(pulse.Format(m))
}

// wattsOnly keeps the lines of figures and times.
func wattsOnly(text string) string {
	var kept []string
	for _, line := range strings.Split(printable(text), "\n") {
		if telling(line, 0) && len(line) < 80 {
			kept = append(kept, line)
		}
	}
	return strings.Join(kept, "\n")
}

// shortest is how long letters may be, in a field, that stand for nothing known
// here: signs of currencies.
func shortest(field string) int {
	switch field {
	case "currency", "price", "amount", "total", "per-kwh", "fixed":
		return 3
	}
	return 0
}

// terms are words of the trade, which are no names: those of the vocabulary, of
// the fields, and these. They teach the letters of texts too, so they are never
// changed; more of them would need a list of their own.
const terms = " e kwh wh mwh kw w mw v a va ma hz h hr hrs hour hours s sec min minute minutes imp rev kh turns am pm st nd rd th" +
	" of de the and at for in on to from until per each plus less cent cents ct pence öre ore rp wav mp3 bit mono stereo" +
	" basic base service standing capacity network grid transmission generation meter metering reading access public" +
	" state city local federal county sales value vat gst hst surcharge levy fund benefit adjustment fuel transition" +
	" renewable solar net first second third tier block step next over up above below additional remaining usage use" +
	" off peak mid super shoulder low high normal rate rates charge charges cost costs fee fees credit rebate rounding" +
	" summer winter spring autumn weekday weekdays weekend weekends holiday evening morning" +
	" electric electricity power amount subtotal balance previous current monthly yearly annual household leg phase "

// isTerm says that a word in lower case is of the trade, or of the calendar.
func isTerm(word string) bool {
	_, isDay := words.Weekday(word)
	return isDay || words.Month(word) > 0 || strings.Contains(terms, " "+word+" ") ||
		strings.Contains(termsOfFields(), " "+word+" ")
}

var termsOfFields = sync.OnceValue(func() string {
	return " " + strings.ToLower(strings.Join(strings.FieldsFunc(table+" "+vocabulary, func(r rune) bool { return !unicode.IsLetter(r) }), " ")) + " "
})

// telling says that a text has no words but those of the trade, and letters no
// longer than most.
func telling(text string, most int) bool {
	for _, word := range strings.FieldsFunc(text, func(r rune) bool { return !unicode.IsLetter(r) }) {
		if !isTerm(strings.ToLower(word)) && len([]rune(word)) > most {
			return false
		}
	}
	return true
}

// neutralName puts N1, N2 and so on for the words of a name that are not of the
// trade, the same for the same word, so that lines of a bill still find the rows
// of the tariff that they are named like.
func (k *cleaner) neutralName(name string) string {
	var out strings.Builder
	isWord := func(r rune) bool { return unicode.IsLetter(r) || unicode.IsDigit(r) }
	for name != "" {
		end := strings.IndexFunc(name, func(r rune) bool { return !isWord(r) })
		switch {
		case end < 0:
			end = len(name)
		case end == 0:
			sign := []rune(name)[0]
			name = name[len(string(sign)):]
			if sign > '~' {
				sign = ' '
			}
			out.WriteRune(sign)
			continue
		}
		out.WriteString(k.neutralWord(name[:end]))
		name = name[end:]
	}
	return out.String()
}

func (k *cleaner) neutralWord(word string) string {
	folded := strings.ToLower(word)
	digits := strings.TrimLeft(folded, "0123456789")
	if isTerm(folded) || digits == "" && len(word) < 4 || isNeutral(word) {
		return word
	}
	if k.neutral[folded] == "" {
		k.next++
		k.neutral[folded] = "N" + strconv.Itoa(k.next)
	}
	return k.neutral[folded]
}

// isLegName says that a name is that of a leg or phase and no more.
func isLegName(name string) bool { return intake.IsLeg(name) && telling(name, 1) }

// isNeutral says that a word can be one that stands for another.
func isNeutral(word string) bool {
	return len(word) > 1 && len(word) < 5 && word[0] == 'N' && strings.Trim(word[1:], "0123456789") == ""
}
