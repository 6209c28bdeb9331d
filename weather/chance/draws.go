package chance

import (
	"math"
	"math/rand/v2"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat/distmv"
	"gonum.org/v1/gonum/stat/distuv"
	"gonum.org/v1/gonum/stat/samplemv"
)

// Range is where a quantity may lie that is not well known, in any unit.
type Range struct {
	Low, High float64
	Usual     float64 // likeliest value; NaN: all are equally likely
	Log       bool    // by its logarithm: for what spans decades, such as conductivity to water
}

// At returns the value below which a share p of all draws lie: triangular between Low, Usual
// and High, or uniform. Low ≤ Usual ≤ High, and all above 0 with Log.
func (r Range) At(p float64) float64 {
	if r.Low == r.High {
		return r.Low
	}
	if r.Log {
		inner := Range{Low: math.Log(r.Low), High: math.Log(r.High), Usual: math.Log(r.Usual)}
		return min(max(math.Exp(inner.At(p)), r.Low), r.High)
	}
	if math.IsNaN(r.Usual) {
		return distuv.Uniform{Min: r.Low, Max: r.High}.Quantile(p)
	}
	return distuv.NewTriangle(r.Low, r.High, r.Usual, nil).Quantile(p)
}

// Draws returns n draws, one a row, of values in these ranges, one a column. They are a Latin
// hypercube: of each quantity's range, cut into n parts of equal chance, every part is drawn
// from once, and the columns are in independent random order.
//
// The same n, seed and ranges make the same draws, and a range added at the end leaves the
// columns before it as they were. All are made here at once, so that whatever uses them may
// do so in any order.
//
// Source: M. D. McKay, R. J. Beckman and W. J. Conover, "A comparison of three methods for
// selecting values of input variables in the analysis of output from a computer code",
// Technometrics 21 (1979).
func Draws(n int, seed uint64, ranges []Range) [][]float64 {
	rows := make([][]float64, n)
	if n == 0 || len(ranges) == 0 {
		return rows
	}
	cube := mat.NewDense(n, len(ranges), nil)
	samplemv.LatinHypercube{Q: distmv.NewUnitUniform(len(ranges), nil), Src: rand.NewPCG(seed, 0)}.Sample(cube)
	for i := range rows {
		rows[i] = make([]float64, len(ranges))
		for j, r := range ranges {
			rows[i][j] = r.At(cube.At(i, j))
		}
	}
	return rows
}
