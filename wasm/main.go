//go:build js && wasm

// Command wasm is the engine of the page: it binds the page to the calculation
// and then waits for the person.
package main

import "splittally/wasm/page"

func main() {
	page.Start()
	select {} // callbacks need a program that has not ended
}
