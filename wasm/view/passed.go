package view

import (
	"strconv"

	"splittally/calc/changes"
	"splittally/calc/chart/markup"
)

// Changes draws what somebody has changed in a case, each item with a box that
// takes it over. The boxes' values are the items' keys.
func Changes(items []changes.Item) string {
	if len(items) == 0 {
		return prose("Nothing differs: every figure, date and setting is the same.").(markup.Markup).String()
	}
	rows := each(len(items), func(i int) piece {
		item, name := items[i], id("change", i)
		where := ""
		if i == 0 || items[i-1].Where != item.Where {
			where = item.Where
		}
		return join(
			headIf(where),
			el("label", class("change"), attr("for", name),
				el("input", attr("type", "checkbox"), attr("id", name), attr("data-change", item.Key), markup.Is("checked")),
				el("span", el("strong", el("bdi", text(item.What))), text(": "), valueOr("mine", item.Mine), text(" → "), valueOr("theirs", item.Theirs))))
	})
	return el("div", class("changes"), para("quiet", counted(len(items))+" Untick what you do not want."), rows).(markup.Markup).String()
}

func headIf(where string) piece {
	if where == "" {
		return none
	}
	return el("h2", el("bdi", text(where)))
}

// valueOr gives a value as it stands in one of the cases, or that it is not there.
func valueOr(whose markup.Name, value string) piece {
	if value == "" {
		return el("em", class(whose), text("nothing"))
	}
	return el("bdi", class(whose), text(value))
}

func counted(n int) string {
	if n == 1 {
		return "One thing differs."
	}
	return strconv.Itoa(n) + " things differ."
}
