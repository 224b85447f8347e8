package account

import (
	"cmp"
	"slices"
	"strconv"
	"strings"

	"github.com/shopspring/decimal"

	"splittally/calc/calendar"
	"splittally/calc/number"
	"splittally/calc/sorted"
	"splittally/calc/tariff"
)

// thresholds tries the ways in which the ends of tiers go with the days.
func (r *rebuild) thresholds(row int, add adder) {
	if r.kindOf(row) != tariff.Tiers {
		return
	}
	days := r.b.Usage.Span.Days()
	if h, known := r.runs()[row]; known {
		days = h.Common(r.b.Usage.Span).Days()
	}
	whole := decimal.NewFromInt(int64(r.b.Usage.Span.Days()))
	if days == 0 {
		return
	}
	seen := map[string]bool{} // two ways to the same ends are the same
	for _, c := range r.counts(row, days) {
		for _, rounded := range []bool{false, true} {
			ends := r.endsOf(row, c.times, rounded)
			text := endsText(ends)
			if len(ends) == 0 || seen[text] {
				continue
			}
			seen[text] = true
			says := "if the tiers end at " + text + " (" + c.says + ")"
			add(says, func(s *tariff.Schedule) {
				steps := slices.Clone(s.Rows[row].Steps)
				for k, end := range ends {
					// The tariff takes a row of part of the period in proportion.
					steps[k].UpTo = plain(end.Mul(whole).DivRound(decimal.NewFromInt(int64(days)), 20))
				}
				s.Rows[row].Steps, s.Rows[row].Per = steps, "period"
			})
		}
	}
}

// count is how many times its typed amount a tier holds.
type count struct {
	times decimal.Decimal
	says  string
}

func (r *rebuild) counts(row, days int) (list []count) {
	per := fold(r.b.Schedule.Rows[row].Per)
	over := func(n, d int) decimal.Decimal {
		return decimal.NewFromInt(int64(n)).DivRound(decimal.NewFromInt(int64(d)), 20)
	}
	if per == "day" {
		for _, n := range dayOffsets {
			list = append(list, count{decimal.NewFromInt(int64(days + n)), "for " + strconv.Itoa(days+n) + " days, not " + strconv.Itoa(days)})
		}
		return append(list, count{decimal.NewFromInt(1), "for the whole period, not a day"})
	}
	var months decimal.Decimal
	for d := r.b.Usage.Span.First; d < r.b.Usage.Span.First+calendar.Day(days); d++ {
		months = months.Add(over(1, monthDays(d)))
	}
	list = append(list, count{decimal.NewFromInt(1), "whole, whatever the days"})
	if per == "" || per == "period" {
		list = append(list, count{months, "in proportion to the days of the months"})
	}
	for _, n := range []int{0, -1, 1, -2, 2} {
		text := strconv.Itoa(days + n)
		list = append(list, count{over(days+n, 30), "for " + text + " days in months of 30"})
		list = append(list, count{over((days+n)*12, 365), "for " + text + " days at a twelfth of 365 a month"})
		if n != 0 && per == "month" {
			list = append(list, count{months.Mul(over(days+n, days)), "for " + text + " days, not " + strconv.Itoa(days)})
		}
	}
	return append(list, count{decimal.NewFromInt(int64(days)), "for each of " + strconv.Itoa(days) + " days"})
}

func monthDays(d calendar.Day) int {
	year, month, day := d.Date()
	for n := 31; n > 28; n-- {
		if _, ok := calendar.Date(year, month, n); ok {
			return n
		}
	}
	return max(28, day)
}

// endsOf gives the ends of the tiers of a row times a count, to whole kWh if
// rounded is asked; nothing if they can't be read or rounding changes nothing.
func (r *rebuild) endsOf(row int, times decimal.Decimal, rounded bool) (ends map[int]decimal.Decimal) {
	ends = map[int]decimal.Decimal{}
	changed := !rounded
	for k, s := range r.b.Schedule.Rows[row].Steps {
		if number.IsBlank(s.UpTo) {
			continue
		}
		typed, ok := r.stepEnd(row, k, s.UpTo)
		if !ok {
			return nil
		}
		end := typed.Mul(times).Round(12)
		if whole := end.Round(0); rounded && !whole.Equal(end) {
			end, changed = whole, true
		}
		ends[k] = end
	}
	if !changed {
		return nil
	}
	return ends
}

// stepEnd reads the end of a tier as the tariff does, answers included.
func (r *rebuild) stepEnd(row, k int, typed string) (decimal.Decimal, bool) {
	ways := number.Readings(strings.TrimSuffix(strings.ToLower(number.Trim(typed)), "kwh"))
	if len(ways) == 0 {
		return decimal.Decimal{}, false
	}
	path := r.b.Options.Path
	if path == "" {
		path = "tariff"
	}
	answer := r.b.Options.Answers[path+".rows."+strconv.Itoa(row)+".steps."+strconv.Itoa(k)+".up-to"]
	end, perDay := ways[0].Value, fold(r.b.Schedule.Rows[row].Per) == "day"
	for _, w := range ways {
		if w.Value.String() == answer {
			return w.Value, true
		}
		if !perDay && w.Value.GreaterThan(end) { // 1,000 kWh of a month
			end = w.Value
		}
	}
	return end, true
}

func endsText(ends map[int]decimal.Decimal) string {
	var keys []int
	for k := range ends {
		keys = append(keys, k)
	}
	sorted.Stable(keys, cmp.Compare)
	var list []string
	for _, k := range keys {
		list = append(list, ends[k].Round(2).String())
	}
	return strings.Join(list, " and ") + " kWh"
}
