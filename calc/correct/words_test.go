package correct

import (
	"testing"

	"splittally/calc/energy"
	"splittally/calc/remark/remarktest"
)

func sound(w, r energy.Energy) month {
	return month{w: w * kWh, r: r * kWh, monitor: 2, class: 1, noise: 2}
}

func TestWordsOfBills(t *testing.T) {
	before, after := sound(1025, 900), sound(1025, 1100)
	before.guessEnd, after.guessStart = true, true
	vague := sound(1025, 1000)
	vague.noise = 40
	for _, c := range []struct {
		name string
		in   Bills
		want string
	}{
		{"one", input(sound(1025, 1000)), "Found on bill 1 alone. It fits by construction what it was found on, so only the next bill can judge it."},
		{"two", input(sound(1025, 1000), sound(1026, 1000)), "Found on bills 1 and 2. Each bill judged by a factor that was found on other bills: bills 1 and 2 agree."},
		{"three, vague", input(sound(1025, 1000), vague, sound(1026, 1000)), "Found on bills 1, 2 and 3. Each bill judged by a factor that was found on other bills: bills 1 and 3 agree, bill 2 can’t be told yet."},
		{"not one factor", input(sound(1025, 1000), sound(1040, 1000)), "Found on bills 1 and 2. Each bill judged by a factor that was found on other bills: bill 2 still reads high, bill 1 still reads low; that is more than rounding, reads and filled days explain, while how much of a stated accuracy varies from bill to bill is not known."},
		{"a guess between", input(sound(1025, 1000), before, after), "Found on bills 1, 2 and 3. Each bill judged by a factor that was found on other bills: bill 1 and bills 2 and 3 together agree."},
		{"a guess alone", input(sound(1025, 1000), before), "Found on bill 1 alone, without bill 2, which would rest on an estimated read. It fits by construction what it was found on, so only the next bill can judge it."},
		{"a pair alone", input(before, after), "Found on bills 1 and 2. It fits by construction what it was found on, so only the next bill can judge it."},
	} {
		if got := found(t, c.in).Words; got != c.want {
			t.Errorf("%s: %s\nwant %s", c.name, got, c.want)
		}
	}
}

func TestWordsOfChecks(t *testing.T) {
	const start = "Found by the checks of the legs, on no bill. "
	for _, c := range []struct {
		name string
		in   Legs
		want string
	}{
		{"no bill", twoLegs(true), start + "There is no bill yet to judge it on."},
		{"all seen", twoLegs(true, sound(995, 1000)), start + "Judged on the bills: bill 1 agrees."},
		{"volts alone", twoLegs(false, sound(995, 1000), sound(900, 1000)), start + "Judged on the bills: bill 1 agrees, bill 2 still reads low (the checks did not see all that makes the gain, so the monitor’s stated accuracy still counts)."},
	} {
		if got := checked(t, c.in).Words; got != c.want {
			t.Errorf("%s: %s\nwant %s", c.name, got, c.want)
		}
	}
}

func TestHow(t *testing.T) {
	const one = "Change it on a day when the meter is read and note that day: a bill that holds both settings judges neither. Watch the monitor’s watts under a steady load: if they fall when the setting rises, divide the old setting by the factor instead."
	if got := found(t, input(sound(1025, 1000))).How; got != one {
		t.Error(got)
	}
	if got := checked(t, twoLegs(true)).How; got != one+" Set either the legs or the overall setting, not both." {
		t.Error(got)
	}
}

func TestLargeCorrection(t *testing.T) {
	c := found(t, input(sound(2000, 1000)))
	remarktest.Want(t, remarktest.Said(nil, nil, c.Notices), "notice correction-large monitors.0.setting")
	const want = "A factor of 0.5000 ± 0.0057 is further from 1 than a setting is likely to be. Look for the cause first: a setting would only hide a clamp, a leg or a unit that is wrong."
	if got := plain(c.Notices[0].Text); got != want {
		t.Error(got)
	}
	exact := found(t, input(month{w: 2000 * kWh, r: 1000 * kWh}))
	if got := exact.Notices[0].Text[:len("A factor of 0.5000 is")]; got != "A factor of 0.5000 is" {
		t.Error(got)
	}
	remarktest.Want(t, remarktest.Said(nil, nil, found(t, input(sound(1200, 1000))).Notices))
}
