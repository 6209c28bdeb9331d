package weather

import (
	"math"
	"time"

	"gonum.org/v1/gonum/mat"
)

// Annual returns the annual mean air temperature [°C] and half its summer-to-winter
// range [K]: mean and amplitude of the yearly wave fitted by least squares over as many
// whole years as the record holds, counted from its first row. ok is false for a record
// shorter than a year: part of a year gives no mean, however the curve is bent.
//
// An hourly year that ends at 23:00 on its last day counts as whole. Rows are weighted
// by the time that they stand for, so that uneven stamps do not lean the fit.
func (s *Series) Annual() (mean, swing float64, ok bool) {
	if h := s.heritage; h != nil {
		return h.mean, h.swing, h.whole
	}
	end, years := s.wholeYears()
	if years == 0 {
		return math.NaN(), math.NaN(), false
	}
	omega := 2 * math.Pi * float64(years) / end
	normal := mat.NewSymDense(3, nil)
	right := mat.NewVecDense(3, nil)
	for i, t := range s.Time {
		if t > end {
			break
		}
		basis := [3]float64{1, math.Cos(omega * t), math.Sin(omega * t)}
		weight := s.weight(i, end)
		for j := range basis {
			right.SetVec(j, right.AtVec(j)+weight*basis[j]*s.Air[i])
			for k := j; k < len(basis); k++ {
				normal.SetSym(j, k, normal.At(j, k)+weight*basis[j]*basis[k])
			}
		}
	}
	var factor mat.Cholesky
	var fit mat.VecDense
	if !factor.Factorize(normal) || factor.SolveVecTo(&fit, right) != nil {
		return math.NaN(), math.NaN(), false
	}
	return fit.AtVec(0), math.Hypot(fit.AtVec(1), fit.AtVec(2)), true
}

// CoversYear says whether the record itself has a whole year from its first row on. A part
// of a longer record may have none, though Annual tells of all of that record.
func (s *Series) CoversYear() bool {
	_, years := s.wholeYears()
	return years > 0
}

// wholeYears returns how many calendar years from the first row the record covers, and
// when the last of them ends [s]. The last row stands for one usual step.
func (s *Series) wholeYears() (end float64, years int) {
	covered := s.Start.Add(time.Duration((s.End() + usualStep(s.Time)) * float64(time.Second)))
	for n := 1; ; n++ {
		anniversary := s.Start.AddDate(n, 0, 0)
		if anniversary.After(covered) {
			return end, years
		}
		end, years = anniversary.Sub(s.Start).Seconds(), n
	}
}

// weight returns the time that row i stands for [s]: half way to each neighbour, cut at end.
func (s *Series) weight(i int, end float64) float64 {
	from, to := s.Time[i], s.Time[i]
	if i > 0 {
		from = (s.Time[i-1] + s.Time[i]) / 2
	}
	if i+1 < len(s.Time) {
		to = (s.Time[i] + s.Time[i+1]) / 2
	}
	return math.Min(to, end) - from
}
