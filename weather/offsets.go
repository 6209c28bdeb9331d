package weather

import (
	"fmt"
	"math"
)

// offsetRun is a run of rows that carry the same offset from UTC.
type offsetRun struct {
	from    int   // its first row
	seconds int64 // the offset
}

// offsetSeconds gives an offset such as Z or -06:00 in seconds; 0 for none.
func offsetSeconds(offset []byte) int64 {
	if !plainOffset(offset) || len(offset) == 1 {
		return 0
	}
	h, _ := parseDigits(offset[1:3])
	m, _ := parseDigits(offset[4:6])
	seconds := int64(h*3600 + m*60)
	if offset[0] == '-' {
		return -seconds
	}
	return seconds
}

// oneClock takes a record whose rows carry offsets to local standard time: to the zone that
// the user stated, else to the lowest of several offsets, which is that of standard time. A
// single offset is that of the file's own clock, and stays; if that clock is UTC, it is
// told as of any file in UTC.
func (s *stampReader) oneClock() {
	if len(s.runs) == 0 || s.offset == "" {
		return
	}
	standard := s.runs[0].seconds
	for _, run := range s.runs {
		standard = min(standard, run.seconds)
	}
	moved, first := s.moveTo(standard)
	if moved > 0 {
		s.record.repaired(first, Repair{Kind: OneOffset, Column: "time", Count: moved, Evidence: fmt.Sprintf(
			"taken to the offset %s, that of standard time", offsetName(standard))})
	}
	if zone := s.options.Zone; zone != nil {
		s.record.shift(int64(math.Round(*zone*secondsPerHour)) - standard)
		s.record.note("clock", "times taken to local standard time by "+utcOffset(*zone)+" as stated", "rows carry the offset "+offsetName(standard))
	} else if standard == 0 && len(s.runs) == 1 {
		s.record.fromUTC(s.options)
	}
}

// moveTo takes rows of other offsets to one, and says how many and which is the first.
func (s *stampReader) moveTo(standard int64) (moved, first int) {
	r := s.record
	for k, run := range s.runs {
		to := len(r.stamp)
		if k+1 < len(s.runs) {
			to = s.runs[k+1].from
		}
		if run.seconds == standard || run.from == to {
			continue
		}
		if moved == 0 {
			first = run.from
		}
		moved += to - run.from
		for i := run.from; i < to; i++ {
			r.stamp[i] -= run.seconds - standard
		}
	}
	return moved, first
}

func offsetName(seconds int64) string {
	sign := '+'
	if seconds < 0 {
		sign, seconds = '-', -seconds
	}
	return fmt.Sprintf("%c%02d:%02d", sign, seconds/3600, seconds/60%60)
}

// named gives an offset as messages speak of it.
func named(offset string) string {
	if offset == "" {
		return "a time without offset"
	}
	return "the offset " + offset
}
