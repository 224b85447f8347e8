package scan

import (
	"strings"
	"unicode/utf8"

	"splittally/calc/number"
)

// hardBlank stands for every blank that holds two things together, as within
// the digits of a number, and for marks without width.
const hardBlank = '\u00a0'

// Lines cuts text at LF, CR LF and CR and makes the characters of each line
// plain, one for one, so that places can be counted in either form. A line end
// at the very end opens no further line.
func Lines(text string) []string {
	text = strings.TrimPrefix(text, "\uFEFF")
	if strings.Contains(text, "\x00") { // two bytes to a character, as some programs save tables
		text = strings.ReplaceAll(text, "\x00", "")
		for _, mark := range []string{"\xff\xfe", "\xfe\xff", "\uFFFD\uFFFD"} { // the last is what a decoder makes of the others
			text = strings.TrimPrefix(text, mark)
		}
	}
	html := looksLikeMarkup(text)
	lines := make([]string, 0, strings.Count(text, "\n")+1)
	for text != "" {
		end := strings.IndexAny(text, "\r\n")
		line, rest := text, ""
		if end >= 0 {
			line, rest = text[:end], text[end+1:]
			if text[end] == '\r' && strings.HasPrefix(rest, "\n") {
				rest = rest[1:]
			}
		}
		line = plain(line)
		if html {
			line = withoutTags(line)
		}
		lines = append(lines, line)
		text = rest
	}
	return lines
}

// plain folds the odd forms of digits, signs, blanks and quotes.
func plain(line string) string {
	ascii := true
	for i := 0; i < len(line); i++ {
		if line[i] >= utf8.RuneSelf {
			ascii = false
			break
		}
	}
	if ascii {
		return line
	}
	var out strings.Builder
	out.Grow(len(line))
	before := rune(0)
	for i, c := range line {
		if after := i + len("·"); c == '·' && isDigitRune(before) && after < len(line) && isDigit(line[after]) {
			c = '.' // 12·4
		}
		c = plainRune(c, before)
		out.WriteRune(c)
		before = c
	}
	return out.String()
}

func isDigitRune(c rune) bool { return c >= '0' && c <= '9' }

func plainRune(c, before rune) rune {
	switch {
	case c >= '！' && c <= '～': // the wide forms of ASCII
		return c - '！' + '!'
	case c == utf8.RuneError:
		return '?'
	case c < utf8.RuneSelf:
		return c
	case c >= '٠' && c <= '٬', c >= '۰' && c <= '۹':
		return arabic(c)
	}
	switch c {
	case '　', '\u2002', '\u2003', '\u2028', '\u2029', '\u0085':
		return ' '
	case '−', '‐', '‑', '﹣', '－':
		return '-'
	case '—', '―', '‒':
		return '–'
	case '’', '‘', 'ʼ', '´':
		return '\''
	case '“', '”', '„', '«', '»':
		return '"'
	case '│', '┃', '║', '¦':
		return '|'
	case '─', '━', '═', '┼', '├', '┤':
		return '-'
	case '、':
		return ','
	case '。':
		return '.'
	case '年', '月':
		if isDigitRune(before) {
			return '-'
		}
	case '日':
		if isDigitRune(before) {
			return ' '
		}
	}
	if number.Blank(c) {
		return hardBlank
	}
	return c
}

// arabic gives the plain form of the digits and marks of Arabic and Persian
// numbers.
func arabic(c rune) rune {
	switch {
	case c == '٪':
		return '%'
	case c == '٫':
		return '.'
	case c == '٬':
		return '\''
	case c >= '۰':
		return c - '۰' + '0'
	}
	return c - '٠' + '0'
}

// looksLikeMarkup says whether a text was copied as the source of a page.
func looksLikeMarkup(text string) bool {
	for _, sign := range []string{"<td", "<TD", "<tr", "<li", "<br", "&nbsp;"} {
		if strings.Contains(text, sign) {
			return true
		}
	}
	return false
}

// withoutTags blanks the tags of a line, character for character; a tag that
// ends a table cell becomes a tab.
func withoutTags(line string) string {
	line = withoutEntities(line)
	var out strings.Builder
	for line != "" {
		open := strings.IndexByte(line, '<')
		if open < 0 || strings.IndexByte(line[open:], '>') < 0 {
			break
		}
		size := strings.IndexByte(line[open:], '>') + 1
		tag := line[open : open+size]
		out.WriteString(line[:open])
		blank := strings.Repeat(" ", utf8.RuneCountInString(tag)-1)
		name := strings.ToLower(strings.TrimLeft(tag, "</"))
		if strings.HasPrefix(tag, "</") && (strings.HasPrefix(name, "td") || strings.HasPrefix(name, "th")) {
			out.WriteString("\t" + blank)
		} else {
			out.WriteString(" " + blank)
		}
		line = line[open+size:]
	}
	out.WriteString(line)
	return out.String()
}

// signsOfEntities are the characters that matter of those that pages write as
// entities; the others are blanks to us.
var signsOfEntities = map[string]string{
	"minus": "-", "#8722": "-", "ndash": "–", "mdash": "–", "#8211": "–", "#8212": "–", "lt": "<",
	"pound": "£", "#163": "£", "euro": "€", "#8364": "€", "yen": "¥", "cent": "¢", "percnt": "%", "deg": "°", "#176": "°",
}

// withoutEntities writes a line without the entities of a page's source,
// character for character; a sign stands right before what follows it.
func withoutEntities(line string) string {
	var out strings.Builder
	for line != "" {
		from := strings.IndexByte(line, '&')
		if from < 0 {
			break
		}
		size := strings.IndexByte(line[from:], ';') + 1
		if size < 3 || size > 9 || strings.ContainsAny(line[from:from+size], " <\t") {
			out.WriteString(line[:from+1])
			line = line[from+1:]
			continue
		}
		sign := signsOfEntities[line[from+1:from+size-1]]
		if sign == "" {
			sign = " "
		}
		out.WriteString(line[:from] + strings.Repeat(" ", size-1) + sign)
		line = line[from+size:]
	}
	out.WriteString(line)
	return out.String()
}

// IsRule says whether a line is only drawn: dashes, equals signs and the like.
func IsRule(line string) bool {
	marks := 0
	for _, c := range line {
		switch c {
		case '-', '=', '_', '*', '+', '~', '–', '#', '·', '•', '.':
			marks++
		case '|', ':', ' ', '\t', hardBlank, ';', ',':
		default:
			return false
		}
	}
	return marks >= 3
}

// IsBlank says whether a line holds nothing to read.
func IsBlank(line string) bool {
	for _, c := range line {
		if c != ' ' && c != '\t' && !number.Blank(c) {
			return false
		}
	}
	return true
}
