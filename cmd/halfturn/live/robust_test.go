package live

import (
	"fmt"
	"net/http"
	"net/http/httptest"
	"strings"
	"sync/atomic"
	"testing"
	"time"
)

// A drag of three seconds asks for no more than can be answered, one at a time, shows
// what it asked for last, and says it to a screen reader once.
func TestDrag(t *testing.T) {
	c := testConfig(t, "two-piece.json")
	handler, err := New(c)
	must(t, err)
	var under, most, asked atomic.Int32
	server := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if r.URL.Path == "/answer" {
			asked.Add(1)
			if n := under.Add(1); n > most.Load() {
				most.Store(n)
			}
			defer under.Add(-1)
		}
		handler.ServeHTTP(w, r)
	}))
	t.Cleanup(server.Close)
	p := open(t, server.URL+"/", 1280, 800)
	p.settled()
	p.eval(`window.spoken = 0; new MutationObserver(() => window.spoken++).observe(document.querySelector('#status'), {childList: true, characterData: true, subtree: true})`)
	before := asked.Load()
	slider := `[data-slide="shafts.2.down"]`
	p.eval(fmt.Sprintf(`new Promise(done => {
		const slider = document.querySelector(%q), from = Number(slider.value);
		slider.dispatchEvent(new PointerEvent('pointerdown', {bubbles: true}));
		window.unsettled = 0;
		let i = 0;
		const timer = setInterval(() => {
			slider.value = from + 2 * Math.sin(i / 20);
			slider.dispatchEvent(new Event('input', {bubbles: true}));
			if (document.body.dataset.settled === 'false') window.unsettled++;
			if (++i < 180) return;
			clearInterval(timer);
			slider.value = from + 1;
			slider.dispatchEvent(new Event('input', {bubbles: true}));
			dispatchEvent(new PointerEvent('pointerup', {bubbles: true}));
			done(true);
		}, 1000 / 60);
	})`, slider))
	f := p.agrees()
	if got := f.Survey.Shafts[2].Slope.Mean(); got != 7.1 {
		t.Errorf("it ends at %v, want 7.1", got)
	}
	if got := p.eval(`window.unsettled`); got != "180" {
		t.Errorf("of 180 events %s unsettled the page at once", got)
	}
	if n := asked.Load() - before; n < 3 || n > 182 {
		t.Errorf("asked %d times in 181 events", n)
	}
	if most.Load() > 1 {
		t.Errorf("%d requests at a time", most.Load())
	}
	if got := p.eval(`window.spoken`); got != "1" {
		t.Errorf("told %s times to a screen reader, want once, at rest", got)
	}
	p.quiet(server.URL)
}

// An answer that comes late is not taken for one to what was entered since.
func TestLateAnswer(t *testing.T) {
	handler, err := New(testConfig(t, "two-piece.json"))
	must(t, err)
	var slow atomic.Bool
	hold := make(chan bool)
	server := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if r.URL.Path == "/answer" && slow.CompareAndSwap(true, false) {
			<-hold
		}
		handler.ServeHTTP(w, r)
	}))
	t.Cleanup(server.Close)
	p := open(t, server.URL+"/", 1280, 800)
	p.settled()
	slow.Store(true)
	p.enter("shafts.1.down", "5")
	p.enter("shafts.1.down", "6")
	time.Sleep(300 * time.Millisecond) // longer than a rest
	if got := p.eval(`document.body.dataset.settled`); got != "false" {
		t.Errorf("settled is %s while nothing was answered", got)
	}
	close(hold)
	if got := p.agrees().Survey.Shafts[1].Slope.Mean(); got != 6 {
		t.Errorf("answered for %v, want 6", got)
	}
}

