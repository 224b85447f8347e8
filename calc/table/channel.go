package table

import (
	"splittally/calc/energy"
	"splittally/calc/record"
	"splittally/calc/series"
)

// channel is one that figures are read for.
type channel struct {
	column   int
	role     record.Role
	sign     int64
	bit      uint64    // of series.Row.Have
	part     int8      // 1: what is above zero; −1: what is below it, turned; 0: all
	sizes    [8]int64  // factor of up to seven decimals
	small    [8]uint64 // and most
	factor   []int64   // for each number of decimals: the size of the last in µWh or µW
	most     []uint64  // and the most that its digits may come to
	seen     int       // decimals of the figure that was read last
	places   int       // and of all that count, at most
	tail     string    // what stood behind a figure last, such as a unit
	tailSize int64     // the size of that unit; 0 if it is none
}

// makeChannels makes the channels of the columns that are used.
func (r *Reader) makeChannels() (channels []series.Channel) {
	l := &r.layout
	r.last = r.after - 1
	r.cols = make([]int8, len(l.Columns))
	for c := range l.Columns {
		col := &l.Columns[c]
		parts := []int8{0}
		if col.Apart {
			parts = []int8{1, -1}
		}
		r.cols[c] = -1
		if !col.Used || c == l.Stamp.Date || c == l.Stamp.Time || len(r.chans)+len(parts) > series.MaxChannels {
			continue
		}
		r.cols[c] = int8(len(r.chans))
		r.last = max(r.last, c)
		for _, part := range parts {
			ch := newChannel(c, col, part)
			ch.bit = 1 << len(r.chans)
			r.chans = append(r.chans, ch)
			half := ch.factor[min(col.Places, len(ch.factor)-1)] / 2
			channels = append(channels, series.Channel{Quantity: col.Quantity, Rounding: energy.Energy(half)})
		}
	}
	return channels
}

// newChannel makes the channel of a column, or of one part of it.
func newChannel(c int, col *Column, part int8) channel {
	ch := channel{column: c, role: col.Role, sign: 1, part: part, places: 0}
	if col.Sign < 0 {
		ch.sign = -1
	}
	if part < 0 {
		ch.role = record.Export
	}
	for size := int64(col.Scale); ; size /= 10 {
		ch.factor = append(ch.factor, size)
		ch.most = append(ch.most, uint64(maxFigure/max(size, 1)))
		if n := len(ch.factor); n <= len(ch.sizes) {
			ch.sizes[n-1], ch.small[n-1] = size, ch.most[n-1]
		}
		if size%10 != 0 || size == 0 {
			return ch
		}
	}
}

// maxFigure is the largest figure that is read, in µWh or µW.
const maxFigure = 1 << 60

// rounding gives half of the last digit met, as the energy of one interval.
func (ch *channel) rounding(q series.Quantity, step int64) energy.Energy {
	size := ch.factor[min(ch.places, len(ch.factor)-1)]
	if q == series.Power {
		size = size / record.Whole * step
		if size < record.Whole {
			size = ch.factor[min(ch.places, len(ch.factor)-1)] * step / record.Whole
		}
	}
	return energy.Energy((size + 1) / 2)
}
