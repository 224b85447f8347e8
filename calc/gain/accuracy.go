package gain

import "slices"

// accuracy is the stated accuracy of a reference instrument.
type accuracy struct {
	percent, digits float64
	assumed         bool
}

// readAccuracies reads the stated accuracy of each instrument that was used.
func (s *sheet) readAccuracies(c Checks) {
	for k, typed := range [kindCount]Accuracy{c.Voltmeter, c.Clampmeter, c.Plugmeter} {
		used := k == volts && slices.ContainsFunc(s.lines, func(l line) bool { return !l.blank })
		for _, leg := range s.samples {
			used = used || len(leg[k]) > 0
		}
		if used {
			s.accuracy[k] = s.readAccuracy(kinds[k], typed)
		}
	}
}

func (s *sheet) readAccuracy(k kind, typed Accuracy) accuracy {
	path := s.path + "." + k.instrument
	percent, okP := s.limit(path+".percent", typed.Percent, 20, "the stated accuracy in percent of the reading, such as 1.0")
	digits, okD := s.limit(path+".digits", typed.Digits, 100, "the counts of the last digit in the stated accuracy, such as 3")
	if okP || okD {
		return accuracy{percent: percent, digits: digits}
	}
	s.notice(path+".percent", k.instrument+"-assumed", k.assumedWords)
	a := k.assumed
	a.assumed = true
	return a
}
