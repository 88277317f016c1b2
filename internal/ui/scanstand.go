package ui

import (
	"context"

	"meltwright/internal/mesh"
	"meltwright/internal/ui/kit"
)

// answer stands the form as somebody answered, away from the window's goroutine:
// for most scans it is there at once.
func (s *scanScreen) answer(how mesh.Stance) {
	s.how = how
	s.ask.show()
	o := s.opened
	s.stands.begin(s.w, func(context.Context) func() {
		standing, err := o.Stand(how)
		return func() {
			if err != nil {
				s.err = err
				s.show()
				return
			}
			s.stood(standing)
		}
	})
}

// stood shows the form as it stands now, and has it measured when the last
// answer is given. Planes stay at the same share of the height.
func (s *scanScreen) stood(standing *mesh.Standing) {
	before, was := s.box.Box()[2], mesh.Stance{}
	if s.standing != nil {
		was = s.standing.Stance
	}
	s.standing, s.box = standing, mesh.Measure(standing.Skin.Mesh)
	s.wall, s.refined, s.share, s.err = nil, false, 0, nil
	s.planes.restand(s.box.Box()[2]/before, was.Up == standing.Stance.Up && was.Turn == standing.Stance.Turn)
	s.ask.stood()
	s.plans.stop()
	s.trace()
	s.tint()
	s.show()
	s.soon(s.measure)
}

// measure measures the wall: a first answer soon, a finer one after it.
func (s *scanScreen) measure() {
	standing := s.standing
	s.stands.begin(s.w, func(ctx context.Context) func() {
		first := func(w *mesh.Wall) { s.w.aloud(ctx, func() { s.measured(w, false) }) }
		tell := s.w.telling(ctx, func(share float64) { s.told(share) })
		err := standing.Measure(ctx, first, tell)
		return func() {
			if err != nil {
				s.err = err
				s.stopWaiting()
				s.show()
				return
			}
			s.measured(standing.Wall, true)
		}
	})
}

// told shows how far the measuring has come.
func (s *scanScreen) told(share float64) {
	s.share = share
	s.numbers.tell()
	if s.waits != nil {
		s.waits.Set(share, "")
	}
}

// measured takes a wall, finer than any before.
func (s *scanScreen) measured(w *mesh.Wall, refined bool) {
	s.wall, s.refined = w, refined
	s.plan()
	s.tint()
	s.show()
	if refined && s.wanted {
		s.use()
	}
}

// trace finds where the planes go through the form, for the picture.
func (s *scanScreen) trace() {
	m, cuts := s.standing.Skin.Mesh, s.planes.cuts()
	if len(cuts) == 0 {
		s.outlines.stop()
		return
	}
	s.outlines.begin(s.w, func(ctx context.Context) func() {
		loops := make([][]mesh.Loop, len(cuts))
		for i, c := range cuts {
			if ctx.Err() != nil {
				return nil
			}
			loops[i] = mesh.CutLoops(m, c.Plane)
		}
		return func() {
			s.planes.traced(loops)
			s.planes.show()
			s.panel.relay()
			s.picture.redraw()
		}
	})
}

// plan works out what each section holds, along the planes as they are now.
func (s *scanScreen) plan() {
	if s.wall == nil {
		return
	}
	w, cuts := s.wall, s.planes.cuts()
	s.plans.begin(s.w, func(ctx context.Context) func() {
		plan, err := w.Evaluate(ctx, cuts)
		return func() { s.planned(plan, err) }
	})
}

// planned shows a plan that was worked out.
func (s *scanScreen) planned(plan mesh.Plan, err error) {
	if err != nil {
		s.w.tell("The sections cannot be weighed", sentence(err))
		return
	}
	s.planes.weighed(plan)
	if s.marks.Text() == scanMarks[3] {
		s.tint()
	}
	s.show()
	if s.wanted && s.refined {
		s.use()
	}
}

// propose has planes found that cut the form into sections the shop can pour and
// dip, in the place of those there are.
func (s *scanScreen) propose() {
	scale, wall, ok := s.numbers.size()
	if !ok {
		s.w.say("The planes can be proposed once the form is measured.")
		return
	}
	w, limits := s.wall, s.numbers.limits()
	s.planes.busy = true
	s.planes.show()
	s.plans.begin(s.w, func(ctx context.Context) func() {
		plan, err := w.Plan(ctx, scale, wall, limits)
		return func() {
			s.planes.busy = false
			if err == nil {
				s.planes.set(plan.Cuts)
				s.trace()
			}
			s.planned(plan, err)
		}
	})
}

// use makes the scan the form of its piece, once it is measured, and goes back.
func (s *scanScreen) use() {
	if s.err != nil {
		s.w.tell("This scan cannot be used yet", sentence(s.err))
		return
	}
	if !s.refined || !s.planes.good {
		s.wait()
		return
	}
	s.stopWaiting()
	kept, plain := *s.standing, *s.standing.Viewer
	plain.Tints = nil
	kept.Viewer, kept.Wall = &plain, s.wall
	plan := s.planes.plan
	s.uses.begin(s.w, func(context.Context) func() {
		k := kept.Keep(plan)
		return func() {
			s.q.edit(func() { s.q.sheet.SetScan(s.piece, k) })
			s.w.show(s.q)
		}
	})
}

// wait shows how far the measuring is, and uses the scan after it.
func (s *scanScreen) wait() {
	s.wanted = true
	if s.waits == nil {
		s.waits = kit.ShowProgress(s.w.win.Canvas(), "Measuring the wall", "The scan is used when it is measured.", s.w.guarded(s.stopWaiting))
		s.waits.Set(s.share, "")
	}
}

func (s *scanScreen) stopWaiting() {
	s.wanted = false
	if s.waits != nil {
		s.waits.Done()
		s.waits = nil
	}
}
