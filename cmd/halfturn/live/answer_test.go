package live

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"io"
	"net"
	"net/http"
	"net/http/httptest"
	"strings"
	"sync"
	"testing"
	"time"

	"halfturn/cmd/halfturn/findings"
	"halfturn/examples"
	"halfturn/kinematics/survey"
)

// post returns what the server answers to a body, and its status.
func post(t testing.TB, address, path string, body any) (int, string) {
	t.Helper()
	var text []byte
	switch body := body.(type) {
	case string:
		text = []byte(body)
	default:
		var err error
		if text, err = json.Marshal(body); err != nil {
			t.Fatal(err)
		}
	}
	response, err := http.Post(address+path, "application/json", bytes.NewReader(text))
	if err != nil {
		t.Fatal(err)
	}
	defer response.Body.Close()
	answer, err := io.ReadAll(response.Body)
	if err != nil {
		t.Fatal(err)
	}
	return response.StatusCode, string(answer)
}

// answered returns the answer to a request, which must be one.
func answered(t testing.TB, address string, body any) *answer {
	t.Helper()
	status, text := post(t, address, "answer", body)
	a := new(answer)
	if err := json.Unmarshal([]byte(text), a); err != nil || status != http.StatusOK {
		t.Fatalf("status %d, %v: %s", status, err, text)
	}
	return a
}

// exampleFile returns an example as the page posts it.
func exampleFile(t testing.TB, name string) map[string]any {
	t.Helper()
	text, err := examples.Files.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	var file map[string]any
	if err := json.Unmarshal(text, &file); err != nil {
		t.Fatal(err)
	}
	return file
}

func TestAnswerSaysWhatTheCommandsSay(t *testing.T) {
	t.Parallel()
	address := serve(t, testConfig(t, ""))
	names, err := examples.Files.ReadDir(".")
	if err != nil {
		t.Fatal(err)
	}
	for _, entry := range names {
		t.Run(entry.Name(), func(t *testing.T) {
			text, err := examples.Files.ReadFile(entry.Name())
			if err != nil {
				t.Fatal(err)
			}
			sv, err := survey.Read("", bytes.NewReader(text))
			if err != nil {
				t.Fatal(err)
			}
			found, err := findings.New(t.Context(), sv, findings.Options{})
			if err != nil {
				t.Fatal(err)
			}
			a := answered(t, address, map[string]any{"file": exampleFile(t, entry.Name()), "figures": []string{"speed", "views"}, "width": 700, "seq": 7})
			if a.Seq != 7 || a.Spoken != found.Answer()[0] {
				t.Errorf("got %d and %q, want 7 and %q", a.Seq, a.Spoken, found.Answer()[0])
			}
			for k, joint := range found.Document().Joints {
				want := fmt.Sprintf(`<td data-joint="%d">%.2f°</td>`, k, joint.WorkingAngleDeg)
				if !strings.Contains(a.Parts["angles"], want) {
					t.Errorf("no %s in %s", want, a.Parts["angles"])
				}
			}
			var complete bytes.Buffer
			if err := sv.Write(&complete); err != nil {
				t.Fatal(err)
			}
			var want bytes.Buffer
			json.Compact(&want, complete.Bytes())
			if string(a.File) != want.String() {
				t.Errorf("completed file: got %s, want %s", a.File, want.String())
			}
			for _, name := range []string{"speed", "views"} {
				if svg := a.Figures[name]; !strings.HasPrefix(svg, "<svg ") || strings.Contains(svg, ` style="`) || strings.Contains(svg, `aria-label=""`) {
					t.Errorf("figure %s: %.200s", name, svg)
				}
			}
		})
	}
}

