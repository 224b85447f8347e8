package table

import (
	"strings"

	"splittally/calc/intake"
	"splittally/calc/intake/words"
)

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
		if strings.Contains(folded, "voltai") {
			tags &^= ofPerhaps // no voltage
		}
		if len(folded) == 2 && folded[0] == 'p' && folded[1] >= '1' && folded[1] <= '3' {
			h.leg, tags = folded[1]-'1'+'a', ofPower // P1, the power of a phase
		}
		if tags == 0 {
			h.plain += folded + " "
		}
		h.tags |= tags
	}
	h.tags |= aloneTags(tokens)
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

// phrases mends what single words get wrong: from grid, to grid, feed in, power
// factor, off-peak.
func (h *heading) phrases(tokens []token) {
	text, met := "", tag(0)
	for _, t := range tokens {
		text += " " + words.Fold(t.text)
	}
	text += " "
	for _, p := range [...]struct {
		phrase string
		tags   tag
	}{
		{" to grid ", ofExport},
		{" to the grid ", ofExport},
		{" to utility ", ofExport},
		{" feed in ", ofExport},
		{" fed in ", ofExport},
		{" sent to ", ofExport},
		{" til nettet ", ofExport},
		{" till natet ", ofExport},
		{" from grid ", ofImport},
		{" from the grid ", ofImport},
		{" from utility ", ofImport},
		{" power factor ", ofOther},
		{" cos phi ", ofOther},
		{" self use ", ofOther},
		{" ev ", 0},
	} {
		if strings.Contains(text, p.phrase) {
			met |= p.tags
		}
	}
	if met&ofExport != 0 && met&ofImport == 0 {
		h.tags &^= deliveredTo(text) // what is delivered to the grid is no import
	}
	h.tags |= met
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

// deliveredTo gives the tag that "delivered" has by itself, which a direction
// behind it takes away.
func deliveredTo(text string) tag {
	for _, word := range [...]string{" delivered ", " levering ", " supply "} {
		if strings.Contains(text, word) {
			return ofImport
		}
	}
	return 0
}
