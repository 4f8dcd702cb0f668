package adjust

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/optimize"

	"halfturn/kinematics"
	"halfturn/kinematics/survey"
)

// scanSteps across the range of a change that can take any value.
const scanSteps = 24

// freeTries is about how often such a change is tried.
const freeTries = 3 * scanSteps

// worthwhile is how much more guarded room another value must leave, in parts of
// a limit, to be preferred. Where room is decided by something that a change does
// not touch, values differ by rounding only.
const worthwhile = 1e-4

// release sets the free ones of the settings where the guarded room is largest
// and returns the room. Each is first scanned across its range, beside the rest
// as they are, then all are refined together. A clocking begins with the phase
// that leaves the least fluctuation at the last shaft, and keeps it unless
// another leaves more room.
//
// Once nothing that a clocking can change decides the room, clockings are left
// as they are.
//
// A scan can miss a peak narrower than a step; the refinement finds a local
// maximum.
func (b bench) release(settings []setting, free []int) room {
	for _, i := range free {
		asked := settings[i].asked
		settings[i].value = min(max(0, asked.From), asked.To)
	}
	best := b.try(settings)
	attempt := func(i int, value, gain float64) {
		was := settings[i].value
		settings[i].value = value
		if r := b.try(settings); r.guarded > best.guarded+gain {
			best = r
		} else {
			settings[i].value = was
		}
	}
	settled := func(i int) bool { return settings[i].clocks() && best.guarded == best.bends }
	for range free { // once more for each, since they depend on each other
		for _, i := range free {
			if angle, ok := b.bestClocking(settings, i); ok && !settled(i) {
				attempt(i, angle, -worthwhile)
			}
			asked := settings[i].asked
			for n := 0; n <= scanSteps && !settled(i); n++ {
				attempt(i, asked.From+float64(n)/scanSteps*(asked.To-asked.From), worthwhile)
			}
		}
	}
	if best != impossible && slices.ContainsFunc(free, func(i int) bool { return !settled(i) }) {
		b.refine(settings, free, best)
	}
	for _, i := range free {
		settings[i].value = makeable(settings[i].value)
	}
	return b.try(settings)
}

func (c *change) clocks() bool { return c.asked.Change == survey.ChangeClocking }

// makeable drops the digits of a free value that nobody can make: below 0.01 deg
// or mm or in.
func makeable(value float64) float64 { return math.Round(value*100)/100 + 0 }

// bestClocking returns the setting of clocking i within its range that leaves
// the least fluctuation at the last shaft in the first pose; of those half a turn
// apart, the smallest. ok is false for another change, and where there is none.
func (b bench) bestClocking(settings []setting, i int) (deg float64, ok bool) {
	set, r := settings[i], &b[0]
	if !set.clocks() || r.set(settings) != nil {
		return 0, false
	}
	best, err := r.d.BestPhase(set.joint)
	if err != nil || !best.Matters {
		return 0, false
	}
	deg = math.Remainder((best.Phase-r.geometry.shafts[set.joint].Phase)/kinematics.Degree, 180)
	switch {
	case deg < set.asked.From:
		deg += 180
	case deg > set.asked.To:
		deg -= 180
	}
	return deg, set.asked.From <= deg && deg <= set.asked.To
}

// refine looks for more room near the free settings by the method of Nelder and
// Mead, and leaves them as they are when it finds none worth while.
func (b bench) refine(settings []setting, free []int, best room) {
	kept, start := make([]float64, len(free)), make([]float64, len(free))
	for n, i := range free {
		kept[n] = settings[i].value
	}
	// The variables are offsets from there in steps of the scan.
	place := func(x []float64) {
		for n, i := range free {
			asked := settings[i].asked
			value := kept[n] + x[n]*(asked.To-asked.From)/scanSteps
			settings[i].value = min(max(value, asked.From), asked.To)
		}
	}
	lack := func(x []float64) float64 {
		place(x)
		return -max(b.try(settings).guarded, -math.MaxFloat64)
	}
	found, err := optimize.Minimize(optimize.Problem{Func: lack}, start,
		&optimize.Settings{FuncEvaluations: freeTries * len(free), Converger: &optimize.FunctionConverge{Absolute: worthwhile / 10, Iterations: 8}},
		&optimize.NelderMead{SimplexSize: 0.5})
	if err != nil || -found.F <= best.guarded+worthwhile {
		place(start)
		return
	}
	place(found.X)
}
