package page

import (
	"fmt"
	"image/color"
	"math"
	"testing"

	"gonum.org/v1/plot/vg/draw"
)

// sights are linear-RGB matrices of what protan, deutan and tritan eyes see at full
// severity, from G. M. Machado, M. M. Oliveira and L. A. F. Fernandes, "A
// Physiologically-based Model for Simulation of Color Vision Deficiency", IEEE TVCG 15
// (2009), table of severity 1.0. The figures are from memory; each row summing to 1
// guards against slips.
var sights = map[string][3][3]float64{
	"full":   {{1, 0, 0}, {0, 1, 0}, {0, 0, 1}},
	"protan": {{0.152286, 1.052583, -0.204868}, {0.114503, 0.786281, 0.099216}, {-0.003882, -0.048116, 1.051998}},
	"deutan": {{0.367322, 0.860646, -0.227968}, {0.280085, 0.672501, 0.047413}, {-0.011820, 0.042940, 0.968881}},
	"tritan": {{1.255528, -0.076749, -0.178779}, {-0.078411, 0.930809, 0.147602}, {0.004733, 0.691367, 0.303900}},
}

type triple [3]float64

func linear(c color.RGBA) triple {
	var l triple
	for i, v := range []uint8{c.R, c.G, c.B} {
		s := float64(v) / 255
		if s <= 0.04045 {
			l[i] = s / 12.92
		} else {
			l[i] = math.Pow((s+0.055)/1.055, 2.4)
		}
	}
	return l
}

func times(m [3][3]float64, v triple) triple {
	var out triple
	for i := range out {
		for k := range v {
			out[i] += m[i][k] * v[k]
		}
	}
	return out
}

// lab returns CIE L*a*b* (D65) of linear sRGB.
func lab(rgb triple) triple {
	m := [3][3]float64{{0.4124564, 0.3575761, 0.1804375}, {0.2126729, 0.7151522, 0.0721750}, {0.0193339, 0.1191920, 0.9503041}}
	white := times(m, triple{1, 1, 1})
	for i := range rgb {
		rgb[i] = min(max(rgb[i], 0), 1)
	}
	xyz := times(m, rgb)
	var f triple
	for i := range xyz {
		if t := xyz[i] / white[i]; t > 216./24389 {
			f[i] = math.Cbrt(t)
		} else {
			f[i] = (24389./27*t + 16) / 116
		}
	}
	return triple{116*f[1] - 16, 500 * (f[0] - f[1]), 200 * (f[1] - f[2])}
}

func distance(a, b triple) float64 {
	return math.Hypot(math.Hypot(a[0]-b[0], a[1]-b[1]), a[2]-b[2])
}

func TestCurveColoursStayApart(t *testing.T) {
	t.Parallel()
	colours := []color.RGBA{Navy, plum, moss, Signal, Lagoon, sand} // darkest first
	for sight, m := range sights {
		for _, row := range m {
			if sum := row[0] + row[1] + row[2]; math.Abs(sum-1) > 5e-6 { // six printed digits a term
				t.Errorf("%s: row sums to %v, want 1", sight, sum)
			}
		}
		for i, a := range colours {
			for _, b := range colours[:i] {
				// 2.3 is a just noticeable difference; several times that is plain even
				// for thin lines.
				if d := distance(lab(times(m, linear(a))), lab(times(m, linear(b)))); d < 15 {
					t.Errorf("%s sight: colours %v and %v differ by %.1f, want at least 15", sight, a, b, d)
				}
			}
		}
	}
	for i, c := range colours {
		lightness := lab(linear(c))[0]
		if lightness > 63 { // contrast of 3:1 to paper, as WCAG 2.1 asks of graphics, is L* 62
			t.Errorf("colour %v: lightness %.1f, want at most 63 on white paper", c, lightness)
		}
		if i > 0 {
			if step := lightness - lab(linear(colours[i-1]))[0]; step < 7 {
				t.Errorf("colour %v is %.1f lighter than the one before, want at least 7 for grey print", c, step)
			}
		}
	}
}

func TestPensDiffer(t *testing.T) {
	t.Parallel()
	look := func(p draw.LineStyle) string { return fmt.Sprint(p.Color, p.Dashes) }
	seen := map[string]bool{look(Accent()): true}
	for i := range 30 {
		p := Pen(i)
		if seen[look(p)] {
			t.Errorf("pen %d looks like an earlier one: %s", i, look(p))
		}
		seen[look(p)] = true
		if next := Pen(i + 1); p.Color == next.Color || fmt.Sprint(p.Dashes) == fmt.Sprint(next.Dashes) {
			t.Errorf("pens %d and %d share a colour or a dash: want both to differ", i, i+1)
		}
		if p.Color == Accent().Color || p.Width*1.5 > Accent().Width {
			t.Errorf("pen %d: too like the accent", i)
		}
	}
}

func TestBandsDarkenEvenly(t *testing.T) {
	t.Parallel()
	last := 101.
	for i := range 21 {
		c := color.RGBAModel.Convert(band(float64(i) / 20)).(color.RGBA)
		lightness := lab(linear(c))[0]
		if step := last - lightness; i > 0 && (step < 2 || step > 6) { // 95 to 22 in 20 steps: 3.7 each, 8-bit rounding
			t.Errorf("step %d: lightness falls by %.2f, want about 3.7", i, step)
		}
		last = lightness
	}
	if band(-1) != band(0) || band(2) != band(1) {
		t.Error("values beyond the scale: want the colours of its ends")
	}
}
