package ui

// aside hands a job to the Work for what takes a while and keeps nothing:
// drawing a range, levelling a schedule, setting pages. It may read the store. What it gives back to be
// applied is guarded.
func (w *Window) aside(job func() (apply func())) {
	w.besides().Do(func() func() {
		apply := job()
		if apply == nil {
			return nil
		}
		return w.guarded(apply)
	})
}

// besides is the Work for such jobs.
func (w *Window) besides() Work {
	if w.options.Aside != nil {
		return w.options.Aside
	}
	return w.work
}
