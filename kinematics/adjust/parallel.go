package adjust

import (
	"context"
	"sync"
	"sync/atomic"
)

// parallel calls do for i from 0 to n − 1 on so many workers, numbered from 0,
// until ctx ends or a call fails. It returns the error of the lowest i that
// failed, or that of ctx.
func parallel(ctx context.Context, workers, n int, do func(worker, i int) error) error {
	errs := make([]error, n)
	var next atomic.Int64
	var failed atomic.Bool
	var working sync.WaitGroup
	for worker := range min(workers, n) {
		working.Go(func() {
			for ctx.Err() == nil && !failed.Load() {
				i := int(next.Add(1)) - 1
				if i >= n {
					return
				}
				if errs[i] = do(worker, i); errs[i] != nil {
					failed.Store(true)
				}
			}
		})
	}
	working.Wait()
	for _, err := range errs {
		if err != nil {
			return err
		}
	}
	return ctx.Err()
}
