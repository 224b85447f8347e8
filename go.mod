module splittally

go 1.26

require (
	github.com/chromedp/cdproto v0.159.0 // wasm/e2e: what Chromium is told
	github.com/chromedp/chromedp v0.23.0 // wasm/e2e: drives Chromium
	github.com/coder/websocket v1.8.15 // wasm/e2e: talks to Firefox
	github.com/google/go-cmp v0.7.0 // tests: differences one can read
	github.com/hajimehoshi/go-mp3 v0.3.4 // calc/sound: decodes MP3
	github.com/kjk/lzma v0.0.0-20161016003348-3fd93898850d // wasm/pack: packs the engine
	github.com/makiuchi-d/gozxing v0.1.1 // tests: reads QR codes
	github.com/shopspring/decimal v1.6.0 // exact figures and money
	github.com/valyala/fastjson v1.6.10 // calc/document: reads saved cases
	github.com/yuin/goldmark v1.8.7 // tests: reads Markdown as forums do
	gonum.org/v1/gonum v0.17.0 // calc/uncertainty: distributions; tests: the reference
	honnef.co/go/js/dom/v2 v2.0.0-20250304181735-b5e52f05e89d // wasm/page: the page; the version that this project keeps to
	pgregory.net/rapid v1.3.0 // tests: properties
	rsc.io/qr v0.2.0 // wasm/view: draws QR codes
)

require (
	github.com/go-json-experiment/json v0.0.0-20260213210345-44df1a37e875 // indirect
	golang.org/x/text v0.23.0 // indirect
	golang.org/x/xerrors v0.0.0-20200804184101-5ec99f83aff1 // indirect
)
