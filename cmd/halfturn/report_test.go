package main

import (
	"bytes"
	"context"
	"encoding/json"
	"encoding/xml"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"halfturn/cmd/halfturn/findings"
	"halfturn/kinematics/limits"
)

func TestReportOfEveryExample(t *testing.T) {
	t.Parallel()
	for _, file := range exampleFiles(t) {
		t.Run(filepath.Base(file), func(t *testing.T) {
			t.Parallel()
			page := readPage(t, writeReport(t, file))
			var doc findings.Document
			_, text, _ := invoke("", "check", file, "--json")
			if err := json.Unmarshal([]byte(text), &doc); err != nil {
				t.Fatal(err)
			}
			if page.title != doc.Name {
				t.Errorf("title: got %q, want %q", page.title, doc.Name)
			}
			page.requireText(t, doc.Answer)
			for _, remark := range doc.Remarks {
				page.requireText(t, remark)
			}
			for _, j := range doc.Joints {
				page.requireRow(t, j.Name, string(j.Kind), fmt.Sprintf("%.2f°", j.WorkingAngleDeg))
			}
			for i, m := range doc.Motion {
				cells := []string{m.Shaft, fmt.Sprintf("±%.2f°", m.LeadMaxDeg)}
				if doc.RPM > 0 {
					cells = append(cells, limits.Amount(*m.PeakAccelRadS2, ""), limits.Amount(*doc.Coasting[i].PeakAccelRadS2, ""))
				}
				page.requireRow(t, cells...)
			}
			for _, v := range doc.Verdicts {
				page.requireRow(t, v.Subject, limits.Amount(v.Value, ""), string(v.Outcome))
				page.requireText(t, v.Basis)
				if v.ToSettle != "" {
					page.requireText(t, v.ToSettle)
				}
			}
			for _, x := range doc.Crossings[:min(1, len(doc.Crossings))] { // the lowest
				page.requireRow(t, x.Quantity, x.Subject, fmt.Sprintf("%.0f", x.RPM))
			}
			page.requireText(t, "never under a vehicle on a jack alone")
			page.requireText(t, "torsional resonance")
			if n := page.elements["figure"]; n < 2 {
				t.Errorf("got %d figures, want the views and the speed at least", n)
			}
		})
	}
}

// Names come from anyone. Whatever they hold, the page shows them as they are
// and runs none of it.
func TestReportEscapes(t *testing.T) {
	t.Parallel()
	for _, name := range []string{
		`<script>alert("1")</script>`,
		`</style><script>alert(1)</script>`,
		`"; } } body { display: none } /*`,
		`van: rear? shaft #2`,
		`{{.Name}} ]]> --> & &amp; 'x'`,
		"\u05e9\u05dc\u05d5\u05dd \U0001F600",
		strings.Repeat("long", 25),
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			quoted, _ := json.Marshal(name)
			file := filepath.Join(t.TempDir(), "names.json")
			text := fmt.Sprintf(`{"name": %[1]s, "note": %[1]s, "rpm": 2000, "reading_error_deg": 0.1,
				"shafts": [{"name": %[1]s, "down": 0, "length": 700}, {"down": 4, "length": 900}, {"down": 1, "length": 300}],
				"joints": [{"name": %[1]s}, {"name": "other"}],
				"poses": [{"name": %[1]s, "shafts": [{"name": %[1]s, "down": 1}]}]}`, quoted)
			if err := os.WriteFile(file, []byte(text), 0o644); err != nil {
				t.Fatal(err)
			}
			page := readPage(t, writeReport(t, file))
			if page.title != name {
				t.Errorf("title: got %q, want %q", page.title, name)
			}
			page.requireRow(t, name, "cardan", "4.00°")
			page.requireRow(t, "working angle at "+name)
			for _, element := range page.styles {
				if strings.Count(element, "{") != strings.Count(element, "}") || strings.Contains(element, "display: none") {
					t.Errorf("a name reached the style as more than a text: %s", element[0:])
				}
			}
		})
	}
}

func TestReportCorrection(t *testing.T) {
	t.Parallel()
	for _, test := range []struct {
		name string
		args []string
		want []string
	}{
		{"within", []string{example("constant-velocity-front.json")}, []string{"Nothing needs to be changed"}},
		{
			"clocking undoes the phase", []string{example("rewelded-shaft.json")},
			[]string{"That brings it within every limit", `Turn the driven-end yoke of "conveyor shaft" by 18° anticlockwise`, "What is left, before and after"},
		},
		{"in doubt", []string{"--down", "3,3.4,5.4,3.4", "--rpm", "3000", "--reading-error", "0.1"}, []string{"No limit is known to be broken"}},
		{
			"beyond reach", []string{example("lifted-utility.json")},
			[]string{"Nothing within reach mends that the working angle", "Not within in other poses: full droop, full bump", "Beyond what can be changed"},
		},
		{
			"lengths missing", []string{"--down", "3,3,8,4", "--rpm", "3000"},
			[]string{`want the length of "shaft 2" and of "shaft 3"`, "leave \"joint 3\" where it is"},
		},
		{"nothing to turn", []string{"--down", "3,9", "--rpm", "3000", "--limits", "road-strict"}, []string{"wedge(shaft 2): −4 to 4, steps of 0.5"}},
	} {
		t.Run(test.name, func(t *testing.T) {
			t.Parallel()
			page := readPage(t, writeReport(t, test.args...))
			for _, want := range test.want {
				page.requireText(t, want)
			}
		})
	}
}

