//go:build !js

package e2e

import (
	"bytes"
	"context"
	"encoding/binary"
	"fmt"
	"math"
	"math/rand/v2"
	"net/http"
	"net/http/httptest"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
)

// BenchmarkSounds reads recordings of a meter's pulses: go-mp3 alone beside
// decoding and searching together, in one browser by turns; then recordings
// through the page's own picker, with what they take of memory and how long the
// page had to wait.
func BenchmarkSounds(b *testing.B) {
	for _, table := range []struct {
		name string
		make func(b *testing.B)
	}{{"decoding", benchDecoding}, {"picked", benchPicked}} {
		b.Run(table.name, func(b *testing.B) {
			program(b, "chromium")
			program(b, "lame")
			for b.Loop() {
				table.make(b)
			}
			b.ReportMetric(0, "ns/op")
		})
	}
}

// clicking writes a recording of clicks in noise as WAV, 44.1 kHz stereo.
func clicking(tb testing.TB, minutes int) string {
	tb.Helper()
	const rate = 44100
	path := filepath.Join(work, fmt.Sprintf("clicks-%d.wav", minutes))
	file, err := os.Create(path)
	if err != nil {
		tb.Fatal(err)
	}
	tb.Cleanup(func() { os.Remove(path) })
	n := minutes * 60 * rate
	file.Write(wavHead(rate, 2, n))
	random := rand.New(rand.NewPCG(6, uint64(minutes)))
	const every = rate * 72 / 100 // 0.72 s: 5 kW at 1 Wh
	var second bytes.Buffer
	for i := range n {
		v := 0.01 * random.NormFloat64()
		if since := i % every; since < rate/200 {
			v += 0.6 * math.Exp(-float64(since)/40) * math.Sin(float64(since)*0.5)
		}
		s := uint16(int16(32000 * max(-1, min(1, v))))
		second.Write([]byte{byte(s), byte(s >> 8), byte(s), byte(s >> 8)})
		if second.Len() > 1<<20 {
			file.Write(second.Bytes())
			second.Reset()
		}
	}
	file.Write(second.Bytes())
	if err := file.Close(); err != nil {
		tb.Fatal(err)
	}
	return path
}

// wavHead is the head of a WAV file of 16-bit samples (RIFF; the data chunk
// follows the form at once).
func wavHead(rate, channels, frames int) []byte {
	var b bytes.Buffer
	size := uint32(2 * channels * frames)
	b.WriteString("RIFF")
	for _, v := range []any{
		size + 36, []byte("WAVEfmt "), uint32(16), uint16(1), uint16(channels), uint32(rate),
		uint32(2 * channels * rate), uint16(2 * channels), uint16(16), []byte("data"), size,
	} {
		binary.Write(&b, binary.LittleEndian, v)
	}
	return b.Bytes()
}

func encoded(tb testing.TB, wav string, with ...string) string {
	tb.Helper()
	mp3 := strings.TrimSuffix(wav, ".wav") + ".mp3"
	if said, err := exec.Command("lame", append(append([]string{"--quiet"}, with...), wav, mp3)...).CombinedOutput(); err != nil {
		tb.Fatalf("lame: %v\n%s", err, said)
	}
	tb.Cleanup(func() { os.Remove(mp3) })
	return mp3
}

// benchDecoding sets the engine's work beside go-mp3 alone. Each is compiled as
// people would have it: go-mp3 alone as the toolchain does by itself, the
// engine as wasm/pack does.
func benchDecoding(b *testing.B) {
	mp3 := encoded(b, clicking(b, 3), "-b", "128")
	site := soundSite(b, mp3)
	tabs := map[string]context.Context{}
	for _, name := range []string{"plain", "packed"} {
		tab, closeTab := newTab(b, site+"/"+name+".html")
		defer closeTab()
		tabs[name] = tab
	}
	times := map[string][]float64{}
	for range 5 {
		for _, c := range []struct{ of, program, call string }{{"go-mp3 alone", "plain", "alone"}, {"go-mp3 alone, as packed", "packed", "alone"}, {"decoding and searching", "packed", "search"}} {
			times[c.of] = append(times[c.of], inTab[float64](b, tabs[c.program], fmt.Sprintf(`run(%q)`, c.call)))
		}
	}
	fmt.Printf("\nThree minutes of 128 kbit/s, 44.1 kHz stereo, five runs by turns:\n\n| | first ms | median ms | least ms | times real time |\n|---|---:|---:|---:|---:|\n")
	for _, of := range []string{"go-mp3 alone", "go-mp3 alone, as packed", "decoding and searching"} {
		least := slices.Min(times[of])
		fmt.Printf("| %s | %.0f | %.0f | %.0f | %.1f |\n", of, times[of][0], median(times[of]), least, 180_000/least)
	}
	b.ReportMetric(slices.Min(times["decoding and searching"])/slices.Min(times["go-mp3 alone"]), "ours/alone")
}

