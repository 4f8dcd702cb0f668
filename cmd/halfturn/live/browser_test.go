package live

import (
	"bufio"
	"encoding/base64"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"strings"
	"sync"
	"testing"
	"time"
)

// This file drives Chromium over its debugging pipe: JSON messages, each ended by a
// zero byte, to its file descriptor 3 and from its 4. See
// https://chromedevtools.github.io/devtools-protocol/ for the methods.

// browser is a running Chromium.
type browser struct {
	to     io.Writer
	cmd    *exec.Cmd
	folder string

	mu      sync.Mutex
	last    int
	answers map[int]chan message // by the id of the request
	tabs    map[string]*tab      // by session
}

type message struct {
	ID        int             `json:"id,omitempty"`
	Method    string          `json:"method,omitempty"`
	SessionID string          `json:"sessionId,omitempty"`
	Params    json.RawMessage `json:"params,omitempty"`
	Result    json.RawMessage `json:"result,omitempty"`
	Error     *struct {
		Message string `json:"message"`
	} `json:"error,omitempty"`
}

// patience is how long a test waits for the browser.
const patience = 20 * time.Second

// chromium is the browser of all tests, which the first that needs it starts; running
// is it once it runs.
var (
	chromium = sync.OnceValues(startBrowser)
	running  *browser
)

var browserNames = []string{"chromium", "chromium-browser", "google-chrome"}

// errNoBrowser means that the tests that need one are skipped, but where BROWSER is
// "required".
var errNoBrowser = errors.New("no Chromium on this machine")

func startBrowser() (*browser, error) {
	var path string
	for _, name := range browserNames {
		if found, err := exec.LookPath(name); err == nil {
			path = found
			break
		}
	}
	if path == "" {
		return nil, errNoBrowser
	}
	folder, err := os.MkdirTemp("", "halfturn-browser")
	if err != nil {
		return nil, err
	}
	theirIn, ourOut, err := os.Pipe()
	if err != nil {
		return nil, err
	}
	ourIn, theirOut, err := os.Pipe()
	if err != nil {
		return nil, err
	}
	args := []string{
		"--remote-debugging-pipe", "--headless=new", "--user-data-dir=" + folder, "--no-first-run",
		"--disable-gpu", "--disable-dev-shm-usage", "--disable-background-networking", "--force-color-profile=srgb",
	}
	if os.Getuid() == 0 { // whom Chromium gives no sandbox
		args = append(args, "--no-sandbox")
	}
	b := &browser{
		to: ourOut, folder: folder, cmd: exec.Command(path, append(args, "about:blank")...),
		answers: make(map[int]chan message), tabs: make(map[string]*tab),
	}
	b.cmd.ExtraFiles = []*os.File{theirIn, theirOut}
	if err := b.cmd.Start(); err != nil {
		return nil, err
	}
	theirIn.Close()
	theirOut.Close()
	go b.listen(bufio.NewReaderSize(ourIn, 1<<20))
	running = b
	return b, nil
}

func TestMain(m *testing.M) {
	code := m.Run()
	if running != nil {
		running.cmd.Process.Kill()
		running.cmd.Wait()
		os.RemoveAll(running.folder)
	}
	os.Exit(code)
}

func (b *browser) listen(from *bufio.Reader) {
	for {
		text, err := from.ReadBytes(0)
		if err != nil {
			return
		}
		var m message
		if json.Unmarshal(text[:len(text)-1], &m) != nil {
			continue
		}
		b.mu.Lock()
		answer, asked := b.answers[m.ID]
		delete(b.answers, m.ID)
		t := b.tabs[m.SessionID]
		b.mu.Unlock()
		switch {
		case asked:
			answer <- m
		case t != nil:
			t.note(m)
		}
	}
}

