package gain

// Reach says what the voltage can explain of an error, and what it leaves to
// the current.
type Reach struct {
	Percent, Expanded float64 // the error as it is
	Left              float64 // the error with the volts put right
	LeftExpanded      float64
	// Current is the factor on current that would mend what is left, if it is
	// more than its uncertainty.
	Current         float64
	CurrentExpanded float64
	PowerFactor     float64
	IsAssumed       bool // nobody said the power factor
	Limits          []Limit
	Words           []string
}

// Limit is the most that a current transformer of a class may add.
type Limit struct {
	Class   string
	Load    float64 // percent of the rated current
	Ratio   float64 // ratio error, percent
	Minutes float64 // phase displacement, minutes of arc
	Phase   float64 // error of energy from the displacement at the power factor, percent
}
