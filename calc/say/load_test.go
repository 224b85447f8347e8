package say

import (
	"strings"
	"testing"

	"splittally/calc/calendar"
	"splittally/calc/load"
	"splittally/calc/load/loadtest"
)

func TestPower(t *testing.T) {
	for watts, want := range map[float64]string{
		0: "0 W", 4.25: "4.2 W", 118.4: "118 W", 999.4: "999 W", 999.6: "1.00 kW", 1714: "1.71 kW", -20: "−20 W", -2500: "−2.50 kW",
	} {
		if got := strings.ReplaceAll(Power(watts), Thin, " "); got != want {
			t.Errorf("Power(%g) = %s, want %s", watts, got, want)
		}
	}
}

func TestLoadInWords(t *testing.T) {
	day, _ := calendar.Date(2024, 1, 10)
	home := loadtest.Home(day, 366)
	l := load.Of(home, 0.95)
	for _, c := range []struct{ got, want string }{
		{Base(l.Base, "95 %"), "Base load, what never stops: 118 W, between 115 W and 121 W (95 % interval). One in ten hours from 0:00 to 5:00 is below it, over 357 nights."},
		{Base(load.Base{}, "95 %"), "No base load yet: it takes a week of nights by the hour."},
		{Base(load.Base{Nights: 9}, "95 %"), "No base load shows: in more than one in ten hours of the night nothing was used, or energy was sent out."},
		{Base(load.Base{IsKnown: true, Watts: 80, From: 23, To: 4, Nights: 9}, "95 %"), "Base load, what never stops: 80 W. One in ten hours from 23:00 to 4:00 is below it, over 9 nights. That is too few nights for an interval."},
		{LoadDays(l, home, 13), "A square for each day of 10 Jan 2024 to 9 Jan 2025, the darker and the larger the more was used. The most is 17.6 kWh on 28 Dec 2024, the least 6.4 kWh on 1 Jul 2024. 13 days are measured in part or filled, 9 days are without figures."},
		{LoadHours(l), "On weekdays power is highest from 19:00 to 20:00, with a median of 1.09 kW, and lowest from 12:00 to 13:00, with 148 W. At weekends power is highest from 21:00 to 22:00, with a median of 1.12 kW, and lowest from 2:00 to 3:00, with 148 W. "},
		{LoadDuration(l), "Power was above 1.71 kW for 1 % of the time and above 183 W for half of it. The hours ranged from 110 W to 1.90 kW."},
		{HourOf(load.Peak{Day: day, Hour: 1, IsAgain: true}), "10 Jan 2024, 1:00 to 2:00, the second time"},
	} {
		if got := strings.ReplaceAll(c.got, Thin, " "); got != c.want {
			t.Errorf("got  %s\nwant %s", got, c.want)
		}
	}
	if l.Below = 1; !strings.HasSuffix(LoadDuration(l), "In 1 hour more was sent out than used.") {
		t.Error(LoadDuration(l))
	}
	clocked := BaseHow(load.Base{IsClocked: true})
	if plain := BaseHow(load.Base{}); plain == clocked || !strings.Contains(plain, "common practice") {
		t.Error(plain)
	}
}