// soundSite serves a recording and testdata/sound, compiled both ways.
func soundSite(b *testing.B, recording string) string {
	b.Helper()
	inlined, err := packInlines()
	if err != nil {
		b.Fatal(err)
	}
	flags := []string{"-gcflags=all=-l"}
	for _, pattern := range inlined {
		flags = append(flags, "-gcflags="+pattern+"=")
	}
	mux := http.NewServeMux()
	for name, with := range map[string][]string{"plain": nil, "packed": flags} {
		path := filepath.Join(work, "sound-"+name+".wasm")
		cmd := exec.Command("go", append(append([]string{"build", "-trimpath", "-ldflags=-s -w"}, with...), "-o", path, "./wasm/e2e/testdata/sound")...)
		cmd.Dir, cmd.Env = "../..", append(os.Environ(), "GOOS=js", "GOARCH=wasm")
		if said, err := cmd.CombinedOutput(); err != nil {
			b.Fatalf("building the benchmark: %v\n%s", err, said)
		}
		mux.HandleFunc("/"+name+".wasm", func(w http.ResponseWriter, r *http.Request) { http.ServeFile(w, r, path) })
		mux.HandleFunc("/"+name+".html", func(w http.ResponseWriter, r *http.Request) {
			fmt.Fprintf(w, `<!doctype html><script src="/wasm_exec.js"></script><script>
				const go = new Go();
				const file = fetch("/recording").then((r) => r.arrayBuffer()).then((b) => new Uint8Array(b));
				const started = WebAssembly.instantiateStreaming(fetch("/%s.wasm"), go.importObject).then((m) => { go.run(m.instance); });
				async function run(name) {
					const data = await file;
					await started;
					const began = performance.now();
					if (!(window[name](data) > 0)) throw new Error(name + " came to nothing");
					return performance.now() - began;
				}
			</script>`, name)
		})
	}
	root, err := goCommand("env", "GOROOT")
	if err != nil {
		b.Fatal(err)
	}
	mux.HandleFunc("/wasm_exec.js", func(w http.ResponseWriter, r *http.Request) {
		http.ServeFile(w, r, filepath.Join(strings.TrimSpace(root), "lib", "wasm", "wasm_exec.js"))
	})
	mux.HandleFunc("/recording", func(w http.ResponseWriter, r *http.Request) { http.ServeFile(w, r, recording) })
	server := httptest.NewServer(mux)
	b.Cleanup(server.Close)
	return server.URL
}

// benchHeard notes when a recording was given to the page and when its card stood there.
const benchHeard = `
	addEventListener("change", (e) => { if (e.target.type === "file") window.given = performance.now(); }, { capture: true });
	new MutationObserver(() => {
		if (window.given && !window.carded && document.querySelector("[data-wave]")) window.carded = performance.now();
	}).observe(document, { subtree: true, childList: true });`

// benchPicked gives recordings to the page's own picker.
func benchPicked(b *testing.B) {
	fmt.Printf("\nRecordings through the page's picker:\n\n| recording | MB | ms | times real time | MB above idle, the page's process | all of the browser | left over | tasks over 50 ms | longest wait of a timer ms |\n|---|---:|---:|---:|---:|---:|---:|---:|---:|\n")
	for _, minutes := range []int{1, 10, 60} {
		wav := clicking(b, minutes)
		for _, path := range []string{encoded(b, wav, "-b", "128"), wav} {
			s, pulses := hearByPage(b, path)
			info, _ := os.Stat(path)
			fmt.Printf("| %d minutes, %s | %.1f | %.0f | %.0f | %.1f | %.1f | %.1f | %d | %.0f |\n", minutes, filepath.Ext(path), float64(info.Size())/1e6, s.ms, float64(minutes)*60_000/s.ms,
				float64(s.above())/1e6, float64(s.aboveAll())/1e6, float64(s.after)/1e6, len(s.long), s.gap)
			if want := minutes * 60 * 100 / 72; math.Abs(float64(pulses-want)) > 2 {
				b.Errorf("%s: %d pulses, want %d", path, pulses, want)
			}
			b.ReportMetric(float64(s.above())/1e6, fmt.Sprintf("MB-above-idle-%dmin%s", minutes, filepath.Ext(path)))
		}
	}
}

// hearByPage reads a recording through the page's own picker.
func hearByPage(b *testing.B, path string) (s streamed, pulses int) {
	b.Helper()
	p := open(b, look{form: hosted, before: benchTasks + benchHeard})
	p.do("folding out the place of recordings", chromedp.Evaluate[chromedp.Void](`for (const d of document.querySelectorAll("details")) d.open = true`))
	p.choose("#timing-runs-0-how", "sound")
	p.typeInto("#timing-constant", "1000")
	g := watchMemory(b, p.ctx)
	evaluate[chromedp.Void](p, `tasks.reset()`)
	p.upload("#timing-runs-0-sound-file", path)
	for end := time.Now().Add(9 * time.Minute); !evaluate[bool](p, `!!window.carded`); time.Sleep(100 * time.Millisecond) {
		if time.Now().After(end) {
			b.Fatal("the page never showed the recording's card")
		}
	}
	s = streamed{gauge: g, ms: evaluate[float64](p, `carded - given`), long: evaluate[[]float64](p, `tasks.long`), gap: evaluate[float64](p, `tasks.gap`)}
	g.stop()
	return s, evaluate[int](p, `Number(/(\d+) counted/.exec(document.querySelector('[data-holds="marks"]').closest(".item").innerText)?.[1] ?? 0)`)
}
