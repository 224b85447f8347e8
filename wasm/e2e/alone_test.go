//go:build !js

package e2e

import (
	"bytes"
	"net"
	"os"
	"os/exec"
	"path/filepath"
	"testing"
)

// aloneEnv names the single file for the run of this test in a process that has
// no network.
const aloneEnv = "SPLITTALLY_ALONE"

// The single file where there is no network at all, not even this machine's own:
// what the watch could fail to hear would fail here.
func TestWithoutANetwork(t *testing.T) {
	if path := os.Getenv(aloneEnv); path != "" {
		walkAlone(t, path)
		return
	}
	path := filepath.Join(packed(t), "splittally.html")
	unshare, err := exec.LookPath("unshare")
	if err != nil {
		t.Skip("there is no unshare on this machine to take the network away with")
	}
	args := []string{"--net"}
	if os.Getuid() != 0 {
		args = append(args, "--map-root-user")
	}
	if said, err := exec.Command(unshare, append(args, "true")...).CombinedOutput(); err != nil {
		t.Skipf("this machine lets nobody take the network away: %v %s", err, said)
	}
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(unshare, append(args, self, "-test.run", "^TestWithoutANetwork$", "-test.v")...)
	cmd.Env = append(os.Environ(), aloneEnv+"="+path)
	said, err := cmd.CombinedOutput()
	if err != nil || !bytes.Contains(said, []byte("walked without a network")) {
		t.Errorf("%v\n%s", err, said)
	}
}

// walkAlone pastes, reads the verdict, opens a file of readings and a recording,
// makes a link, prints, saves, and finds it all again.
func walkAlone(t *testing.T, path string) {
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err == nil {
		defer l.Close()
		if c, err := net.Dial("tcp", l.Addr().String()); err == nil {
			c.Close()
			t.Fatal("there is a network: this would prove nothing")
		}
	}
	p := open(t, look{form: singleFile, site: "file://" + filepath.ToSlash(path), width: 360})
	p.fillIn(2)
	p.waitFor("#bar", "reads high")
	p.upload(pickFile, written(t, "barn.csv", minutes(3)))
	p.waitFor(fileCard, "3 days")
	p.choose("#timing-runs-0-how", "sound")
	p.upload(pickSound, written(t, "cellar.wav", clicks(5)))
	p.waitFor(soundCard, "cellar.wav")
	if text := makeLink(p); text == "" {
		t.Error("there is no link")
	}
	if sheet := p.pdf(); !bytes.HasPrefix(sheet, []byte("%PDF-")) {
		t.Errorf("printed %.20q", sheet)
	}
	if _, data := p.download(func() { p.tap(`[data-do="save-file"]`) }); !bytes.Contains(data, []byte(months[0].kwh)) {
		t.Errorf("saved %.80q", data)
	}
	p.waitKept(months[1].kwh)
	p.reload()
	p.until("what was kept", func() bool { return p.value("#periods-1-kwh") == months[1].kwh })
	t.Log("walked without a network")
}
