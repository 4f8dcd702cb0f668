package live

import (
	"context"
	"errors"
	"log"
	"net"
	"net/http"
	"time"
)

// Limits in time. A telephone on a weak network sends a file of 1 MiB in some
// seconds; no answer takes as long as workLimit but a search that is worth waiting
// for.
const (
	headerLimit = 5 * time.Second
	readLimit   = 20 * time.Second
	workLimit   = 60 * time.Second
	idleLimit   = 2 * time.Minute
	partLimit   = 3 * time.Second // for answers under way when the server ends
)

// Serve answers on ln until ctx ends. What it was computing then is given up, and
// what it was sending is sent. Faults of single connections go to faults.
func Serve(ctx context.Context, ln net.Listener, handler http.Handler, faults *log.Logger) error {
	server := &http.Server{
		Handler:           handler,
		BaseContext:       func(net.Listener) context.Context { return ctx },
		ReadHeaderTimeout: headerLimit,
		ReadTimeout:       readLimit,
		WriteTimeout:      readLimit + workLimit + readLimit,
		IdleTimeout:       idleLimit,
		MaxHeaderBytes:    16 << 10,
		ErrorLog:          faults,
	}
	ended := make(chan error, 1)
	go func() { ended <- server.Serve(ln) }()
	select {
	case err := <-ended:
		return err
	case <-ctx.Done():
	}
	parting, cancel := context.WithTimeout(context.WithoutCancel(ctx), partLimit)
	defer cancel()
	if err := server.Shutdown(parting); err != nil && !errors.Is(err, context.DeadlineExceeded) {
		return err
	}
	return server.Close()
}

// Addresses returns the addresses under which what listens at addr can be reached,
// the most useful first: where it listens everywhere, that of every interface of
// this machine that is up.
func Addresses(addr net.Addr) ([]string, error) {
	host, port, err := net.SplitHostPort(addr.String())
	if err != nil {
		return nil, err
	}
	if ip := net.ParseIP(host); ip == nil || !ip.IsUnspecified() {
		return []string{"http://" + net.JoinHostPort(host, port) + "/"}, nil
	}
	local, err := net.InterfaceAddrs()
	if err != nil {
		return nil, err
	}
	var near, self []string
	for _, a := range local {
		n, ok := a.(*net.IPNet)
		if !ok || n.IP.IsLinkLocalUnicast() { // which would need the name of an interface
			continue
		}
		text := "http://" + net.JoinHostPort(n.IP.String(), port) + "/"
		if n.IP.IsLoopback() {
			self = append(self, text)
		} else {
			near = append(near, text)
		}
	}
	return append(near, self...), nil
}

// Loopback reports whether only this machine can reach what listens at addr.
func Loopback(addr net.Addr) bool {
	tcp, ok := addr.(*net.TCPAddr)
	return ok && tcp.IP.IsLoopback()
}
