//go:build !js

package e2e

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/heapprofiler"
	"github.com/chromedp/chromedp"
)

// Memory is read from /proc: what a process holds that is not mapped from disk
// (RssAnon and RssShmem). It counts what no page can see of itself, such as the
// buffers between the browser's processes, and looking costs the page nothing.
// What several processes share is counted in each.

// held is what a process holds, in bytes; 0 if it is gone.
func held(pid int) int64 {
	status, err := os.ReadFile(fmt.Sprintf("/proc/%d/status", pid))
	if err != nil {
		return 0
	}
	var sum int64
	for line := range strings.Lines(string(status)) {
		name, rest, _ := strings.Cut(line, ":")
		if name == "RssAnon" || name == "RssShmem" {
			kB, _ := strconv.ParseInt(strings.Fields(rest)[0], 10, 64)
			sum += kB << 10
		}
	}
	return sum
}

// peak is the most that a process ever had in memory, in MB, with what is mapped
// from disk: what the system tells of native programs too.
func peak(pid int) int {
	status, _ := os.ReadFile(fmt.Sprintf("/proc/%d/status", pid))
	_, rest, _ := strings.Cut(string(status), "VmHWM:")
	if fields := strings.Fields(rest); len(fields) > 0 {
		kB, _ := strconv.Atoi(fields[0])
		return kB >> 10
	}
	return 0
}

// stat gives a process's parent and the ticks it has run.
func stat(pid int) (parent, ticks int) {
	data, err := os.ReadFile(fmt.Sprintf("/proc/%d/stat", pid))
	if err != nil {
		return 0, 0
	}
	_, rest, _ := strings.Cut(string(data), ") ") // the name before it may hold anything
	fields := strings.Fields(rest)
	if len(fields) < 13 {
		return 0, 0
	}
	parent, _ = strconv.Atoi(fields[1])
	for _, f := range fields[11:13] {
		t, _ := strconv.Atoi(f)
		ticks += t
	}
	return parent, ticks
}

// browserProcesses are the processes of the shared browser: what this program
// has started, and what that has started.
func browserProcesses() []int {
	entries, _ := filepath.Glob("/proc/[0-9]*")
	parents := map[int]int{}
	for _, e := range entries {
		pid, _ := strconv.Atoi(filepath.Base(e))
		parents[pid], _ = stat(pid)
	}
	var all []int
	for pid := range parents {
		for p := parents[pid]; p > 1; p = parents[p] {
			if p == os.Getpid() {
				name, _ := os.ReadFile(fmt.Sprintf("/proc/%d/comm", pid))
				if strings.HasPrefix(string(name), "chrom") {
					all = append(all, pid)
				}
				break
			}
		}
	}
	return all
}

// rendererOf finds the process of a tab: the one that works when the page does.
func rendererOf(tb testing.TB, tab context.Context) int {
	tb.Helper()
	for milliseconds := 300; milliseconds < 10_000; milliseconds *= 3 { // longer if the machine is busy
		before := map[int]int{}
		for _, pid := range browserProcesses() {
			_, before[pid] = stat(pid)
		}
		inTab[chromedp.Void](tb, tab, fmt.Sprintf(`for (const end = performance.now() + %d; performance.now() < end; );`, milliseconds))
		busiest, most, others := 0, 0, 0
		for pid, was := range before {
			_, now := stat(pid)
			others += now - was
			if now-was > most {
				busiest, most = pid, now-was
			}
		}
		if most >= 15 && 2*most > others {
			return busiest
		}
	}
	tb.Fatal("no process of the browser is seen to be that of the tab")
	return 0
}

// schedule tells how long a process's first thread, which is a page's, has run
// and how long it has waited for a processor, in milliseconds.
func schedule(pid int) (ran, waited float64) {
	data, _ := os.ReadFile(fmt.Sprintf("/proc/%d/task/%[1]d/schedstat", pid))
	fmt.Sscan(string(data), &ran, &waited)
	return ran / 1e6, waited / 1e6
}

// A gauge watches what a tab's process, and the whole browser, hold.
type gauge struct {
	testing.TB
	tab           context.Context
	renderer      int
	processes     []int
	ran, waited   float64 // ms that the page's thread ran, and waited for a processor
	idle, idleAll int64
	peak, peakAll int64
	after         int64 // above idle, at rest
	stopped       chan struct{}
	watching      sync.WaitGroup
}

// watchMemory lets the tab come to rest and then begins to watch.
func watchMemory(tb testing.TB, tab context.Context) *gauge {
	tb.Helper()
	g := &gauge{TB: tb, tab: tab, renderer: rendererOf(tb, tab), processes: browserProcesses(), stopped: make(chan struct{})}
	g.rest() // what a page gives back after its start comes late
	time.Sleep(2 * time.Second)
	g.idle, g.idleAll = g.rest()
	g.ran, g.waited = schedule(g.renderer)
	g.watching.Go(func() {
		for {
			one, all := g.now()
			g.peak, g.peakAll = max(g.peak, one), max(g.peakAll, all)
			select {
			case <-g.stopped:
				return
			case <-time.After(10 * time.Millisecond):
			}
		}
	})
	return g
}

func (g *gauge) now() (one, all int64) {
	for _, pid := range g.processes {
		h := held(pid)
		all += h
		if pid == g.renderer {
			one = h
		}
	}
	return one, all
}

// rest collects garbage and gives the median of what is held for a while after.
func (g *gauge) rest() (one, all int64) {
	g.Helper()
	if err := chromedp.Do(g.tab, chromedp.Func(func(ctx context.Context, _ *chromedp.Target) error {
		_, err := chromedp.Call(ctx, heapprofiler.CollectGarbage, cdp.Empty{})
		return err
	})); err != nil {
		g.Fatalf("collecting garbage: %v", err)
	}
	var ones, alls []int64
	for range 20 {
		time.Sleep(50 * time.Millisecond)
		one, all := g.now()
		ones, alls = append(ones, one), append(alls, all)
	}
	slices.Sort(ones)
	slices.Sort(alls)
	return ones[len(ones)/2], alls[len(alls)/2]
}

// stop ends the watch and lets the tab come to rest again.
func (g *gauge) stop() {
	g.Helper()
	ran, waited := schedule(g.renderer)
	g.ran, g.waited = ran-g.ran, waited-g.waited
	close(g.stopped)
	g.watching.Wait()
	one, _ := g.rest()
	g.after = one - g.idle
}

// above is the most that the tab's process held above idle, aboveAll what all
// of the browser did, once the watch is over.
func (g *gauge) above() int64    { return max(0, g.peak-g.idle) }
func (g *gauge) aboveAll() int64 { return max(0, g.peakAll-g.idleAll) }
