package fill

// Way is a method and how many days it filled.
type Way struct {
	Method Method
	Days   int
}

// Ways gives the methods that filled the days, the one named by Method first.
// There are more than one where Ratio could fill
// only some of them, and where the hours of some are known.
func (res Result) Ways() []Way {
	var ways []Way
	for _, m := range append(append([]Method{res.Method}, Methods()...), Hours) {
		n := 0
		for _, d := range res.Days {
			if d.Filled && d.Method == m {
				n++
			}
		}
		if n > 0 && (len(ways) == 0 || m != res.Method) {
			ways = append(ways, Way{m, n})
		}
	}
	return ways
}
