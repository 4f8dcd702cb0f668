package live

import (
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"halfturn/plotting/page"
)

// The mark runs along the curve that is drawn: every position of a track lies on a
// path of the figure.
func TestTracksLieOnTheirCurves(t *testing.T) {
	t.Parallel()
	address := serve(t, testConfig(t, ""))
	for _, name := range []string{"speed", "acceleration"} {
		a := answered(t, address, map[string]any{"file": exampleFile(t, "two-piece.json"), "figures": []string{name}, "width": 700})
		if len(a.Tracks[name]) == 0 {
			t.Errorf("%s: no track", name)
		}
		lines := curves(t, a.Figures[name])
		for i, track := range a.Tracks[name] {
			if len(track) != trackSteps+1 {
				t.Fatalf("%s: %d positions", name, len(track))
			}
			for k, at := range track {
				near := math.Inf(1)
				for _, line := range lines {
					near = min(near, distance(line, float64(at[0]), float64(at[1])))
				}
				if near > 0.1 { // pt; curves are thinned to a tenth of that
					t.Errorf("%s: track %d, position %d: %.2f pt off every curve", name, i, k, near)
					break
				}
			}
		}
	}
}

// curves returns the points of the heavy curves of an SVG, counted from its upper
// left corner.
func curves(t *testing.T, svg string) [][][2]float64 {
	t.Helper()
	box := regexp.MustCompile(`viewBox="0 0 \S+ (\S+)"`).FindStringSubmatch(svg)
	height, err := strconv.ParseFloat(box[1], 64)
	must(t, err)
	flipped := strings.Contains(svg, "scale(1,-1)") || strings.Contains(svg, "scale(1, -1)")
	accent := page.Accent().Color
	r, g, b, _ := accent.RGBA()
	hex := regexp.MustCompile(`(?i)<path [^>]*d="([^"]*)"[^>]*stroke="#` + strconv.FormatUint(uint64(r>>8<<16|g>>8<<8|b>>8), 16) + `"[^>]*>`)
	var lines [][][2]float64
	for _, path := range hex.FindAllStringSubmatch(svg, -1) {
		var line [][2]float64
		for _, point := range regexp.MustCompile(`(-?[\d.]+)[ ,](-?[\d.]+)`).FindAllStringSubmatch(path[1], -1) {
			x, errX := strconv.ParseFloat(point[1], 64)
			y, errY := strconv.ParseFloat(point[2], 64)
			must(t, errX)
			must(t, errY)
			if flipped {
				y = height - y
			}
			line = append(line, [2]float64{x, y})
		}
		lines = append(lines, line)
	}
	if len(lines) == 0 {
		t.Fatalf("no heavy curve in %.2000s", svg)
	}
	return lines
}

// distance returns how far a point is from a line of straight pieces.
func distance(line [][2]float64, x, y float64) float64 {
	least := math.Inf(1)
	for i := 1; i < len(line); i++ {
		a, b := line[i-1], line[i]
		dx, dy := b[0]-a[0], b[1]-a[1]
		part := 0.0
		if l := dx*dx + dy*dy; l > 0 {
			part = min(max(((x-a[0])*dx+(y-a[1])*dy)/l, 0), 1)
		}
		least = min(least, math.Hypot(x-a[0]-part*dx, y-a[1]-part*dy))
	}
	return least
}
