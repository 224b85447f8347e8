package report

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"splittally/calc"
)

// formula is what stands between a colon or semicolon and a sign of equality,
// and the figure behind that.
var formula = regexp.MustCompile(`([0-9(√−][^=:;]*) = ([−0-9.]+)`)

// Whoever does the sums of a paper on a pocket calculator gets what it says.
func TestSumsComeOut(t *testing.T) {
	kinds := map[string]int{}
	for name, c := range cases(t) {
		for _, said := range handPoints(Compose(c, calc.Work(c), about)) {
			found := formula.FindAllStringSubmatch(said, -1)
			if len(found) == 0 && !strings.Contains(said, "line by line") {
				t.Errorf("%s: no sum in %q", name, said)
			}
			kinds[strings.Fields(said)[0]] += len(found)
			for _, f := range found {
				checkSum(t, name, f[1], f[2])
			}
		}
	}
	for _, kind := range []string{"Energy", "Error", "Its", "Setting", "Gain", "Run", "Worth", "Bill"} {
		if kinds[kind] == 0 {
			t.Errorf("no case has a sum of the kind %s: %v", kind, kinds)
		}
	}
}

func handPoints(p Paper) (out []string) {
	for _, s := range p.Sections {
		if s.Title != "Check it by hand" {
			continue
		}
		for _, b := range s.Blocks {
			out = append(out, b.Points...)
		}
	}
	return out
}

func checkSum(t *testing.T, name, sum, says string) {
	t.Helper()
	says = strings.TrimSuffix(says, ".")
	want, err := strconv.ParseFloat(strings.Replace(says, "−", "-", 1), 64)
	if err != nil {
		t.Fatalf("%s: %q: %v", name, says, err)
	}
	_, behind, _ := strings.Cut(says, ".")
	half := 0.5000001 * math.Pow10(-len(behind))
	got, err := reckon(sum)
	if err != nil {
		t.Errorf("%s: %q can't be reckoned: %v", name, sum, err)
	} else if math.Abs(got-want) > half {
		t.Errorf("%s: %s = %v, and it says %s", name, sum, got, says)
	}
}

// units are what stands behind figures.
var units = regexp.MustCompile(`[\x{202f} ](kWh|kW|day|month|period|W|s)\b| per (day|month|period)`)

// reckon does a sum as people write it, with + − × ÷ ( ) √ ² and "% of".
func reckon(sum string) (float64, error) {
	sum = units.ReplaceAllString(sum, "")
	sum = strings.ReplaceAll(sum, "\u202f% of ", "÷100×")
	c := &calculator{rest: []rune(strings.Join(strings.Fields(sum), ""))}
	v := c.sum()
	if len(c.rest) > 0 || c.failed {
		return 0, fmt.Errorf("left over: %q", string(c.rest))
	}
	return v, nil
}

type calculator struct {
	rest   []rune
	failed bool
}

func (c *calculator) takes(r rune) bool {
	if len(c.rest) == 0 || c.rest[0] != r {
		return false
	}
	c.rest = c.rest[1:]
	return true
}

func (c *calculator) sum() float64 {
	v := c.product()
	for {
		switch {
		case c.takes('+'):
			v += c.product()
		case c.takes('−'):
			v -= c.product()
		default:
			return v
		}
	}
}

func (c *calculator) product() float64 {
	v := c.value()
	for {
		switch {
		case c.takes('×'):
			v *= c.value()
		case c.takes('÷'):
			v /= c.value()
		default:
			return v
		}
	}
}

func (c *calculator) value() (v float64) {
	switch {
	case c.takes('−'):
		return -c.value()
	case c.takes('√'):
		return math.Sqrt(c.value())
	case c.takes('('):
		v = c.sum()
		c.failed = c.failed || !c.takes(')')
	default:
		n := 0
		for n < len(c.rest) && strings.ContainsRune("0123456789.", c.rest[n]) {
			n++
		}
		var err error
		v, err = strconv.ParseFloat(string(c.rest[:n]), 64)
		c.failed = c.failed || err != nil
		c.rest = c.rest[n:]
	}
	if c.takes('²') {
		v *= v
	}
	return v
}

func TestReckon(t *testing.T) {
	for sum, want := range map[string]float64{
		"1 + 2 × 3": 7, "100 × (8 − 10) ÷ 10": -20, "√(3² + 4²)": 5, "−2.5 × 4": -10,
		"551\u202fkWh × 0.5": 275.5, "30 × 0.2 per day": 6, "5.5\u202f% of 200": 11,
	} {
		if got, err := reckon(sum); err != nil || math.Abs(got-want) > 1e-12 {
			t.Errorf("reckon(%q) = %v, %v, want %v", sum, got, err, want)
		}
	}
	if _, err := reckon("2 × apples"); err == nil {
		t.Error("apples are reckoned with")
	}
}
