package table

import (
	"splittally/calc/intake/words"
)

// date reads a date.
func (r *stampReader) date() bool {
	if c := r.peek(); c < '0' || c > '9' {
		word := r.word()
		if _, day := words.Weekday(word); day && (words.Month(word) == 0 || !r.dayFollows()) {
			r.skip(" ,.")
			if c := r.peek(); c >= '0' && c <= '9' {
				return r.numbered()
			}
			word = r.word()
		}
		return r.named(words.Month(word))
	}
	return r.numbered()
}

// dayFollows says whether a number of one or two digits comes next, as behind
// the name of a month.
func (r *stampReader) dayFollows() bool {
	at := r.at
	defer func() { r.at = at }()
	r.skip(" .")
	_, digits := r.number(4)
	return digits == 1 || digits == 2
}

// named reads the rest of Mar 1, 2024.
func (r *stampReader) named(month int) bool {
	if month == 0 {
		return false
	}
	r.skip(" .-/")
	day, digits := r.number(3)
	if digits == 0 || digits > 2 {
		return false
	}
	r.skip(" ,.-/")
	year, digits := r.number(5)
	r.shape, r.stamp.date = nameDay, [3]int{month, day, fullYear(year, digits)}
	return digits == 4 || digits == 2 && r.peek() != ':'
}

// numbered reads a date that begins with a number.
func (r *stampReader) numbered() bool {
	first, digits := r.number(15)
	switch digits {
	case 8, 12, 14:
		return r.compact(digits)
	case 1, 2, 4:
	default:
		return false
	}
	r.mark = r.peek()
	if r.mark != '-' && r.mark != '/' && r.mark != '.' && r.mark != ' ' {
		return false
	}
	r.skip(" -/.")
	second, shape := 0, numbers
	if c := r.peek(); c >= '0' && c <= '9' {
		var n int
		if second, n = r.number(3); n > 2 || r.peek() != r.mark {
			return false
		}
	} else {
		if second = words.Month(r.word()); second == 0 {
			return false
		}
		shape = dayName
	}
	r.skip(" -/.,")
	third, n := r.number(5)
	if digits == 4 {
		r.shape, r.stamp.date = yearFirst, [3]int{first, second, third}
		return n == 1 || n == 2
	}
	r.shape, r.stamp.date = shape, [3]int{first, second, fullYear(third, n)}
	return n == 4 || n == 2 && r.mark != ' '
}

// compact reads 20240301, with 0015 or 001500 right behind it or without.
func (r *stampReader) compact(digits int) bool {
	end := r.at
	r.at -= digits
	year, _ := r.number(4)
	month, _ := r.number(2)
	day, _ := r.number(2)
	r.shape, r.stamp.date, r.mark = yearFirst, [3]int{year, month, day}, 0
	if digits > 8 {
		hour, _ := r.number(2)
		minute, _ := r.number(2)
		second, _ := r.number(2)
		r.at = end
		return r.set(hour, minute, second, 0) && year > 1950 && year < 2200
	}
	return year > 1950 && year < 2200 && month >= 1 && month <= 12 && day >= 1 && day <= 31
}

// fullYear completes a year of two digits.
func fullYear(year, digits int) int {
	switch {
	case digits != 2:
		return year
	case year < 70:
		return 2000 + year
	}
	return 1900 + year
}

// parting passes over what stands between a date and a clock.
func (r *stampReader) parting() {
	if c := r.peek(); c == 'T' || c == 't' || c == '_' {
		r.at++
		return
	}
	r.skip(" ,-")
	if at := r.at; r.word() != "at" {
		r.at = at
	}
	r.skip(" ")
}
