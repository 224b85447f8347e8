package figure

import (
	"math"
	"testing"
)

func TestClock(t *testing.T) {
	for _, c := range []struct {
		seconds float64
		places  int
		want    string
	}{
		{0, 0, "0:00"},
		{9.96, 1, "0:10.0"},
		{12.3454, 3, "0:12.345"},
		{59.9996, 3, "1:00.000"},
		{125.4, 1, "2:05.4"},
		{3600, 0, "60:00"},
		{-0.2, 0, "0:00"},
		{-61.5, 1, "−1:01.5"},
		{math.NaN(), 1, "unknown"},
		{math.Inf(1), 1, "unknown"},
	} {
		if got := Clock(c.seconds, c.places); got != c.want {
			t.Errorf("Clock(%g, %d) = %s, want %s", c.seconds, c.places, got, c.want)
		}
	}
}
