//go:build js && wasm

package page

import (
	"strings"
	"syscall/js"

	"splittally/calc"
	"splittally/calc/remark"
	"splittally/wasm/view"
)

// maxFile bounds what is opened; a case of ten years of days has 200 kB.
const maxFile = 20_000_000

// saveFile hands the case out as a download.
func (p *page) saveFile() {
	p.download(view.FileName(p.read()), p.saved())
}

func (p *page) download(name, text string) {
	address := js.Global().Get("URL")
	kind, parts := "application/json", []any{text}
	if strings.HasSuffix(name, ".csv") {
		// On the way to the browser a byte order mark in front is lost.
		kind, parts = "text/csv;charset=utf-8", []any{js.Global().Get("String").Call("fromCharCode", 0xfeff), text}
	}
	blob := js.Global().Get("Blob").New(parts, map[string]any{"type": kind})
	made := address.Call("createObjectURL", blob)
	link := p.doc.Underlying().Call("createElement", "a")
	link.Set("href", made)
	link.Set("download", name)
	p.doc.Underlying().Get("body").Call("appendChild", link)
	link.Call("click")
	link.Call("remove")
	// Some browsers read the blob after the click.
	var release js.Func
	release = js.FuncOf(func(js.Value, []js.Value) any {
		address.Call("revokeObjectURL", made)
		release.Release()
		return nil
	})
	js.Global().Call("setTimeout", release, 30_000)
}

// openChosen opens the file that was picked in a file field.
func (p *page) openChosen(input js.Value, open func(name, text string)) {
	if files := input.Get("files"); files.Length() > 0 {
		p.openFile(files.Index(0), open)
	}
	input.Set("value", "") // so that the same file can be picked again
}

// openFile reads a file and opens what is in it.
func (p *page) openFile(file js.Value, open func(name, text string)) {
	name := file.Get("name").String()
	if file.Get("size").Float() > maxFile {
		p.refuse("“" + name + "” is too big. Nothing was changed.")
		return
	}
	p.await(file.Call("text"), "opening a file",
		func(text js.Value) { open(name, text.String()) },
		func(js.Value) { p.refuse("“" + name + "” could not be read. Nothing was changed.") })
}

// await calls one of two functions, once: with what a promise comes to, or with
// why it is not kept.
func (p *page) await(promise js.Value, doing string, kept, broken func(js.Value)) {
	var then, otherwise js.Func
	once := func(f func(js.Value)) js.Func {
		return js.FuncOf(func(_ js.Value, args []js.Value) any {
			then.Release()
			otherwise.Release()
			p.guard(doing, func() { f(args[0]) })
			return nil
		})
	}
	then, otherwise = once(kept), once(broken)
	promise.Call("then", then, otherwise)
}

// refused tells why a file is not opened, if it is not.
func (p *page) refused(name, text string, problems []remark.Problem) bool {
	switch {
	case strings.TrimSpace(text) == "":
		p.refuse("“" + name + "” is empty. Nothing was changed.")
	case len(problems) > 0:
		p.refuse(view.Refused("“"+name+"”", problems) + " Nothing was changed.")
	default:
		p.refuse("")
		return false
	}
	return true
}

func (p *page) openText(name, text string) {
	c, problems := calc.Open(text)
	if p.refused(name, text, problems) {
		return
	}
	before := p.tab
	p.keepAs(c)
	p.offerCase("“"+name+"” is open, as a case of its own.", before)
}

// refuse tells what is wrong with a file; "" takes it back.
func (p *page) refuse(text string) {
	says := p.byID("file-says")
	show(says, text)
	says.Set("hidden", text == "")
	if text != "" {
		p.notice("")
		says.Call("scrollIntoView", map[string]any{"block": "nearest"})
	}
}

// listenToDrops takes a file that is dropped anywhere on the page. Readings go
// to the part of the page that they are dropped on, or else to where there is
// room.
func (p *page) listenToDrops() {
	classes := p.doc.Underlying().Get("body").Get("classList")
	over := func(target js.Value) {
		for _, el := range p.all(".over") {
			el.Get("classList").Call("remove", "over")
		}
		if place := target.Call("closest", "[data-takes-file], [data-takes-sound]"); !place.IsNull() {
			place.Get("classList").Call("add", "over")
		}
	}
	p.on("dragover", func(e, target js.Value) {
		if holdsFiles(e) {
			e.Call("preventDefault")
			classes.Call("add", "drop")
			over(target)
		}
	})
	p.on("dragleave", func(e, _ js.Value) {
		classes.Call("remove", "drop")
		over(p.doc.Underlying().Get("body"))
	})
	p.on("drop", func(e, target js.Value) {
		classes.Call("remove", "drop")
		over(p.doc.Underlying().Get("body"))
		if !holdsFiles(e) {
			return
		}
		e.Call("preventDefault")
		p.dropped(e.Get("dataTransfer").Get("files"), target)
	})
}

// dropped takes the first of some files.
func (p *page) dropped(files, target js.Value) {
	if files.Length() == 0 {
		return
	}
	place := target.Call("closest", "[data-takes-sound]")
	if isSound := strings.HasPrefix(files.Index(0).Get("type").String(), "audio/"); isSound && place.IsNull() {
		place = p.all("[data-takes-sound]")[0]
	}
	if !place.IsNull() {
		p.takeSound(files.Index(0), p.earOf(run{place}.marks()))
	} else {
		s := p.spotAround(target)
		if s == nil {
			s = p.freeSpot()
		}
		p.takeFile(files.Index(0), s, true)
	}
	if files.Length() > 1 {
		p.notice("Only “" + files.Index(0).Get("name").String() + "” was taken: drop one file at a time.")
	}
}
