package weather

import (
	"bufio"
	"io"
	"math"
	"strconv"
)

// WritePlain writes the series in the plain form, metric, such that reading it back gives
// the same numbers to the last bit. Stamps are written in whole seconds, as they are read.
func (s *Series) WritePlain(w io.Writer) error {
	out := bufio.NewWriter(w)
	written := s.writtenColumns()
	if s.Typical {
		out.WriteString(typicalRemark + ": months of different years, no record cold snap\n")
	}
	for _, line := range s.Design {
		out.WriteString(designRemark + oneLine(line) + "\n")
	}
	out.WriteString("time")
	for _, c := range written {
		out.WriteString("," + c.name)
	}
	out.WriteByte('\n')
	var line []byte
	start := s.Start.Unix()
	for i, t := range s.Time {
		line = appendStamp(line[:0], start+int64(math.Round(t)))
		for _, c := range written {
			line = append(line, ',')
			if v := c.values[i]; !math.IsNaN(v) {
				line = strconv.AppendFloat(line, c.number(v), 'g', -1, 64)
			}
		}
		if _, err := out.Write(append(line, '\n')); err != nil {
			return err
		}
	}
	return out.Flush() // tells of any write before, too
}

// typicalRemark begins a comment by which the plain form says that it is a typical year.
const typicalRemark = "# typical year"

// writtenColumn is a column of the plain form to be written.
type writtenColumn struct {
	column
	values []float64 // SI
}

// writtenColumns are those that the series has something for.
func (s *Series) writtenColumns() (written []writtenColumn) {
	for i := 0; i < len(columns); i++ {
		q := columns[i].quantity
		if values := *q.slot(s); values != nil {
			written = append(written, writtenColumn{exactColumn(q, values), values})
		}
		for i+1 < len(columns) && columns[i+1].quantity == q {
			i++
		}
	}
	for _, soil := range s.Soil {
		centimetres := (&column{times: 1, over: 100}).number(soil.Depth)
		name := soilPrefix + strconv.FormatFloat(centimetres, 'f', -1, 64) + soilSuffix
		written = append(written, writtenColumn{column{name: name, quantity: soilTemperature, times: 1, over: 1}, soil.Temp})
	}
	return written
}

// exactColumn returns the first metric column of a quantity whose unit gives every value
// back to the bit, and failing that the first that does in any unit; else the first.
func exactColumn(q *quantity, values []float64) column {
	var first *column
	for i := range columns {
		c := &columns[i]
		if c.quantity != q {
			continue
		}
		if first == nil {
			first = c
		}
		if c.exact(values) {
			return *c
		}
	}
	return *first
}

func (c *column) exact(values []float64) bool {
	for _, v := range values {
		if c.si(c.number(v)) != v {
			return false
		}
	}
	return true
}

// number returns what the column has to hold for an SI value: the number that si takes to
// it, if there is one, or one within a rounding of it.
func (c *column) number(v float64) float64 {
	if c.times == 1 && c.over == 1 && c.shift == 0 {
		return v
	}
	near := v*c.over/c.times + c.shift
	up, down := near, near
	const tries = 4 // multiplying and dividing round once each
	for range tries {
		if c.si(up) == v {
			return up
		}
		if c.si(down) == v {
			return down
		}
		up, down = math.Nextafter(up, math.Inf(1)), math.Nextafter(down, math.Inf(-1))
	}
	return near
}