// The longest driveline that a file may hold, of the longest names.
func TestReportOfManyShafts(t *testing.T) {
	t.Parallel()
	var shafts []string
	for i := range 64 {
		shafts = append(shafts, fmt.Sprintf(`{"name": "%s %d", "down": %d}`, strings.Repeat("long name ", 9), i, i%3))
	}
	file := filepath.Join(t.TempDir(), "many.json")
	if err := os.WriteFile(file, []byte(`{"rpm": 1000, "shafts": [`+strings.Join(shafts, ",")+`]}`), 0o644); err != nil {
		t.Fatal(err)
	}
	page := readPage(t, writeReport(t, file))
	page.requireRow(t, "joint 63", "cardan")
}

func TestReportIsTheSameEveryTime(t *testing.T) {
	t.Parallel()
	first, second := writeReport(t, example("two-piece.json")), writeReport(t, example("two-piece.json"))
	if !bytes.Equal(first, second) {
		t.Error("two reports of the same file differ")
	}
}

func TestReportFailures(t *testing.T) {
	t.Parallel()
	file := example("one-piece.json")
	for _, test := range []struct {
		name, output string // output within an empty folder
		args         []string
		code         int
		want         string
	}{
		{"no output", "", []string{file}, exitUsage, "add -o and the name of a page"},
		{"another ending", "job.pdf", []string{file}, exitUsage, `ending ".pdf": want .html`},
		{"no ending", "job", []string{file}, exitUsage, "no ending: want .html"},
		{"no such folder", "none/job.html", []string{file}, exitFailed, "job.html: no such file or directory"},
		{"a folder", ".html", []string{file}, exitFailed, "is a folder"},
		{"a speed of no driveline", "job.html", []string{"--rpm", "3000"}, exitUsage, "want a FILE"},
		{"no such file", "job.html", []string{"none.json"}, exitFailed, "no such file"},
		{"steep joint", "job.html", []string{"--down", "-50,50"}, exitUsage, "below 90 deg"},
	} {
		t.Run(test.name, func(t *testing.T) {
			t.Parallel()
			folder := t.TempDir()
			args := append([]string{"report"}, test.args...)
			if test.output != "" {
				args = append(args, "-o", filepath.Join(folder, test.output))
			}
			if test.output == ".html" {
				if err := os.Mkdir(filepath.Join(folder, ".html"), 0o755); err != nil {
					t.Fatal(err)
				}
			}
			code, stdout, stderr := invoke("", args...)
			if code != test.code || !strings.Contains(stderr, test.want) || stdout != "" {
				t.Errorf("got exit %d, output %q and remarks %q, want exit %d and %q", code, stdout, stderr, test.code, test.want)
			}
			requireNoFiles(t, folder)
		})
	}
}

func TestReportInterrupted(t *testing.T) {
	t.Parallel()
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	folder := t.TempDir()
	var stderr bytes.Buffer
	c := &console{ctx: ctx, in: strings.NewReader(""), out: io.Discard, err: &stderr}
	if code := run(c, []string{"report", example("two-piece.json"), "-o", filepath.Join(folder, "job.html")}); code != exitFailed {
		t.Errorf("exit %d: %s", code, stderr.String())
	}
	requireNoFiles(t, folder)
}

func requireNoFiles(t *testing.T, folder string) {
	t.Helper()
	entries, err := os.ReadDir(folder)
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range entries {
		if !e.IsDir() {
			t.Errorf("%s was left behind", e.Name())
		}
	}
}

// writeReport returns the page that the command line writes.
func writeReport(t *testing.T, args ...string) []byte {
	t.Helper()
	path := filepath.Join(t.TempDir(), "job.html")
	code, stdout, stderr := invoke("", append([]string{"report", "-o", path}, args...)...)
	if code != exitDone || stdout != "" {
		t.Fatalf("exit %d, output %q: %s", code, stdout, stderr)
	}
	page, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return page
}

// shownPage is what a reader sees of a page.
type shownPage struct {
	title    string // the largest heading
	text     string // everything, words one blank apart
	rows     [][]string
	styles   []string
	elements map[string]int
}

