package markup

import "strings"

// Plain is a text for the eye and for readers of the screen, such that nothing in
// it changes how what stands around it is read. What a person or a file wrote may
// hold letters that run from right to left, or signs that turn a direction: "2.3 %
// high" beside such a name could be shown as "high % 2.3". So
//
//   - signs that turn directions, controls and blanks without a width go; two names
//     that look alike are then alike;
//   - what runs from right to left stands in an isolate of its own (Unicode
//     Standard Annex #9, section 2.4: FSI and PDI). Isolates work within
//     attributes and drawings, where the element bdi does not.
//
// The joiners of scripts and pictures (ZWJ, ZWNJ) stay. Text draws what Plain
// gives; values that come back to the program, such as those of fields, are not
// changed by it.
func Plain(text string) string {
	if !strings.ContainsFunc(text, changed) {
		return text
	}
	var b strings.Builder
	var run strings.Builder // from the first letter that runs to the left
	end := 0                // of run: behind the last one
	flush := func() {
		if run.Len() > 0 {
			b.WriteString("\u2068" + run.String()[:end] + "\u2069" + run.String()[end:])
		}
		run.Reset()
	}
	for _, r := range text {
		switch {
		case r == '\n' || r == '\t' || r == '\r':
		case unseen(r):
			continue
		case r < ' ' || r == 0x7f || r == '\u2028' || r == '\u2029':
			r = ' '
		}
		switch {
		case leftward(r):
			run.WriteRune(r)
			end = run.Len()
		case run.Len() > 0 && (r == ' ' || r == '\u200d' || r == '\u200c' || r > 0x2ff && r < 0x370):
			run.WriteRune(r) // words of one run, and the marks on its letters
		default:
			flush()
			b.WriteRune(r)
		}
	}
	flush()
	return b.String()
}

func changed(r rune) bool {
	return r < ' ' && r != '\n' && r != '\t' || r >= 0x7f && (unseen(r) || leftward(r) || r == 0x7f || r == '\u2028' || r == '\u2029')
}

// unseen says that a sign only turns directions, controls a machine, or is a
// blank of no width.
func unseen(r rune) bool {
	switch {
	case r < 0x80:
		return false
	case r < 0xa0, r == 0xad, r == 0x61c, r == 0x180e, r == 0x200b, r == 0x200e, r == 0x200f, r == 0xfeff:
		return true
	}
	return r >= 0x202a && r <= 0x202e || r >= 0x2060 && r <= 0x206f || r >= 0xfff9 && r <= 0xfffb || r >= 0xe0000 && r <= 0xe0fff
}

// leftward says that a letter runs from right to left, by the blocks that Unicode
// keeps for such scripts (Unicode Standard Annex #9, table 4, and
// DerivedBidiClass.txt's defaults).
func leftward(r rune) bool {
	return r >= 0x590 && r <= 0x8ff || r >= 0xfb1d && r <= 0xfdff || r >= 0xfe70 && r <= 0xfefc ||
		r >= 0x10800 && r <= 0x10fff || r >= 0x1e800 && r <= 0x1efff
}
