// Package e2e opens the packed page in real browsers and does what a person
// does. Everything in it is a test; make test installs the browsers.
//
// A walk in Chromium reads like this:
//
//	func TestPasteOneMonth(t *testing.T) {
//		p := open(t, look{form: singleFile, width: 360})
//		p.pasteInto("#readings", month)
//		p.typeInto("#billed", "412")
//		p.tap("#add-period")
//		p.waitFor("#verdict", "reads high")
//		if got := p.text("#error"); got != "+2.1 %" { … }
//	}
//
// Elements are named by CSS selectors. A look says how the page is reached
// (hosted or singleFile), how wide it is, and whether dark; below 600 px the
// browser is a phone with a touch screen. Each open has its own server and its
// own storage; reload keeps both, and so does again, which opens a second tab.
//
// Two things are watched in every walk without being asked for, and fail it:
//
//   - a message of the page at level error, an uncaught exception or a breach of
//     the policy (a walk that wants one says p.expectTrouble first);
//   - a request. Until the engine is ready the page may load its own files,
//     afterwards nothing at all; data: and blob: addresses never leave the
//     browser. A WebSocket, a WebTransport and a second window count too.
//
// Files:
//
//	main_test.go       packs the page once, keeps the browsers, cleans up
//	server_test.go     runs the program that make run runs
//	host_test.go       a server that changes what it serves, and goes away
//	chromium_test.go   open, reload, again
//	acts_test.go       typeInto, pasteInto, tap, text, waitFor, screenshot …
//	watch_test.go      requests and messages
//	firefox_test.go    a small client for Firefox (WebDriver BiDi); its acts beside it
//	webkit_test.go     a small client for WebKit (WebDriver); its acts beside it
//	smoke_test.go      the single file starts and computes in all three
//	keep_test.go       what was typed survives a reload, a crash, a file
//	kill_test.go       tabs killed at any key, -kills N of them
//	tabs_test.go       two tabs with one case, or with two
//	network_test.go    the watch itself is watched: it must see what it forbids
//	shut_test.go       a hostile script tries every way out, of ways_test.go, in all
//	                   three engines; what still gets out stands in that table
//	unwatched_test.go  a tab of Chromium that such a script may do in what it likes
//	hostile_test.go    texts from fields, files and links forge nothing, for the eye or
//	                   for a reader of the screen
//	alone_test.go      the single file in a process that has no network
//	boot_test.go       engines that do not start, and what the page says then
//	judge_test.go      what the watch makes of what it hears
//	files_test.go      download, upload, pdf, crash
//	months_test.go     two months of an invented home
//	states_test.go     every state of the page: barriers, sizes, colours, motion
//	axe_test.go        what axe-core has to say
//	walk_*_test.go     whole walks: page, causes, tariff, files of readings
//	                   (file, drop, feed, hostile), cases and steps
//	                   (store, full), without a server
//	                   (offline), to a new version (update), reach (keyboard),
//	                   rough use, and one walk in three engines (three)
//	pictures_test.go   the README's pictures
//	keystroke_test.go  from a key to its result (make bench)
//	bench_*_test.go    files beside other readers, the start beside an empty
//	                   page (make bench)
//
// go test -short leaves the browsers out; -shots DIR keeps pictures of the pages
// whose walk failed.
package e2e
