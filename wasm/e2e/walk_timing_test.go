//go:build !js

package e2e

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"math"
	"math/rand/v2"
	"os/exec"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"

	"splittally/calc"
	"splittally/calc/pulse"
)

// The first run's part of the page.
const (
	run0      = `[data-group="timing"] [data-list="runs"] > :nth-child(1)`
	runFound  = run0 + ` [data-slot="found"]`
	runLive   = run0 + ` [data-slot="live"]`
	soundCard = run0 + ` [data-slot="sound"]`
	pickSound = "#timing-runs-0-sound-file"
)

// toTiming opens the part of the page, and says what a flash is.
func (p *page) toTiming(how string) {
	p.Helper()
	p.tap(`[data-group="timing"] > details > summary`)
	p.typeInto("#timing-constant", "1000")
	p.choose("#timing-runs-0-how", how)
}

// reads waits until the first run comes to so many watts, within a thousandth.
func (p *page) reads(watts float64) {
	p.Helper()
	p.untilOr(func() string { return fmt.Sprintf("the run to read %g W: it says %q", watts, p.text(runLive)) }, func() bool {
		var got float64
		fmt.Sscan(p.text(runLive), &got)
		return math.Abs(got-watts) < watts/1000
	})
}

// stored gives the case that the browser keeps, once it satisfies done.
func (p *page) stored(done func(calc.Case) bool) (c calc.Case) {
	p.Helper()
	p.until("the case to be stored", func() bool {
		text := evaluate[string](p, `Object.entries(localStorage).find(([k]) => k.includes("/case/"))?.[1].match(/^{[^]*/m)?.[0] ?? ""`)
		var problems any
		c, problems = openCase(text)
		return problems == nil && done(c)
	})
	return c
}

func openCase(text string) (calc.Case, any) {
	c, problems := calc.Open(text)
	if len(problems) > 0 {
		return c, problems
	}
	return c, nil
}

// notePresses lets the page note when keys and fingers went down, beside our own,
// and how often the screen is kept awake.
const notePresses = `
	window.awake = 0;
	Object.defineProperty(navigator, "wakeLock", { value: { request: async () => { awake++; return { release: async () => { awake--; } }; } } });
	window.presses = [];
	addEventListener("keydown", (e) => { if (e.key === " " && !e.repeat) presses.push(e.timeStamp); }, { capture: true });
	addEventListener("pointerdown", (e) => { if (e.target.closest(".pad")) presses.push(e.timeStamp); }, { capture: true });
`

// Taps count by the times of their events: with a finger on a phone, with the
// space bar at a desk.
func TestTapping(t *testing.T) {
	for _, width := range []int{360, 1280} {
		t.Run(fmt.Sprint(width), func(t *testing.T) {
			p := open(t, look{form: singleFile, width: width, before: notePresses})
			p.toTiming("taps")
			pad := run0 + ` [data-do="tap"]`
			p.tap(pad)
			for range 6 {
				time.Sleep(200 * time.Millisecond)
				if width < 600 {
					p.tap(pad)
				} else {
					p.press(" ")
				}
			}
			p.waitFor(runLive, "by the meter")
			if n := evaluate[int](p, `awake`); n != 1 {
				t.Errorf("the screen is kept awake %d times while taps go on", n)
			}
			p.tap(run0 + ` [data-do="untap"]`)
			p.tap(run0 + ` [data-do="tap-done"]`)
			p.tap(pad)
			p.waitFor("#page-notice", "has its pulses")
			if n := evaluate[int](p, `awake`); n != 0 {
				t.Errorf("the screen is kept awake %d times after the taps", n)
			}
			p.press(" ") // no tap any more: the focus is on a button that has no use now
			c := p.stored(func(c calc.Case) bool { return len(c.Timing.Runs) > 0 && c.Timing.Runs[0].Marks != "" })
			m, err := pulse.Parse(c.Timing.Runs[0].Marks)
			if err != nil {
				t.Fatal(err)
			}
			presses := evaluate[[]float64](p, `presses`)
			if len(m.Marks) != 6 || m.By != "taps" {
				t.Fatalf("%d marks by %s, want 6 by taps: seven less the one taken back", len(m.Marks), m.By)
			}
			for i, k := range m.Marks {
				if want := (presses[i] - presses[0]) / 1000; math.Abs(k.At-want) > 0.0002 {
					t.Errorf("tap %d is at %.4f s, its event at %.4f", i, k.At, want)
				}
			}
			p.fits()
			before := p.text(runFound)
			p.reload()
			p.waitFor(runLive, "by the meter")
			if after := p.text(runFound); after != before {
				t.Errorf("after a reload it says\n%s\nand before\n%s", after, before)
			}
		})
	}
}

// The page's stopwatch, the monitor's watts noted while it runs, and a verdict.
func TestStopwatch(t *testing.T) {
	p := open(t, look{form: singleFile, width: 360})
	p.toTiming("")
	watch := run0 + ` [data-do="watch"]`
	p.tap(watch)
	time.Sleep(1200 * time.Millisecond)
	p.typeInto("#timing-runs-0-noted", "1190")
	p.press(kb.Enter)
	if got := p.value("#timing-runs-0-watts"); !strings.HasSuffix(got, "1190") || !strings.HasPrefix(got, "0:0") {
		t.Errorf("noted %q, want the time and the watts", got)
	}
	p.tap(watch)
	seconds := p.value("#timing-runs-0-seconds")
	var took float64
	if _, err := fmt.Sscan(seconds, &took); err != nil || took < 1.2 || took > 30 {
		t.Errorf("the watch stopped at %q", seconds)
	}
	p.typeInto("#timing-runs-0-seconds", "36.0")
	p.typeInto("#timing-runs-0-turns", "12")
	p.waitFor(runLive, "1200")
	p.typeInto("#timing-runs-0-turns", "twelve")
	p.waitFor(run0, "can’t be used here")
	p.typeInto("#timing-runs-0-turns", "12")
	p.waitFor("#findings", "1200")
	p.fits()
}

