//go:build !js

package e2e

import (
	"bufio"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"testing"
)

// serveProgram builds the server once.
var serveProgram = sync.OnceValues(func() (string, error) {
	path := filepath.Join(work, "serve")
	_, err := goCommand("build", "-o", path, "./wasm/serve")
	return path, err
})

// A server is one run of the program behind make run.
type server struct {
	address string // with the slash at the end
	cmd     *exec.Cmd
}

// serve starts a server for the packed site; it ends with the test at latest.
func serve(t testing.TB) *server {
	t.Helper()
	return serveFolder(t, packedSite(t))
}

// packedSite is the folder with the hosted page.
func packedSite(t testing.TB) string {
	t.Helper()
	return filepath.Join(packed(t), "site")
}

func serveFolder(t testing.TB, dir string) *server {
	t.Helper()
	path, err := serveProgram()
	if err != nil {
		t.Fatal(err)
	}
	s := &server{cmd: exec.Command(path, "-dir", dir, "-port", "0")}
	s.cmd.Stderr = os.Stderr
	out, err := s.cmd.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := s.cmd.Start(); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(s.stop)
	line, err := bufio.NewReader(out).ReadString('\n')
	if err != nil {
		t.Fatalf("the server printed no address: %v", err)
	}
	s.address = strings.TrimSpace(line)
	return s
}

// stop ends the server, as when the connection is lost. It may be called twice.
func (s *server) stop() {
	if s.cmd.ProcessState == nil {
		s.cmd.Process.Kill()
		s.cmd.Wait()
	}
}
