package report

import (
	"image"
	"math"

	"winterline/sim"
)

// fieldPicture paints the temperatures of the ground, one column of pixels an instant.
type fieldPicture struct {
	field  *sim.GroundField
	frost  *frostLine
	bands  bands
	window float64 // time over which temperatures are averaged [s]
	above  float64 // depth above which nothing was computed [m]
}

// dayMean is what temperatures are averaged over in long records [s].
const dayMean = 86400

func newFieldPicture(r *sim.GroundResult, f *frostLine, depth float64) *fieldPicture {
	p := &fieldPicture{field: &r.Field, frost: f, above: r.Surface.Depth}
	if groundByDay(r) {
		p.window = dayMean
	}
	p.bands = bandsFor(p.shown(depth))
	return p
}

// shown are the temperatures down to a depth.
func (p *fieldPicture) shown(depth float64) []float64 {
	var out []float64
	for _, slice := range p.field.Temp {
		for k, z := range p.field.Depths {
			if z <= depth {
				out = append(out, slice[k])
			}
		}
	}
	return out
}

// image paints times t0 to t1 across and depths 0 to depth downwards.
func (p *fieldPicture) image(t0, t1, depth float64, width, height int) image.Image {
	picture := image.NewRGBA(image.Rect(0, 0, width, height))
	step := (t1 - t0) / float64(width)
	for x := range width {
		t := t0 + (float64(x)+0.5)*step
		temps := p.mean(t, math.Max(step, p.window)/2)
		top, bottom, layered, frozen := p.frost.at(t)
		for y := range height {
			z := depth * (float64(y) + 0.5) / float64(height)
			temp := alongDepth(p.field.Depths, temps, z)
			if math.IsNaN(temp) || z < p.above {
				picture.SetRGBA(x, y, dryTone)
				continue
			}
			inside := frozen && z >= top && z <= bottom && !(layered && temp > 0)
			picture.SetRGBA(x, y, p.bands.color(p.band(temp, inside)))
		}
	}
	return picture
}

// band is that of a temperature on the given side of the frost's edge. The edge is known
// better than the temperatures around it: soil on its way to freezing stands at 0 °C.
func (p *fieldPicture) band(t float64, frozen bool) int {
	cold := p.bands.freezing()
	if frozen {
		return min(p.bands.of(t), cold-1)
	}
	return max(p.bands.of(t), cold)
}

// mean gives the temperatures by depth around an instant: the mean over the slices that
// lie no farther than half from it, or where there is none the way between two.
func (p *fieldPicture) mean(t, half float64) []float64 {
	f := p.field
	if len(f.Time) == 0 {
		return nil
	}
	out := make([]float64, len(f.Depths))
	i := nearestBefore(f.Time, t)
	first, last := i, i
	for first > 0 && f.Time[first-1] >= t-half {
		first--
	}
	for last+1 < len(f.Time) && f.Time[last+1] <= t+half {
		last++
	}
	if first == last {
		return p.between(out, i, t)
	}
	for k := range out {
		for s := first; s <= last; s++ {
			out[k] += f.Temp[s][k]
		}
		out[k] /= float64(last - first + 1)
	}
	return out
}

// between interpolates from slice i to the next.
func (p *fieldPicture) between(out []float64, i int, t float64) []float64 {
	f := p.field
	j := min(i+1, len(f.Time)-1)
	share := 0.0
	if f.Time[j] > f.Time[i] {
		share = math.Min(1, math.Max(0, (t-f.Time[i])/(f.Time[j]-f.Time[i])))
	}
	for k := range out {
		out[k] = f.Temp[i][k] + share*(f.Temp[j][k]-f.Temp[i][k])
	}
	return out
}

// alongDepth interpolates a profile; beyond its ends it goes on level, NaN if it is empty.
func alongDepth(depths, temps []float64, z float64) float64 {
	if len(temps) == 0 {
		return math.NaN()
	}
	i := nearestBefore(depths, z)
	j := min(i+1, len(depths)-1)
	if z <= depths[i] || i == j {
		return temps[i]
	}
	return temps[i] + (z-depths[i])/(depths[j]-depths[i])*(temps[j]-temps[i])
}
