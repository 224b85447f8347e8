package calc_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"reflect"
	"runtime/debug"
	"slices"
	"strings"
	"testing"

	"splittally/calc"
	"splittally/calc/billing"
	"splittally/calc/example"
	"splittally/calc/gain"
	"splittally/calc/report"
)

// TestFindingsOfMutatedCases spoils every scenario in many ways at once, and
// wants findings whose every figure is a number, and a report without a word
// such as NaN. A figure without limit is one only where its field says that it
// may be.
func TestFindingsOfMutatedCases(t *testing.T) {
	paths, err := filepath.Glob("../testdata/scenario/*.case.json")
	if err != nil || len(paths) == 0 {
		t.Fatalf("no scenarios: %v", err)
	}
	texts := map[string]string{"the worked example": example.Text}
	for _, path := range paths {
		text, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		texts[strings.TrimSuffix(filepath.Base(path), ".case.json")] = string(text)
	}
	for name, text := range texts {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			for seed := range uint64(mutants) {
				c, done := mutate(mustOpen(t, text), rand.New(rand.NewPCG(seed, 5)))
				if wrong := soundFindings(c); wrong != "" {
					t.Errorf("seed %d, %s: %s", seed, strings.Join(done, ", "), wrong)
				}
			}
		})
	}
}

// mutants is how many spoilt cases are made of each scenario.
const mutants = 20

// soundFindings works a case and says what is wrong with what came out.
func soundFindings(c calc.Case) (wrong string) {
	defer func() {
		if p := recover(); p != nil {
			wrong = fmt.Sprintf("panic: %v\n%s", p, debug.Stack())
		}
	}()
	f := calc.Work(c)
	if at := noNumber(reflect.ValueOf(f), "Findings"); at != "" {
		return at
	}
	for _, inst := range f.Instruments {
		if compares := slices.ContainsFunc(inst.Results, calc.Result.Compares); compares != inst.Causes.Done {
			return fmt.Sprintf("%s: compared %v, causes weighed %v", inst.Name, compares, inst.Causes.Done)
		}
	}
	text := report.Text(c, f)
	for _, word := range []string{"NaN", "Inf", "%!"} {
		if i := strings.Index(text, word); i >= 0 {
			return "the report says " + word + ": " + text[max(0, i-80):min(len(text), i+40)]
		}
	}
	return ""
}

// unlimited are the fields that may be infinite, as their comments say: degrees
// of freedom, and what a doubt without limit makes.
var unlimited = map[string]bool{
	"DoF": true, "Standard": true, "Expanded": true, "Coverage": true, "En": true, "HalfWidth": true, "Promise": true,
	"VarianceDoF": true,
}

// noNumber gives the path of the first figure below v that is not a number, or
// that has no limit where its field needs one.
func noNumber(v reflect.Value, path string) string {
	switch v.Kind() {
	case reflect.Float64:
		if x := v.Float(); math.IsNaN(x) || math.IsInf(x, 0) && !unlimited[path[strings.LastIndexByte(path, '.')+1:]] {
			return fmt.Sprintf("%s is %g", path, x)
		}
	case reflect.Struct:
		for i := range v.NumField() {
			if at := noNumber(v.Field(i), path+"."+v.Type().Field(i).Name); at != "" {
				return at
			}
		}
	case reflect.Slice, reflect.Array:
		for i := range v.Len() {
			if at := noNumber(v.Index(i), fmt.Sprintf("%s[%d]", path, i)); at != "" {
				return at
			}
		}
	case reflect.Pointer, reflect.Interface:
		if !v.IsNil() {
			return noNumber(v.Elem(), path)
		}
	case reflect.String:
		for _, word := range []string{"NaN", "Inf", "%!"} {
			if strings.Contains(v.String(), word) {
				return path + " says " + v.String()
			}
		}
	}
	return ""
}

// mutation is one way to spoil a case.
type mutation struct {
	name string
	do   func(*calc.Case, *rand.Rand)
}

