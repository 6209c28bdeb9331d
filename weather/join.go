package weather

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"winterline/pipe/units"
)

// join makes one record of several that are in order. Rows that files share have to agree
// in what both have: all but one are then dropped, and listed. Where they do not agree the
// files are refused; or, with later, the one named last is believed, and that is listed.
func join(records []*record, later bool) (*record, units.Problems) {
	if len(records) == 1 {
		records[0].placeEarly()
		return records[0], nil
	}
	j := &joiner{record: joined(records), later: later, first: map[[2]uint16]int{}}
	if len(j.stamp) > maxRows || len(j.stamp)*len(j.columns) > maxValues {
		return nil, units.Problems{{File: j.source, Found: "more than 2,000,000 rows or 40,000,000 values together",
			Expected: "at most as many; name fewer files"}}
	}
	j.byStamp()
	j.drop()
	j.placeEarly()
	return j.record, j.problems
}

// joined puts the rows of records one after the other.
func joined(records []*record) *record {
	out := &record{}
	var formats []string
	for k, r := range records {
		out.files = append(out.files, r.source)
		out.notes = append(out.notes, r.notes...)
		out.ledger = append(out.ledger, r.ledger...)
		out.early = append(out.early, r.early...)
		out.typical = out.typical || r.typical
		out.design = append(out.design, r.design...)
		out.lossy = out.lossy || r.lossy
		if !slices.Contains(formats, r.format) {
			formats = append(formats, r.format)
		}
		out.append(r, uint16(k)) // files are limited far below
	}
	out.source, out.format = listed(out.files), strings.Join(formats, " and ")
	return out
}

// append adds the rows of another record after those that are there.
func (r *record) append(more *record, file uint16) {
	old := len(r.stamp)
	r.stamp = append(r.stamp, more.stamp...)
	r.line = append(r.line, more.line...)
	for range more.stamp {
		r.file = append(r.file, file)
	}
	for _, c := range more.columns {
		i := slices.IndexFunc(r.columns, func(o recordColumn) bool { return o.quantity == c.quantity && o.depth == c.depth })
		if i < 0 {
			i = len(r.columns)
			r.columns = append(r.columns, recordColumn{quantity: c.quantity, name: c.name, depth: c.depth, values: noValues(old)})
		}
		r.columns[i].values = append(r.columns[i].values, c.values...)
	}
	for i := range r.columns {
		c := &r.columns[i]
		c.values = append(c.values, noValues(len(r.stamp)-len(c.values))...)
	}
}

// listed names files in a few words.
func listed(files []string) string {
	const most = 3
	if len(files) <= most {
		return strings.Join(files, ", ")
	}
	return fmt.Sprintf("%s, … %s (%d files)", files[0], files[len(files)-1], len(files))
}

// joiner drops rows that several files have.
type joiner struct {
	*record
	later    bool
	problems units.Problems
	first    map[[2]uint16]int // entry of the ledger for two files, by their numbers
}

// drop keeps one row of each stamp. The rows are sorted; those of one stamp are in the
// order in which the files are named.
func (j *joiner) drop() {
	kept := make([]int, 0, len(j.stamp))
	refused := map[[2]uint16]int{} // in problems
	for i := range j.stamp {
		if i == 0 || j.stamp[i] != j.stamp[i-1] {
			kept = append(kept, i)
			continue
		}
		of := kept[len(kept)-1]
		pair := [2]uint16{j.file[of], j.file[i]}
		differs := j.differs(of, i)
		if differs != "" && !j.later {
			if at, known := refused[pair]; known {
				j.problems[at].Expected = more(j.problems[at].Expected)
				continue
			}
			refused[pair] = len(j.problems)
			j.problems = append(j.problems, j.problem(i, "time", differs, "files that agree where they overlap"))
			continue
		}
		j.list(pair, i, differs)
		j.merge(of, i)
	}
	j.take(kept)
}

// more is an expectation that more rows than one do not meet.
func more(expected string) string {
	return strings.TrimSuffix(expected, ", here and in later rows") + ", here and in later rows"
}

// list enters a row that is dropped, one entry for two files.
func (j *joiner) list(pair [2]uint16, row int, differs string) {
	at, known := j.first[pair]
	if !known {
		at = len(j.ledger)
		j.first[pair] = at
		j.repaired(row, Repair{Kind: Overlap, Column: "time", Evidence: "as in " + j.files[pair[0]]})
	}
	e := &j.ledger[at]
	if e.Count++; differs != "" && !strings.Contains(e.Evidence, ";") {
		e.Evidence += "; where they differ the later file is believed, first: " + differs
	}
}

// merge gives the row kept what another of its stamp has, where it has nothing or the later
// file is believed.
func (j *joiner) merge(into, from int) {
	for k := range j.columns {
		v := j.columns[k].values
		if math.IsNaN(v[into]) || j.later && !math.IsNaN(v[from]) {
			v[into] = v[from]
		}
	}
}

// differs says in what two rows of a stamp disagree, "" for nothing.
func (j *joiner) differs(a, b int) string {
	for k := range j.columns {
		c := &j.columns[k]
		if x, y := c.values[a], c.values[b]; math.Abs(x-y) > rounding(c.quantity) { // not where one is missing
			return fmt.Sprintf("%s %.4g at %s, where %s:%d has %.4g (SI)", c.quantity.word, y, showTime(wall(j.stamp[b])), j.fileOf(a), j.line[a], x)
		}
	}
	return ""
}

// rounding is how far two archives may differ over one observation, because the coarsest
// of them round to whole °F, knots, inches of snow and eighths of the sky [SI].
func rounding(q *quantity) float64 {
	switch q {
	case airTemperature, dewPoint, soilTemperature, windSpeed:
		return 0.56
	case cloudCover:
		return 0.13
	case snowOnGround:
		return 0.026
	case rainfall, snowfallWater:
		return 0.0003
	}
	return 1
}
