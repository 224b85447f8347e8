//go:build !js

package e2e

import (
	"context"
	"os"
	"path/filepath"

	"github.com/chromedp/cdproto/browser"
	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/inspector"
	cdppage "github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
)

// download does what makes the page hand out a file, and returns the file and
// the name that the page gave it.
func (p *page) download(act func()) (name string, data []byte) {
	p.Helper()
	ctx, cancel := context.WithTimeout(p.ctx, patience)
	defer cancel()
	dir := p.TempDir()
	_, err := chromedp.CallBrowser(ctx, browser.SetDownloadBehavior, browser.SetDownloadBehaviorParams{
		Behavior:         browser.SetDownloadBehaviorBehaviorAllowAndName, // named by its number: names may repeat
		BrowserContextID: chromedp.FromContext(ctx).BrowserContextID,
		DownloadPath:     dir,
		EventsEnabled:    new(true),
	})
	if err != nil {
		p.Fatalf("preparing for a download: %v", err)
	}
	begun := chromedp.BrowserEvents(ctx, browser.DownloadWillBegin)
	progress := chromedp.BrowserEvents(ctx, browser.DownloadProgress)
	act()
	for e, err := range begun {
		if err != nil {
			p.Fatalf("waiting for a download: %v", err)
		}
		name = e.SuggestedFilename
		break
	}
	for e, err := range progress {
		if err != nil || e.State == browser.DownloadProgressStateCanceled {
			p.Fatalf("downloading %s: %s %v", name, e.State, err)
		}
		if e.State != browser.DownloadProgressStateCompleted {
			continue
		}
		if data, err = os.ReadFile(filepath.Join(dir, e.GUID)); err != nil {
			p.Fatal(err)
		}
		break
	}
	return name, data
}

// upload gives a file field these files of the disk.
func (p *page) upload(selector string, paths ...string) {
	p.Helper()
	var full []string
	for _, path := range paths {
		f, err := filepath.Abs(path)
		if err != nil {
			p.Fatal(err)
		}
		full = append(full, f)
	}
	p.do("choosing files", chromedp.SetUploadFiles(chromedp.CSS(selector), full))
}

// pdf is the printed page, on A4.
func (p *page) pdf() []byte {
	p.Helper()
	ctx, cancel := context.WithTimeout(p.ctx, patience)
	defer cancel()
	data, err := chromedp.Run(ctx, chromedp.PrintToPDF(chromedp.PDFPaper(chromedp.PaperA4)))
	if err != nil {
		p.Fatalf("printing: %v", err)
	}
	return data
}

// crash ends the tab's process without warning, as a full memory does. What is
// stored can be looked at with again.
func (p *page) crash() {
	p.Helper()
	ctx, cancel := context.WithTimeout(p.ctx, patience)
	defer cancel()
	crashed := chromedp.Events(ctx, inspector.TargetCrashed)
	go chromedp.Call(ctx, cdppage.Crash, cdp.Empty{}) // gets no answer, of course
	for _, err := range crashed {
		if err != nil {
			p.Fatalf("crashing the tab: %v", err)
		}
		break
	}
}
