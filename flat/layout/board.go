package layout

import (
	"context"
	"math/rand/v2"
	"sync"
	"time"
)

// board is where lanes of one search meet: the best valid layout, and when to
// stop. With a bound on iterations lanes exchange what they found at set passes
// only, in order, so that the outcome does not depend on who was quicker.
type board struct {
	effort
	ctx      context.Context
	lockstep bool
	free     chan struct{} // one token for each lane that may run

	mu       sync.Mutex
	turn     *sync.Cond
	length   float64
	spots    []spot
	offers   []offer // by lane, until the next exchange
	waiting  int
	running  int
	exchange int
	report   func(length float64, spots []spot)
}

type offer struct {
	length float64
	spots  []spot
}

const (
	exchangeEvery = 16 // passes between two exchanges of lanes in step
	lanesInStep   = 2
	mostLanes     = 16
)

// effort is what a search may spend.
type effort struct {
	start, end time.Time // end is zero without a bound
	passes     int       // 0 without a bound
	now        func() time.Time
}

// effort is the whole effort of a search that began at start.
func (o *Options) effort(start time.Time) effort {
	e := effort{start: start, passes: o.Iterations, now: o.now}
	if o.Time > 0 {
		e.end = start.Add(o.Time)
	}
	return e
}

// none reports whether nothing is to be spent.
func (e effort) none() bool { return e.end.IsZero() && e.passes == 0 }

// share is the first part of what is left of an effort.
func (e effort) share(p float64) effort {
	e.start = e.now()
	if !e.end.IsZero() {
		e.end = e.start.Add(time.Duration(p * float64(e.end.Sub(e.start))))
	}
	if e.passes > 0 {
		e.passes = max(int(p*float64(e.passes)), 1)
	}
	return e
}

// bound is ctx, ended when the time is over.
func (e effort) bound(ctx context.Context) (context.Context, context.CancelFunc) {
	if e.end.IsZero() {
		return context.WithCancel(ctx)
	}
	return context.WithTimeout(ctx, e.end.Sub(e.now()))
}

// less is what is left of an effort when a part of it is spent.
func (e effort) less(part effort) effort {
	e.passes -= part.passes
	return e
}

func newBoard(ctx context.Context, o Options, e effort, length float64, spots []spot) *board {
	lanes := o.lanes()
	b := &board{ctx: ctx, effort: e, length: length, spots: spots, running: lanes, offers: make([]offer, lanes)}
	b.turn = sync.NewCond(&b.mu)
	b.lockstep = e.passes > 0
	b.free = make(chan struct{}, o.workers())
	return b
}

// seat is one lane's place at the board.
type seat struct {
	*board
	lane   int
	passed int
}

func (b *board) begin() { b.free <- struct{}{} }

// leave ends a lane.
func (s *seat) leave() {
	<-s.free
	s.mu.Lock()
	s.running--
	s.merge()
	s.mu.Unlock()
}

// over reports whether the search ends now.
func (s *seat) over() bool {
	if s.ctx.Err() != nil || s.passes > 0 && s.passed >= s.passes {
		return true
	}
	return !s.end.IsZero() && !s.now().Before(s.end)
}

// phase is the share of the search that is over, 0 to 1.
func (s *seat) phase() float64 {
	p := 0.0
	if s.passes > 0 {
		p = float64(s.passed) / float64(s.passes)
	}
	if !s.end.IsZero() {
		p = max(p, float64(s.now().Sub(s.start))/float64(s.end.Sub(s.start)))
	}
	return min(p, 1)
}

// pass is called after every pass of a lane; it is false when the search is over.
func (s *seat) pass() bool {
	s.passed++
	if s.lockstep && s.passed%exchangeEvery == 0 {
		<-s.free
		s.mu.Lock()
		s.waiting++
		at := s.exchange
		s.merge()
		for s.exchange == at {
			s.turn.Wait()
		}
		s.mu.Unlock()
		s.free <- struct{}{}
	}
	return !s.over()
}

// merge takes the offers in when all lanes that run wait.
func (b *board) merge() {
	if !b.lockstep || b.waiting < b.running {
		return
	}
	for i := range b.offers {
		b.settle(b.offers[i])
		b.offers[i] = offer{}
	}
	b.waiting = 0
	b.exchange++
	b.turn.Broadcast()
}

func (b *board) settle(o offer) {
	if o.spots == nil || o.length >= b.length {
		return
	}
	b.length, b.spots = o.length, o.spots
	if b.report != nil {
		b.report(o.length, o.spots)
	}
}

// offer hands in a valid layout.
func (s *seat) offer(length float64, spots []spot) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if !s.lockstep {
		s.settle(offer{length, spots})
		return
	}
	if o := &s.offers[s.lane]; o.spots == nil || length < o.length {
		*o = offer{length, spots}
	}
}

// best is the best layout that the lane may know of; it must not be changed.
func (s *seat) best() (length float64, spots []spot) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if o := s.offers[s.lane]; o.spots != nil && o.length < s.length {
		return o.length, o.spots
	}
	return s.length, s.spots
}

// shortest is the length of best.
func (s *seat) shortest() float64 {
	l, _ := s.best()
	return l
}

// search runs work in every lane and waits for them.
func (b *board) search(work func(*seat)) {
	if b.none() {
		return
	}
	var wait sync.WaitGroup
	for i := range b.offers {
		wait.Add(1)
		go func() {
			defer wait.Done()
			s := &seat{board: b, lane: i}
			b.begin()
			work(s)
			s.leave()
		}()
	}
	wait.Wait()
}

// pickBiased is a number below n, small ones more often: half a normal
// distribution.
func pickBiased(r *rand.Rand, n int) int {
	for {
		v := r.NormFloat64()
		if v < 0 {
			v = -v
		}
		if k := int(v * 0.25 * float64(n)); k < n {
			return k
		}
	}
}
