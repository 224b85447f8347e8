//go:build !js

package e2e

import (
	"context"
	"flag"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
)

// patience is how long a single step may take. It is generous: it bounds a walk
// that hangs on a busy machine, it measures nothing.
const patience = 60 * time.Second

// work is the folder of this run; it is removed at the end.
var work string

func TestMain(m *testing.M) {
	flag.Parse()
	os.Exit(runAll(m))
}

func runAll(m *testing.M) int {
	var err error
	if work, err = os.MkdirTemp("", "e2e"); err != nil {
		fmt.Fprintln(os.Stderr, err)
		return 1
	}
	defer os.RemoveAll(work)
	defer func() {
		for _, stop := range []func(){stopChromium, stopFirefox} {
			if stop != nil {
				stop()
			}
		}
	}()
	return m.Run()
}

// dist packs the page the first time it is asked for and returns the folder
// that holds site/ and splittally.html.
var dist = sync.OnceValues(func() (string, error) {
	dir := filepath.Join(work, "dist")
	_, err := goCommand("run", "./wasm/pack", "-out", dir)
	return dir, err
})

// packed is the folder that dist filled.
func packed(t testing.TB) string {
	t.Helper()
	if testing.Short() {
		t.Skip("browsers are left out of short tests")
	}
	dir, err := dist()
	if err != nil {
		t.Fatal(err)
	}
	return dir
}

// goCommand runs the go tool at the root of the repository, for this machine's
// platform whatever the test's environment says.
func goCommand(args ...string) (string, error) {
	cmd := exec.Command("go", args...)
	cmd.Dir = "../.."
	cmd.Env = append(os.Environ(), "GOOS=", "GOARCH=")
	out, err := cmd.CombinedOutput()
	if err != nil {
		return "", fmt.Errorf("go %s: %w\n%s", args[0], err, out)
	}
	return string(out), nil
}

// program returns the path of a browser or a driver, or ends the test: a walk
// that nobody walked is no proof, so it isn't skipped.
func program(t testing.TB, name string) string {
	t.Helper()
	if testing.Short() {
		t.Skip("browsers are left out of short tests")
	}
	path, err := exec.LookPath(name)
	if err != nil {
		t.Fatalf("%s is not installed; make test installs it", name)
	}
	return path
}

// singleFileAddress is the address of the single file on this disk.
func singleFileAddress(t testing.TB) string {
	t.Helper()
	return "file://" + filepath.ToSlash(filepath.Join(packed(t), "splittally.html"))
}

var stopChromium func()

// chromium starts the one browser that all walks share.
var chromium = sync.OnceValues(func() (context.Context, error) {
	options := append(chromedp.DefaultExecAllocatorOptions[:],
		chromedp.ExecPath("chromium"),
		chromedp.DisableGPU,
		chromedp.WSURLReadTimeout(patience),
		chromedp.Flag("disable-quic", true),
		chromedp.Flag("disable-component-update", true),
		// No name can be looked up, so that the browser's own errands fail.
		chromedp.Flag("host-resolver-rules", "MAP * ~NOTFOUND, EXCLUDE 127.0.0.1, EXCLUDE localhost"),
	)
	allocator, stopAllocator := chromedp.NewExecAllocator(context.Background(), options...)
	ctx, stop := chromedp.NewContext(allocator, chromedp.WithErrorf(quiet))
	stopChromium = func() { stop(); stopAllocator() }
	return ctx, chromedp.Do(ctx)
})

// quiet drops what the library says about events of the protocol that it does
// not know; everything else is printed.
func quiet(format string, args ...any) {
	if text := fmt.Sprintf(format, args...); !strings.Contains(text, "unmarshal") {
		fmt.Fprintln(os.Stderr, "chromium:", text)
	}
}
