package billing

import (
	"strconv"
	"testing"

	"pgregory.net/rapid"

	"splittally/calc/calendar"
	"splittally/calc/energy"
)

// A run of bills read one after the other covers every day once, whichever way
// its dates are printed and in whatever order it is typed; each bill's end read
// is the next one's start read.
func TestRunOfBillsCoversEveryDayOnce(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		convention := rapid.SampledFrom(conventions).Draw(t, "convention")
		lengths := rapid.SliceOfN(rapid.IntRange(2, 70), 2, 6).Draw(t, "lengths")
		day := calendar.Day(rapid.IntRange(10_000, 30_000).Draw(t, "start"))
		span := calendar.Span{First: day, End: day}
		var periods []Period
		for _, n := range lengths {
			from, to := day, day+calendar.Day(n)
			span.End = to
			switch convention {
			case BothBelong:
				to--
			case FirstExcluded:
				from, to = from-1, to-1
			}
			p := Period{From: from.String(), To: to.Long(), KWh: strconv.Itoa(10 * n)}
			if convention == FirstExcluded {
				p.ReadHour = "24"
			}
			periods = append(periods, p)
			day += calendar.Day(n)
		}
		order := rapid.Permutation(periods).Draw(t, "order")
		r := Read(order, Options{})
		if len(r.Problems) > 0 || len(r.Questions) > 0 {
			t.Fatalf("problems %v, questions %v", r.Problems, r.Questions)
		}
		seen := map[calendar.Day]int{}
		starts, ends := map[string]int{}, map[string]int{}
		for _, s := range r.Statements {
			if s.Convention != convention {
				t.Fatalf("convention %s, want %s", s.Convention, convention)
			}
			for d := s.Span.First; d < s.Span.End; d++ {
				seen[d]++
			}
			starts[s.StartRead]++
			ends[s.EndRead]++
		}
		for d := span.First; d < span.End; d++ {
			if seen[d] != 1 {
				t.Fatalf("%s is in %d bills", d, seen[d])
			}
		}
		if len(seen) != span.Days() {
			t.Fatalf("%d days, want %d", len(seen), span.Days())
		}
		for name := range starts {
			if ends[name] == 0 && name != readName(span.First) {
				t.Fatalf("%s begins a bill and ends none", name)
			}
		}
	})
}

// The printed number of days alone settles the convention, for every pair of
// dates, and the span then has that many days.
func TestPrintedDaysAreKept(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		from := calendar.Day(rapid.IntRange(0, 40_000).Draw(t, "from"))
		days := rapid.IntRange(1, 399).Draw(t, "days")
		both := rapid.Bool().Draw(t, "both belong")
		to := from + calendar.Day(days)
		if both {
			to--
		}
		r := Read([]Period{{From: from.String(), To: to.String(), Days: strconv.Itoa(days), KWh: "400"}}, Options{})
		s := r.Statements[0]
		if s.Days() != days || s.Basis != BasisPrinted || (s.Convention == BothBelong) != both || len(r.Problems)+len(r.Questions) > 0 {
			t.Fatalf("%s to %s, %d days: %+v", from, to, days, s)
		}
	})
}

// A register that rolls over loses nothing: reads taken along its circle add up
// to what went through it.
func TestRollOverKeepsTheSum(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		read := rapid.IntRange(0, 99_999).Draw(t, "first read")
		uses := rapid.SliceOfN(rapid.IntRange(1, 10_000), 1, 12).Draw(t, "uses")
		day := calendar.Day(20_000)
		var periods []Period
		total := 0
		for _, use := range uses {
			next := (read + use) % 100_000
			periods = append(periods, Period{
				From: day.String(), To: (day + 30).String(),
				Previous: strconv.Itoa(100_000 + read)[1:], Present: strconv.Itoa(100_000 + next)[1:],
			})
			read, day, total = next, day+30, total+use
		}
		var sum energy.Energy
		r := Read(periods, Options{})
		for _, s := range r.Statements {
			sum += s.Reference
		}
		if sum != energy.Energy(total)*energy.KilowattHour {
			t.Fatalf("sum %s, want %d kWh; problems %v, questions %v", sum, total, r.Problems, r.Questions)
		}
	})
}

// Taking losses out of an adjusted energy gives back the metered one, to the
// microwatt-hour.
func TestLossesThereAndBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		metered := rapid.IntRange(1, 1_000_000).Draw(t, "metered kWh/10")
		loss := rapid.IntRange(1, 2500).Draw(t, "loss in 0.01 %")
		text := strconv.Itoa(metered/10) + "." + strconv.Itoa(metered%10)
		percent := strconv.FormatFloat(float64(loss)/100, 'f', 2, 64) + " %"
		p := Period{From: "2023-10-03", To: "2023-11-02", KWh: text, LossFactor: percent, LossIncluded: "no"}
		there := Read([]Period{p}, Options{}).Statements[0]
		p.KWh, p.LossIncluded = there.Adjusted.String(), "yes"
		r := Read([]Period{p}, Options{Answers: map[string]string{"periods.0.kwh": there.Adjusted.Decimal().String()}})
		if back := r.Statements[0].Reference; back != there.Reference {
			t.Fatalf("%s kWh with %s: %s there, %s back", text, percent, there.Adjusted, back)
		}
	})
}
