package table

import (
	"fmt"
	"math/rand/v2"
	"strconv"
	"testing"
	"time"

	"splittally/calc/calendar"
)

// yearOfMinutes writes a year of readings, a minute each but for 84 gaps that
// take half a percent of them, in the form that write gives a row. Figures are
// in tenths of a watt-hour.
func yearOfMinutes(write func(to []byte, wall int64, tenths, sum int) []byte, step int64, days int) []byte {
	rng := rand.New(rand.NewPCG(5, 23))
	first, _ := calendar.Date(2024, 3, 1)
	var data []byte
	lost, sum := 0, 0
	n := int64(days) * dayLength / step
	for i := range n {
		if lost > 0 {
			lost--
			continue
		}
		if rng.IntN(int(n)/84) == 0 {
			lost = rng.IntN(60)
		}
		tenths := 30 + rng.IntN(300)
		sum += tenths
		data = write(data, int64(first)*dayLength+i*step, tenths, sum)
		data = append(data, '\n')
	}
	return data
}

func appendTwo(to []byte, n int64) []byte { return append(to, '0'+byte(n/10%10), '0'+byte(n%10)) }

func appendDate(to []byte, wall int64) []byte {
	y, m, d := calendar.Day(wall / dayLength).Date()
	to = strconv.AppendInt(to, int64(y), 10)
	to = append(to, '-')
	to = appendTwo(to, int64(m))
	to = append(to, '-')
	return appendTwo(to, int64(d))
}

func appendClock(to []byte, wall int64) []byte {
	to = appendTwo(to, wall/hourLength%24)
	to = append(to, ':')
	return appendTwo(to, wall/minuteLength%60)
}

func appendKWh(to []byte, tenths int) []byte {
	to = strconv.AppendInt(to, int64(tenths/10000), 10)
	to = append(to, '.')
	s := strconv.Itoa(10000 + tenths%10000)
	return append(to, s[1:]...)
}

// benchForms are the forms of the same year that are timed.
var benchForms = []struct {
	name  string
	head  string
	write func(to []byte, wall int64, tenths, sum int) []byte
}{
	{"common", "time,kWh", func(to []byte, wall int64, tenths, _ int) []byte {
		to = append(appendDate(to, wall), ' ')
		return appendKWh(append(appendClock(to, wall), ','), tenths)
	}},
	{"offset", "time,kWh", func(to []byte, wall int64, tenths, _ int) []byte {
		to = append(appendDate(to, wall), 'T')
		return appendKWh(append(appendClock(to, wall), ":00+01:00,"...), tenths)
	}},
	{"ampm", "time,kWh", func(to []byte, wall int64, tenths, _ int) []byte {
		y, m, d := calendar.Day(wall / dayLength).Date()
		h, half := wall/hourLength%24, "AM"
		if h >= 12 {
			half = "PM"
		}
		to = fmt.Appendf(to, "%d/%d/%d %d:%02d:00 %s,", m, d, y, (h+11)%12+1, wall/minuteLength%60, half)
		return appendKWh(to, tenths)
	}},
	{"dayfirst", "Datum;Zeit;kWh", func(to []byte, wall int64, tenths, _ int) []byte {
		y, m, d := calendar.Day(wall / dayLength).Date()
		to = fmt.Appendf(to, "%02d.%02d.%d;%02d:%02d;", d, m, y, wall/hourLength%24, wall/minuteLength%60)
		return fmt.Appendf(to, "%d,%04d", tenths/10000, tenths%10000)
	}},
	{"kW", "time,kW", func(to []byte, wall int64, tenths, _ int) []byte {
		to = append(appendDate(to, wall), ' ')
		return appendKWh(append(appendClock(to, wall), ','), tenths*60)
	}},
	{"register", "time,kWh total", func(to []byte, wall int64, _, sum int) []byte {
		to = append(appendDate(to, wall), ' ')
		return appendKWh(append(appendClock(to, wall), ','), 12_345_6789+sum)
	}},
	{"seconds", "time,W", func(to []byte, wall int64, tenths, _ int) []byte {
		to = append(appendDate(to, wall), ' ')
		to = append(appendTwo(append(appendClock(to, wall), ':'), wall/1000%60), ',')
		return strconv.AppendInt(to, int64(tenths*10), 10)
	}},
	{"uneven", "time,W", func(to []byte, wall int64, tenths, sum int) []byte {
		wall += int64(sum%3-1) * 1000
		to = append(appendDate(to, wall), ' ')
		to = append(appendTwo(append(appendClock(to, wall), ':'), wall/1000%60), ',')
		return strconv.AppendInt(to, int64(tenths*10), 10)
	}},
	{"unix", "time,W", func(to []byte, wall int64, tenths, _ int) []byte {
		to = append(strconv.AppendInt(to, wall/1000, 10), ',')
		return strconv.AppendInt(to, int64(tenths*10), 10)
	}},
	{"columns", "nr,time,volts,import,solar,rest", func(to []byte, wall int64, tenths, sum int) []byte {
		to = append(strconv.AppendInt(to, int64(sum), 10), ',')
		to = append(appendClock(append(appendDate(to, wall), ' '), wall), ",230.1,"...)
		to = append(appendKWh(to, tenths), ',')
		return append(appendKWh(to, tenths/2), ",ok"...)
	}},
}

// BenchmarkRows reads a year of minutes, or as many rows of seconds, in chunks of
// 64 KiB.
func BenchmarkRows(b *testing.B) {
	for _, form := range benchForms {
		step, days := int64(minuteLength), 365
		switch form.name {
		case "seconds":
			step, days = 1000, 6
		case "uneven":
			step, days = 10_000, 60
		}
		data := append([]byte(form.head+"\n"), yearOfMinutes(form.write, step, days)...)
		l, _, err := Find(data, false, nil)
		if err != nil {
			b.Fatal(form.name, err)
		}
		b.Run(form.name, func(b *testing.B) {
			b.ReportAllocs()
			b.SetBytes(int64(len(data)))
			rows, best := 0, time.Hour // the best is what a busy machine disturbs least
			for b.Loop() {
				begun := time.Now()
				r := NewReader(l, nil)
				for at := 0; at < len(data); at += 64 << 10 {
					if err := r.Write(data[at:min(at+64<<10, len(data))]); err != nil {
						b.Fatal(err)
					}
				}
				table, err := r.Close()
				if err != nil {
					b.Fatal(err)
				}
				rows = table.Rows / len(table.Channels)
				best = min(best, time.Since(begun))
			}
			b.ReportMetric(float64(best.Nanoseconds())/float64(rows), "best-ns/row")
		})
	}
}