// What is typed is read as flags are, and what cannot be read is told beside its
// field.
func TestAnswerReadsWhatIsTyped(t *testing.T) {
	t.Parallel()
	address := serve(t, testConfig(t, ""))
	file := map[string]any{"units": "mm", "shafts": []any{
		map[string]any{"down": 1}, map[string]any{"down": 2, "length": 900}, map[string]any{"down": 3},
	}}
	for _, test := range []struct {
		path, text string
		want       string // the value in the completed file; "": refused
		fault      string
	}{
		{"shafts.1.down", "3,9", "3.9", ""},
		{"shafts.1.down", "−3.9°", "-3.9", ""},
		{"shafts.1.down", "2.8 up", "-2.8", ""},
		{"shafts.1.down", "3.9; 4,1", "[3.9 4.1]", ""},
		{"shafts.1.right", "2 left", "-2", ""},
		{"shafts.1.phase", "30 clockwise", "30", ""},
		{"shafts.1.length", "1,250", "", "want a number without a comma"},
		{"shafts.1.name", " rear <b> ", "rear <b>", ""},
		{"rpm", "2800 rev/min", "", "want a decimal number"},
		{"rpm", "2800", "2800", ""},
		{"rpm", "NaN", "", "want a decimal number"},
		{"shafts.1.down", "three", "", "want degrees"},
		{"shafts.1.down", "95", "", "95 deg: want a slope between -90 and 90 deg"},
		{"shafts.7.down", "3", "", "no such place"},
		{"shafts.x.down", "3", "", "no such place"},
		{"shafts.1", "3", "", "no such place"},
		{"limits.set", "machinery", "machinery", ""},
		{"road.final_drive", "3,7", "", ""},
	} {
		a := answered(t, address, map[string]any{"file": file, "entered": map[string]string{test.path: test.text}})
		if test.want == "" {
			if len(a.Faults) == 0 || !strings.Contains(a.Faults[test.path], test.fault) {
				t.Errorf("%s %q: got the faults %v, want %q", test.path, test.text, a.Faults, test.fault)
			}
			if len(a.Parts) > 0 || len(a.Figures) > 0 {
				t.Errorf("%s %q: refused, and still answered: %v", test.path, test.text, a.Parts)
			}
			continue
		}
		var complete map[string]any
		json.Unmarshal(a.File, &complete)
		if got := fmt.Sprint(lookUp(complete, test.path)); len(a.Faults) > 0 || got != test.want {
			t.Errorf("%s %q: got %s and the faults %v, want %s", test.path, test.text, got, a.Faults, test.want)
		}
	}
}

// Names come from anyone; none becomes markup.
func TestAnswerEscapesNames(t *testing.T) {
	t.Parallel()
	address := serve(t, testConfig(t, ""))
	const hostile = `<img src=x onerror=alert(1)>"'&{{.}}</script>`
	file := map[string]any{"name": hostile, "rpm": 2000, "shafts": []any{
		map[string]any{"name": hostile, "down": 1}, map[string]any{"down": 2}, map[string]any{"down": 5},
	}, "joints": []any{map[string]any{"name": hostile}, map[string]any{}}}
	for _, inputs := range []string{"measure", "bench", "class"} {
		a := answered(t, address, map[string]any{"file": file, "figures": []string{"views", "speed"}, "width": 900, "inputs": inputs, "before": file})
		if len(a.Faults) > 0 {
			t.Fatal(a.Faults)
		}
		for name, html := range a.Parts {
			if strings.Contains(html, "<img") || strings.Contains(html, "</script>") {
				t.Errorf("the part %s holds the name as markup: %s", name, html)
			}
		}
		for name, svg := range a.Figures {
			if strings.Contains(svg, "<img") {
				t.Errorf("the figure %s holds the name as markup", name)
			}
		}
	}
}

func TestBodies(t *testing.T) {
	t.Parallel()
	address := serve(t, testConfig(t, ""))
	deep := strings.Repeat(`{"shafts":[`, 5000) + strings.Repeat(`]}`, 5000)
	for _, test := range []struct {
		name, body string
		want       int
	}{
		{"empty", "", http.StatusBadRequest},
		{"not JSON", "shafts", http.StatusBadRequest},
		{"a list", "[]", http.StatusBadRequest},
		{"two objects", "{} {}", http.StatusBadRequest},
		{"cut off", `{"file": {"shafts": [`, http.StatusBadRequest},
		{"wrong kind", `{"file": 1}`, http.StatusBadRequest},
		{"too large", `{"entered": {"name": "` + strings.Repeat("x", maxBody) + `"}}`, http.StatusRequestEntityTooLarge},
		{"nested deep", `{"file": ` + deep + `}`, http.StatusBadRequest},
		{"no file", `{}`, http.StatusOK},
		{"null", `null`, http.StatusOK},
		{"absurd numbers", `{"file": {"shafts": [{"down": 1e999}, {"down": -1e-999}]}, "width": -1e300, "text": 1e300, "seq": 1}`, http.StatusOK},
	} {
		for _, path := range []string{"answer", "plans"} {
			if status, text := post(t, address, path, test.body); status != test.want {
				t.Errorf("%s to %s: got %d: %.200s, want %d", test.name, path, status, text, test.want)
			}
		}
	}
	for _, path := range []string{"turning", "figure", "report"} {
		if status, text := post(t, address, path, `{}`); status != http.StatusUnprocessableEntity {
			t.Errorf("no driveline to %s: got %d: %s", path, status, text)
		}
	}
	if response, err := http.Get(address + "answer"); err != nil || response.StatusCode != http.StatusMethodNotAllowed {
		t.Errorf("GET: got %v, %v", response.Status, err)
	}
}

