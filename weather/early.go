package weather

import (
	"math"
	"slices"
)

// earlyAmount is what fell in the time up to the first row of a file. An archive that stamps
// amounts with their end has no row for it; another file that joins may have one.
type earlyAmount struct {
	quantity *quantity
	total    float64 // SI
	lasts    int64   // time in which it fell [s]
	end      int64   // stamp of the first row; known once the clock is put right, see dateEarly
	file     string  // that tells of it
	line     int32
}

// addEarly keeps an amount of which the file's first row is the end.
func (r *record) addEarly(q *quantity, total float64, lasts int64, line int32) {
	r.early = append(r.early, earlyAmount{quantity: q, total: total, lasts: lasts, file: r.source, line: line})
}

// dateEarly dates them by the first row, before rows are sorted or taken to the hour.
func (r *record) dateEarly() {
	for i := range r.early {
		r.early[i].end = r.stamp[0]
	}
}

// keepEarly adds to the first hour what fell in it before the first row: after reports
// are taken to the hour, that hour may begin before them.
func (r *record) keepEarly() {
	r.early = slices.DeleteFunc(r.early, func(e earlyAmount) bool {
		c := r.column(e.quantity)
		if c == nil || e.hours() > 1 || e.middle(0) < r.stamp[0] {
			return false
		}
		addAmount(&c.values[0], e.total)
		return true
	})
}

// placeEarly gives early amounts of the files that are joined to the rows of others in whose
// time they fell, and tells what no file has a row for. Where one of these rows has an amount
// of its own, files overlap: it is known already.
func (r *record) placeEarly() {
	for _, e := range r.early {
		if lost := r.place(e); lost > 0 {
			r.notes = append(r.notes, Note{File: e.file, Line: int(e.line), About: e.quantity.word, Warning: true,
				Text: showMillimetres(lost) + " left out", Evidence: "it fell before the first row"})
		}
	}
	r.early = nil
}

// place returns how much of an early amount has no row.
func (r *record) place(e earlyAmount) (lost float64) {
	c := r.column(e.quantity)
	if c == nil {
		return e.total
	}
	rows := make([]int, e.hours())
	for k := range rows {
		rows[k] = r.rowAround(e.middle(k))
		if rows[k] >= 0 && isValue(c.values[rows[k]]) {
			return 0
		}
	}
	share := e.total / float64(len(rows))
	for _, row := range rows {
		if row < 0 {
			lost += share
		} else {
			addAmount(&c.values[row], share)
		}
	}
	return lost
}

// hours is the number of hours, whole or begun, in which the amount fell.
func (e earlyAmount) hours() int { return int((e.lasts + secondsPerHour - 1) / secondsPerHour) }

// middle returns the middle of one of these hours, counted back from the end.
func (e earlyAmount) middle(k int) int64 {
	return e.end - int64(2*k+1)*e.lasts/int64(2*e.hours())
}

// rowAround returns the row in whose time an instant lies, or -1: a row's time is up to the
// next row, and no longer than a gap may be. The record is in order.
func (r *record) rowAround(at int64) int {
	row, exact := slices.BinarySearch(r.stamp, at)
	if !exact {
		row--
	}
	if row < 0 || at-r.stamp[row] >= maxBridge {
		return -1
	}
	return row
}

// addAmount adds to an amount, which may be missing.
func addAmount(to *float64, more float64) {
	if math.IsNaN(*to) {
		*to = 0
	}
	*to += more
}
