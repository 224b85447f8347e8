//go:build js && wasm

package page

import (
	"strconv"
	"strings"
	"syscall/js"

	"splittally/wasm/form"
)

// learn keeps an empty copy of the first item of each list. Whatever is added
// later is a copy of it, so the page's source needs one item of each list.
func (p *page) learn() {
	p.patterns = map[string]js.Value{}
	blank := p.doc.Underlying().Call("createElement", "form")
	for _, list := range placesOf("data-list") {
		kind := form.Kind(list.place)
		if _, known := p.patterns[kind]; known {
			continue
		}
		item := list.el.Get("firstElementChild").Call("cloneNode", true)
		blank.Call("append", item)
		p.patterns[kind] = item
	}
	blank.Call("reset") // what was typed before the engine came
	for _, b := range within(blank, "button[data-do]") {
		b.Set("disabled", false)
	}
}

// fit gives every list as many items as a case has. A list that the case does
// not name gets as many as the page begins with.
func (p *page) fit(items map[string]int) {
	// Outer lists first: new items bring inner lists with them.
	for done := 0; ; done++ {
		lists := p.doc.Underlying().Call("querySelectorAll", "[data-list]")
		if done >= lists.Length() {
			break
		}
		list := lists.Index(done)
		n, named := items[listPath(list)]
		if !named {
			n = number(list, "data-begin")
		}
		has := length(list)
		for n = max(n, number(list, "data-least")); has > n; has-- {
			list.Get("lastElementChild").Call("remove")
		}
		for ; has < n; has++ {
			p.append(list)
		}
	}
	p.recount()
}

// append puts one more empty item at the end of a list, with as many items
// inside as the page begins with.
func (p *page) append(list js.Value) js.Value {
	path := listPath(list)
	item := p.patterns[form.Kind(path)].Call("cloneNode", true)
	list.Call("appendChild", item)
	// The items around it, the outermost first, whose numbers are in its ids.
	around := strings.Split(path, ".")
	for i, step := range around {
		if index, err := strconv.Atoi(step); err == nil && index > 0 {
			renumber(item, strings.Join(around[:i], "."), index)
		}
	}
	for _, inner := range within(item, "[data-list]") {
		for length(inner) < number(inner, "data-begin") {
			p.append(inner)
		}
	}
	return item
}

// recount makes numbers and ids right again after items came or went. An item
// says in data-item which number its ids have; one that says nothing has 0.
func (p *page) recount() {
	for _, list := range placesOf("data-list") {
		items := list.el.Get("children")
		for i := range items.Length() {
			item := items.Index(i)
			if number(item, "data-item") == i {
				continue
			}
			renumber(item, list.place, i)
			item.Call("setAttribute", "data-item", i)
			for _, el := range within(item, "[data-count]") {
				if el.Call("closest", "[data-item]").Equal(item) {
					el.Set("textContent", i+1)
				}
			}
		}
	}
	p.survey()
	p.limit()
}

// numbered are the attributes that name elements.
const numbered = "id for aria-describedby aria-labelledby aria-controls"

// renumber gives an item of the list of a path the number index in all ids in it.
func renumber(item js.Value, path string, index int) {
	found := js.Global().Call("attributesBelow", item, numbered)
	names := strings.Split(found.Get("lines").String(), "\n")
	for i := range names {
		names[i] = form.Renumber(names[i], path, index)
	}
	js.Global().Call("setAttributes", found.Get("all"), strings.Join(names, "\n"))
}

// limit shuts the buttons that would leave a list with too few or too many.
func (p *page) limit() { js.Global().Call("limitLists") }

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
