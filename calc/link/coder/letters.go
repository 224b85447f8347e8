package coder

// Base 62: blocks of 32 bytes as 43 characters, since 62^43 > 2^256; a last
// block is shorter.
const (
	letters    = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz"
	blockBytes = 32
	blockChars = 43
)

// charsFor is how many characters n bytes of a block need: 62 holds 5.9542 bits.
func charsFor(n int) int { return (n*8*10_000 + 59_541) / 59_542 }

// ToLetters writes bytes as letters and digits.
func ToLetters(bytes []byte) string {
	var out []byte
	for len(bytes) > 0 {
		block := append([]byte(nil), bytes[:min(len(bytes), blockBytes)]...)
		bytes = bytes[len(block):]
		chars := make([]byte, charsFor(len(block)))
		for i := len(chars) - 1; i >= 0; i-- {
			rest := 0
			for k, b := range block {
				rest = rest<<8 | int(b)
				block[k], rest = byte(rest/62), rest%62
			}
			chars[i] = letters[rest]
		}
		out = append(out, chars...)
	}
	return string(out)
}

// FromLetters reads what ToLetters wrote; ok is false if it can't have.
func FromLetters(text string) (bytes []byte, ok bool) {
	for len(text) > 0 {
		chars := text[:min(len(text), blockChars)]
		text = text[len(chars):]
		n := blockBytes
		for n > 0 && charsFor(n) > len(chars) {
			n--
		}
		if charsFor(n) != len(chars) {
			return nil, false
		}
		block := make([]byte, n)
		for i := range len(chars) {
			carry := Letter(chars[i])
			if carry < 0 {
				return nil, false
			}
			for k := n - 1; k >= 0; k-- {
				carry += int(block[k]) * 62
				block[k], carry = byte(carry), carry>>8
			}
			if carry > 0 {
				return nil, false
			}
		}
		bytes = append(bytes, block...)
	}
	return bytes, true
}

// Letter is what a character stands for, −1 if it is no letter or digit of the
// sixty-two.
func Letter(c byte) int {
	switch {
	case '0' <= c && c <= '9':
		return int(c - '0')
	case 'A' <= c && c <= 'Z':
		return int(c-'A') + 10
	case 'a' <= c && c <= 'z':
		return int(c-'a') + 36
	}
	return -1
}

// Count writes a number from 0 on in so many letters.
func Count(n, length int) string {
	out := make([]byte, length)
	for i := length - 1; i >= 0; i-- {
		out[i], n = letters[n%62], n/62
	}
	return string(out)
}

// Counted reads what Count wrote; −1 if it can't have.
func Counted(text string) (n int) {
	for i := range len(text) {
		digit := Letter(text[i])
		if digit < 0 {
			return -1
		}
		n = 62*n + digit
	}
	return n
}