// mutate spoils a case in one to four ways.
func mutate(c calc.Case, random *rand.Rand) (calc.Case, []string) {
	var done []string
	for range 1 + random.IntN(4) {
		m := mutations[random.IntN(len(mutations))]
		m.do(&c, random)
		done = append(done, m.name)
	}
	return c, done
}

func pick(random *rand.Rand, of ...string) string { return of[random.IntN(len(of))] }

var mutations = []mutation{
	{"readings scaled", func(c *calc.Case, random *rand.Rand) {
		by := []float64{0, -1, 1e-6, 0.5, 2, 24, 1000, 1e6}[random.IntN(8)]
		eachReading(c, func(float64) bool { return true }, func(x float64) float64 { return by * x })
	}},
	{"some readings zero", func(c *calc.Case, random *rand.Rand) {
		eachReading(c, func(float64) bool { return random.IntN(3) > 0 }, func(float64) float64 { return 0 })
	}},
	{"some readings negative", func(c *calc.Case, random *rand.Rand) {
		eachReading(c, func(float64) bool { return random.IntN(3) == 0 }, func(x float64) float64 { return -x })
	}},
	{"one reading huge", func(c *calc.Case, random *rand.Rand) {
		at := random.IntN(30)
		eachReading(c, func(float64) bool { at--; return at == 0 }, func(x float64) float64 { return 1e6 * x })
	}},
	{"lines lost", func(c *calc.Case, random *rand.Rand) {
		kept := random.Float64()
		for i := range c.Monitors {
			var lines []string
			for _, line := range strings.Split(c.Monitors[i].Readings, "\n") {
				if random.Float64() < kept {
					lines = append(lines, line)
				}
			}
			c.Monitors[i].Readings = strings.Join(lines, "\n")
		}
	}},
	{"no readings", func(c *calc.Case, random *rand.Rand) {
		if len(c.Monitors) > 0 {
			c.Monitors[random.IntN(len(c.Monitors))].Readings = ""
		}
	}},
	{"a monitor twice", func(c *calc.Case, random *rand.Rand) {
		if len(c.Monitors) > 0 {
			c.Monitors = append(c.Monitors, c.Monitors[random.IntN(len(c.Monitors))])
		}
	}},
	{"no bill but the first", func(c *calc.Case, random *rand.Rand) { c.Periods = c.Periods[:min(1, len(c.Periods))] }},
	{"no bills", func(c *calc.Case, random *rand.Rand) { c.Periods = nil }},
	{"a bill twice", func(c *calc.Case, random *rand.Rand) {
		if len(c.Periods) > 0 {
			c.Periods = append(c.Periods, c.Periods[random.IntN(len(c.Periods))])
		}
	}},
	{"sixty bills", func(c *calc.Case, random *rand.Rand) {
		for len(c.Periods) > 0 && len(c.Periods) < 60 {
			c.Periods = append(c.Periods, c.Periods[random.IntN(len(c.Periods))])
		}
	}},
	{"bills overlap", func(c *calc.Case, random *rand.Rand) {
		if len(c.Periods) > 1 {
			c.Periods[1].From, c.Periods[1].Days = c.Periods[0].From, ""
		}
	}},
	{"bill estimated", func(c *calc.Case, random *rand.Rand) {
		eachBill(c, random, func(p *billing.Period) { p.Estimated = pick(random, "yes", "start", "end", "both", "") })
	}},
	{"odd energy", func(c *calc.Case, random *rand.Rand) {
		eachBill(c, random, func(p *billing.Period) {
			p.KWh = pick(random, "0", "0.000001", "-5", "1", "1e9", "999999999")
			p.Previous, p.Present = "", ""
		})
	}},
	{"odd reads", func(c *calc.Case, random *rand.Rand) {
		eachBill(c, random, func(p *billing.Period) {
			p.Previous, p.Present = pick(random, "0", "5000", "99999"), pick(random, "0", "5000", "4999", "99999")
			p.Multiplier = pick(random, "", "0", "1", "40", "1e6")
		})
	}},
	{"beside the bill", func(c *calc.Case, random *rand.Rand) {
		eachBill(c, random, func(p *billing.Period) {
			p.Apart, p.Produced, p.Exported = pick(random, "", "0", "38.5", "1e7"), pick(random, "", "0", "250", "1e7"), pick(random, "", "0", "120", "1e7")
		})
	}},
	{"losses", func(c *calc.Case, random *rand.Rand) {
		eachBill(c, random, func(p *billing.Period) {
			p.LossFactor, p.LossIncluded = pick(random, "", "1", "1.045", "0.9", "1.5", "100"), pick(random, "", "yes", "no")
		})
	}},
	{"hour of the read", func(c *calc.Case, random *rand.Rand) {
		eachBill(c, random, func(p *billing.Period) { p.ReadHour = pick(random, "", "0", "9:30", "24", "25") })
	}},
	{"accuracies", func(c *calc.Case, random *rand.Rand) {
		for i := range c.Monitors {
			c.Monitors[i].Accuracy, c.Monitors[i].Setting = pick(random, "", "0", "50", "1e-9"), pick(random, "", "0", "-1", "1e-9", "1e30", "100 %", "x")
		}
		c.Meter.Class = pick(random, "", "0", "20", "x")
		c.Confidence = pick(random, "", "50", "99.9", "100", "0")
	}},
	{"the meter's own days", func(c *calc.Case, random *rand.Rand) {
		if len(c.Monitors) > 0 {
			c.Meter.Readings = c.Monitors[random.IntN(len(c.Monitors))].Readings
		}
	}},
	{"legs checked", func(c *calc.Case, random *rand.Rand) {
		c.Checks.Service = pick(random, "", "single", "split", "three")
		c.Checks.Drop, c.Checks.PowerFactor = pick(random, "", "0", "1.5", "20"), pick(random, "", "0.1", "1", "0.92")
		c.Checks.Legs = nil
		for range 1 + random.IntN(4) {
			c.Checks.Legs = append(c.Checks.Legs, gain.Leg{
				Share: pick(random, "", "0", "50", "100", "1e-9"), Setting: pick(random, "", "1.000", "0", "-2"),
				Pairs: pairs(random, "121.3", "0.001", "240", "9999", "0", "121"), Amps: pairs(random, "0.01", "12.5", "5000", "12.4"),
				Steps: []gain.Step{{Before: pick(random, "0", "250", "-40"), After: pick(random, "1730", "250.001", "", "1e6"), Load: pick(random, "1500", "0.1", "1e6")}},
			})
		}
		c.Checks.Lines = pairs(random, "242", "0.001", "208", "9999")
	}},
	{"money", func(c *calc.Case, random *rand.Rand) {
		c.Price.PerKWh, c.Price.Tax = pick(random, "0", "-1", "0.31", "1e12"), pick(random, "", "19 %", "1000", "-100")
	}},
}

func pairs(random *rand.Rand, of ...string) (out []gain.Pair) {
	for range random.IntN(4) {
		out = append(out, gain.Pair{Reference: pick(random, of...), Monitor: pick(random, of...)})
	}
	return out
}

func eachBill(c *calc.Case, random *rand.Rand, do func(*billing.Period)) {
	for i := range c.Periods {
		if random.IntN(2) == 0 {
			do(&c.Periods[i])
		}
	}
}

// eachReading rewrites the last field of those lines whose last field is a
// number that which says yes to.
func eachReading(c *calc.Case, which func(float64) bool, to func(float64) float64) {
	for i := range c.Monitors {
		lines := strings.Split(c.Monitors[i].Readings, "\n")
		for k, line := range lines {
			cut := strings.LastIndexAny(line, " \t;,") + 1
			var x float64
			if _, err := fmt.Sscanf(line[cut:], "%g", &x); err == nil && cut > 0 && which(x) {
				lines[k] = line[:cut] + fmt.Sprintf("%.3f", to(x))
			}
		}
		c.Monitors[i].Readings = strings.Join(lines, "\n")
	}
}
