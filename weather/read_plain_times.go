package weather

import (
	"fmt"
	"slices"
	"time"

	"winterline/pipe/units"
)

// stampReader reads the time column of the plain form and holds it to its promise: one
// clock, and times that rise.
type stampReader struct {
	*plainReader
	index  int    // of the column
	offset string // that the latest row carries; "" for none
	runs   []offsetRun
	latest time.Time // of the rows so far, with fractions of a second
	dates  timeColumn
}

// read takes a stamp, in whole seconds; false where the row has to be left out.
func (s *stampReader) read(text []byte) (stamp int64, ok bool) {
	if s.dates.concerns(text) {
		return s.readDate(text)
	}
	stamp, offset, usual := parseUsualStamp(text)
	at := wall(stamp)
	if !usual {
		var err error
		if at, err = units.ParseTime(string(text)); err != nil {
			s.add(units.At(s.name, s.start, "time", err))
			return 0, false
		}
		stamp, offset = at.Unix(), []byte(units.OffsetOf(string(text)))
	}
	first := len(s.record.stamp) == 0
	if changed := string(offset) != s.offset; first || changed {
		if !first && !(s.options.Mend && len(offset) > 0 && s.offset != "") {
			s.complain("time", named(string(offset))+" after "+named(s.offset)+" on earlier rows",
				"one clock throughout: local standard time")
			return 0, false
		}
		s.offset = string(offset)
		s.runs = append(s.runs, offsetRun{len(s.record.stamp), offsetSeconds(offset)})
	}
	if !first && !s.options.Mend && at.Sub(s.latest) < time.Second {
		s.refuseOrder(stamp, at)
		return 0, false
	}
	s.latest = at
	return stamp, true
}

// refuseOrder refuses a stamp that does not come after all earlier ones.
func (s *stampReader) refuseOrder(stamp int64, at time.Time) {
	r := s.record
	if i, same := slices.BinarySearch(r.stamp, stamp); same && at.Nanosecond() == 0 {
		s.complain("time", fmt.Sprintf("%s again, as on line %d", showTime(at), r.line[i]), "each time once")
		return
	}
	s.complain("time", fmt.Sprintf("%s after %s on line %d", showTime(at), showTime(s.latest), r.line[len(r.line)-1]),
		"times that rise by at least a second from row to row")
}
