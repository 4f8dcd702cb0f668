package live

import (
	"context"
	"encoding/json"
	"fmt"
	"net/http/httptest"
	"slices"
	"testing"
)

// BenchmarkAnswer computes what a moving slider asks for: answer, angles, details,
// views and speed of the two-piece line, drawn for a telephone and for a screen.
func BenchmarkAnswer(b *testing.B) {
	for name, moving := range map[string]bool{"moving": true, "rest": false} {
		b.Run(name, func(b *testing.B) {
			s := &server{config: testConfig(b, "")}
			for b.Loop() {
				req := &request{
					File: exampleFile(b, "two-piece.json"), Entered: map[string]string{"shafts.2.down": "6,2"},
					Figures: []string{"views", "speed"}, Width: 800, Text: 12, Moving: moving,
				}
				w := httptest.NewRecorder()
				if err := s.answer(context.Background(), w, req); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// BenchmarkTurning draws the yokes of half a turn, as a class fetches them at rest.
func BenchmarkTurning(b *testing.B) {
	s := &server{config: testConfig(b, "")}
	for b.Loop() {
		w := httptest.NewRecorder()
		req := &request{File: exampleFile(b, "two-piece.json"), Width: 900, Text: 12, Frames: 36}
		if err := s.turning(context.Background(), w, req); err != nil {
			b.Fatal(err)
		}
		b.ReportMetric(float64(w.Body.Len())/1e6, "MB")
	}
}

// BenchmarkInputToSettled measures in a browser what a person at the bench waits: from
// a step of a slider to the page that shows answer, angles, views and speed of it.
func BenchmarkInputToSettled(b *testing.B) {
	p := open(b, serve(b, testConfig(b, "two-piece.json")), 1280, 800)
	p.settled()
	p.eval(`{
		const box = document.querySelector('#chooser input[value="vectors"]');
		box.checked = false;
		box.dispatchEvent(new Event('change', {bubbles: true}));
	}`)
	p.settled()
	var times []float64
	for i := 0; b.Loop(); i++ {
		text := p.eval(fmt.Sprintf(`new Promise(done => setTimeout(() => {
			const slider = document.querySelector('[data-slide="shafts.2.down"]');
			const began = performance.now();
			new MutationObserver((_, observer) => {
				if (document.body.dataset.settled !== 'true') return;
				observer.disconnect();
				done(performance.now() - began);
			}).observe(document.body, {attributes: true});
			slider.value = 6.1 + %d / 10;
			slider.dispatchEvent(new Event('input', {bubbles: true}));
		}, 200))`, i%20-10))
		var ms float64
		if err := json.Unmarshal([]byte(text), &ms); err != nil {
			b.Fatal(err)
		}
		times = append(times, ms)
	}
	slices.Sort(times)
	b.ReportMetric(times[len(times)/2], "ms-median")
	b.ReportMetric(times[len(times)*95/100], "ms-p95")
	b.ReportMetric(0, "ns/op") // which counts the rest between two steps
}