// clicks makes a WAV recording of so many clicks, 0.9 s apart.
func clicks(n int) []byte {
	const rate = 8000
	random := rand.New(rand.NewPCG(6, 9))
	samples := make([]int16, (n+1)*rate*9/10)
	for i := range samples {
		v := 0.004 * random.NormFloat64()
		if since := i - rate/2; since >= 0 && since%(rate*9/10) < 60 && since/(rate*9/10) < n {
			v += 0.5 * math.Exp(-float64(since%(rate*9/10))/12) * math.Sin(1.3*float64(since%(rate*9/10)))
		}
		samples[i] = int16(32000 * v)
	}
	var b bytes.Buffer
	b.Write(wavHead(rate, 1, len(samples)))
	binary.Write(&b, binary.LittleEndian, samples)
	return b.Bytes()
}

// marksOf gives the pulses that the stored case has for its first run.
func (p *page) marksOf(done func(pulse.Marks) bool) (m pulse.Marks) {
	p.Helper()
	p.stored(func(c calc.Case) bool {
		if len(c.Timing.Runs) == 0 {
			return false
		}
		var err error
		m, err = pulse.Parse(c.Timing.Runs[0].Marks)
		return err == nil && done(m)
	})
	return m
}

func told(m pulse.Marks, what string) (n int) {
	for _, k := range m.Marks {
		if string(k.Told) == what {
			n++
		}
	}
	return n
}

// A recording is picked, looked at, mended, kept, dropped and brought back.
func TestRecording(t *testing.T) {
	for _, l := range []look{{form: singleFile, width: 360}, {form: hosted, width: 1280}} {
		t.Run(fmt.Sprint(l.width), func(t *testing.T) {
			p := open(t, l)
			p.toTiming("sound")
			p.upload(pickSound, written(t, "meter <b>20.wav", clicks(20)))
			p.waitFor(soundCard, "meter <b>20.wav")
			p.reads(4000) // 1 Wh each 0.9 s
			if n := p.count(soundCard + " [data-wave]"); n != 1 {
				t.Fatalf("%d pictures of the sound", n)
			}
			p.typeInto("#timing-runs-0-watts", "4010")
			p.waitFor("#findings", "What timing the meter says")
			p.do("clicking the picture", chromedp.Evaluate[chromedp.Void](find(soundCard+" [data-wave]")+`.dispatchEvent(new MouseEvent("click", { bubbles: true, cancelable: true, clientX: 100 }))`))
			p.waitFor("#live", "Come closer") // twenty are too many to set one among them
			for range 2 {                     // until its pulses can be taken hold of
				p.tap(soundCard + ` [data-move="in"]`)
			}
			p.tap(soundCard + ` [data-do="mark"][data-told="struck"]`)
			m := p.marksOf(func(m pulse.Marks) bool { return told(m, "struck") == 1 })
			// Half way between two pulses nothing is drawn that could be in the way.
			from := evaluate[float64](p, find(soundCard+" [data-wave]")+`.dataset.from * 1`)
			next := 0
			for m.Marks[next].At < from {
				next++
			}
			at := evaluate[struct{ X, Y float64 }](p, fmt.Sprintf(`(() => {
				const e = %s, from = +e.dataset.from, to = +e.dataset.to;
				e.scrollIntoView({ block: "center", behavior: "instant" });
				const b = e.getBoundingClientRect();
				return { X: b.x + b.width * (%f - from) / (to - from), Y: b.y + b.height / 2 };
			})()`, find(soundCard+" [data-wave]"), (m.Marks[next].At+m.Marks[next+1].At)/2))
			p.do("clicking the picture", chromedp.MouseClickXY(at.X, at.Y))
			p.marksOf(func(m pulse.Marks) bool { return told(m, "added") == 1 })
			p.fits()
			p.reload()
			p.waitFor(soundCard, "meter <b>20.wav")
			p.marksOf(func(m pulse.Marks) bool { return told(m, "struck") == 1 && told(m, "added") == 1 })
			p.tap(run0 + ` [data-slot="sound"] [data-do="marks-away"]`)
			p.waitFor("#page-notice", "gone")
			p.tap(`#page-notice [data-do="bring-back"]`)
			p.waitFor(soundCard, "meter <b>20.wav")
		})
	}
}

// What the engine does not decode the browser does; what nobody can is told, and
// what was there before still is.
func TestRecordingsOfOtherKinds(t *testing.T) {
	program(t, "lame")
	p := open(t, look{form: singleFile, width: 360})
	p.toTiming("sound")
	wav := written(t, "pulses.wav", clicks(20))
	old := strings.TrimSuffix(wav, ".wav") + "-old.mp3" // MPEG-2.5
	if said, err := exec.Command("lame", "--quiet", "--resample", "8", "-b", "16", "-m", "m", wav, old).CombinedOutput(); err != nil {
		t.Fatalf("lame: %v\n%s", err, said)
	}
	p.upload(pickSound, old)
	p.waitFor(soundCard, "pulses-old.mp3")
	p.reads(4000)
	for name, data := range map[string][]byte{
		"notes.mp3": []byte("Nothing but words, though the name says otherwise.\n"),
		"empty.wav": nil,
		"head.wav":  clicks(1)[:40],
	} {
		p.upload(pickSound, written(t, name, data))
		p.waitFor(soundCard, name)
		p.waitFor(soundCard, "pulses-old.mp3")
		p.reads(4000)
	}
}
