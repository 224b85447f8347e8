//go:build js && wasm

package page

import (
	"syscall/js"

	"splittally/calc"
	"splittally/wasm/form"
	"splittally/wasm/view"
)

// savePlan hands out the tariff that a button stands in.
func (p *page) savePlan(button js.Value) {
	plan := p.read().Plans[position(button.Call("closest", "[data-item]"))]
	p.download(view.PlanName(plan), calc.SavePlan(plan))
}

// choosePlan lets a file be picked for the tariff that a button stands in.
func (p *page) choosePlan(button js.Value) {
	p.planAt = button.Call("closest", "[data-item]")
	p.byID("plan-file").Call("click")
}

// openPlan puts a tariff from a file in the place of the one chosen.
func (p *page) openPlan(name, text string) {
	plan, problems := calc.OpenPlan(text)
	if p.refused(name, text, problems) {
		return
	}
	at := 0
	if p.planAt.Truthy() && p.planAt.Get("isConnected").Bool() {
		at = position(p.planAt)
	}
	before, c := p.saved(), p.read()
	c.Plans[at] = plan
	c.Answers = form.Forgotten(c.Answers, "plans", at)
	p.replace(c)
	p.offer("The tariff of “"+name+"” is there.", before)
	p.changed()
}
