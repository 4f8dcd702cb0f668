package main

import (
	"bytes"
	"errors"
	"fmt"
	"log"
	"net"
	"net/http"
	"os/exec"
	"runtime"

	"github.com/spf13/pflag"

	"halfturn/cmd/halfturn/findings"
	"halfturn/cmd/halfturn/live"
	"halfturn/plotting/page"
)

func liveCommand() command {
	return command{
		name:     "live",
		operands: "[FILE]",
		summary:  "a page to measure, to try out and to teach, in your browser",
		help: `Serves one page until it is interrupted, and prints its address. The page leads
through the readings under the vehicle, answers while values change, and turns
the yokes for a class. It asks nothing of the network and writes nothing here.

  halfturn live
  halfturn live my-driveline.json --open
  halfturn live --listen 0.0.0.0:8080      for a telephone in the same network

Beyond this machine the address carries a key; whoever has it can use the page.
`,
		prepare: func(flags *pflag.FlagSet) func(*console, []string) error {
			listen := flags.String("listen", "127.0.0.1:0", "`address` and port to listen at; port 0: any that is free")
			open := flags.Bool("open", false, "open the page in the browser")
			from := newJudgedSource(flags)
			return func(c *console, operands []string) error {
				config := live.Config{Version: version(), Draw: drawOf}
				for _, f := range figures {
					if n := max(f.least, 1); f.draw != nil && n <= 2 {
						config.Figures = append(config.Figures, live.Figure{Name: f.name, Shows: f.shows, Of: n})
					}
				}
				if from.given(operands) {
					sv, err := from.survey(c, operands)
					if err != nil {
						return err
					}
					var b bytes.Buffer
					if err := sv.Write(&b); err != nil {
						return err
					}
					config.File = b.Bytes()
				}
				return serveLive(c, config, *listen, *open)
			}
		},
	}
}

// drawOf draws a figure that plot has under that name.
func drawOf(name string, of []*findings.Findings) (*page.Figure, error) {
	return drawNamed(name, subject{of: of})
}

// serveLive serves the page until the user interrupts it.
func serveLive(c *console, config live.Config, listen string, open bool) error {
	host, _, err := net.SplitHostPort(listen)
	if err != nil {
		return usagef("--listen: %q: want an address and a port, such as 127.0.0.1:8080", listen)
	}
	ln, err := net.Listen("tcp", listen)
	if err != nil {
		return fmt.Errorf("--listen: %w", err)
	}
	defer ln.Close()
	addresses, err := live.Addresses(ln.Addr())
	if err != nil {
		return err
	}
	config.Guard.Host = host
	_, config.Guard.Port, _ = net.SplitHostPort(ln.Addr().String())
	query := ""
	if !live.Loopback(ln.Addr()) {
		config.Guard.Key = live.NewKey()
		query = "?key=" + config.Guard.Key
		c.remark("whoever is in this network and has the key can use the page")
	}
	handler, err := live.New(config)
	if err != nil {
		return err
	}
	for _, address := range addresses {
		fmt.Fprintln(c.out, address+query)
	}
	if out, ok := c.out.(interface{ Flush() error }); ok { // the command does not end here
		if err := out.Flush(); err != nil {
			return err
		}
	}
	c.remark("serving until interrupted (Ctrl+C)")
	if open {
		if err := openBrowser(addresses[len(addresses)-1] + query); err != nil {
			c.remark("%v", err)
		}
	}
	err = live.Serve(c.ctx, ln, handler, log.New(c.err, "halfturn: ", 0))
	if errors.Is(err, http.ErrServerClosed) {
		return nil
	}
	return err
}

// openBrowser opens an address in the user's browser.
func openBrowser(address string) error {
	command := map[string][]string{
		"darwin":  {"open"},
		"windows": {"rundll32", "url.dll,FileProtocolHandler"},
	}[runtime.GOOS]
	if command == nil {
		command = []string{"xdg-open"}
	}
	cmd := exec.Command(command[0], append(command[1:], address)...)
	if err := cmd.Start(); err != nil {
		return fmt.Errorf("no browser to open: %w", err)
	}
	go cmd.Wait() // however it ends
	return nil
}
