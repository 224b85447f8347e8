module splittally

go 1.26

require (
	github.com/chromedp/cdproto v0.159.0 // indirect
	github.com/chromedp/chromedp v0.23.0 // indirect
	github.com/coder/websocket v1.8.15 // indirect
	github.com/go-json-experiment/json v0.0.0-20260213210345-44df1a37e875 // indirect
	github.com/google/go-cmp v0.7.0 // indirect
	github.com/kjk/lzma v0.0.0-20161016003348-3fd93898850d // indirect
	github.com/shopspring/decimal v1.6.0 // indirect
	github.com/valyala/fastjson v1.6.10 // indirect
	gonum.org/v1/gonum v0.17.0 // indirect
	honnef.co/go/js/dom/v2 v2.0.0-20250304181735-b5e52f05e89d // indirect
	pgregory.net/rapid v1.3.0 // indirect
)
