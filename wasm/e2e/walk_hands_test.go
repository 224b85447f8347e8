//go:build !js

package e2e

// replace types over what a field holds.
func (w *walk) replace(selector, text string) {
	w.Helper()
	w.mark(selector)
	w.keys(text)
}

// mark taps a field and marks all that it holds: by Ctrl and A, or, where a person
// would press long and choose from a menu, which no client can, by script.
func (w *walk) mark(selector string) {
	w.Helper()
	w.tap(selector)
	await(w, w, `document.activeElement === `+find(selector), "true")
	if w.look.phone() {
		w.evaluate(find(selector) + `.select()`)
		return
	}
	w.command("a")
	await(w, w, `(({ value, selectionStart, selectionEnd }) => selectionEnd - selectionStart === value.length)(`+find(selector)+`)`, "true")
}

// paste copies a text in another program and pastes it over what a field holds.
func (w *walk) paste(selector, text string) {
	w.Helper()
	w.otherProgram(text)
	w.command("c")
	w.evaluate(find("#other-program") + `.remove()`)
	w.mark(selector)
	w.command("v")
}

// otherProgram puts a field that the page knows nothing of, with its text marked,
// where another program would be.
func (w *walk) otherProgram(text string) {
	w.Helper()
	w.evaluate(`(() => {
		const other = document.createElement("textarea");
		other.id = "other-program";
		document.body.append(other);
		other.value = ` + quote(text) + `;
		other.focus();
		other.select();
	})()`)
}
