//go:build js && wasm

package page

import (
	"strconv"
	"syscall/js"

	"splittally/wasm/form"
)

// learn keeps an empty copy of the first item of each list. Whatever is added
// later is a copy of it, so the page's source needs one item of each list.
func (p *page) learn() {
	p.patterns = map[string]js.Value{}
	for _, list := range p.all("[data-list]") {
		kind := form.Kind(listPath(list))
		if _, known := p.patterns[kind]; known {
			continue
		}
		item := list.Get("firstElementChild").Call("cloneNode", true)
		for _, el := range within(item, "input, select, textarea") {
			switch el.Get("type").String() {
			case "checkbox":
				el.Set("checked", false)
			default:
				el.Set("value", "")
			}
		}
		p.patterns[kind] = item
	}
}

// fit gives every list as many items as a case has. A list that the case does
// not name gets as many as the page begins with.
func (p *page) fit(items map[string]int) {
	// Outer lists first: new items bring inner lists with them.
	for done := 0; ; done++ {
		lists := p.all("[data-list]")
		if done >= len(lists) {
			break
		}
		list := lists[done]
		n, named := items[listPath(list)]
		if !named {
			n = number(list, "data-begin")
		}
		for n = max(n, number(list, "data-least")); length(list) > n; {
			list.Get("lastElementChild").Call("remove")
		}
		for length(list) < n {
			p.append(list)
		}
	}
	p.recount()
}

// append puts one more empty item at the end of a list, with as many items
// inside as the page begins with.
func (p *page) append(list js.Value) js.Value {
	item := p.patterns[form.Kind(listPath(list))].Call("cloneNode", true)
	list.Call("appendChild", item)
	for _, inner := range within(item, "[data-list]") {
		for length(inner) < number(inner, "data-begin") {
			p.append(inner)
		}
	}
	for _, b := range within(item, "button[data-do]") {
		b.Set("disabled", false)
	}
	return item
}

// recount makes numbers and ids right again after items came or went.
func (p *page) recount() {
	for _, list := range p.all("[data-list]") {
		path := listPath(list)
		for i := range length(list) {
			renumber(list.Get("children").Index(i), path, i)
		}
	}
	p.survey()
	p.limit()
}

func renumber(item js.Value, path string, index int) {
	for _, name := range []string{"id", "for", "aria-describedby", "aria-labelledby", "aria-controls"} {
		for _, el := range within(item, "["+name+"]") {
			el.Call("setAttribute", name, form.Renumber(attribute(el, name), path, index))
		}
	}
	for _, el := range within(item, "[data-count]") {
		if el.Call("closest", "[data-item]").Equal(item) {
			el.Set("textContent", index+1)
		}
	}
}

// limit closes the buttons that would leave a list with too few or too many.
func (p *page) limit() {
	for _, b := range p.all(`[data-do="remove-item"]`) {
		list := b.Call("closest", "[data-list]")
		b.Set("hidden", length(list) <= number(list, "data-least"))
	}
	for _, b := range p.all(`[data-do="add-item"]`) {
		list := addsTo(b)
		b.Set("disabled", length(list) >= number(list, "data-most"))
	}
}

// addItem is the act of a button that stands beside its list.
func (p *page) addItem(button js.Value) {
	item := p.append(addsTo(button))
	p.recount()
	p.changed()
	if first := item.Call("querySelector", "input, textarea"); !first.IsNull() {
		first.Call("focus")
	}
}

// removeItem is the act of a button inside the item.
func (p *page) removeItem(button js.Value) {
	item := button.Call("closest", "[data-item]")
	list := item.Get("parentElement")
	before := p.saved()
	index := position(item)
	item.Call("remove")
	p.answers = form.Removed(p.answers, listPath(list), index)
	p.clearSays()
	p.recount()
	p.offer("It was taken away.", before)
	p.changed()
}

func addsTo(button js.Value) js.Value {
	return button.Get("parentElement").Call("querySelector", `[data-list="`+attribute(button, "data-to")+`"]`)
}

func listPath(list js.Value) string { return placeOf(list, "data-list") }

func length(list js.Value) int { return list.Get("children").Length() }

func number(el js.Value, name string) int {
	n, _ := strconv.Atoi(attribute(el, name))
	return n
}
