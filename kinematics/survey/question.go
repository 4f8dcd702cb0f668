package survey

import (
	"cmp"
	"fmt"
	"math"
	"slices"
)

// What is seldom meant, though it may be. Common practice, no source.
const (
	leastTyre, greatestTyre   = 200, 2500  // diameter, mm
	leastShaft, greatestShaft = 150, 4000  // length between two joints, mm
	steepOnRoad               = 45         // slope of a shaft of a road vehicle, deg
	slowOnRoad, fast          = 50, 10_000 // rpm
	greatZero                 = 2          // of a gauge that works, deg
)

// Questions returns what to ask back before a valid driveline is judged, because
// it is seldom meant: each is one line of shop words that begins with what it is
// about. road says whether the driveline is judged as one of a road vehicle, whose
// shafts lie nearly level.
func (s *Survey) Questions(road bool) []string {
	s = s.Complete()
	unit := map[Unit]string{Millimetre: "mm", Inch: "inches"}[s.Units]
	var list []string
	ask := func(format string, args ...any) { list = append(list, fmt.Sprintf(format, args...)) }
	if g := s.Gearing(); g != nil {
		mm := 2000 * g.Radius // as it rolls, a few per cent below its diameter
		if mm < leastTyre || mm > greatestTyre {
			ask("tyre: it rolls as one of %s mm across: is its size in %s, and not in another unit?", quantity(rounded(mm), ""), unit)
		}
	}
	switch rpm := s.ShaftRPM(); {
	case rpm > fast:
		ask("speed: the shafts turn at %.0f rev/min: is that meant?", rpm)
	case road && 0 < rpm && rpm < slowOnRoad:
		ask("speed: the shafts turn at %s rev/min: is that meant, or does a point part thousands?", quantity(rounded(rpm), ""))
	}
	lengths := s.Lengths()
	for i, sh := range s.Shafts {
		if asked := OnFlange(sh.Slope.Mean()); road && asked != "" {
			ask("%s: %s: %s.", sh.Name, quantity(rounded(sh.Slope.Mean()), "deg"), asked)
		}
		if zero, ok := sh.Slope.GaugeZero(); ok && math.Abs(zero) > s.greatestZero() {
			ask("%s: turned end for end the gauge shows %s instead of %s: is the sign of one of them the other way?",
				sh.Name, quantity(sh.Slope.Deg[1], "deg"), quantity(sh.Slope.Deg[0], "deg"))
		}
		if sh.Slope.By != ByTurned && !sh.Slope.Deg.Agree(s.ReadingErrorDeg) {
			ask("%s", misread(sh.Name, "slope", sh.Slope.Deg))
		}
		if sh.Heading.By == ByRight && !sh.Heading.Values.Agree(s.ReadingErrorDeg) {
			ask("%s", misread(sh.Name, "heading", sh.Heading.Values))
		}
		mm := s.Units.Millimetres(lengths[i])
		if s.between(i) && mm > 0 && (mm < leastShaft || mm > greatestShaft) {
			ask("%s: %s from joint to joint: is that in %s, and not in another unit?",
				sh.Name, quantity(rounded(lengths[i]), string(s.Units)), unit)
		}
	}
	return list
}

// greatestZero is what the zero of the gauge may show as where it is turned, in deg.
func (s *Survey) greatestZero() float64 {
	if s.GaugeErrorDeg == 0 {
		return greatZero
	}
	return s.GaugeErrorDeg + s.ReadingErrorDeg
}

// OnFlange asks whether a steep slope in degrees was read on the face of a flange, which
// stands square to the shaft, in words that go on after what they are about; "" of one that
// hardly was.
func OnFlange(slope float64) string {
	if size := math.Abs(slope); !(steepOnRoad < size && size < 180-steepOnRoad) {
		return ""
	}
	return fmt.Sprintf("read on a flange face? Then enter %s, as along the shaft",
		quantity(rounded(math.Copysign(90, slope)-slope), "deg"))
}

// misread asks about readings that do not agree, and which of them stands alone.
func misread(shaft, angle string, readings Readings) string {
	sorted := slices.Sorted(slices.Values(readings))
	apart := quantity(rounded(sorted[len(sorted)-1]-sorted[0]), "deg")
	which := "is one of them misread?"
	if len(readings) > 2 {
		middle := sorted[len(sorted)/2]
		far := slices.MaxFunc(sorted, func(a, b float64) int { return cmp.Compare(math.Abs(a-middle), math.Abs(b-middle)) })
		which = fmt.Sprintf("is %s misread?", quantity(far, "deg"))
	}
	return fmt.Sprintf("%s: the readings of its %s lie %s apart: %s Read it again; the mean counts it.",
		shaft, angle, apart, which)
}

// rounded drops what nobody measures.
func rounded(v float64) float64 { return math.Round(v*100) / 100 }
