package plotting

import (
	"math"

	"gonum.org/v1/plot/plotter"
)

// An arrow of a vector diagram goes from its tail to its head, bowed aside where it would
// lie on another.
type arrow struct {
	from, to plotter.XY
	bow      float64 // how far its middle is to the left of the straight way
	like     int     // the first arrow with the same ends: itself, or one that it lies on
}

func (a arrow) length() float64 { return math.Hypot(a.to.X-a.from.X, a.to.Y-a.from.Y) }

// at returns where the arrow is a part of its way from its tail, along a parabola.
func (a arrow) at(part float64) plotter.XY {
	dx, dy := a.to.X-a.from.X, a.to.Y-a.from.Y
	p := plotter.XY{X: a.from.X + part*dx, Y: a.from.Y + part*dy}
	if a.bow != 0 {
		aside := 4 * part * (1 - part) * a.bow / a.length()
		p.X, p.Y = p.X-aside*dy, p.Y+aside*dx
	}
	return p
}

// course returns points along the arrow, both ends included.
func (a arrow) course(steps int) []plotter.XY {
	if a.bow == 0 {
		return []plotter.XY{a.from, a.to}
	}
	points := make([]plotter.XY, steps+1)
	for i := range points {
		points[i] = a.at(float64(i) / float64(steps))
	}
	return points
}

// tellApart bows arrows aside, each as little as keeps it off the closing arrow and those
// before it, as far as the eye can tell in a diagram of a width. Their ends stay where
// they are.
func tellApart(arrows []arrow, closing arrow, width float64) {
	step := width / 26 // between lines that are seen apart
	placed := []arrow{closing}
	for k := range arrows {
		a := &arrows[k]
		if a.like = first(arrows[:k+1], 0.02*step); a.like < k {
			a.bow = arrows[a.like].bow
			continue
		}
		least := math.Inf(1)
		for _, bow := range bows(a.length(), step) {
			tried := *a
			tried.bow = bow
			covered := 0.0
			for _, other := range placed {
				covered += tried.covers(other, 0.6*step)
			}
			if covered < least {
				a.bow, least = bow, covered
			}
			if least == 0 {
				break
			}
		}
		placed = append(placed, *a)
	}
}

// width is the larger side of the box around points.
func width(points []plotter.XY) float64 {
	xmin, xmax, ymin, ymax := plotter.XYRange(plotter.XYs(points))
	return max(xmax-xmin, ymax-ymin)
}

// first returns the first of the arrows whose ends are those of the last one.
func first(arrows []arrow, slack float64) int {
	last := arrows[len(arrows)-1]
	for i, a := range arrows {
		if (arrow{from: a.from, to: last.from}).length() <= slack && (arrow{from: a.to, to: last.to}).length() <= slack {
			return i
		}
	}
	return len(arrows) - 1
}

// bows returns how far an arrow may be bowed, from not at all to half of its length to
// either side.
func bows(length, step float64) []float64 {
	const most = 8 // steps
	list := []float64{0}
	if length/2 < step {
		list = append(list, length/2, -length/2)
	}
	for n := 1.0; n <= most && n*step <= length/2; n++ {
		list = append(list, n*step, -n*step)
	}
	return list
}

// covers returns the part of two arrows, the larger one, on which they are closer than a
// distance, their ends left aside. What is no more than at a crossing is 0.
func (a arrow) covers(b arrow, distance float64) float64 {
	const crossing = 0.3
	part := max(a.alongside(b, distance), b.alongside(a, distance))
	if part <= crossing {
		return 0
	}
	return part
}

// alongside returns the part of a, its ends left aside, that is close to b.
func (a arrow) alongside(b arrow, distance float64) float64 {
	const samples = 8
	near, course := 0.0, b.course(12)
	for i := range samples {
		if apart(a.at(0.2+0.6*(float64(i)+0.5)/samples), course) < distance {
			near++
		}
	}
	return near / samples
}

// apart is the distance of a point from a line through points.
func apart(p plotter.XY, line []plotter.XY) float64 {
	least := math.Inf(1)
	for i := 1; i < len(line); i++ {
		a, b := line[i-1], line[i]
		dx, dy := b.X-a.X, b.Y-a.Y
		along := 0.0
		if square := dx*dx + dy*dy; square > 0 {
			along = min(max(((p.X-a.X)*dx+(p.Y-a.Y)*dy)/square, 0), 1)
		}
		least = min(least, math.Hypot(p.X-a.X-along*dx, p.Y-a.Y-along*dy))
	}
	return least
}
