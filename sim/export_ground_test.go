package sim

import "winterline/weather"

// What the tests of the ground need of the inside.

// FrostSeasons sums up a result's frost by winters.
func FrostSeasons(r *GroundResult) []FrostSeason { return frostSeasons(r) }

// Bridged joins the readings of a thermometer that drives the ground around short gaps.
func Bridged(temps, times []float64) ([]float64, error) { return bridged(temps, times) }

// MeasuredDepths sets the measured columns of a record beside tracks.
func MeasuredDepths(s *weather.Series, tracks []GroundTrack) []MeasuredDepth {
	return measuredDepths(s, tracks)
}

// Places is how many courses a store holds, or has a place for.
func (s *GroundStore) Places() int { return len(s.kept) }
