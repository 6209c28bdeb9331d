package weather

import (
	"fmt"

	"winterline/pipe/units"
)

// readDate takes a date with slashes, as spreadsheets leave them in the plain form, too.
// Its stamp is complete only after settleDates.
func (s *stampReader) readDate(text []byte) (stamp int64, ok bool) {
	stamp, err := s.dates.parse(text)
	if err != nil {
		s.add(units.At(s.name, s.start, "time", err))
	}
	return stamp, err == nil
}

// settleDates completes the stamps of dates with slashes and holds them to rise, unless
// they are to be mended; false where they cannot be told, or do not rise.
func (s *stampReader) settleDates() bool {
	if len(s.dates.dates) == 0 {
		return true
	}
	if fault := s.dates.settle("time"); fault != nil {
		s.add(*fault)
		return false
	}
	rising := true
	r, latest := s.record, 0
	for row := 1; row < len(r.stamp) && !s.options.Mend; row++ {
		if r.stamp[row] > r.stamp[latest] {
			latest = row
			continue
		}
		rising = false
		s.add(r.problem(row, "time", fmt.Sprintf("%s after %s on line %d", showTime(wall(r.stamp[row])), showTime(wall(r.stamp[latest])), r.line[latest]),
			"times that rise by at least a second from row to row"))
	}
	return rising
}
