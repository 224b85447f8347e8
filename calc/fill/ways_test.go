package fill

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"splittally/calc/ledger"
)

func TestWaysNamesBothMethodsOfAGap(t *testing.T) {
	var own, other []float64
	for i := range 60 {
		x := 15 + float64(i*i*7%13)
		own, other = append(own, x), append(other, 1.1*x)
	}
	l, o := days(own...), days(other...)
	l.Days[20], l.Days[21], o.Days[21] = ledger.Entry{}, ledger.Entry{}, ledger.Entry{}
	res := fillOK(t, Request{Ledger: l, Span: span(10, 40), Others: []ledger.Ledger{o}})
	ways := res.Ways()
	if len(ways) != 2 || ways[0] != (Way{Ratio, 1}) || ways[1].Days != 1 || ways[1].Method == Ratio {
		t.Errorf("ways %v", ways)
	}
	if diff := cmp.Diff([]Way(nil), fillOK(t, Request{Ledger: o, Span: span(0, 10)}).Ways()); diff != "" {
		t.Errorf("a complete period has ways: %s", diff)
	}
}
