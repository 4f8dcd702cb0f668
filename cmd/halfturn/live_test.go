package main

import (
	"bufio"
	"context"
	"fmt"
	"io"
	"net/http"
	"os"
	"os/exec"
	"strings"
	"testing"
)

// startLive runs halfturn live until the returned function, which gives the exit
// status and the remarks, and returns the address that it prints.
func startLive(t *testing.T, args ...string) (address string, stop func() (int, string)) {
	t.Helper()
	ctx, cancel := context.WithCancel(t.Context())
	out, print := io.Pipe()
	var remarks strings.Builder
	ended := make(chan int, 1)
	go func() {
		c := &console{ctx: ctx, in: strings.NewReader(""), out: print, err: &remarks}
		ended <- run(c, append([]string{"live"}, args...))
		print.Close()
	}()
	line, err := bufio.NewReader(out).ReadString('\n')
	if err != nil {
		cancel()
		t.Fatalf("exit %d: %s", <-ended, remarks.String())
	}
	go io.Copy(io.Discard, out)
	return strings.TrimSpace(line), func() (int, string) {
		cancel()
		return <-ended, remarks.String()
	}
}

func TestLive(t *testing.T) {
	t.Parallel()
	address, stop := startLive(t, example("two-piece.json"))
	response, err := http.Get(address)
	if err != nil {
		t.Fatal(err)
	}
	defer response.Body.Close()
	page, err := io.ReadAll(response.Body)
	if err != nil || !strings.Contains(string(page), "mountain-rescue ambulance") {
		t.Errorf("%v: the page is without its driveline: %.300s", err, page)
	}
	for _, f := range figures {
		request := fmt.Sprintf(`{"figures": [%q], "width": 800, "file": {"rpm": 2000, "shafts": [{"down": 0}, {"down": 5, "length": 900}, {"down": 1}]}}`, f.name)
		response, err := http.Post(address+"answer", "application/json", strings.NewReader(request))
		if err != nil {
			t.Fatal(err)
		}
		answer, _ := io.ReadAll(response.Body)
		response.Body.Close()
		if drawn := strings.Contains(string(answer), `"<svg `); drawn != (f.least < 2 && f.draw != nil && f.name != "travel") {
			t.Errorf("figure %s: drawn: %v: %.300s", f.name, drawn, answer[strings.Index(string(answer), `"figures"`):])
		}
	}

	// A search under way does not hold the end up.
	searching := make(chan error)
	go func() {
		_, err := http.Post(address+"plans", "application/json", strings.NewReader(`{"file": {"rpm": 3000, "shafts": [{"down": 0},
			{"down": 9, "length": 900}, {"down": 3, "length": 900}, {"down": 12, "length": 900}, {"down": 1, "length": 300}]}}`))
		searching <- err
	}()
	code, remarks := stop()
	<-searching
	if code != exitDone || !strings.Contains(remarks, "until interrupted") {
		t.Errorf("exit %d: %s", code, remarks)
	}
}

// The page as it is served comes to life: the browser runs its script, which asks for
// the answer and shows it. The tests of package live walk it.
func TestLiveInABrowser(t *testing.T) {
	t.Parallel()
	browser, err := exec.LookPath("chromium")
	if err != nil {
		if os.Getenv("BROWSER") == "required" {
			t.Fatal(err)
		}
		t.Skip(err)
	}
	address, stop := startLive(t, example("two-piece.json"))
	defer stop()
	page, err := exec.CommandContext(t.Context(), browser, "--headless=new", "--no-sandbox", "--user-data-dir="+t.TempDir(),
		"--disable-gpu", "--disable-dev-shm-usage", "--virtual-time-budget=10000", "--dump-dom", address).Output()
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{
		`data-settled="true"`, "Not fine: the angles at centre joint and pinion joint are 2.59°",
		`data-figure="views"`, `data-figure="speed"`, `data-figure="vectors"`, `data-plan="1"`,
	} {
		if !strings.Contains(string(page), want) {
			t.Errorf("the page does not show %q", want)
		}
	}
}

func TestLiveBeyondLoopback(t *testing.T) {
	t.Parallel()
	address, stop := startLive(t, "--listen", "0.0.0.0:0")
	before, key, found := strings.Cut(address, "?key=")
	if !found || len(key) < 20 || strings.Contains(before, "0.0.0.0") {
		t.Errorf("got the address %s, want that of an interface, with a key", address)
	}
	if code, remarks := stop(); code != exitDone || !strings.Contains(remarks, "whoever is in this network") {
		t.Errorf("exit %d: %s", code, remarks)
	}
}

func TestLiveMistakes(t *testing.T) {
	t.Parallel()
	for _, test := range []struct {
		args []string
		code int
		want string
	}{
		{[]string{"--listen", "8080"}, exitUsage, "want an address and a port"},
		{[]string{"--listen", "256.0.0.1:80"}, exitFailed, "--listen"},
		{[]string{"none.json"}, exitFailed, "no such file"},
		{[]string{"--rpm", "3000"}, exitUsage, "want a FILE"},
	} {
		if code, stdout, stderr := invoke("", append([]string{"live"}, test.args...)...); code != test.code || stdout != "" || !strings.Contains(stderr, test.want) {
			t.Errorf("%q: exit %d, output %q and remarks %q, want exit %d and %q", test.args, code, stdout, stderr, test.code, test.want)
		}
	}
}
