package live

import (
	"fmt"
	"strconv"
	"testing"
	"time"

	"halfturn/plotting"
)

func TestClass(t *testing.T) {
	for _, width := range widths {
		t.Run(fmt.Sprint(width), func(t *testing.T) {
			address := serve(t, testConfig(t, ""))
			p := open(t, address+"#class", width, 800)
			p.agrees()
			p.fits()
			first := p.text("#lesson-title")
			p.wait(`document.querySelector('#frame svg') && document.querySelectorAll('[data-figure] .mark').length === 2`)

			// The presenter's clicker, also from within a slider.
			p.press("PageDown")
			p.agrees()
			p.press("PageDown")
			p.agrees()
			if got := p.text("#lesson-title"); got != "Two joints cancel" {
				t.Errorf("two pages on: %q", got)
			}
			p.eval(`document.querySelector('[data-slide]').focus()`)
			p.press("PageUp")
			p.press("PageUp")
			p.agrees()
			if got := p.text("#lesson-title"); got != first {
				t.Errorf("back by two pages: %q, want %q", got, first)
			}
			if got := p.carried().Survey.Shafts[1].Slope.Mean(); got != 30 {
				t.Errorf("the slider took the page key: %v°", got)
			}

			// The axes stay while a slider moves, and the start is still to be seen.
			ticks := `['10', '−10', '360'].map(n => [...document.querySelectorAll('[data-figure="speed"] text')].filter(t => t.textContent === n)
				.map(t => t.getBoundingClientRect()).map(r => [n, Math.round(r.x), Math.round(r.y)])).join(' ')`
			held := p.eval(ticks)
			p.eval(`document.querySelector('[data-slide]').focus()`)
			p.press("ArrowLeft")
			p.press("ArrowLeft")
			if got := p.agrees().Survey.Shafts[1].Slope.Mean(); got != 29 {
				t.Errorf("two steps of the slider: %v°, want 29°", got)
			}
			if got := p.eval(ticks); got != held {
				t.Errorf("the axes moved: %q, were %q", got, held)
			}
			p.wait(`document.querySelector('[data-figure="speed"]').textContent.includes('at the start')`)

			// Play turns the yokes and the mark.
			at := `document.querySelector('.mark').getAttribute('cx')`
			before := p.eval(at)
			p.click(`[data-do="play"]`)
			p.wait(fmt.Sprintf(`%s !== %q`, at, before))
			p.click(`[data-do="play"]`)
			p.eval(`{ const s = document.querySelector('#theta'); s.value = 90; s.dispatchEvent(new Event('input')); }`)
			quarter, _ := strconv.ParseFloat(p.eval(at), 64)
			p.eval(`{ const s = document.querySelector('#theta'); s.value = 0; s.dispatchEvent(new Event('input')); }`)
			zero, _ := strconv.ParseFloat(p.eval(at), 64)
			p.eval(`{ const s = document.querySelector('#theta'); s.value = 180; s.dispatchEvent(new Event('input')); }`)
			half, _ := strconv.ParseFloat(p.eval(at), 64)
			if d := (half - zero) - 2*(quarter-zero); half <= zero || d*d > 1e-6 {
				t.Errorf("the mark stands at %v, %v, %v for 0°, 90°, 180°", zero, quarter, half)
			}

			// The link carries it all into another tab.
			link := p.eval(`document.querySelector('#link').href`)
			q := open(t, link, width, 800)
			q.agrees()
			if got := q.carried().Survey.Shafts[1].Slope.Mean(); got != 29 || q.text("#lesson-title") != first {
				t.Errorf("by its link: %v° in %q", got, q.text("#lesson-title"))
			}
			p.quiet(address)
			q.quiet(address)
		})
	}
}

// Who wants less motion is not shown any unasked.
func TestReducedMotion(t *testing.T) {
	address := serve(t, testConfig(t, ""))
	p := open(t, address+"#class", 1280, 800)
	p.prefer("prefers-reduced-motion", "reduce")
	p.agrees()
	p.wait(`document.querySelector('#frame svg')`)
	before := p.eval(`document.querySelector('#theta').value`)
	p.click(`[data-do="play"]`)
	p.wait(fmt.Sprintf(`document.querySelector('#theta').value !== %q`, before))
	now := p.eval(`document.querySelector('#theta').value`)
	time.Sleep(200 * time.Millisecond) // a dozen frames, had it been told to play
	if got := p.eval(`document.querySelector('#theta').value`); got != now {
		t.Errorf("it goes on from %s to %s", now, got)
	}
	if got := p.eval(`document.querySelector('[data-do="play"]').getAttribute('aria-pressed')`); got != "false" {
		t.Error("it plays on")
	}
}

// Every lesson is answered, with its figure.
func TestLessons(t *testing.T) {
	address := serve(t, testConfig(t, ""))
	p := open(t, address+"#class", 1280, 800)
	p.agrees()
	for i, l := range plotting.Lessons() {
		if i > 0 {
			p.press("PageDown")
		}
		p.agrees()
		if got := p.text("#lesson-title"); got != l.Title {
			t.Errorf("lesson %d: %q, want %q", i+1, got, l.Title)
		}
		p.wait(fmt.Sprintf(`document.querySelector('[data-figure="%s"] svg')`, lessons[l.Name].figure))
		if got := p.eval(`document.querySelectorAll('#inputs [data-slide]').length`); got != fmt.Sprint(len(lessons[l.Name].sliders)) {
			t.Errorf("%s: %s sliders", l.Name, got)
		}
	}
	p.press("PageDown") // there is none after the last
	p.agrees()
	p.quiet(address)
}
