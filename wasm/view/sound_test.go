package view

import (
	"html"
	"strings"
	"testing"

	"splittally/calc/chart/markup"
	"splittally/calc/rhythm"
)

// cellar is the card of a recording in one of its states.
func cellar(state, name string) Sound {
	c := Sound{ID: "timing-runs-0-sound"}
	has := func() {
		_, f := timed()
		c.Has, c.Marks, c.Rhythm = true, f.Timing.Runs[1].Marks, f.Timing.Runs[1].Rhythm
		c.Marks.File, c.Marks.Promised, c.Marks.Lost, c.Marks.Above = name, 22, 0.5, 18
		c.Marks.Breaks = []float64{9}
		c.To, c.Step, c.Envelope = 21, 0.25, []uint8{10, 9, 200, 10}
	}
	switch state {
	case "reading":
		c.Going = &SoundGoing{Name: name}
	case "failed":
		c.Tried = &SoundTried{Name: name, Says: "It is a picture."}
	case "kept":
		has()
	case "close":
		has()
		c.From, c.To = 4, 12
	case "reloaded":
		has()
		c.Envelope, c.Step, c.Marks.Format, c.Marks.Promised = nil, 0, "", 0
	case "again":
		has()
		c.Tried = &SoundTried{Name: name, Says: "It is silent."}
	}
	return c
}

var soundStates = []string{"none", "reading", "failed", "kept", "close", "reloaded", "again"}

func TestSoundGolden(t *testing.T) {
	d := Drawing{Slots: map[string]string{}}
	for _, state := range soundStates {
		d.Slots[state] = cellar(state, "cellar & hum.mp3").Markup()
	}
	if d.Slots["none"] != "" {
		t.Errorf("a card of nothing: %s", d.Slots["none"])
	}
	golden(t, "sound.html", d)
}

// A file's name stays text, and ids are unique and found.
func TestHostileSound(t *testing.T) {
	for _, bad := range hostile {
		for _, state := range soundStates[1:] {
			got := cellar(state, bad).Markup()
			checkMarkup(t, bad+" in "+state, got)
			if !strings.Contains(got, html.EscapeString(markup.Plain(bad))) {
				t.Errorf("%s is not in %s: the test has no grip", bad, state)
			}
			for _, attr := range []string{"id", "aria-labelledby"} {
				for _, rest := range strings.Split(got, " "+attr+`="`)[1:] {
					ids, _, _ := strings.Cut(rest, `"`)
					for _, id := range strings.Fields(ids) {
						if n := strings.Count(got, ` id="`+id+`"`); n != 1 {
							t.Errorf("%s: id %s stands there %d times", state, id, n)
						}
					}
				}
			}
		}
	}
}

// Pressing a pulse says what it does, and does it by the mark's own number.
func TestTouches(t *testing.T) {
	c := cellar("close", "x")
	got := c.Markup()
	for _, want := range []string{
		`aria-label="Pulse at 0:05.000, counted; strike it out" data-do="mark" data-mark="1" data-told="struck"`,
		`aria-label="A pulse that is missing at 0:08.000, counted; set it by hand" data-do="insert-mark" data-mark="1"`,
		`aria-label="Pulse at 0:11.050, between two that count, not counted; count it" data-do="mark" data-mark="3" data-told="added"`,
		`data-from="4.000000" data-to="12.000000"`, `data-move="doubt"`,
	} {
		if !strings.Contains(got, want) {
			t.Errorf("%s is not in %s", want, got)
		}
	}
	c.From, c.To = 17, 21
	if got := c.Markup(); !strings.Contains(got, `struck out; leave it as it was found" data-do="mark" data-mark="7" data-told=""`) {
		t.Error(got)
	}
	// More of them than fingers can tell apart are a picture alone.
	for i := range 30 {
		c.Marks.Marks = append(c.Marks.Marks, rhythm.Mark{At: 20 + float64(i)/40})
	}
	if got := c.Markup(); strings.Contains(got, `role="button"`) || !strings.Contains(got, "Come closer") {
		t.Error(got)
	}
}
