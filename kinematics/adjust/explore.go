package adjust

import (
	"context"
	"slices"
	"sync"
)

// job is a run of combinations of one group.
type job struct {
	group    int
	from, to int64
}

// jobTries is about how often one job tries: some milliseconds' worth, so that
// a cancelled search ends at once.
const jobTries = 4096

// explore tries every combination of every group and returns the frontier of
// each. The result does not depend on the number of workers.
func (q *quest) explore(ctx context.Context, groups []*group) ([]frontier, error) {
	benches := make([]bench, q.workers)
	for w := range benches {
		var err error
		if benches[w], err = newBench(q.stands); err != nil {
			return nil, err
		}
	}
	found := make([][]frontier, q.workers)
	jobs, tried := deal(ctx, groups), make(chan int64)
	var working sync.WaitGroup
	for w, b := range benches {
		found[w] = make([]frontier, len(groups))
		working.Go(func() {
			for j := range jobs {
				b.work(groups[j.group], j.from, j.to, &found[w][j.group])
				tried <- j.to - j.from
			}
		})
	}
	go func() {
		working.Wait()
		close(tried)
	}()
	for n := range tried {
		q.progress(n)
	}
	for _, b := range benches {
		q.reached(b)
	}
	all := make([]frontier, len(groups))
	for _, mine := range found {
		for i, f := range mine {
			for _, c := range f {
				all[i].insert(c)
			}
		}
	}
	return all, ctx.Err()
}

// deal cuts the combinations of the groups into jobs until ctx ends.
func deal(ctx context.Context, groups []*group) <-chan job {
	jobs := make(chan job)
	go func() {
		defer close(jobs)
		for i, g := range groups {
			size := int64(max(1, jobTries/(1+freeTries*len(g.free))))
			for from, all := int64(0), g.combinations(); from < all; from += size {
				select {
				case jobs <- job{i, from, min(from+size, all)}:
				case <-ctx.Done():
					return
				}
			}
		}
	}()
	return jobs
}

// work tries a run of combinations of a group and adds what is worth it to the
// frontier.
func (b bench) work(g *group, from, to int64, f *frontier) {
	clockings := len(g.free) > 0 && !slices.ContainsFunc(g.free, func(i int) bool { return !g.changes[i].clocks() })
	var settings []setting
	for i := from; i < to; i++ {
		settings = g.combination(settings, i)
		r := b.try(settings)
		if clockings && f.excludes(extent(settings), r.bends) {
			continue
		}
		if len(g.free) > 0 {
			r = b.release(settings, g.free)
		}
		if !slices.ContainsFunc(settings, setting.untouched) { // else it is in a smaller group
			f.insert(candidate{settings, i, extent(settings), r})
		}
	}
}

func (s setting) untouched() bool { return s.value == 0 }