// call asks the browser and puts what it answers into result, unless nil.
func (b *browser) call(session, method string, params, result any) error {
	encoded, err := json.Marshal(params)
	if err != nil {
		return err
	}
	answer := make(chan message, 1)
	b.mu.Lock()
	b.last++
	m := message{ID: b.last, Method: method, SessionID: session, Params: encoded}
	b.answers[m.ID] = answer
	text, err := json.Marshal(m)
	if err == nil {
		_, err = b.to.Write(append(text, 0))
	}
	b.mu.Unlock()
	if err != nil {
		return err
	}
	select {
	case m := <-answer:
		if m.Error != nil {
			return fmt.Errorf("%s: %s", method, m.Error.Message)
		}
		if result == nil {
			return nil
		}
		return json.Unmarshal(m.Result, result)
	case <-time.After(patience):
		return fmt.Errorf("%s: the browser does not answer", method)
	}
}

// tab is a page of its own, with what it said and asked for.
type tab struct {
	t       testing.TB
	b       *browser
	session string

	mu       sync.Mutex
	said     []string // to the console
	requests []string // addresses
}

// open opens an address in a tab of a size in CSS pixels, in a profile of its own.
func open(t testing.TB, address string, width, height int) *tab {
	t.Helper()
	b, err := chromium()
	if errors.Is(err, errNoBrowser) && os.Getenv("BROWSER") != "required" {
		t.Skip(err)
	}
	if err != nil {
		t.Fatal(err)
	}
	var profile struct{ BrowserContextID string }
	var target struct{ TargetID string }
	var attached struct{ SessionID string }
	must(t, b.call("", "Target.createBrowserContext", map[string]any{}, &profile))
	must(t, b.call("", "Target.createTarget", map[string]any{"url": "about:blank", "browserContextId": profile.BrowserContextID}, &target))
	must(t, b.call("", "Target.attachToTarget", map[string]any{"targetId": target.TargetID, "flatten": true}, &attached))
	p := &tab{t: t, b: b, session: attached.SessionID}
	b.mu.Lock()
	b.tabs[p.session] = p
	b.mu.Unlock()
	t.Cleanup(func() {
		b.call("", "Target.disposeBrowserContext", map[string]any{"browserContextId": profile.BrowserContextID}, nil)
	})
	for _, domain := range []string{"Page", "Runtime", "Log", "Network", "DOM", "Accessibility"} {
		p.call(domain+".enable", map[string]any{}, nil)
	}
	p.size(width, height)
	p.call("Page.navigate", map[string]any{"url": address}, nil)
	return p
}

func must(t testing.TB, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
}

func (p *tab) note(m message) {
	p.mu.Lock()
	defer p.mu.Unlock()
	switch m.Method {
	case "Runtime.consoleAPICalled", "Runtime.exceptionThrown", "Log.entryAdded":
		p.said = append(p.said, m.Method+" "+string(m.Params))
	case "Network.requestWillBeSent":
		var sent struct{ Request struct{ URL string } }
		if json.Unmarshal(m.Params, &sent) == nil {
			p.requests = append(p.requests, sent.Request.URL)
		}
	}
}

func (p *tab) call(method string, params, result any) {
	p.t.Helper()
	must(p.t, p.b.call(p.session, method, params, result))
}

func (p *tab) size(width, height int) {
	p.call("Emulation.setDeviceMetricsOverride", map[string]any{
		"width": width, "height": height, "deviceScaleFactor": 1, "mobile": width < 600,
	}, nil)
}

// prefer sets what the page is told of the user's preferences, such as
// prefers-color-scheme.
func (p *tab) prefer(feature, value string) {
	p.call("Emulation.setEmulatedMedia", map[string]any{
		"features": []map[string]string{{"name": feature, "value": value}},
	}, nil)
}

// eval returns the value of a script, in text, JSON for anything but a text.
func (p *tab) eval(script string) string {
	p.t.Helper()
	var got struct {
		Result struct {
			Value json.RawMessage
		}
		ExceptionDetails *struct{ Exception struct{ Description string } }
	}
	p.call("Runtime.evaluate", map[string]any{"expression": script, "returnByValue": true, "awaitPromise": true}, &got)
	if got.ExceptionDetails != nil {
		p.t.Fatalf("%s: %s", script, got.ExceptionDetails.Exception.Description)
	}
	var text string
	if json.Unmarshal(got.Result.Value, &text) == nil {
		return text
	}
	return string(got.Result.Value)
}

