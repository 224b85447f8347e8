package tariff_test

import (
	"math/big"
	"slices"
	"strconv"
	"strings"
	"time"

	"splittally/calc/calendar"
	"splittally/calc/tariff"
)

// The slow calculation reads the texts of a schedule by itself. It knows only
// the plain forms that the slow tests write, and panics at any other.

// number reads a plain decimal; "" is 0.
func number(text string) *big.Rat {
	if text == "" {
		return new(big.Rat)
	}
	r, ok := new(big.Rat).SetString(text)
	if !ok {
		panic("not a plain number: " + text)
	}
	return r
}

// money reads "3.50", "$3.50" or "3.50 USD". said is true for the last two.
func money(text string) (value *big.Rat, said bool) {
	plain := strings.TrimPrefix(text, "$")
	if before, _, found := strings.Cut(plain, " "); found {
		plain = before
	}
	return number(plain), plain != text
}

// percent gives the portion of "5.5 %" or "5.5".
func percent(text string) *big.Rat {
	p := number(strings.TrimSuffix(text, " %"))
	return p.Quo(p, big.NewRat(100, 1))
}

func whole(text string) int {
	n, err := strconv.Atoi(text)
	if err != nil {
		panic("not a whole number: " + text)
	}
	return n
}

// yearday orders the days of any year: month · 100 + day, from "31 Oct".
func yearday(text string) int {
	day, month, _ := strings.Cut(text, " ")
	for m := time.January; m <= time.December; m++ {
		if m.String()[:3] == month {
			return int(m)*100 + whole(day)
		}
	}
	panic("not a day of the year: " + text)
}

// holds says whether a row holds on a day at all.
func holds(r tariff.Row, d calendar.Day) bool {
	if r.Since != "" && d.String() < r.Since || r.Until != "" && d.String() > r.Until {
		return false
	}
	if r.From == "" {
		return true
	}
	_, month, day := d.Date()
	at, from, to := month*100+day, yearday(r.From), yearday(r.To)
	if from <= to {
		return from <= at && at <= to
	}
	return at >= from || at <= to
}

// holiday says whether a day is among the owner's own dates.
func holiday(dates string, d calendar.Day) bool {
	return dates != "" && slices.ContainsFunc(strings.Split(dates, "\n"), func(date string) bool {
		return strings.HasSuffix(d.String(), date) // 12-25 is so in each year
	})
}

// onDay says whether a band's days take in a day.
func onDay(days string, d calendar.Day, isHoliday bool) bool {
	weekend := d.Weekday() == time.Saturday || d.Weekday() == time.Sunday
	switch days {
	case "", "all":
		return true
	case "workdays":
		return !weekend && !isHoliday
	case "rest":
		return weekend || isHoliday
	}
	for _, name := range strings.Split(days, ", ") {
		if name == d.Weekday().String() || name == "holidays" && isHoliday {
			return true
		}
	}
	return false
}

// hours is a span of the clock in minutes; if to is not after from it runs on
// into the next day.
type hours struct{ from, to int }

// spans reads "7-11, 22:30-6"; "" is all day.
func spans(text string) (all []hours) {
	if text == "" {
		return []hours{{0, 1440}}
	}
	for _, span := range strings.Split(text, ", ") {
		from, to, _ := strings.Cut(span, "-")
		all = append(all, hours{minute(from), minute(to)})
	}
	return all
}

func minute(text string) int {
	hour, rest, found := strings.Cut(text, ":")
	if !found {
		return whole(hour) * 60
	}
	return whole(hour)*60 + whole(rest)
}

// round gives r to places decimals, by the rule named.
func round(r *big.Rat, places int, half string) *big.Rat {
	unit := new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(places)), nil)
	fine := new(big.Rat).Mul(r, new(big.Rat).SetInt(unit))
	size := new(big.Rat).Abs(fine)
	cut, left := new(big.Int).QuoRem(size.Num(), size.Denom(), new(big.Int))
	over := left.Lsh(left, 1).Cmp(size.Denom()) // what is left against a half
	if half != "down" && (over > 0 || over == 0 && (half != "even" || cut.Bit(0) == 1)) {
		cut.Add(cut, big.NewInt(1))
	}
	if r.Sign() < 0 {
		cut.Neg(cut)
	}
	return new(big.Rat).SetFrac(cut, unit)
}
