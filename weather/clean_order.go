package weather

import (
	"cmp"
	"fmt"
	"math"
	"slices"
)

// sort puts rows in the order of their stamps, and enters in the ledger how many were not.
func (r *record) sort() {
	late, first := 0, -1
	for i, latest := 1, int64(math.MinInt64); i < len(r.stamp); i++ {
		if latest = max(latest, r.stamp[i-1]); r.stamp[i] < latest {
			if late++; first < 0 {
				first = i
			}
		}
	}
	if late == 0 {
		return
	}
	r.repaired(first, Repair{Kind: Sorted, Column: "time", Count: late, Evidence: "after " + showTime(wall(r.stamp[first-1])) + " on the row before"})
	r.byStamp()
}

// byStamp puts rows in the order of their stamps; rows of the same stamp keep theirs.
func (r *record) byStamp() {
	order := make([]int, len(r.stamp))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(r.stamp[a], r.stamp[b]) })
	r.take(order)
}

// take makes rows those of the given old numbers.
func (r *record) take(rows []int) {
	r.stamp = picked(r.stamp, rows)
	r.line = picked(r.line, rows)
	if r.file != nil {
		r.file = picked(r.file, rows)
	}
	for i := range r.columns {
		r.columns[i].values = picked(r.columns[i].values, rows)
	}
}

func picked[T any](from []T, rows []int) []T {
	out := make([]T, len(rows))
	for i, row := range rows {
		out[i] = from[row]
	}
	return out
}

// dropDoubles keeps one row of each stamp: the first, with what only later ones have. The
// record is sorted.
func (r *record) dropDoubles() {
	kept := make([]int, 0, len(r.stamp))
	alike, differing := doubles{row: -1}, doubles{row: -1}
	for i := range r.stamp {
		if i == 0 || r.stamp[i] != r.stamp[i-1] {
			kept = append(kept, i)
			continue
		}
		of := kept[len(kept)-1]
		if said := r.fold(of, i); said == "" {
			alike.add(i, "the same values")
		} else {
			differing.add(i, said)
		}
	}
	if len(kept) == len(r.stamp) {
		return
	}
	for _, d := range []doubles{alike, differing} {
		if d.count > 0 {
			r.repaired(d.row, Repair{Kind: Dropped, Column: "time", Count: d.count, Evidence: d.said})
		}
	}
	r.take(kept)
}

// doubles are rows that repeat a stamp.
type doubles struct {
	row, count int // the first of them, and how many
	said       string
}

func (d *doubles) add(row int, said string) {
	if d.count++; d.count == 1 {
		d.row, d.said = row, said
	}
}

// fold gives a row what only another of the same stamp has, and says where both have
// values that differ; "" where they agree.
func (r *record) fold(into, from int) (differs string) {
	for i := range r.columns {
		c := &r.columns[i]
		here, there := c.values[into], c.values[from]
		switch {
		case math.IsNaN(there):
		case math.IsNaN(here):
			c.values[into] = there
		case here != there && differs == "":
			differs = fmt.Sprintf("%s differs: the first row is kept, as on line %d", c.name, r.line[into])
		}
	}
	return differs
}
