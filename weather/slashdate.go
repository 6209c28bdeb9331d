package weather

import (
	"bytes"
	"fmt"
	"strconv"

	"winterline/pipe/units"
)

// dateOrder is an order of year, month and day in a date.
type dateOrder int

const (
	monthFirst dateOrder = iota
	dayFirst
	yearFirst
	orderCount
)

// places returns where in a date the year, the month and the day stand.
func (o dateOrder) places() [3]int {
	return [orderCount][3]int{monthFirst: {2, 0, 1}, dayFirst: {2, 1, 0}, yearFirst: {0, 1, 2}}[o]
}

// String words an order as messages do.
func (o dateOrder) String() string {
	return [...]string{"month first", "day first", "year first"}[o]
}

// slashDate is a date with slashes as written, and the time of day after it.
type slashDate struct {
	number [3]int16
	digits [3]int8 // of each number
	second int32   // since midnight
}

// String gives the date without its time of day.
func (d slashDate) String() string {
	return fmt.Sprintf("%d/%d/%d", d.number[0], d.number[1], d.number[2])
}

// stamp returns the midnight of the day that the date is in an order of its numbers; ok
// is false where there is no such day. A year of two digits lies in 1930 to 2029, as
// spreadsheets take it (common practice, from memory).
func (d slashDate) stamp(o dateOrder) (stamp int64, ok bool) {
	at := o.places()
	if d.digits[at[1]] > 2 || d.digits[at[2]] > 2 || d.digits[at[0]] != 2 && d.digits[at[0]] != 4 {
		return 0, false
	}
	year := int(d.number[at[0]])
	switch {
	case d.digits[at[0]] == 2 && year < 30:
		year += 2000
	case d.digits[at[0]] == 2:
		year += 1900
	}
	return clock(year, int(d.number[at[1]]), int(d.number[at[2]]), 0, 0, 0)
}

// parseSlashDate reads a date that is a day of the calendar in at least one order. The
// error is one of package units.
func parseSlashDate(text []byte) (slashDate, error) {
	var d slashDate
	date, rest, _ := bytes.Cut(text, []byte(" "))
	ok := true
	for i := 0; i < len(d.number) && ok; i++ {
		var number []byte
		var more bool
		number, date, more = bytes.Cut(date, []byte("/"))
		var n int
		n, ok = parseDigits(number)
		ok = ok && len(number) <= 4 && more == (i < len(d.number)-1)
		d.number[i], d.digits[i] = int16(n), int8(len(number))
	}
	if ok {
		d.second, ok = parseTimeOfDay(rest)
	}
	if ok {
		for o := range orderCount {
			if _, fits := d.stamp(o); fits {
				return d, nil
			}
		}
	}
	return slashDate{}, &units.Error{Found: strconv.Quote(units.Shorten(string(text))), Expected: "a time such as 2026-01-17 05:00"}
}

// parseTimeOfDay reads times such as 5:00, 17:00:30 or 5:00 PM [s since midnight];
// nothing is midnight.
func parseTimeOfDay(text []byte) (second int32, ok bool) {
	text = bytes.TrimSpace(text)
	if len(text) == 0 {
		return 0, true
	}
	half := bytes.ToUpper(text[max(0, len(text)-2):])
	morning, evening := string(half) == "AM", string(half) == "PM"
	if morning || evening {
		text = bytes.TrimSpace(text[:len(text)-2])
	}
	var parts [3]int
	n := 0
	for more := true; more; n++ {
		var number []byte
		number, text, more = bytes.Cut(text, []byte(":"))
		if n == len(parts) || len(number) > 2 {
			return 0, false
		}
		if parts[n], ok = parseDigits(number); !ok {
			return 0, false
		}
	}
	hour := parts[0]
	if morning || evening {
		if hour < 1 || hour > 12 {
			return 0, false
		}
		if hour %= 12; evening {
			hour += 12
		}
	}
	if n < 2 || hour > 23 || parts[1] > 59 || parts[2] > 59 {
		return 0, false
	}
	return int32(hour*3600 + parts[1]*60 + parts[2]), true
}
