package flow

import "math"

// Circle segments by the angle of the wetted arc. Package pipe has the full geometry of a
// bore; these three lines are here so that Manning's relations take a diameter and a
// depth, and package flow still imports nothing of ours.

// wettedAngle returns the angle of the wetted arc at relative depth y/d [-].
func wettedAngle(fill float64) float64 { return 2 * math.Acos(1-2*min(1, max(0, fill))) }

// segmentArea returns the wetted area over d² [-].
func segmentArea(angle float64) float64 { return (angle - math.Sin(angle)) / 8 }

// segmentRadius returns the hydraulic radius over d [-].
func segmentRadius(angle float64) float64 {
	if angle == 0 {
		return 0
	}
	return (1 - math.Sin(angle)/angle) / 4
}