// wait waits until a script is true.
func (p *tab) wait(script string) {
	p.t.Helper()
	for end := time.Now().Add(patience); p.eval("Boolean("+script+")") != "true"; time.Sleep(5 * time.Millisecond) {
		if time.Now().After(end) {
			p.t.Fatalf("still not: %s\nanswer: %s\nconsole: %s", script, p.text("#answer"), p.said)
		}
	}
}

func (p *tab) settled() {
	p.t.Helper()
	p.wait(`document.body?.dataset.settled === 'true'`)
}

func (p *tab) text(selector string) string {
	p.t.Helper()
	return p.eval(fmt.Sprintf(`(document.querySelector(%q)?.innerText ?? '').replace(/\s+/g, ' ').trim()`, selector))
}

// click presses and lets go the mouse in the middle of an element.
func (p *tab) click(selector string) {
	p.t.Helper()
	x, y := p.middle(selector)
	for _, kind := range []string{"mouseMoved", "mousePressed", "mouseReleased"} {
		p.mouse(kind, x, y)
	}
}

// middle returns where the middle of an element is once it is to be seen.
func (p *tab) middle(selector string) (x, y float64) {
	p.t.Helper()
	p.wait(fmt.Sprintf(`document.querySelector(%q)?.getBoundingClientRect().width`, selector))
	var at []float64
	text := p.eval(fmt.Sprintf(`{
		const element = document.querySelector(%q);
		element.scrollIntoView({block: 'center', behavior: 'instant'});
		const box = element.getBoundingClientRect();
		[box.x + box.width / 2, box.y + box.height / 2]
	}`, selector))
	must(p.t, json.Unmarshal([]byte(text), &at))
	return at[0], at[1]
}

func (p *tab) mouse(kind string, x, y float64) {
	p.t.Helper()
	params := map[string]any{"type": kind, "x": x, "y": y, "button": "left", "clickCount": 1}
	if kind == "mouseMoved" {
		params["buttons"] = 1
	}
	p.call("Input.dispatchMouseEvent", params, nil)
}

// enter replaces the text of a field by typing.
func (p *tab) enter(field, text string) {
	p.t.Helper()
	selector := fmt.Sprintf("[data-field=%q]", field)
	p.click(selector)
	p.eval(fmt.Sprintf(`document.querySelector(%q).select()`, selector))
	p.call("Input.insertText", map[string]any{"text": text}, nil)
}

// keys that tests press, with their codes.
var keys = map[string]int{
	"Tab": 9, "Enter": 13, " ": 32, "PageUp": 33, "PageDown": 34, "End": 35, "Home": 36,
	"ArrowLeft": 37, "ArrowUp": 38, "ArrowRight": 39, "ArrowDown": 40,
}

func (p *tab) press(key string) {
	p.t.Helper()
	params := map[string]any{"type": "keyDown", "key": key, "code": key, "windowsVirtualKeyCode": keys[key]}
	switch key {
	case "Enter":
		params["text"] = "\r"
	case " ":
		params["text"], params["code"] = " ", "Space"
	}
	p.call("Input.dispatchKeyEvent", params, nil)
	delete(params, "text")
	params["type"] = "keyUp"
	p.call("Input.dispatchKeyEvent", params, nil)
}

// screenshot returns what is to be seen, as PNG.
func (p *tab) screenshot() []byte {
	p.t.Helper()
	var got struct{ Data string }
	p.call("Page.captureScreenshot", map[string]any{"format": "png"}, &got)
	data, err := base64.StdEncoding.DecodeString(got.Data)
	must(p.t, err)
	return data
}

// quiet wants a console to which nothing was said and requests to the page's own
// server only.
func (p *tab) quiet(address string) {
	p.t.Helper()
	p.mu.Lock()
	defer p.mu.Unlock()
	for _, said := range p.said {
		p.t.Errorf("on the console: %s", said)
	}
	for _, url := range p.requests {
		if !strings.HasPrefix(url, address) && !strings.HasPrefix(url, "blob:"+strings.TrimSuffix(address, "/")) && !strings.HasPrefix(url, "data:") {
			p.t.Errorf("requested from elsewhere: %s", url)
		}
	}
}