// A server that is gone withdraws its answer; the entries stay, and the page goes on
// when it is back.
func TestServerGone(t *testing.T) {
	handler, err := New(testConfig(t, "two-piece.json"))
	must(t, err)
	var gone atomic.Bool
	server := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if gone.Load() {
			panic(http.ErrAbortHandler) // closes the connection
		}
		handler.ServeHTTP(w, r)
	}))
	t.Cleanup(server.Close)
	p := open(t, server.URL+"/", 360, 800)
	p.agrees()
	gone.Store(true)
	p.enter("shafts.1.down", "5")
	p.wait(`document.querySelector('#answer').innerText.includes('does not answer')`)
	if got := p.eval(`document.querySelectorAll('[data-joint], [data-figure], [data-plan]').length`); got != "0" {
		t.Errorf("%s parts of the old answer are left", got)
	}
	if got := p.eval(`document.body.dataset.settled + document.querySelector('[data-field="shafts.1.down"]').value`); got != "false5" {
		t.Errorf("settled and field: %s", got)
	}
	gone.Store(false)
	if got := p.agrees().Survey.Shafts[1].Slope.Mean(); got != 5 {
		t.Errorf("after it came back: %v, want 5", got)
	}
}

// What was entered is offered after a reload, and never put over a FILE.
func TestEntriesOutlastAReload(t *testing.T) {
	address := serve(t, testConfig(t, ""))
	p := open(t, address+"#bench", 1280, 800)
	p.wait(`document.body?.dataset.way`) // the script runs
	p.click(`[data-arrangement="single-joint"]`)
	p.settled()
	for i, slope := range []string{"2", "8,5"} {
		p.enter(fmt.Sprintf("shafts.%d.down", i), slope)
	}
	p.agrees()
	p.call("Page.reload", map[string]any{}, nil)
	p.wait(`document.querySelector('#offer') && !document.querySelector('#offer').hidden`)
	if got := p.eval(`document.querySelectorAll('[data-joint]').length`); got != "0" {
		t.Error("the entries were put back unasked")
	}
	p.click(`[data-do="resume"]`)
	if got := p.agrees().Document().Joints[0].WorkingAngleDeg; got < 6.499 || got > 6.501 {
		t.Errorf("gone on with: the joint works at %v, want 6.5", got)
	}

	// The same browser at a page with a FILE: the FILE is shown and nothing offered.
	store := p.eval(`localStorage.getItem('halfturn')`)
	q := open(t, serve(t, testConfig(t, "one-piece.json")), 1280, 800)
	q.settled()
	q.eval(fmt.Sprintf(`localStorage.setItem('halfturn', %q)`, store))
	q.call("Page.reload", map[string]any{}, nil)
	q.wait(`document.body?.dataset.settled === 'true' && document.querySelector('[data-joint="1"]')`)
	if got := q.eval(`document.querySelector('#offer').hidden`); got != "true" {
		t.Error("entries of another driveline are offered over a FILE")
	}
}

// Names full of markup are shown as they are.
func TestHostileNames(t *testing.T) {
	const hostile = `<img src=x onerror="document.title='run'">'"&amp;`
	c := testConfig(t, "")
	c.File = []byte(fmt.Sprintf(`{"name": %[1]q, "rpm": 2000, "shafts": [{"name": %[1]q, "down": 1}, {"down": 4}, {"down": 2}], "joints": [{"name": %[1]q}, {}]}`, hostile))
	address := serve(t, c)
	for _, way := range []string{"bench", "measure", "class"} {
		p := open(t, address, 1280, 800)
		p.agrees()
		p.click(fmt.Sprintf(`nav [data-way=%q]`, way))
		p.agrees()
		if got := p.eval(`document.title + document.querySelectorAll('img').length`); got != "halfturn0" {
			t.Errorf("%s: a name became markup: %s", way, got)
		}
		if way == "bench" && !strings.Contains(p.text("#angles"), `<img src=x`) {
			t.Errorf("%s: the name is not shown as it is: %s", way, p.text("#angles"))
		}
		p.quiet(address)
	}
}
