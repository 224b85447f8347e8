package cause

// kind is one cause that can be weighed. Each has a file of its own, and its
// place in the list here.
type kind struct {
	id     ID
	name   string
	remedy string
	sets   bool // a changed gain is the remedy
	// forms gives the ways in which the cause could have acted on what was
	// seen; none if it could not have.
	forms func(*frame) []form
}

// kinds lists the causes in the order in which equals are told. It and each of
// them is a function, since what a variable leads to would have to be there when
// the page starts.
func kinds() []kind {
	return []kind{
		chance(), hour(), fill(), dates(), estimated(), losses(), gain(), legs(), offset(), circuits(),
		clamp(), unit(), partDays(), doubled(), solar(), split(), net(), other(),
	}
}
