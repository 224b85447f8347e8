package load

// typical gives the quartiles by hour and kind of day. The hours come sorted, so
// that those of each kind are too as they are dealt out.
func typical(days []Day, s []key) (out [2]Typical) {
	var kinds []uint8 // of each day
	for i := range days {
		kind := kindOf(&days[i])
		kinds = append(kinds, kind)
		out[kind].Days += days[i].counted()
	}
	var dealt [2][24][]float64
	for _, k := range s {
		day, hour := k.place(days)
		out[kinds[day]].Hours[hour].Count++
	}
	room := make([]float64, len(s))
	for kind := range out {
		for h := range out[kind].Hours {
			n := out[kind].Hours[h].Count
			dealt[kind][h], room = room[:0:n], room[n:]
		}
	}
	for _, k := range s {
		day, hour := k.place(days)
		to := &dealt[kinds[day]][hour]
		*to = append(*to, k.watts())
	}
	for kind := range out {
		for h := range out[kind].Hours {
			if values := dealt[kind][h]; len(values) > 0 {
				b := &out[kind].Hours[h]
				b.Low, b.Median, b.High = Quantile(values, 0.25), Quantile(values, 0.5), Quantile(values, 0.75)
			}
		}
	}
	return out
}

func kindOf(d *Day) uint8 {
	if w := d.Day.Weekday(); w == 0 || w == 6 {
		return Weekends
	}
	return Weekdays
}

// counted gives 1 for a day that has an hour that counts.
func (d *Day) counted() int {
	for h := range d.Hours {
		if d.Hours[h].Counts() {
			return 1
		}
	}
	return 0
}
