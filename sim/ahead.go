package sim

// ahead is the length of the next step [s] where one of `wanted` is proposed and so much time is left [s]. It goes all the
// way where nearly all of it is wanted, and else half of the way at most, so that no sliver of a step remains.
func (s Stepping) ahead(wanted, left float64) float64 {
	h := min(wanted, s.Longest)
	if h > 0.999*left {
		return left
	}
	return min(h, 0.5*left)
}

// retry is the length to try instead of h [s], where the solver did not converge (ok is false) or the mistake was too large.
func (s Stepping) retry(h float64, tr trial, ok bool) float64 {
	if !ok {
		return 0.25 * h
	}
	return s.nextStep(h, tr.mistake, 0)
}
