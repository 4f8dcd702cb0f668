package live

import (
	"context"
	"math"
	"net/http"

	"halfturn/cmd/halfturn/findings"
	"halfturn/plotting"
)

// framesOf a turn at the most; every 5° looks smooth.
const mostFrames = 72

// turning answers with pictures of the yokes over half a turn, after which they look
// the same again.
func (s *server) turning(ctx context.Context, w http.ResponseWriter, req *request) error {
	found, err := s.whole(ctx, w, req, findings.Options{})
	if found == nil {
		return err
	}
	n := min(max(req.Frames, 1), mostFrames)
	frames := make([]string, n)
	for i := range frames {
		figure, err := plotting.Yokes(found.Case(), math.Pi*float64(i)/float64(n))
		if err != nil {
			return err
		}
		title := untitled(figure)
		figure.Caption = ""
		restack(figure, req)
		if frames[i], err = fragment(figure, "turning", title); err != nil {
			return err
		}
		if err := ctx.Err(); err != nil {
			return err
		}
	}
	return writeJSON(w, map[string]any{"seq": req.Seq, "frames": frames})
}
