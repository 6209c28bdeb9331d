package sim

import (
	"context"
	"slices"
	"sync"
)

// GroundStore keeps the undisturbed ground for cases that share it: those over the same weather (the same
// *weather.Series, which must not change meanwhile) whose sites agree in all that the ground depends on. Other
// differences, such as depths, pipes and water, do not matter. Runs may use it at the same time; they
// find what they would have computed themselves, to the bit. Put it into Settings.
type GroundStore struct {
	mu   sync.Mutex
	kept []*keptGround // the one used last stands last
}

// storeRoom is how much the courses in a store may hold together [bytes]. Those unused for longest go
// first; one that is larger by itself, such as that of twenty years by the hour, is not kept.
const storeRoom = 256 << 20

// shiftedRoom is how much of storeRoom courses under shifted weather may hold [bytes]: a search for a margin makes many,
// and few of them are asked for again.
const shiftedRoom = 48 << 20

// keptTracks is how many depths of a course are kept as read, at most; they can be read again.
const keptTracks = 100

// NewGroundStore makes an empty store.
func NewGroundStore() *GroundStore { return &GroundStore{} }

// keptGround is a course in a store, or the place of one that somebody computes.
type keptGround struct {
	of     groundInputs
	bytes  int           // what it may come to hold; 0 until it is whole; the store's lock guards it and the next
	users  int           // who compute it, read it or wait for that
	turn   chan struct{} // a lock that a cancelled run need not wait for: full while somebody computes or reads what follows
	course *course       // nil: not computed yet
	tracks map[float64][]float64
}

// run takes a ground through the record, or from the store; a nil store keeps nothing.
func (s *GroundStore) run(ctx context.Context, g *ground, stepping Stepping) error {
	if s == nil || g.storeBytes() > storeRoom {
		return g.run(ctx, newStepper(stepping), nil)
	}
	k := s.find(inputsOf(g, stepping))
	defer s.leave(k)
	select {
	case k.turn <- struct{}{}:
		defer func() { <-k.turn }()
	case <-ctx.Done():
		return ctx.Err()
	}
	if k.course != nil {
		return k.give(ctx, g)
	}
	// Where this fails or is cancelled, the next in turn tries for itself.
	g.keeps = true
	if err := g.run(ctx, newStepper(stepping), nil); err != nil {
		return err
	}
	whole := g.course
	k.course = &whole
	k.take(g.order)
	s.account(k, g.storeBytes())
	return nil
}

// find is the place of a ground in the store, for one more user.
func (s *GroundStore) find(in groundInputs) *keptGround {
	s.mu.Lock()
	defer s.mu.Unlock()
	i := slices.IndexFunc(s.kept, func(k *keptGround) bool { return k.of.same(in) })
	if i < 0 {
		k := &keptGround{of: in, users: 1, turn: make(chan struct{}, 1), tracks: map[float64][]float64{}}
		s.kept = append(s.kept, k)
		return k
	}
	k := s.kept[i]
	k.users++
	s.kept = append(slices.Delete(s.kept, i, i+1), k)
	return k
}

// leave lets go of a place; one where nothing was computed, as when all who wanted it were cancelled, goes with its last
// user.
func (s *GroundStore) leave(k *keptGround) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if k.users--; k.users == 0 && k.bytes == 0 {
		s.kept = slices.DeleteFunc(s.kept, func(one *keptGround) bool { return one == k })
	}
}

// account counts a new course and makes room for it.
func (s *GroundStore) account(k *keptGround, bytes int) {
	s.mu.Lock()
	defer s.mu.Unlock()
	k.bytes = bytes
	s.makeRoom(k, shiftedRoom, func(one *keptGround) bool { return one.of.shift != 0 })
	s.makeRoom(k, storeRoom, func(*keptGround) bool { return true })
}

// makeRoom lets courses of a kind go, but for a new one, until they hold no more than so much together [bytes].
func (s *GroundStore) makeRoom(fresh *keptGround, room int, kind func(*keptGround) bool) {
	total := 0
	for _, one := range s.kept {
		if kind(one) {
			total += one.bytes
		}
	}
	s.kept = slices.DeleteFunc(s.kept, func(one *keptGround) bool {
		goes := total > room && kind(one) && one.bytes > 0 && one != fresh
		if goes {
			total -= one.bytes
		}
		return goes
	})
}

// give fills a ground with the course and the depths that it asks for.
func (k *keptGround) give(ctx context.Context, g *ground) error {
	var missing []*track
	for _, t := range g.order {
		if t.u = k.tracks[t.depth]; t.u == nil {
			missing = append(missing, t)
		}
	}
	if len(missing) > 0 {
		if err := k.course.states.read(ctx, missing); err != nil {
			return err
		}
		k.take(missing)
	}
	g.course = *k.course
	return nil
}

// take keeps depths as read.
func (k *keptGround) take(tracks []*track) {
	if len(k.tracks)+len(tracks) > keptTracks {
		clear(k.tracks)
	}
	for _, t := range tracks {
		k.tracks[t.depth] = t.u
	}
}
