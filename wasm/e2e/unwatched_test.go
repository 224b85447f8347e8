//go:build !js

package e2e

import (
	"context"
	"testing"

	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"
)

// An unwatched is a tab of Chromium that nothing is watched in.
type unwatched struct {
	testing.TB
	ctx context.Context
}

func openUnwatched(t testing.TB) *unwatched {
	t.Helper()
	program(t, "chromium")
	// A browser of its own, which connects ahead as people's browsers do.
	options := append(chromedp.DefaultExecAllocatorOptions[:],
		chromedp.ExecPath("chromium"), chromedp.DisableGPU, chromedp.WSURLReadTimeout(patience),
		chromedp.Flag("disable-background-networking", false), chromedp.Flag("disable-component-update", true), chromedp.Flag("disable-quic", true),
		chromedp.Flag("host-resolver-rules", "MAP * ~NOTFOUND, EXCLUDE 127.0.0.1, EXCLUDE localhost"),
	)
	allocator, stop := chromedp.NewExecAllocator(context.Background(), options...)
	ctx, cancel := chromedp.NewContext(allocator, chromedp.WithErrorf(quiet))
	t.Cleanup(func() { cancel(); stop() })
	b := &unwatched{TB: t, ctx: ctx}
	if err := chromedp.Do(ctx); err != nil { // binds the tab's life to ctx, so it has no limit
		t.Fatalf("opening a tab: %v", err)
	}
	return b
}

func (b *unwatched) load(address string) {
	b.Helper()
	ctx, cancel := context.WithTimeout(b.ctx, patience)
	defer cancel()
	if err := chromedp.Do(ctx, chromedp.Navigate(address)); err != nil {
		b.Fatalf("loading %s: %v", address, err)
	}
}

func (b *unwatched) evaluate(script string) string { return b.run(script) }

func (b *unwatched) inject(script string) string {
	return b.run(script, func(e *runtime.EvaluateParams) { e.UserGesture = new(true) })
}

func (b *unwatched) run(script string, options ...chromedp.EvaluateOption) string {
	b.Helper()
	ctx, cancel := context.WithTimeout(b.ctx, patience)
	defer cancel()
	text, err := chromedp.Run(ctx, chromedp.Evaluate[string](`String(`+script+`)`, options...))
	if err != nil {
		b.Fatalf("in the page: %s: %v", script, err)
	}
	return text
}
