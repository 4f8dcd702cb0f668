package live

import (
	"context"
	"net/http/httptest"
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
