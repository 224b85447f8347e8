package series

import (
	"math/big"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"splittally/calc/calendar"
	"splittally/calc/record"
)

// TestBlocksInAnyOrder holds readings whose blocks come in any order, each once
// or more, to the same in order.
func TestBlocksInAnyOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		step := rapid.SampledFrom([]int64{10_000, minute, quarter, hourMs, 2 * hourMs}).Draw(t, "step")
		o := Options{Step: step, Ends: rapid.Bool().Draw(t, "ends"), Zoned: true}
		channels := []Channel{{Quantity: Energy}, {Quantity: Power}, {Quantity: Register}}[:rapid.IntRange(1, 3).Draw(t, "channels")]
		begin, _ := calendar.Date(2024, 5, 1)
		var blocks [][]Row
		at, register := int64(begin)*dayLength, int64(1000)
		for range rapid.IntRange(2, 6).Draw(t, "blocks") {
			var block []Row
			for range rapid.IntRange(1, 80).Draw(t, "rows") {
				register += rapid.Int64Range(0, 99).Draw(t, "advance")
				block = append(block, Row{Wall: at, Figures: []int64{rapid.Int64Range(0, 1e9).Draw(t, "energy"), rapid.Int64Range(0, 1e9).Draw(t, "power"), register}, Have: 7})
				at += step
			}
			blocks = append(blocks, block)
			at += step * rapid.Int64Range(0, 3).Draw(t, "gap")
		}
		ordered := New(channels, o)
		for _, b := range blocks {
			addAll(ordered, b)
		}
		mixed := New(channels, o)
		for _, i := range rapid.Permutation(indexes(len(blocks))).Draw(t, "order") {
			addAll(mixed, blocks[i])
		}
		again := rapid.IntRange(0, len(blocks)-1).Draw(t, "again")
		addAll(mixed, blocks[again])
		want, got := ordered.Done(), mixed.Done()
		if d := cmp.Diff(want.Channels, got.Channels); d != "" {
			t.Fatal(d)
		}
		if d := cmp.Diff(want.Gaps, got.Gaps); d != "" {
			t.Fatal(d)
		}
		for _, odd := range got.Oddities {
			if odd.Kind != record.Duplicate && odd.Kind != record.Disorder && (odd.Kind != record.Overlap || step >= minute) {
				t.Fatalf("%s, step %d", oddities(&got), step)
			}
		}
	})
}

func indexes(n int) []int {
	list := make([]int, n)
	for i := range list {
		list[i] = i
	}
	return list
}

func addAll(s *Series, rows []Row) {
	for i := range rows {
		s.Add(&rows[i])
	}
}

// TestTheLatestFirst holds readings in the order of time to the same turned.
func TestTheLatestFirst(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		o := Options{Step: rapid.SampledFrom([]int64{10_000, minute, quarter, hourMs}).Draw(t, "step"), Ends: rapid.Bool().Draw(t, "ends")}
		quantity := Quantity(rapid.IntRange(0, 2).Draw(t, "quantity"))
		begin, _ := calendar.Date(2024, 5, 1)
		at, figure := int64(begin)*dayLength, int64(1e6)
		var rows []Row
		for range rapid.IntRange(6, 200).Draw(t, "rows") {
			at += o.Step
			switch rapid.IntRange(0, 30).Draw(t, "odd") {
			case 0:
				at += o.Step * rapid.Int64Range(1, 9).Draw(t, "gap")
			case 1:
				at += rapid.Int64Range(-o.Step/5000, o.Step/5000).Draw(t, "off") * 1000
			}
			figure += rapid.Int64Range(0, 1000).Draw(t, "figure")
			rows = append(rows, Row{Wall: at, Figures: []int64{figure}, Have: 1})
		}
		rising, falling := New([]Channel{{Quantity: quantity}}, o), New([]Channel{{Quantity: quantity}}, o)
		addAll(rising, rows)
		for i := range rows {
			falling.Add(&rows[len(rows)-1-i])
		}
		want, got := rising.Done(), falling.Done()
		// A power or an energy that comes unevenly reaches to its neighbour by
		// the time of the one that came first, so only the whole can be equal.
		if a, b := total(want.Channels[0]), total(got.Channels[0]); quantity != Power && a != b {
			t.Fatalf("%d and, the latest first, %d", a, b)
		}
		if len(got.Oddities) > 0 {
			t.Fatal(oddities(&got))
		}
	})
}

// TestPowerIsExact holds the hours of a power to its sum, which is cut once.
func TestPowerIsExact(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		step := rapid.SampledFrom([]int64{1000, 7000, minute, quarter, 1234}).Draw(t, "step")
		s := New([]Channel{{Quantity: Power}}, Options{Step: step})
		begin, _ := calendar.Date(2024, 5, 1)
		at, sum := int64(begin)*dayLength, new(big.Int)
		for range rapid.IntRange(1, 300).Draw(t, "rows") {
			figure := rapid.Int64Range(0, 1<<50).Draw(t, "figure")
			s.Add(&Row{Wall: at, Figures: []int64{figure}, Have: 1})
			at += step
			sum.Add(sum, new(big.Int).Mul(big.NewInt(figure), big.NewInt(step)))
		}
		sum.Quo(sum, big.NewInt(record.Whole))
		done := s.Done()
		if got := total(done.Channels[0]); sum.Cmp(big.NewInt(int64(got))) != 0 {
			t.Fatalf("%d, want %s", got, sum)
		}
	})
}

// TestQuickRows holds rows that are added quickly to the same added with care.
func TestQuickRows(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		o := Options{
			Step: rapid.SampledFrom([]int64{1000, 10_000, minute, quarter}).Draw(t, "step"),
			Ends: rapid.Bool().Draw(t, "ends"), Zoned: rapid.Bool().Draw(t, "zoned"),
		}
		channels := make([]Channel, rapid.IntRange(1, 3).Draw(t, "channels"))
		for i := range channels {
			channels[i].Quantity = Quantity(rapid.IntRange(0, 2).Draw(t, "quantity"))
		}
		dir := rapid.SampledFrom([]int64{1, 1, -1}).Draw(t, "dir")
		quick, careful := New(channels, o), New(channels, o)
		for _, s := range []*Series{quick, careful} {
			s.told = true
			if dir < 0 {
				s.dir, s.ends = -1, !s.ends
			}
		}
		begin, _ := calendar.Date(2024, 5, 1)
		at, register := int64(begin)*dayLength, int64(1e6)
		for n := range rapid.IntRange(2, 200).Draw(t, "rows") {
			at += dir * o.Step
			switch rapid.IntRange(0, 12).Draw(t, "odd") {
			case 0:
				at += dir * o.Step * rapid.Int64Range(-1, 2).Draw(t, "gap")
			case 1, 2, 3, 4:
				at += rapid.Int64Range(-o.Step/400, o.Step/400).Draw(t, "off") * 100
			}
			row := Row{Wall: at, Line: n + 1, Have: 7}
			register += dir * rapid.Int64Range(-1, 1000).Draw(t, "advance")
			for i := range channels {
				figure := rapid.Int64Range(-1, 1e9).Draw(t, "figure")
				if channels[i].Quantity == Register {
					figure = register
				}
				row.Figures = append(row.Figures, figure)
			}
			quick.add(&row)
			careful.last = row.Line
			if careful.zoned {
				careful.addZoned(&row)
			} else {
				careful.addLocal(&row)
			}
		}
		if d := cmp.Diff(careful.Done(), quick.Done()); d != "" {
			t.Fatal(d)
		}
	})
}
