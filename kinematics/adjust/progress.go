package adjust

import "sync"

// Progress is told now and then, never twice at a time, how much of some work is done
// and how much there is so far, counted in things such as "combination".
type Progress func(done, all int64, thing string)

// meter counts work for a Progress, which may be nil. It is for several goroutines.
type meter struct {
	tell  Progress
	thing string

	counting  sync.Mutex
	done, all int64
}

func newMeter(tell Progress, thing string) *meter { return &meter{tell: tell, thing: thing} }

// add counts what has been done, and what more there is to do.
func (m *meter) add(done, more int64) {
	m.counting.Lock()
	defer m.counting.Unlock()
	m.done += done
	m.all += more
	if m.tell != nil {
		m.tell(m.done, m.all, m.thing)
	}
}