func TestHundredClients(t *testing.T) {
	t.Parallel()
	address := serve(t, testConfig(t, ""))
	var wg sync.WaitGroup
	for i := range 100 {
		wg.Go(func() {
			file := map[string]any{"shafts": []any{map[string]any{"down": 0}, map[string]any{"down": i % 40}}}
			a := answered(t, address, map[string]any{"file": file, "seq": i})
			if want := fmt.Sprintf(`data-joint="0">%d.00°`, i%40); a.Seq != int64(i) || !strings.Contains(a.Parts["angles"], want) {
				t.Errorf("client %d: got %d and %s", i, a.Seq, a.Parts["angles"])
			}
		})
	}
	wg.Wait()
}

// A client that sends its body a byte at a time takes nobody's seat.
func TestSlowClient(t *testing.T) {
	t.Parallel()
	address := serve(t, testConfig(t, ""))
	host := strings.TrimSuffix(strings.TrimPrefix(address, "http://"), "/")
	for range 20 {
		slow, err := net.Dial("tcp", host)
		if err != nil {
			t.Fatal(err)
		}
		defer slow.Close()
		fmt.Fprintf(slow, "POST /answer HTTP/1.1\r\nHost: %s\r\nContent-Length: 1000\r\n\r\n{", host)
	}
	answered(t, address, map[string]any{"file": exampleFile(t, "one-piece.json")})
}

// A search ends when its client leaves.
func TestSearchEndsWithItsClient(t *testing.T) {
	t.Parallel()
	c := testConfig(t, "")
	began, ended := make(chan bool), make(chan bool)
	s := make(seats, 1)
	handler := s.work(func(ctx context.Context, w http.ResponseWriter, req *request) error {
		close(began)
		<-ctx.Done()
		close(ended)
		return ctx.Err()
	})
	ln, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	go Serve(t.Context(), ln, c.Guard.wrap(handler), nil)
	ctx, leave := context.WithCancel(t.Context())
	r, err := http.NewRequestWithContext(ctx, http.MethodPost, "http://"+ln.Addr().String()+"/", strings.NewReader("{}"))
	if err != nil {
		t.Fatal(err)
	}
	go http.DefaultClient.Do(r)
	<-began
	leave()
	select {
	case <-ended:
	case <-time.After(10 * time.Second):
		t.Error("the search goes on")
	}
}

func TestPlansAreTheCorrection(t *testing.T) {
	t.Parallel()
	address := serve(t, testConfig(t, ""))
	status, text := post(t, address, "plans", map[string]any{"file": exampleFile(t, "two-piece.json")})
	var got struct {
		Parts      map[string]string
		Drivelines []json.RawMessage
	}
	if err := json.Unmarshal([]byte(text), &got); err != nil || status != http.StatusOK {
		t.Fatalf("status %d, %v: %s", status, err, text)
	}
	if len(got.Drivelines) == 0 || !strings.Contains(got.Parts["plans"], `data-plan="1"`) {
		t.Fatalf("no plans: %s", text)
	}
	for i, file := range got.Drivelines {
		if _, err := survey.Read("", bytes.NewReader(file)); err != nil {
			t.Errorf("plan %d: %v", i+1, err)
		}
		if want := fmt.Sprintf(`data-plan="%d"`, i+1); !strings.Contains(got.Parts["plans"], want) {
			t.Errorf("no %s", want)
		}
	}
}

func TestDownloads(t *testing.T) {
	t.Parallel()
	address := serve(t, testConfig(t, ""))
	file := exampleFile(t, "one-piece.json")
	for format, begins := range map[string]string{"svg": "<?xml", "png": "\x89PNG", "pdf": "%PDF"} {
		status, text := post(t, address, "figure", map[string]any{"file": file, "figures": []string{"speed"}, "format": format})
		if status != http.StatusOK || !strings.HasPrefix(text, begins) {
			t.Errorf("%s: status %d, %.40q", format, status, text)
		}
	}
	for _, wrong := range []map[string]any{
		{"file": file, "figures": []string{"none"}, "format": "svg"},
		{"file": file, "figures": []string{"correction"}, "format": "svg"},
		{"file": file, "figures": []string{"speed"}, "format": "exe"},
	} {
		if status, text := post(t, address, "figure", wrong); status != http.StatusBadRequest {
			t.Errorf("%v: status %d: %.80s", wrong["figures"], status, text)
		}
	}
	status, text := post(t, address, "report", map[string]any{"file": file})
	if status != http.StatusOK || !strings.Contains(text, "never under a vehicle on a jack alone") {
		t.Errorf("report: status %d, %.200s", status, text)
	}
}

