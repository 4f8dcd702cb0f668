package live

import (
	"context"
	"io"
	"net"
	"net/http"
	"net/http/cookiejar"
	"net/http/httptest"
	"strings"
	"testing"
)

func TestGuard(t *testing.T) {
	t.Parallel()
	through := Guard{Host: "van.local", Port: "8080"}.wrap(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		io.WriteString(w, "through")
	}))
	for _, test := range []struct {
		name, host, origin, site string
		want                     int
	}{
		{"address", "127.0.0.1:8080", "", "", http.StatusOK},
		{"address of version 6", "[::1]:8080", "", "", http.StatusOK},
		{"address without a port", "192.168.1.7", "", "", http.StatusOK},
		{"localhost", "LOCALHOST:8080", "", "", http.StatusOK},
		{"name of --listen", "van.local:8080", "", "", http.StatusOK},
		{"own page", "127.0.0.1:8080", "http://127.0.0.1:8080", "same-origin", http.StatusOK},
		{"foreign name", "example.com:8080", "", "", http.StatusMisdirectedRequest},
		{"foreign name that begins like ours", "127.0.0.1.example.com", "", "", http.StatusMisdirectedRequest},
		{"no name", "", "", "", http.StatusMisdirectedRequest},
		{"foreign page", "127.0.0.1:8080", "http://example.com", "", http.StatusForbidden},
		{"page of another port", "127.0.0.1:8080", "http://127.0.0.1:9090", "", http.StatusForbidden},
		{"page by another protocol", "127.0.0.1:8080", "https://127.0.0.1:8080", "", http.StatusForbidden},
		{"page without an origin", "127.0.0.1:8080", "null", "", http.StatusForbidden},
		{"foreign page that keeps its name to itself", "127.0.0.1:8080", "", "cross-site", http.StatusForbidden},
	} {
		t.Run(test.name, func(t *testing.T) {
			r := httptest.NewRequest(http.MethodPost, "/answer", nil)
			r.Host = test.host
			if test.origin != "" {
				r.Header.Set("Origin", test.origin)
			}
			if test.site != "" {
				r.Header.Set("Sec-Fetch-Site", test.site)
			}
			w := httptest.NewRecorder()
			through.ServeHTTP(w, r)
			if w.Code != test.want {
				t.Errorf("got %d: %s, want %d", w.Code, w.Body, test.want)
			}
			if passed := w.Body.String() == "through"; passed != (test.want == http.StatusOK) {
				t.Errorf("got through: %v", passed)
			}
		})
	}
}

func TestKeyBeyondLoopback(t *testing.T) {
	t.Parallel()
	c := testConfig(t, "")
	c.Guard = Guard{Key: NewKey(), Port: "8080"}
	address := serve(t, c)
	for _, path := range []string{"", "live.js", "?key=wrong", "live.css?key=" + c.Guard.Key} {
		response, err := http.Get(address + path)
		if err != nil {
			t.Fatal(err)
		}
		response.Body.Close()
		if response.StatusCode != http.StatusForbidden {
			t.Errorf("/%s without the cookie: got %s", path, response.Status)
		}
	}
	jar, _ := cookiejar.New(nil)
	client := &http.Client{Jar: jar}
	response, err := client.Get(address + "?key=" + c.Guard.Key)
	if err != nil {
		t.Fatal(err)
	}
	response.Body.Close()
	if response.StatusCode != http.StatusOK || response.Request.URL.RawQuery != "" {
		t.Errorf("with the key: got %s at %s, want the page at /", response.Status, response.Request.URL)
	}
	set := response.Request.Response.Cookies()
	if len(set) != 1 || set[0].Name != "halfturn-8080" || !set[0].HttpOnly || set[0].SameSite != http.SameSiteStrictMode {
		t.Errorf("got the cookies %v, want one for this port, HttpOnly and SameSite=Strict", set)
	}
	if got := response.Header.Get("Referrer-Policy"); got != "no-referrer" {
		t.Errorf("Referrer-Policy: %q", got)
	}
	if response, err = client.Get(address + "live.js"); err != nil || response.StatusCode != http.StatusOK {
		t.Errorf("with the cookie: got %v, %v", response, err)
	}
	response.Body.Close()
}

func TestKeysDiffer(t *testing.T) {
	t.Parallel()
	if a, b := NewKey(), NewKey(); a == b || len(a) < 20 {
		t.Errorf("got the keys %q and %q", a, b)
	}
}

func TestHeaders(t *testing.T) {
	t.Parallel()
	address := serve(t, testConfig(t, "two-piece.json"))
	for _, path := range []string{"", "live.css", "live.js", "icon.svg", "none"} {
		response, err := http.Get(address + path)
		if err != nil {
			t.Fatal(err)
		}
		response.Body.Close()
		policy := response.Header.Get("Content-Security-Policy")
		if !strings.HasPrefix(policy, "default-src 'none';") || strings.Contains(policy, "unsafe") || strings.Contains(policy, "*") {
			t.Errorf("/%s: policy %q", path, policy)
		}
		if got := response.Header.Get("X-Content-Type-Options"); got != "nosniff" {
			t.Errorf("/%s: X-Content-Type-Options %q", path, got)
		}
	}
}

func TestAddresses(t *testing.T) {
	t.Parallel()
	ln, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	defer ln.Close()
	if got, err := Addresses(ln.Addr()); err != nil || len(got) != 1 || got[0] != "http://"+ln.Addr().String()+"/" {
		t.Errorf("on loopback: got %q, %v", got, err)
	}
	if !Loopback(ln.Addr()) {
		t.Error("127.0.0.1 is loopback")
	}
	all := &net.TCPAddr{IP: net.IPv4zero, Port: 8080}
	got, err := Addresses(all)
	if err != nil || len(got) == 0 || got[len(got)-1] == "http://0.0.0.0:8080/" {
		t.Errorf("everywhere: got %q, %v, want an address of this machine", got, err)
	}
	if Loopback(all) {
		t.Error("0.0.0.0 is beyond loopback")
	}
}

func TestServeEndsWithItsContext(t *testing.T) {
	t.Parallel()
	ln, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	began, ended := make(chan bool), make(chan error)
	handler := http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		io.Copy(io.Discard, r.Body)
		close(began)
		<-r.Context().Done() // a search that goes on until it is told to end
	})
	ctx, stop := context.WithCancel(t.Context())
	go func() { ended <- Serve(ctx, ln, handler, nil) }()
	go http.Post("http://"+ln.Addr().String()+"/", "", strings.NewReader("x"))
	<-began
	stop()
	if err := <-ended; err != nil {
		t.Error(err)
	}
	if c, err := net.Dial("tcp", ln.Addr().String()); err == nil {
		c.Close()
		t.Error("it still listens")
	}
}
