package plotting

import (
	"fmt"
	"strings"

	"halfturn/plotting/page"
)

// Compare returns the figure of several drivelines: what is left at the last shaft of
// each, as speed and, where all speeds are known, as acceleration, each at its own speed.
func Compare(cases []*Case) (*page.Figure, error) {
	if len(cases) < 2 || len(cases) > mostCases {
		return nil, fmt.Errorf("compare: %d drivelines: want 2 to %d", len(cases), mostCases)
	}
	known := true
	for _, c := range cases {
		if err := c.check(); err != nil {
			return nil, err
		}
		known = known && c.RPM > 0
	}
	f := &page.Figure{Title: "Which turns most evenly?", Subtitle: "The last shaft of each driveline", Caption: compareCaption(cases)}
	speeds := speed.panel(Driving)
	names := numbered(cases)
	for i, c := range cases {
		m := c.Analysis.Driving[c.last()]
		curve := speed.curve(names[i], m, page.Pen(i))
		curve.End = fmt.Sprint(i + 1)
		speeds.Add(curve)
	}
	f.Add(speeds)
	if known {
		speeds.X.Bare = true
		accels := accelerationOf(cases[0].RPM).panel(Driving)
		for i, c := range cases {
			curve := accelerationOf(c.RPM).curve(names[i], c.Analysis.Driving[c.last()], page.Pen(i))
			curve.End = fmt.Sprint(i + 1)
			accels.Add(curve)
		}
		f.Add(accels)
		f.Size = page.Tall
	}
	return f, nil
}

// mostCases is the number of pens that differ.
const mostCases = 30

// numbered returns the names of cases in the legend, with the numbers that their curves
// carry.
func numbered(cases []*Case) []string {
	var names []string
	for _, c := range cases {
		names = append(names, c.Name)
	}
	names = shortened(names, roomFor(names))
	for i, c := range cases {
		names[i] = fmt.Sprintf("%d  %s", i+1, names[i])
		if c.RPM > 0 {
			names[i] += ", " + revolutions(c.RPM)
		}
	}
	return names
}

func compareCaption(cases []*Case) string {
	var left []string
	for i, c := range cases {
		left = append(left, fmt.Sprintf("%d: %s", i+1, degrees(c.Analysis.SecondOrder.Exact)))
	}
	return "What is left, as one joint at: " + strings.Join(left, ", ") + "."
}