// readPage reads a page as XML, which is stricter than HTML, and wants it to
// stand by itself: nothing that runs, nothing from elsewhere, no name twice.
func readPage(t *testing.T, html []byte) *shownPage {
	t.Helper()
	p := &shownPage{elements: make(map[string]int)}
	ids := make(map[string]bool)
	var text, cell, title, style strings.Builder
	into := []*strings.Builder{&text}
	d := xml.NewDecoder(bytes.NewReader(html))
	for {
		token, err := d.Token()
		if err == io.EOF {
			break
		}
		if err != nil {
			t.Fatalf("not well formed: %v", err)
		}
		switch token := token.(type) {
		case xml.StartElement:
			name := token.Name.Local
			p.elements[name]++
			if slices.Contains([]string{"script", "link", "img", "image", "iframe", "object", "embed", "base", "form"}, name) {
				t.Errorf("element %s on the page", name)
			}
			for _, a := range token.Attr {
				key := strings.ToLower(a.Name.Local)
				switch {
				case key == "id" && ids[a.Value]:
					t.Errorf("the id %q twice", a.Value)
				case key == "id":
					ids[a.Value] = true
				case strings.HasPrefix(key, "on"), key == "src", key == "href" && !strings.HasPrefix(a.Value, "#"):
					t.Errorf("attribute %s=%q of %s", key, a.Value, name)
				case key == "style" && strings.Contains(a.Value, "url("):
					t.Errorf("style %q of %s", a.Value, name)
				}
			}
			switch name {
			case "tr":
				p.rows = append(p.rows, nil)
			case "td", "th":
				cell.Reset()
				into = append(into, &cell)
			case "h1":
				into = append(into, &title)
			case "style":
				style.Reset()
				into = []*strings.Builder{&style}
			}
		case xml.EndElement:
			switch token.Name.Local {
			case "td", "th":
				last := len(p.rows) - 1
				p.rows[last] = append(p.rows[last], strings.Join(strings.Fields(cell.String()), " "))
				into = into[:1]
			case "h1":
				p.title = title.String()
				into = into[:1]
			case "style":
				p.styles = append(p.styles, style.String())
				into = []*strings.Builder{&text}
			}
			text.WriteByte(' ')
		case xml.CharData:
			for _, b := range into {
				b.Write(token)
			}
		}
	}
	p.text = strings.Join(strings.Fields(text.String()), " ")
	for _, style := range p.styles {
		for _, wrong := range []string{"url(", "@import", "ZgotmplZ"} { // the last is what html/template puts for what is not safe
			if strings.Contains(style, wrong) {
				t.Errorf("%s in a style", wrong)
			}
		}
	}
	for _, wrong := range []string{"NaN", "Inf", "<no value>"} {
		if strings.Contains(p.text, wrong) {
			t.Errorf("%s on the page", wrong)
		}
	}
	return p
}

// requireText wants a text on the page, whatever its blanks.
func (p *shownPage) requireText(t *testing.T, want string) {
	t.Helper()
	if !strings.Contains(p.text, strings.Join(strings.Fields(want), " ")) {
		t.Errorf("the page lacks %q", want)
	}
}

// requireRow wants a row of a table that holds the cells in this order, perhaps
// with others between them.
func (p *shownPage) requireRow(t *testing.T, want ...string) {
	t.Helper()
	for _, row := range p.rows {
		found := 0
		for _, cell := range row {
			if found < len(want) && cell == strings.Join(strings.Fields(want[found]), " ") {
				found++
			}
		}
		if found == len(want) {
			return
		}
	}
	t.Errorf("no table has a row with %q", want)
}

func TestReportOfNothingIsTheWorksheet(t *testing.T) {
	t.Parallel()
	page := readPage(t, writeReport(t))
	for _, want := range []string{"How to measure", "One piece", "Two pieces", "Three pieces", "never under a vehicle on a jack alone"} {
		page.requireText(t, want)
	}
}

// A report of a one-piece driveline takes three sheets at most, and what to do with
// what to beware of stands on the first.
func TestReportOnPaper(t *testing.T) {
	t.Parallel()
	browser, err := exec.LookPath("chromium")
	if err != nil {
		if os.Getenv("BROWSER") == "required" {
			t.Fatal(err)
		}
		t.Skip("no browser to print with")
	}
	dir := t.TempDir()
	page, sheets := filepath.Join(dir, "job.html"), filepath.Join(dir, "job.pdf")
	if code, _, stderr := invoke("", "report", example("one-piece.json"), "-o", page); code != exitDone {
		t.Fatalf("exit %d: %s", code, stderr)
	}
	print := exec.CommandContext(t.Context(), browser, "--headless", "--no-sandbox", "--disable-gpu",
		"--user-data-dir="+filepath.Join(dir, "profile"), "--print-to-pdf="+sheets, "file://"+page)
	if out, err := print.CombinedOutput(); err != nil {
		t.Fatalf("%v: %s", err, out)
	}
	pdf, err := os.ReadFile(sheets)
	if err != nil {
		t.Fatal(err)
	}
	if n := bytes.Count(pdf, []byte("/Type /Page\n")); n < 1 || n > 3 {
		t.Errorf("it takes %d sheets, want 3 at most", n)
	}
	html, err := os.ReadFile(page)
	if err != nil {
		t.Fatal(err)
	}
	last := 0
	for _, part := range []string{`class="answer `, "What to change", `class="cautions"`, `class="fill"`, "<h2>Verdicts"} {
		at := bytes.Index(html, []byte(part))
		if at < last {
			t.Errorf("%s stands at %d, want it behind %d", part, at, last)
		}
		last = at
	}
}
