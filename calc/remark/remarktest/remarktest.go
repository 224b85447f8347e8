// Package remarktest compares what a room remarks with what a test wants.
package remarktest

import (
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"

	"splittally/calc/remark"
)

// Said gives everything that was remarked, one line each, in an order that
// does not hang on the order of work: problems, questions, notices.
func Said(problems []remark.Problem, questions []remark.Question, notices []remark.Notice) (lines []string) {
	for _, p := range problems {
		lines = append(lines, "problem "+p.Path)
	}
	for _, q := range questions {
		taken := "question " + q.ID + " = " + q.Taken
		if q.Answered {
			taken += ", answered"
		}
		lines = append(lines, taken)
	}
	for _, n := range notices {
		lines = append(lines, "notice "+n.Code+" "+n.Path)
	}
	slices.Sort(lines)
	return lines
}

// Want fails the test unless exactly these lines were said.
func Want(t *testing.T, said []string, want ...string) {
	t.Helper()
	slices.Sort(want)
	if d := cmp.Diff(want, said); d != "" {
		t.Errorf("remarks (-want +got):\n%s", d)
	}
}
