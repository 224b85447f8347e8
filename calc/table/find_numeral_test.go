package table

import (
	"math"
	"testing"

	"splittally/calc/intake/words"
)

func TestReadFigure(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		text    string
		decimal byte
		want    float64
		places  int
		unit    words.Unit
	}{
		{"12.5", '.', 12.5, 1, 0},
		{"12,5", ',', 12.5, 1, 0},
		{"-0.25", '.', -0.25, 2, 0},
		{"−3", '.', -3, 0, 0},
		{"+7", '.', 7, 0, 0},
		{"1,234.5", '.', 1234.5, 1, 0},
		{"1.234,5", ',', 1234.5, 1, 0},
		{"1 234,5", ',', 1234.5, 1, 0},
		{"1\u202f234,5", ',', 1234.5, 1, 0},
		{"12'345.6", '.', 12345.6, 1, 0},
		{"12’345", '.', 12345, 0, 0},
		{"1.3e-05", '.', 1.3e-5, 6, 0},
		{"2E3", '.', 2000, 0, 0},
		{"-1.5e2", '.', -150, 0, 0},
		{".5", '.', 0.5, 1, 0},
		{"5.", '.', 5, 0, 0},
		{"0.2 kWh", '.', 0.2, 1, words.KilowattHour},
		{"300W", '.', 300, 0, words.Watt},
		{"3,5 kW", ',', 3.5, 1, words.Kilowatt},
	} {
		f, ok := readFigure([]byte(c.text))
		if !ok {
			t.Errorf("readFigure(%q) refuses it", c.text)
			continue
		}
		v, places, ok := f.value([]byte(c.text), c.decimal)
		if !ok || math.Abs(v-c.want) > 1e-12*math.Abs(c.want) || places != c.places || f.unit != c.unit {
			t.Errorf("%q is %v with %d places in %q (%v), want %v with %d in %q", c.text, v, places, f.unit.Name(), ok, c.want, c.places, c.unit.Name())
		}
	}
	for _, text := range []string{"", "-", ".", "kWh", "12:30", "1 2 3", "12 apples", "1-2", "0x1f", "--", "1234567890123456789012345678901234"} {
		if f, ok := readFigure([]byte(text)); ok {
			t.Errorf("readFigure(%q) = %+v, want it refused", text, f)
		}
	}
}

func TestDecimalMark(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name  string
		texts []string
		want  byte
		sure  bool
	}{
		{"points", []string{"0.5", "12.25"}, '.', true},
		{"commas", []string{"0,5", "12,25"}, ',', true},
		{"three places from zero", []string{"0,512", "0,611"}, ',', true},
		{"thousands and a point", []string{"1,234.5", "12.1"}, '.', true},
		{"thousands twice", []string{"1,234,567"}, '.', true},
		{"no marks", []string{"12", "1305"}, '.', true},
		{"three places always", []string{"1.234", "2.345"}, '.', true},
		{"three places after commas", []string{"1,234", "2,345"}, ',', false},
		{"thousands among small numbers", []string{"1,234", "850", "912", "1,001", "990", "2,000"}, '.', true},
		{"few of them", []string{"1,234", "850"}, '.', false},
		{"three places beside whole thousands", []string{"1,234", "2000"}, ',', true},
		{"contradiction", []string{"0.5", "0,5"}, '.', false},
	} {
		var m marks
		for _, text := range c.texts {
			f, ok := readFigure([]byte(text))
			if !ok {
				t.Fatalf("readFigure(%q) refuses it", text)
			}
			m.weigh(&f)
		}
		decimal, sure, why := m.settle()
		if decimal != c.want || sure != c.sure || !sure && why == "" {
			t.Errorf("%s: %q, sure %v (%s), want %q, %v", c.name, decimal, sure, why, c.want, c.sure)
		}
	}
}
