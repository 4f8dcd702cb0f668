package live

import (
	"fmt"
	"net/http/httptest"
	"os"
	"path/filepath"
	"testing"

	"halfturn/cmd/halfturn/findings"
	"halfturn/examples"
	"halfturn/plotting"
	"halfturn/plotting/page"
)

// testConfig is the page with the driveline of an example, "" for none.
func testConfig(t testing.TB, example string) Config {
	t.Helper()
	c := Config{Version: "test", Draw: draw}
	for _, d := range drawings {
		c.Figures = append(c.Figures, d.Figure)
	}
	if example != "" {
		file, err := examples.Files.ReadFile(example)
		if err != nil {
			t.Fatal(err)
		}
		c.File = file
	}
	return c
}

// drawings are the figures that the page is tested with.
var drawings = []struct {
	Figure
	draw func(of []*findings.Findings) (*page.Figure, error)
}{
	{Figure{"views", "side view and top view to scale", 1}, func(of []*findings.Findings) (*page.Figure, error) { return plotting.Views(of[0].Case(), page.Size{}) }},
	{Figure{"speed", "how evenly each shaft turns", 1}, func(of []*findings.Findings) (*page.Figure, error) {
		return plotting.Speed(of[0].Case(), plotting.Driving)
	}},
	{Figure{"vectors", "what each joint adds", 1}, func(of []*findings.Findings) (*page.Figure, error) { return plotting.Vectors(of[0].Case(), 0) }},
	{Figure{"acceleration", "torsional acceleration", 1}, func(of []*findings.Findings) (*page.Figure, error) { return plotting.Acceleration(of[0].Case()) }},
	{Figure{"orders", "orders 2 to 8", 1}, func(of []*findings.Findings) (*page.Figure, error) { return plotting.Orders(of[0].Case()) }},
	{Figure{"theory", "exact motion against first-order theory", 1}, func(of []*findings.Findings) (*page.Figure, error) { return plotting.Theory(of[0].Case()) }},
	{Figure{"loads", "what torque does", 1}, func(of []*findings.Findings) (*page.Figure, error) {
		return plotting.Loads(of[0].Case(), of[0].Loads, page.Size{})
	}},
	{Figure{"correction", "before and after a change", 2}, func(of []*findings.Findings) (*page.Figure, error) {
		return plotting.Correction(of[0].Case(), of[1].Case())
	}},
}

func draw(name string, of []*findings.Findings) (*page.Figure, error) {
	for _, d := range drawings {
		if d.Name == name {
			return d.draw(of)
		}
	}
	return nil, fmt.Errorf("no figure %s", name)
}

// serve returns the address of a page under test.
func serve(t testing.TB, c Config) string {
	t.Helper()
	handler, err := New(c)
	if err != nil {
		t.Fatal(err)
	}
	server := httptest.NewServer(handler)
	t.Cleanup(server.Close)
	return server.URL + "/"
}

// TestLooks makes the screenshots to be looked at, in the folder that SCREENSHOTS
// names.
func TestLooks(t *testing.T) {
	folder := os.Getenv("SCREENSHOTS")
	if folder == "" {
		t.Skip("SCREENSHOTS names no folder")
	}
	address := serve(t, testConfig(t, "two-piece.json"))
	for _, width := range []int{360, 768, 1280} {
		for _, scheme := range []string{"light", "dark"} {
			p := open(t, address, width, 800)
			p.prefer("prefers-color-scheme", scheme)
			p.settled()
			look := func(name string, height int) {
				p.size(width, height)
				p.settled()
				path := filepath.Join(folder, fmt.Sprintf("%s-%d-%s.png", name, width, scheme))
				must(t, os.WriteFile(path, p.screenshot(), 0o644))
				p.size(width, 800)
			}
			p.wait(`document.querySelector('[data-plan]')`)
			look("bench", 2400)
			p.click(`nav [data-way="class"]`)
			p.settled()
			p.wait(`document.querySelector('#frame svg')`)
			look("class", 800)
			p.click(`nav [data-way="measure"]`)
			p.settled()
			look("measure", 800)
			p.quiet(address)
		}
	}
}

// TestGalleryScreenshot wants the screenshot of the gallery to be there and small;
// UPDATE=1 makes it anew, to be looked at.
func TestGalleryScreenshot(t *testing.T) {
	const path, most = "../../../examples/gallery/live.png", 150 << 10
	if os.Getenv("UPDATE") != "" {
		p := open(t, serve(t, testConfig(t, "two-piece.json")), 1280, 820)
		p.call("Emulation.setDeviceMetricsOverride", map[string]any{"width": 1280, "height": 820, "deviceScaleFactor": 0.75, "mobile": false}, nil)
		p.settled()
		p.wait(`document.querySelector('[data-plan]')`)
		must(t, os.WriteFile(path, p.screenshot(), 0o644))
	}
	info, err := os.Stat(path)
	must(t, err)
	if info.Size() > most {
		t.Errorf("%s has %d bytes, want %d at most", path, info.Size(), most)
	}
}
