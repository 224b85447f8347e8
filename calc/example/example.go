// Package example holds the worked example that a newcomer is shown: an
// invented home with invented instruments, a saved case like any other.
package example

import _ "embed"

// Text is the example as the text of a saved file; calc.Open reads it.
//
//go:embed home.case.json
var Text string
