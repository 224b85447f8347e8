package gain

import (
	"math"
	"strconv"
	"strings"

	"splittally/calc/number"
)

// legsOf says how many legs each service has.
var legsOf = map[Service]int{Single: 1, Split: 2, Three: 3, TwoOfThree: 2}

func legCounted(n int) string {
	switch n {
	case 1:
		return "one leg"
	case 2:
		return "two legs"
	case 3:
		return "three legs"
	}
	return strconv.Itoa(n) + " legs"
}

// judgeService settles how the home is connected and how many legs it has.
func (s *sheet) judgeService(c Checks, shown int) {
	entered := 0
	for _, l := range c.Legs {
		if !l.empty() {
			entered++
		}
	}
	typed, ok := s.readService(c.Service)
	if entered == 0 {
		if ok {
			s.out.Service, s.out.ServiceFrom, s.out.LegCount = typed, "as typed", legsOf[typed]
		}
		return
	}
	s.out.LegCount = max(entered, shown)
	if ok && legsOf[typed] < entered {
		s.problem(s.path+".service", c.Service, "a service of at least as many legs as are entered, which are "+strconv.Itoa(entered))
		ok = false
	}
	if ok {
		s.out.Service, s.out.ServiceFrom, s.out.LegCount = typed, "as typed", legsOf[typed]
	} else {
		s.out.Service, s.out.ServiceFrom = s.inferService()
	}
	s.missing = s.out.LegCount - entered
	s.judgeNetwork(ok && typed == Split)
}

func (s *sheet) readService(text string) (service Service, ok bool) {
	if number.IsBlank(text) {
		return "", false
	}
	service = Service(strings.ToLower(number.Trim(text)))
	if _, ok = legsOf[service]; !ok {
		s.problem(s.path+".service", text, `"single", "split" or "three"`)
	}
	return service, ok
}

// inferService takes the service from how many legs there are and their volts.
func (s *sheet) inferService() (Service, string) {
	count := legCounted(s.out.LegCount)
	mean, _ := s.legsMean()
	ratio, known := s.lineRatio()
	switch {
	case s.out.LegCount == 1:
		return Single, "taken from the one leg that is entered"
	case s.out.LegCount > 3:
		return "", "no service has " + count
	case s.out.LegCount == 3:
		return Three, "taken from the " + count + " that are entered"
	case known && nearNetwork(ratio):
		return TwoOfThree, "taken from two legs with " + strconv.FormatFloat(ratio, 'f', 2, 64) + " times a leg's volts between them"
	case !known && mean > 170:
		return TwoOfThree, "taken from two legs of about " + strconv.FormatFloat(mean, 'f', 0, 64) + " V, which are usually two of three phases"
	case known:
		return Split, "taken from two legs with " + strconv.FormatFloat(ratio, 'f', 2, 64) + " times a leg's volts between them"
	case mean > 0:
		return Split, "taken from two legs of about " + strconv.FormatFloat(mean, 'f', 0, 64) + " V"
	}
	return Split, "taken from the two legs that are entered"
}

// nearNetwork says whether volts between two lines, over the mean of the legs,
// are nearer to the √3 of a three-phase network than to the 2 of split phase,
// and not far below either.
func nearNetwork(ratio float64) bool { return ratio > 1.6 && ratio < (2+math.Sqrt(3))/2 }

// judgeNetwork points out two legs that are not of a split phase. They are so
// whatever was typed: the volts say it.
func (s *sheet) judgeNetwork(typedSplit bool) {
	ratio, known := s.lineRatio()
	if s.out.LegCount != 2 || !known || !nearNetwork(ratio) {
		return
	}
	said := "The volts between the lines are " + strconv.FormatFloat(ratio, 'f', 2, 64) + " times those of a leg: 1.73 is two legs of a three-phase network, such as 120/208 V, where split phase has 2."
	if typedSplit {
		s.out.Service, s.out.ServiceFrom = TwoOfThree, "taken from the volts between the lines, against what was typed"
		said += " The lines are checked as such."
	}
	s.notice(s.path+".service", "two-of-three", said)
}

// legsMean is the mean volts of the legs by the multimeter, and how many there
// are.
func (s *sheet) legsMean() (mean float64, count int) {
	for _, l := range s.out.Legs {
		if l.Volts.Given {
			mean += l.Volts.Reference
			count++
		}
	}
	if count == 0 {
		return 0, 0
	}
	return mean / float64(count), count
}

// lineRatio is the volts between two lines over the mean of two or more legs,
// by the multimeter.
func (s *sheet) lineRatio() (ratio float64, known bool) {
	mean, count := s.legsMean()
	sum, n := 0.0, 0.0
	for _, l := range s.lines {
		if l.reference != nil {
			sum += l.reference.value
			n++
		}
	}
	if count < 2 || n == 0 {
		return 0, false
	}
	return sum / n / mean, true
}
