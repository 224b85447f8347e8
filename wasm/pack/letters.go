package main

import "strings"

// letters writes bytes as text that can stand inside a script element: 13 bits
// in two of the 91 letters from # to }, but for <, which ! stands for. It is a
// twelfth shorter than base64, which fits 12. What is left over, up to 6 bits,
// takes one letter, so that the text's length tells the number of bytes.
//
// bytesOf in static/unpack.js is the way back.
func letters(data []byte) string {
	out := make([]byte, 0, len(data)*16/13+2)
	held, bits := 0, 0
	for _, b := range data {
		held |= int(b) << bits
		if bits += 8; bits >= 13 {
			out = append(out, letter((held&0x1fff)%91), letter((held&0x1fff)/91))
			held >>= 13
			bits -= 13
		}
	}
	if bits > 0 {
		out = append(out, letter(held%91))
	}
	if bits > 6 {
		out = append(out, letter(held/91))
	}
	return string(out)
}

func letter(digit int) byte {
	if digit += '#'; digit == '<' {
		return '!'
	}
	return byte(digit)
}

const unpackerMark = `"(unpacker)"`

// withUnpacker puts what unpacks the engine into the script that runs it.
func withUnpacker(script string, unpacker []byte) string {
	return strings.Replace(script, unpackerMark, `"`+strings.ReplaceAll(letters(unpacker), `\`, `\\`)+`"`, 1)
}
