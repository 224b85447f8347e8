// Program empty is the least that a page in Go can be: it says that it runs and
// waits. BenchmarkStart holds the engine's start against it.
package main

import "honnef.co/go/js/dom/v2"

func main() {
	dom.GetWindow().Document().DocumentElement().SetAttribute("data-engine", "ready")
	select {}
}
