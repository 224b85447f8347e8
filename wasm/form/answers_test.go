package form

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"splittally/calc"
)

func TestAnswered(t *testing.T) {
	got := Answered([]calc.Answer{{Question: "a", Choice: "1"}, {Question: "b", Choice: "2"}}, "a", "3")
	want := []calc.Answer{{Question: "b", Choice: "2"}, {Question: "a", Choice: "3"}}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
}

func TestRemoved(t *testing.T) {
	got := Removed([]calc.Answer{
		{Question: "monitors.0.order", Choice: "a"},
		{Question: "monitors.1.order", Choice: "b"},
		{Question: "monitors.2.order", Choice: "c"},
		{Question: "monitors.order", Choice: "d"},
		{Question: "periods.1.to", Choice: "e"},
	}, "monitors", 1)
	want := []calc.Answer{
		{Question: "monitors.0.order", Choice: "a"},
		{Question: "monitors.1.order", Choice: "c"},
		{Question: "monitors.order", Choice: "d"},
		{Question: "periods.1.to", Choice: "e"},
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
}

func TestForgotten(t *testing.T) {
	got := Forgotten([]calc.Answer{
		{Question: "plans.0.rows.1.price", Choice: "1.2"},
		{Question: "plans.1.price-unit", Choice: "units"},
		{Question: "plans.2.price-unit", Choice: "units"},
	}, "plans", 1)
	want := []calc.Answer{{Question: "plans.0.rows.1.price", Choice: "1.2"}, {Question: "plans.2.price-unit", Choice: "units"}}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
}