func TestCommand(t *testing.T) {
	t.Parallel()
	for file, want := range map[string]string{
		`{"shafts": [{"down": 3}, {"down": 7, "right": 2}, {"down": -4.5}], "rpm": 3000, "reading_error_deg": 0.1}`: "halfturn check --down 3,7,-4.5 --right 0,2,0 --rpm 3000 --reading-error 0.1",
		`{"shafts": [{"down": 0}, {"down": 12, "phase": 90}, {"down": 0}]}`:                                         "halfturn check --down 0,12,0 --phase 90",
		`{"shafts": [{"down": 3}, {"incline": 7}]}`:                                                                 fileCommand,
		`{"shafts": [{"down": [3, 4]}, {"down": 7}]}`:                                                               fileCommand,
		`{"shafts": [{"down": 3}, {"down": 7}], "joints": [{"kind": "double-cardan"}]}`:                             fileCommand,
	} {
		sv, err := survey.Read("", strings.NewReader(file))
		if err != nil {
			t.Fatal(err)
		}
		if got := command(sv); got != want {
			t.Errorf("%s: got %q, want %q", file, got, want)
		}
	}
}

func TestFaultOfTheProgram(t *testing.T) {
	t.Parallel()
	handler := make(seats, 1).work(func(context.Context, http.ResponseWriter, *request) error { panic("broken") })
	for range 3 { // the seat is free again after each
		w := httptest.NewRecorder()
		handler.ServeHTTP(w, httptest.NewRequest(http.MethodPost, "/", strings.NewReader("{}")))
		if w.Code != http.StatusInternalServerError || !strings.Contains(w.Body.String(), "a fault of the program: broken") {
			t.Errorf("got %d: %s", w.Code, w.Body)
		}
	}
}

func FuzzEnter(f *testing.F) {
	for path, text := range map[string]string{
		"shafts.1.down": "3,9 up", "shafts.1.turned": "3", "shafts.9.down": "1", "shafts.1": "x", "road.tyre": "1", "": "1", ".": "", "shafts..down": "3",
		"poses.0.shafts.0.down": "5", "joints.0.companion": "a; b", "units.x": "1",
	} {
		f.Add(path, text)
	}
	f.Fuzz(func(t *testing.T, path, text string) {
		file := map[string]any{
			"units": "in", "shafts": []any{map[string]any{"down": json.Number("1")}, map[string]any{"incline": json.Number("2")}, "no shaft", nil},
			"poses": []any{map[string]any{"shafts": []any{map[string]any{}}}},
		}
		enter(file, map[string]string{path: text})
		if _, err := json.Marshal(file); err != nil {
			t.Errorf("%q: %q leaves a file that cannot be written: %v", path, text, err)
		}
	})
}

// However narrow the page, every figure is drawn, with room for its data: it becomes
// taller.
func TestFiguresOfNarrowPages(t *testing.T) {
	t.Parallel()
	address := serve(t, testConfig(t, ""))
	var names []string
	for _, d := range drawings {
		if d.Of == 1 {
			names = append(names, d.Name)
		}
	}
	for _, file := range []string{"two-piece.json", "three-piece.json"} {
		for _, size := range [][2]float64{{narrowest, 0}, {390, 0}, {390, 700}, {800, 360}} {
			a := answered(t, address, map[string]any{"file": exampleFile(t, file), "figures": names, "width": size[0], "height": size[1]})
			for _, name := range names {
				if strings.Contains(a.Figures[name], "refused") {
					t.Errorf("%s: %s on %g × %g: %s", file, name, size[0], size[1], a.Figures[name])
				}
				for i, p := range a.Axes[name] {
					if em := 12 * pixel; p.Area.Size().Y < 6*em-1 {
						t.Errorf("%s: %s on %g × %g: data of panel %d are %.1f em high, want 6", file, name, size[0], size[1], i+1, p.Area.Size().Y/em)
					}
				}
			}
		}
	}
}
