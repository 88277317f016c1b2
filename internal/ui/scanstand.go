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
	s.stands.begin(s.w, func(ctx context.Context) func() {
		standing, err := o.Stand(ctx, how)
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
	s.numbers.try()
	s.planAgain()
	s.tint()
	s.show()
	s.useIfWanted()
}

// useIfWanted uses the scan if that was asked for before it was ready.
func (s *scanScreen) useIfWanted() {
	if s.wanted && s.ready() {
		s.use()
	}
}

// ready says that nothing better is to come of what was asked.
func (s *scanScreen) ready() bool { return s.refined && s.planes.good && s.planes.whole }

// planAgain works the sections out anew: with proposed planes, unless somebody
// has placed some.
func (s *scanScreen) planAgain() {
	if _, _, ok := s.numbers.size(); ok && !s.planes.own {
		s.propose()
		return
	}
	s.plan()
}

// resized has planes proposed for another size of the piece.
func (s *scanScreen) resized() {
	if s.wall != nil && !s.planes.own {
		s.soon(s.planAgain)
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
	cuts, own := s.planes.cuts(), s.planes.own
	s.sections(func(ctx context.Context, w *mesh.Wall) (mesh.Plan, error) {
		plan, err := w.Evaluate(ctx, cuts)
		plan.Proposed = !own
		return plan, err
	}, s.planned)
}

// sections has a plan made and shown, and after it the same for every other size.
func (s *scanScreen) sections(make func(ctx context.Context, w *mesh.Wall) (mesh.Plan, error), show func(plan mesh.Plan)) {
	w, refined := s.wall, s.refined
	s.plans.begin(s.w, func(ctx context.Context) func() {
		var ladder mesh.Ladder
		plan, err := make(ctx, w)
		if err == nil && refined {
			s.w.aloud(ctx, func() { show(plan) })
			ladder, err = w.Ladder(ctx, plan)
		}
		return func() {
			switch {
			case err != nil:
				s.planes.busy = false
				s.w.tell("The sections cannot be weighed", sentence(err))
			case refined:
				s.planes.ladder, s.planes.whole = ladder, true
				s.show()
				s.useIfWanted()
			default:
				show(plan)
			}
		}
	})
}

// planned shows a plan that was worked out.
func (s *scanScreen) planned(plan mesh.Plan) {
	s.planes.weighed(plan)
	if s.marks.Text() == scanMarks[3] {
		s.tint()
	}
	s.show()
}

// propose has planes found that cut the form into sections the shop can pour and
// dip, in the place of those there are.
func (s *scanScreen) propose() {
	scale, wall, ok := s.numbers.size()
	if !ok {
		s.w.say("The planes can be proposed once the form is measured.")
		return
	}
	limits := s.numbers.limits()
	s.planes.busy = true
	s.planes.show()
	s.sections(func(ctx context.Context, w *mesh.Wall) (mesh.Plan, error) {
		return w.Plan(ctx, scale, wall, limits)
	}, func(plan mesh.Plan) {
		s.planes.busy, s.planes.own = false, false
		s.planes.set(plan.Cuts)
		s.trace()
		s.planned(plan)
	})
}

// use makes the scan the form of its piece, once it is measured, and goes back.
func (s *scanScreen) use() {
	if s.err != nil {
		s.w.tell("This scan cannot be used yet", sentence(s.err))
		return
	}
	if !s.ready() {
		s.wait()
		return
	}
	s.stopWaiting()
	kept, plain := *s.standing, *s.standing.Viewer
	plain.Tints = nil
	kept.Viewer, kept.Wall = &plain, s.wall
	plan, ladder := s.planes.plan, s.planes.ladder
	s.uses.begin(s.w, func(context.Context) func() {
		k := kept.Keep(plan, ladder)
		return func() {
			s.q.edit(func() { s.q.sheet.SetScan(s.piece, k) })
			if s.keep != s.q.files.has(k.SHA256) {
				s.q.files.set(k, s.path, s.keep)
			}
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
