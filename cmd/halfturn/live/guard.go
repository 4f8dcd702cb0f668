package live

import (
	"crypto/rand"
	"crypto/subtle"
	"net"
	"net/http"
	"strings"
)

// A Guard says who may ask. A page in the browser of somebody who is logged in to
// nothing is still a way in for other pages of that browser, and beyond loopback for
// everybody in the same network.
type Guard struct {
	// Host is a name, beside IP addresses and localhost, by which the server may be
	// called: that of --listen. A foreign name that somebody had resolve to this
	// machine is refused.
	Host string
	// Key must be shown once, as the query of "/"; a cookie stands for it then. ""
	// asks for none, which is for loopback only.
	Key string
	// Port names the cookie: a browser keeps the cookies of all ports together.
	Port string
}

// NewKey returns a key that cannot be guessed.
func NewKey() string { return rand.Text() }

// wrap returns a handler that lets through what the guard allows.
func (g Guard) wrap(next http.Handler) http.Handler {
	return http.NewCrossOriginProtection().Handler(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		setHeaders(w.Header())
		switch {
		case !g.knows(r.Host):
			http.Error(w, "halfturn answers to its address only", http.StatusMisdirectedRequest)
		case !ownOrigin(r):
			http.Error(w, "halfturn answers its own page only", http.StatusForbidden)
		case g.Key == "":
			next.ServeHTTP(w, r)
		case g.shown(r.URL.Query().Get("key")) && r.Method == http.MethodGet && r.URL.Path == "/":
			http.SetCookie(w, &http.Cookie{
				Name: g.cookie(), Value: g.Key, Path: "/", HttpOnly: true, SameSite: http.SameSiteStrictMode,
			})
			http.Redirect(w, r, "/", http.StatusSeeOther) // the key leaves the address
		case g.admitted(r):
			next.ServeHTTP(w, r)
		default:
			http.Error(w, "open the address that halfturn printed, with its key", http.StatusForbidden)
		}
	}))
}

// setHeaders forbids the page everything that it does not need.
func setHeaders(h http.Header) {
	h.Set("Content-Security-Policy", "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self'; "+
		"connect-src 'self'; form-action 'none'; base-uri 'none'; frame-ancestors 'none'")
	h.Set("Referrer-Policy", "no-referrer")
	h.Set("X-Content-Type-Options", "nosniff")
	h.Set("Cross-Origin-Resource-Policy", "same-origin")
	h.Set("Cache-Control", "no-store")
}

// knows reports whether a request for this host means this server.
func (g Guard) knows(host string) bool {
	name, _, err := net.SplitHostPort(host)
	if err != nil { // without a port
		name = host
	}
	name = strings.TrimSuffix(strings.TrimPrefix(name, "["), "]")
	return net.ParseIP(name) != nil || strings.EqualFold(name, "localhost") || g.Host != "" && strings.EqualFold(name, g.Host)
}

// ownOrigin reports whether a request that names the page it comes from comes from
// ours.
func ownOrigin(r *http.Request) bool {
	origin := r.Header.Values("Origin")
	return len(origin) == 0 || len(origin) == 1 && origin[0] == "http://"+r.Host
}

func (g Guard) cookie() string { return "halfturn-" + g.Port }

func (g Guard) admitted(r *http.Request) bool {
	for _, c := range r.CookiesNamed(g.cookie()) {
		if g.shown(c.Value) {
			return true
		}
	}
	return false
}

func (g Guard) shown(key string) bool {
	return subtle.ConstantTimeCompare([]byte(key), []byte(g.Key)) == 1
}
