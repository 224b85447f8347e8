package tariff

import (
	"strconv"
	"strings"

	"github.com/shopspring/decimal"

	"splittally/calc/number"
)

// maxBands bounds the time-of-use periods of a row.
const maxBands = 40

// readSteps reads the tiers of a row.
func (b *builder) readSteps(r *row, in Row) bool {
	at, filled := b.filled(len(in.Steps), func(k int) string { return in.Steps[k].UpTo + in.Steps[k].Price })
	if !filled {
		b.wait(r.index, "the first tier")
		return false
	}
	r.steps = make([]step, len(at))
	ok := true
	for n, k := range at {
		s, typed := &r.steps[n], in.Steps[k]
		place := field(r.index, "steps."+strconv.Itoa(k))
		ok = b.perKWh(r.index, place+".price", typed.Price, true, &s.price) && ok
		if s.isLast = number.IsBlank(typed.UpTo); s.isLast {
			if n < len(at)-1 {
				b.wait(r.index, "the energy up to which tier "+strconv.Itoa(n+1)+" goes")
				ok = false
			}
			continue
		}
		least := decimal.Zero
		if n > 0 {
			least = r.steps[n-1].upTo
		}
		ok = b.upTo(place+".up-to", typed.UpTo, r.per == perDay, least, &s.upTo) && ok
	}
	if ok && !r.steps[len(at)-1].isLast {
		b.wait(r.index, "a last tier without end")
		ok = false
	}
	return ok
}

// upTo reads the end of a tier in kWh, which must be above the one before.
func (b *builder) upTo(place, typed string, perDay bool, least decimal.Decimal, into *decimal.Decimal) bool {
	plain := strings.TrimSuffix(fold(typed), "kwh")
	ways := number.Readings(plain)
	if len(ways) == 0 {
		b.problem(place, typed, "energy in kWh, such as 600; empty for the last tier")
		return false
	}
	*into = b.number(place, typed, ways, !perDay)
	if !into.GreaterThan(least) {
		b.problem(place, typed, "energy in kWh above "+least.String()+", where the tier before ends")
		return false
	}
	return true
}

// filled lists the parts of a row that hold any text.
func (b *builder) filled(n int, text func(int) string) (at []int, ok bool) {
	for k := range n {
		if !number.IsBlank(text(k)) {
			at = append(at, k)
		}
	}
	return at, len(at) > 0
}

// readBands reads the time-of-use periods of a row.
func (b *builder) readBands(r *row, in Row) bool {
	at, filled := b.filled(len(in.Bands), func(k int) string {
		return in.Bands[k].Name + in.Bands[k].Price + in.Bands[k].Days + in.Bands[k].Hours
	})
	switch {
	case !filled:
		b.wait(r.index, "the first time-of-use period")
		return false
	case len(at) > maxBands:
		b.problem(field(r.index, "bands"), strconv.Itoa(len(at))+" periods", "at most "+strconv.Itoa(maxBands))
		return false
	}
	r.bands = make([]band, len(at))
	ok := true
	for n, k := range at {
		ok = b.readBand(r, n, in.Bands[k], field(r.index, "bands."+strconv.Itoa(k))) && ok
	}
	return ok && b.wholeWeek(r)
}

func (b *builder) readBand(r *row, n int, in Band, place string) bool {
	d := &r.bands[n]
	d.name, d.line = number.Trim(in.Name), n
	if d.name == "" {
		d.name = "Period " + strconv.Itoa(n+1)
	}
	ok := b.perKWh(r.index, place+".price", in.Price, true, &d.price)
	var s state
	d.hours, s = readHours(in.Hours)
	b.judge(r.index, place+".hours", in.Hours, s, hoursWanted, &ok)
	d.days, s = readDays(in.Days)
	b.judge(r.index, place+".days", in.Days, s, daysWanted, &ok)
	for k := range n {
		if !strings.EqualFold(r.bands[k].name, d.name) {
			continue
		}
		d.line = r.bands[k].line
		if ok && !d.price.Equal(r.bands[k].price) {
			b.problem(place+".name", in.Name, "a name of its own, as an earlier period of this name has another price")
			return false
		}
		break
	}
	return ok
}

var weekdays = [...]string{"Sunday", "Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday"}

// wholeWeek makes the faces and sees to it that every minute has a price.
func (b *builder) wholeWeek(r *row) bool {
	r.clocks = faces(r.bands)
	for _, holidays := range []bool{false, true} {
		for w, name := range weekdays {
			f := r.clocks[dayKinds{kindOf(w, holidays), kindOf((w+6)%7, false)}]
			m := f.hole
			if m < 0 {
				continue
			}
			if holidays {
				name += " that is a holiday"
			}
			b.problem(field(r.index, "bands"), strconv.Itoa(m/60)+":"+strconv.Itoa(100 + m%60)[1:]+" on a "+name+" without a price",
				"a last period without days and hours, for whatever the others leave")
			return false
		}
	}
	for _, f := range r.clocks { // a hole after a holiday's night
		if f.hole >= 0 {
			b.problem(field(r.index, "bands"), "hours after a holiday without a price", "a last period without days and hours, for whatever the others leave")
			return false
		}
	}
	return true
}
