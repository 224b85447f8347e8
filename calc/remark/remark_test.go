package remark

import "testing"

func TestProblemSentence(t *testing.T) {
	for _, c := range []struct {
		p    Problem
		want string
	}{
		{Problem{Line: 12, Column: 9, Found: "31/02/24", Wanted: "a day, such as 2024-02-28"}, "line 12, column 9: found “31/02/24”, expected a day, such as 2024-02-28"},
		{Problem{Path: "confidence", Wanted: "a percentage, such as 95"}, "expected a percentage, such as 95"},
	} {
		if got := c.p.String(); got != c.want {
			t.Errorf("got  %s\nwant %s", got, c.want)
		}
	}
}

func TestSettle(t *testing.T) {
	q := Question{ID: "m.order", Choices: []Choice{{ID: "day-first"}, {ID: "month-first"}}}
	if got := q.Settle(nil, "day-first"); got != "day-first" || q.Answered {
		t.Errorf("unanswered: %s, %v", got, q.Answered)
	}
	if got := q.Settle(map[string]string{"m.order": "month-first"}, "day-first"); got != "month-first" || !q.Answered {
		t.Errorf("answered: %s, %v", got, q.Answered)
	}
	if got := q.Settle(map[string]string{"m.order": "stale"}, "day-first"); got != "day-first" || q.Answered {
		t.Errorf("stale answer: %s, %v", got, q.Answered)
	}
}
